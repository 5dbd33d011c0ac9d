/** Dates, clocks, ISO 8601 and lengths, with luxon and `Date` as references for the calendar. */
import fc from "fast-check";
import { DateTime, FixedOffsetZone } from "luxon";
import { describe, expect, it } from "vitest";
import {
  cityText,
  civilOfDay,
  clockText,
  dateOfDay,
  dateText,
  dayOfDate,
  instant,
  isoLocal,
  isoUtc,
  lengthText,
  localDay,
  longDateOf,
  minutesOnClock,
  minuteText,
  offsetText,
  resolveLocal,
  shortDateOf,
  tableSpan,
  wallMinute,
  weekdayOf,
  zoneNames,
} from "../../src/time/index.ts";
import { dateTimeOf } from "../../src/time/luxon.ts";
import { overlap } from "../../src/time/units.ts";
import { runs } from "../fuzz.ts";
import { at, changesBetween, zoneOf } from "./zones.ts";

const newYork = zoneOf("America/New_York");
const chicago = zoneOf("America/Chicago");
const moments = fc.integer({ min: tableSpan.from, max: tableSpan.to - 1 }).map(instant);
const zones = fc.constantFrom(...zoneNames()).map(zoneOf);

describe("two stretches of time", () => {
  it("share the minutes that lie in both, none where they only meet or lie apart", () => {
    const from10to20 = { from: instant(10), to: instant(20) };
    const shared = (from: number, to: number): number => overlap(from10to20, { from: instant(from), to: instant(to) });
    // inside; over the start; over the end; around; meeting; apart on either side
    expect([
      shared(12, 15),
      shared(5, 13),
      shared(18, 30),
      shared(0, 40),
      shared(20, 25),
      shared(0, 5),
      shared(30, 40),
    ]).toEqual([3, 3, 2, 10, 0, 0, 0]);
  });
});

