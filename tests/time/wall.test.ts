/** From wall clock to instant: once, twice or never, against a brute search over every minute that could show it. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  dateText,
  instant,
  isoUtc,
  type LocalReading,
  offsetMinutes,
  resolveLocal,
  wallMinute,
  type ZoneId,
  zoneNames,
} from "../../src/time/index.ts";
import { runs } from "../fuzz.ts";
import { at, changesBetween, zoneOf } from "./zones.ts";

const newYork = zoneOf("America/New_York");

/** Every instant whose local clock shows the wall minute (minutes since 1970 as if the wall were UTC), by trying each. */
function shownAt(zone: ZoneId, wall: number): readonly number[] {
  const found: number[] = [];
  for (let moment = wall - 26 * 60; moment <= wall + 26 * 60; moment++) {
    if (moment + offsetMinutes(zone, instant(moment)) === wall) found.push(moment);
  }
  return found;
}

const answers = (reading: LocalReading): readonly number[] => {
  if (reading.kind === "once") return [reading.at];
  return reading.kind === "twice" ? [reading.earlier, reading.later] : [];
};

/** Wall minutes close to a change of the zone's clocks. */
const nearChange = fc
  .tuple(fc.constantFrom(...zoneNames()), fc.nat(), fc.integer({ min: -200, max: 200 }))
  .map(([name, pick, off]) => {
    const zone = zoneOf(name);
    const changes = changesBetween(zone, at("2000-02-01T00:00Z"), at("2037-11-30T00:00Z"));
    const change = changes[pick % Math.max(1, changes.length)] ?? at("2020-06-01T12:00Z");
    return { zone, wall: change + offsetMinutes(zone, change) + off };
  });

const utcDay = (wall: number): string => isoUtc(instant(wall)).slice(0, 10);

describe("a local time", () => {
  it("is read as a search over all minutes reads it", () => {
    fc.assert(
      fc.property(nearChange, ({ zone, wall }) => {
        const reading = resolveLocal(utcDay(wall), ((wall % 1440) + 1440) % 1440, zone);
        expect(answers(reading), `${zone} ${wall}`).toEqual(shownAt(zone, wall));
      }),
      { numRuns: runs(400, 20_000) },
    );
  });

  it("is shown again by the clock it was read on", () => {
    fc.assert(
      fc.property(nearChange, ({ zone, wall }) => {
        const minute = ((wall % 1440) + 1440) % 1440;
        for (const moment of answers(resolveLocal(utcDay(wall), minute, zone))) {
          expect([dateText(instant(moment), zone), wallMinute(instant(moment), zone)]).toEqual([utcDay(wall), minute]);
        }
      }),
      { numRuns: runs(400, 20_000) },
    );
  });

  it("may be skipped: both readings and the change are told", () => {
    expect(resolveLocal("2027-03-14", 150, newYork)).toEqual({
      kind: "never",
      change: at("2027-03-14T07:00Z"),
      earlier: at("2027-03-14T01:30-05:00"),
      later: at("2027-03-14T03:30-04:00"),
    });
    expect(resolveLocal("2027-03-14", 119, newYork)).toEqual({ kind: "once", at: at("2027-03-14T01:59-05:00") });
    expect(resolveLocal("2027-03-14", 120, newYork).kind).toBe("never");
    expect(resolveLocal("2027-03-14", 179, newYork).kind).toBe("never");
    expect(resolveLocal("2027-03-14", 180, newYork)).toEqual({ kind: "once", at: at("2027-03-14T03:00-04:00") });
  });

  it("may be repeated, from the minute the clocks went back to up to the change", () => {
    const kinds = [59, 60, 119, 120].map((minute) => resolveLocal("2027-11-07", minute, newYork).kind);
    expect(kinds).toEqual(["once", "twice", "twice", "once"]);
    const earlier = at("2027-11-07T01:30-04:00");
    expect(resolveLocal("2027-11-07", 90, newYork)).toEqual({
      kind: "twice",
      earlier,
      later: at("2027-11-07T01:30-05:00"),
    });
  });

  it("may lie on a day that the calendar left out (Apia, 30 December 2011)", () => {
    const reading = resolveLocal("2011-12-30", 720, zoneOf("Pacific/Apia"));
    expect(reading).toMatchObject({ kind: "never", change: at("2011-12-30T10:00Z") });
  });

  it("takes 24:00 as the midnight that ends the day, and minutes of the days around", () => {
    const midnight = { kind: "once", at: at("2027-01-21T00:00-05:00") };
    expect(resolveLocal("2027-01-20", 1440, newYork)).toEqual(midnight);
    expect(resolveLocal("2027-01-21", 0, newYork)).toEqual(midnight);
    expect(resolveLocal("2027-01-22", -1440, newYork)).toEqual(midnight);
    // By the wall clock, not by elapsed hours: the day of the change has 23.
    expect(resolveLocal("2027-03-13", 1440 + 300, newYork)).toEqual({ kind: "once", at: at("2027-03-14T05:00-04:00") });
  });

  it("is not answered where the table does not reach", () => {
    for (const date of ["1999-12-31", "2000-01-02", "2037-12-30", "2038-06-01", "0001-01-01", "9999-12-31"]) {
      expect(resolveLocal(date, 720, newYork), date).toMatchObject({ kind: "outside" });
    }
    expect(resolveLocal("2000-01-03", 0, newYork).kind).toBe("once");
    expect(resolveLocal("2037-12-29", 1439, newYork).kind).toBe("once");
  });

  it("must have a date of the calendar", () => {
    for (const date of ["2027-02-29", "2027-13-01", "2027-1-20", "today", ""]) {
      expect(() => resolveLocal(date, 0, newYork), date).toThrow(RangeError);
    }
  });
});
