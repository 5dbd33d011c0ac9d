/**
 * The zone table against two references: the machine's own tz data (Intl), for zones where every Node 20 and later has
 * the rules of today, and luxon's reading of ISO 8601.
 */
import fc from "fast-check";
import { DateTime } from "luxon";
import { describe, expect, it } from "vitest";
import {
  instant,
  inTable,
  offsetMinutes,
  tableSpan,
  zone,
  zoneNames,
  zonesLike,
  zoneTableVersion,
} from "../../src/time/index.ts";
import { runs } from "../fuzz.ts";
import { at, changesBetween, intlOffset, zoneOf } from "./zones.ts";

/** Zones without a change of rules since 2023 (tz NEWS), in every shape that rules take. */
const SETTLED = `America/New_York America/Chicago America/Denver America/Phoenix America/Los_Angeles America/Anchorage
  America/Toronto America/Halifax America/St_Johns America/Regina America/Menominee America/Detroit America/Indiana/Knox
  America/North_Dakota/Center America/Boise America/Sao_Paulo America/Bogota America/Lima Europe/London Europe/Dublin
  Europe/Lisbon Europe/Berlin Europe/Kyiv Europe/Istanbul Atlantic/Azores Africa/Johannesburg Africa/Lagos Asia/Kolkata
  Asia/Kathmandu Asia/Tokyo Asia/Jerusalem Asia/Shanghai Australia/Adelaide Australia/Eucla Australia/Lord_Howe
  Australia/Sydney Pacific/Apia Pacific/Auckland Pacific/Chatham Pacific/Honolulu Pacific/Kiritimati Antarctica/Troll
  US/Central Etc/UTC Etc/GMT+5`.split(/\s+/);

const moments = fc.integer({ min: tableSpan.from, max: tableSpan.to - 1 });

describe("the zone table", () => {
  it("agrees with the machine's tz data at random instants", () => {
    fc.assert(
      fc.property(fc.constantFrom(...SETTLED), moments, (name, moment) => {
        expect(offsetMinutes(zoneOf(name), instant(moment)), `${name} ${moment}`).toBe(intlOffset(name, moment));
      }),
      { numRuns: runs(3000, 200_000) },
    );
  });

  it("agrees with it in the minute of each change and the minute before", () => {
    for (const name of SETTLED) {
      const changes = changesBetween(zoneOf(name), at("2020-01-01T00:00Z"), at("2030-01-01T00:00Z"));
      for (const moment of changes.flatMap((change) => [change - 1, change])) {
        expect(offsetMinutes(zoneOf(name), instant(moment)), `${name} ${moment}`).toBe(intlOffset(name, moment));
      }
    }
  });

  it("has a change wherever the offset does and nowhere else", () => {
    const newYork = zoneOf("America/New_York");
    const changes = changesBetween(newYork, at("2027-01-01T00:00Z"), at("2028-01-01T00:00Z"));
    expect(changes).toEqual([at("2027-03-14T07:00Z"), at("2027-11-07T06:00Z")]);
    expect(changesBetween(newYork, at("2027-03-14T07:00Z"), at("2027-11-07T05:59Z"))).toEqual([]);
  });

  it("knows all 597 names of tz 2026f and takes none but them, letter by letter", () => {
    expect(zoneTableVersion).toBe("2026f");
    expect(zoneNames()).toHaveLength(597);
    expect(zoneNames().filter((name) => zone(name) !== name)).toEqual([]);
    const wrong = [
      "",
      "america/chicago",
      "America",
      "Chicago",
      "America/Chicago ",
      "America/Chicago|-360 -300",
      "__proto__",
    ];
    expect(
      [...wrong, "US/Central>America/Chicago", "constructor", "UTC\nUTC", "?"].filter((name) => zone(name) !== null),
    ).toEqual([]);
  });

  it("says where its answers end", () => {
    expect([tableSpan.from - 1, tableSpan.from, tableSpan.to - 1, tableSpan.to].map(inTable)).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });

  it("covers its span as luxon counts it", () => {
    expect(tableSpan.from).toBe(DateTime.utc(2000, 1, 3).toMillis() / 60_000);
    expect(tableSpan.to).toBe(DateTime.utc(2037, 12, 30).toMillis() / 60_000);
  });
});

describe("a zone that is not known", () => {
  it.each([
    ["America/Chicgo", "America/Chicago"],
    ["america/new_york", "America/New_York"],
    ["New York", "America/New_York"],
    ["chicago", "America/Chicago"],
    ["Detriot", "America/Detroit"],
    ["CT", "America/Chicago"],
    ["Eastern time", "America/New_York"],
    ["US/Centrl", "US/Central"],
  ])("%s brings up %s first", (typed, meant) => {
    expect(zonesLike(typed)[0]).toBe(meant);
  });

  it("brings up names with more than half of the letter pairs in common, none with half, and never EST", () => {
    // Pairs of "roma", marks included: _r ro om ma a_; of "rome": _r ro om me e_. 3 shared of 5 and 5: 6/10.
    expect(zonesLike("roma")).toContain("Europe/Rome");
    // "omxe": _o om mx xe e_ shares om and e_ with "rome": 4/10.
    expect(zonesLike("omxe")).not.toContain("Europe/Rome");
    // "roxe": _r ro ox xe e_ shares _r, ro and e_: 6/10. "rxme": _r rx xm me e_ shares three: 6/10.
    expect(zonesLike("rxme")).toContain("Europe/Rome");
    // Three letters have four pairs with the marks: "dub" _d du ub b_, "dubai" _d du ub ba ai i_: 6/10.
    expect(zonesLike("dub")).toContain("Asia/Dubai");
    // "limon" _l li im mo on n_ and "lima" _l li im ma a_: 6/11; "limey": _l li im me ey y_ the same.
    expect(zonesLike("limon")).toContain("America/Lima");
    // "apxa" _a ap px xa a_ and "apia" _a ap pi ia a_: 6/10. "axxa": _a ax xx xa a_: 4/10.
    expect([zonesLike("apxa"), zonesLike("axxa")].map((all) => all.includes("Pacific/Apia"))).toEqual([true, false]);
    // Exactly half: "no" _n no o_ and "nome" _n no om me e_ share two of three and five, 4/8.
    expect(zonesLike("no", 40)).not.toContain("America/Nome");
    for (const written of ["est", "ES", "ESTT", "mst", "MSTT"])
      expect(zonesLike(written).filter((id) => id === "EST" || id === "MST")).toEqual([]);
  });

  it("brings up nothing that is far off, and at most three", () => {
    expect(zonesLike("xyzzy")).toEqual([]);
    expect(zonesLike("")).toEqual([]);
    expect(zonesLike("America/Argentina").length).toBeLessThanOrEqual(3);
    expect(zonesLike("x".repeat(100_000))).toEqual([]);
  });
});