describe("calendar dates", () => {
  it("end with each month as Date has them, leap years too", () => {
    for (const year of [1900, 2000, 2027, 2028])
      for (let month = 1; month <= 12; month++) {
        // Day 0 of the next month is the last one of this.
        const last = new Date(Date.UTC(year, month, 0)).getUTCDate();
        const date = (day: number): string =>
          `${year}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
        expect([
          dayOfDate(date(last)) === null,
          dayOfDate(date(last + 1)) === null,
          dayOfDate(date(0)) === null,
        ]).toEqual([false, true, true]);
      }
    const wrong = ["2027-00-10", "2027-00-00", "2027-13-10", "2027-13-00", "2027-14-01"];
    expect(wrong.map(dayOfDate)).toEqual(wrong.map(() => null));
    // The last day of an era of 400 years, and the first of the next: 2000 has a 29 February, after which the era begins.
    expect([civilOfDay(11_016), civilOfDay(11_017)]).toEqual([
      { year: 2000, month: 2, day: 29 },
      { year: 2000, month: 3, day: 1 },
    ]);
  });

  it("count days as Date counts them, in UTC, over 800 years", () => {
    fc.assert(
      fc.property(fc.integer({ min: -146_097, max: 146_097 }), (day) => {
        const date = new Date(day * 86_400_000);
        expect(dateOfDay(day)).toBe(date.toISOString().slice(0, 10));
        expect(dayOfDate(dateOfDay(day))).toBe(day);
        expect(civilOfDay(day)).toEqual({
          year: date.getUTCFullYear(),
          month: date.getUTCMonth() + 1,
          day: date.getUTCDate(),
        });
        expect(weekdayOf(day)).toBe(
          DateTime.fromMillis(day * 86_400_000, { zone: FixedOffsetZone.utcInstance, locale: "en-US" }).toFormat(
            "cccc",
          ),
        );
      }),
      { numRuns: runs(2000, 50_000) },
    );
  });

  it("are refused where the calendar has none", () => {
    const wrong = [
      "2027-02-29",
      "2100-02-29",
      "2027-04-31",
      "2027-00-10",
      "2027-10-00",
      "27-01-20",
      "2027-01-20T00:00",
      "+2027-01-20",
    ];
    expect(wrong.filter((text) => dayOfDate(text) !== null)).toEqual([]);
    expect(dayOfDate("2028-02-29")).toBe((dayOfDate("2028-02-28") ?? 0) + 1);
    // 2000 is divisible by 400 and a leap year, 1900 is not.
    expect(dayOfDate("2000-02-29")).toBe((dayOfDate("2000-02-28") ?? 0) + 1);
    expect(dayOfDate("1900-02-29")).toBeNull();
  });

  it("read as people write them", () => {
    const day = dayOfDate("2027-01-20") ?? 0;
    expect(longDateOf(day)).toBe("Wednesday 20 January 2027");
    expect(shortDateOf(day)).toBe("Wed 20 Jan");
  });
});

describe("clocks", () => {
  it("show both zones of one instant", () => {
    const call = at("2027-01-20T10:00Z");
    expect([clockText(call, newYork), clockText(call, chicago)]).toEqual(["05:00", "04:00"]);
    expect([isoLocal(call, newYork), isoLocal(call, chicago)]).toEqual([
      "2027-01-20T05:00-05:00",
      "2027-01-20T04:00-06:00",
    ]);
    expect([offsetText(newYork, call), cityText(newYork), isoUtc(call)]).toEqual([
      "UTC-05:00",
      "New York",
      "2027-01-20T10:00Z",
    ]);
    expect(offsetText(zoneOf("Australia/Eucla"), call)).toBe("UTC+08:45");
    expect(cityText(zoneOf("America/Indiana/Knox"))).toBe("Knox");
  });

  it("show two dates at once near midnight", () => {
    const late = at("2027-01-21T05:30Z");
    expect([dateText(late, newYork), dateText(late, chicago)]).toEqual(["2027-01-21", "2027-01-20"]);
    expect(localDay(late, newYork) - localDay(late, chicago)).toBe(1);
    expect([wallMinute(late, newYork), wallMinute(late, chicago)]).toEqual([30, 1410]);
  });

  it("count the minutes between two of their times as a look at every minute does, over changes of the clock", () => {
    // 5 h from 23:00 to 04:00 on an ordinary night: 4 h after midnight.
    expect(minutesOnClock({ from: at("2027-01-21T05:00Z"), to: at("2027-01-21T10:00Z") }, chicago, 0, 360)).toBe(240);
    // The night of 14 March has no 02:00 to 03:00: five hours from midnight to six.
    expect(minutesOnClock({ from: at("2027-03-14T04:00Z"), to: at("2027-03-14T13:00Z") }, newYork, 0, 360)).toBe(300);
    const [change] = changesBetween(newYork, instant(tableSpan.from), instant(tableSpan.to));
    const near = fc.oneof(
      moments,
      fc.integer({ min: -2000, max: 0 }).map((ago) => instant((change ?? 0) + ago)),
    );
    const clock = fc.integer({ min: 0, max: 1440 });
    fc.assert(
      fc.property(near, fc.integer({ min: 0, max: 4000 }), clock, clock, (from, length, one, other) => {
        const [first, last] = one < other ? [one, other] : [other, one];
        const to = instant(from + length);
        const slow = Array.from({ length }, (_, n) => wallMinute(instant(from + n), newYork)).filter(
          (minute) => first <= minute && minute < last,
        );
        expect(minutesOnClock({ from, to }, newYork, first, last)).toBe(slow.length);
      }),
      { numRuns: runs(100, 10_000) },
    );
  });

  it("read in twelve hours too: noon is 12 pm, midnight 12 am (US usage; from memory)", () => {
    expect([0, 1, 719, 720, 780, 1439].map((minute) => minuteText(minute, "12h"))).toEqual([
      "12:00 am",
      "12:01 am",
      "11:59 am",
      "12:00 pm",
      "1:00 pm",
      "11:59 pm",
    ]);
    expect(clockText(at("2027-01-20T23:05Z"), newYork, "12h")).toBe("6:05 pm");
  });

  it("name the offset in an hour that they show twice, and in no other", () => {
    // Chicago goes from UTC-5 to UTC-6 at 07:00Z on 2027-11-07 (first Sunday of November, 15 U.S.C. 260a).
    const shown = (iso: string): string => clockText(at(iso), chicago);
    expect(["05:59Z", "06:00Z", "06:59Z", "07:00Z", "07:59Z", "08:00Z"].map((z) => shown(`2027-11-07T${z}`))).toEqual([
      "00:59",
      "01:00 UTC-05:00",
      "01:59 UTC-05:00",
      "01:00 UTC-06:00",
      "01:59 UTC-06:00",
      "02:00",
    ]);
    expect(clockText(at("2027-11-07T07:30Z"), chicago, "12h")).toBe("1:30 am UTC-06:00");
    expect(shown("2027-03-14T08:00Z")).toBe("03:00");
  });

  it("name the offset exactly where a clock on the wall has two readings", () => {
    fc.assert(
      fc.property(zones, moments, fc.integer({ min: -180, max: 180 }), (zone, moment, off) => {
        const [change] = changesBetween(zone, moment, instant(tableSpan.to));
        const near = change === undefined ? moment : instant(change + off);
        const { kind } = resolveLocal(dateText(near, zone), wallMinute(near, zone), zone);
        fc.pre(kind !== "outside");
        expect(clockText(near, zone).includes("UTC")).toBe(kind === "twice");
      }),
      { numRuns: runs(2000, 50_000) },
    );
  });

  it("agree with luxon's formatting over our zones", () => {
    fc.assert(
      fc.property(zones, moments, (zone, moment) => {
        const value = dateTimeOf(moment, zone);
        expect(isoLocal(moment, zone)).toBe(value.toFormat("yyyy-MM-dd'T'HH:mmZZ"));
        expect(value.setZone("utc").toFormat("yyyy-MM-dd'T'HH:mm'Z'")).toBe(isoUtc(moment));
        expect(value.offsetNameShort).toBe(cityText(zone));
      }),
      { numRuns: runs(1000, 50_000) },
    );
  });
});

describe("ISO 8601", () => {
  it("is what luxon reads back, in any zone", () => {
    fc.assert(
      fc.property(zones, moments, (zone, moment) => {
        expect(at(isoLocal(moment, zone))).toBe(moment);
        expect(at(isoUtc(moment))).toBe(moment);
      }),
      { numRuns: runs(1000, 50_000) },
    );
  });
});

describe("lengths", () => {
  it.each([
    [0, "0 min"],
    [35, "35 min"],
    [60, "1 h"],
    [61, "1 h 1 min"],
    [495, "8 h 15 min"],
    [1500, "25 h"],
    [-90, "−1 h 30 min"],
  ])("%d minutes read %s", (length, text) => {
    expect(lengthText(length)).toBe(text);
  });
});

it("luxon asks the table as it asks its own zones: seconds within a minute, equal zones, zones without a change", () => {
  const zoneAt = (name: string) => dateTimeOf(at("2027-03-14T07:00Z"), zoneOf(name)).zone;
  const [tokyo, york] = [zoneAt("Asia/Tokyo"), zoneAt("America/New_York")];
  // The clocks of New York change at 07:00:00.000Z; a millisecond before they still show winter.
  const change = at("2027-03-14T07:00Z") * 60_000;
  expect([york.offset(change - 1), york.offset(change), york.offset(change + 59_999)]).toEqual([-300, -240, -240]);
  expect(york.offset(Number.NaN)).toBeNaN();
  expect([
    york.equals(zoneAt("America/New_York")),
    york.equals(tokyo),
    york.equals(FixedOffsetZone.instance(-240)),
  ]).toEqual([true, false, false]);
  // luxon calls a zone universal whose offset never changes; UTC is one.
  expect([zoneAt("Etc/UTC").isUniversal, york.isUniversal]).toEqual([true, false]);
});

it("an offset of luxon's is written as luxon writes a fixed one, in each of its forms", () => {
  for (const [name, minutes] of [
    ["Asia/Kathmandu", 345],
    ["America/New_York", -300],
    ["Etc/UTC", 0],
    ["Asia/Tokyo", 540],
  ] as const)
    for (const format of ["narrow", "short", "techie"] as const) {
      const moment = at("2027-01-20T12:00Z");
      const own = dateTimeOf(moment, zoneOf(name)).zone.formatOffset(moment * 60_000, format);
      expect(own).toBe(FixedOffsetZone.instance(minutes).formatOffset(0, format));
    }
});
