/** Every written form of a value. What each means is taken from `help plan` and from the units' definitions. */
import { describe, expect, test } from "vitest";
import { parseSlot } from "../../src/plan/keys/paths.ts";
import { BEFORE_THE_DAY, type Clocks, parseInstant } from "../../src/plan/read/clock.ts";
import { parseLength } from "../../src/plan/values/length.ts";
import type { Mistake, Parsed } from "../../src/plan/values/parsed.ts";
import * as q from "../../src/plan/values/quantity.ts";
import { parseClock } from "../../src/plan/values/time.ts";
import { isoUtc } from "../../src/time/format.ts";
import type { ZoneId } from "../../src/time/units.ts";
import { zone } from "../../src/time/zone.ts";

const codeOf = (mistake: Mistake): string => mistake({}).code;
const readingOf = <T>(result: Parsed<T>): T | string => (result.ok ? result.value : codeOf(result.mistake));

function zoneId(name: string): ZoneId {
  const found = zone(name);
  if (found === null) throw new Error(name);
  return found;
}

describe("lengths of time", () => {
  test.each([
    ["35 min", 35],
    ["35min", 35],
    ["35 m", 35],
    ["1h20", 80],
    ["1 h 20 min", 80],
    ["1 h 20", 80],
    ["1h", 60],
    ["2 h", 120],
    ["1.5 h", 90],
    ["PT35M", 35],
    ["PT1H20M", 80],
    ["P1DT2H", 1560],
    ["1 d 2 h", 1560],
    ["0 min", 0],
    ["90 minutes", 90],
    ["35", "unit-missing"],
    ["1.5", "unit-missing"],
    ["-5", "unit-missing"],
    ["-5 min", "length-bad"],
    ["1:20", "length-bad"],
    ["1.01 h", "length-bad"],
    ["20 s", "length-bad"],
    ["min", "length-bad"],
    ["", "length-bad"],
    ["P", "length-bad"],
    ["PT", "length-bad"],
    ["400 h", "range-wrong"],
    [`${"9".repeat(80)} min`, "length-bad"],
  ])("%s", (text, minutes) => {
    expect(readingOf(parseLength(text))).toBe(minutes);
  });
});

describe("times", () => {
  const clocks: Clocks = {
    date: "2027-01-20",
    desk: zoneId("America/New_York"),
    untilDays: 0,
    labels: new Map([["CT", zoneId("America/Chicago")]]),
  };
  const at = (text: string, local: ZoneId | null = zoneId("America/Denver"), on = clocks): string => {
    const result = parseInstant(text, on, local);
    return result.ok ? isoUtc(result.value) : codeOf(result.mistake);
  };

  // Standard time in January: New York UTC-5, Chicago UTC-6, Denver UTC-7 (tz database).
  test.each([
    ["05:00", "2027-01-20T10:00Z"],
    ["5:00", "2027-01-20T10:00Z"],
    ["0500", "2027-01-20T10:00Z"],
    ["05:00 local", "2027-01-20T12:00Z"],
    ["05:00 CT", "2027-01-20T11:00Z"],
    ["0500 CT", "2027-01-20T11:00Z"],
    ["05:00 America/Chicago", "2027-01-20T11:00Z"],
    ["01:30 +1d", "2027-01-21T06:30Z"],
    ["01:30 +1d CT", "2027-01-21T07:30Z"],
    ["01:30 CT +1d", "2027-01-21T07:30Z"],
    ["22:00 -1d", "2027-01-20T03:00Z"],
    ["24:00", "2027-01-21T05:00Z"],
    ["05:00 UTC", "2027-01-20T05:00Z"],
    ["05:00 UTC-06:00", "2027-01-20T11:00Z"],
    ["01:30 +1d UTC+05:30", "2027-01-20T20:00Z"],
    ["05:00 Z", "2027-01-20T05:00Z"],
    ["05:00Z", "2027-01-20T05:00Z"],
    ["2027-01-20T05:00-06:00", "2027-01-20T11:00Z"],
    ["2027-01-20T05:00:00-0600", "2027-01-20T11:00Z"],
    ["2027-01-21T00:30Z", "2027-01-21T00:30Z"],
    ["2027-01-19T22:00", "2027-01-20T03:00Z"],
    ["2027-01-19T22:00 CT", "2027-01-20T04:00Z"],
    ["25:00", "time-bad"],
    ["24:01", "time-bad"],
    ["07:60", "time-bad"],
    ["700", "time-bad"],
    ["7", "time-bad"],
    ["7 am", "time-bad"],
    // Seconds and their fractions are cut (ISO 8601-1:2019, 4.3: a clock time may have them; the plan counts minutes).
    ["07:00:30", "2027-01-20T12:00Z"],
    ["07:00:59.999", "2027-01-20T12:00Z"],
    ["07:00:59,5 CT", "2027-01-20T13:00Z"],
    ["23:59:60", "2027-01-21T04:59Z"],
    ["07:00:61", "time-bad"],
    ["07:00:3", "time-bad"],
    ["070030", "time-bad"],
    ["2027-01-20T05:00:30.123Z", "2027-01-20T05:00Z"],
    ["2027-01-20t05:00:30z", "2027-01-20T05:00Z"],
    ["2027-01-20 05:00:30 -06", "2027-01-20T11:00Z"],
    ["2027-01-20T05:00-06", "2027-01-20T11:00Z"],
    ["2027-01-20T05:00+0545", "2027-01-19T23:15Z"],
    ["20270120T0500Z", "2027-01-20T05:00Z"],
    ["20270120T050059Z", "2027-01-20T05:00Z"],
    ["20270120T050059.5-0600", "2027-01-20T11:00Z"],
    ["20270120T05:00-06", "2027-01-20T11:00Z"],
    ["20270120T0500", "2027-01-20T10:00Z"],
    ["20270230T0500Z", "time-bad"],
    ["05:00 UTC-06", "2027-01-20T11:00Z"],
    ["05:00 -06", "time-bad"],
    ["05:00 -06:00", "time-bad"],
    ["05:00CT", "time-bad"],
    ["2027-02-30T05:00Z", "time-bad"],
    ["2027-01-20T05:00 +1d", "time-bad"],
    ["2027-01-20", "time-bad"],
    ["05:00 MT", "zone-unknown"],
    ["05:00 america/chicago", "zone-unknown"],
    ["2027-01-20T04:00+05:45", "2027-01-19T22:15Z"],
    ["2027-01-19T24:00+02:00", "2027-01-19T22:00Z"],
    ["2027-01-20T04:00+05:60", "time-bad"],
    ["1999-12-31T00:00Z", "time-outside"],
    ["2207-01-20T05:00Z", "time-outside"],
  ])("%s", (text, instant) => {
    expect(at(text)).toBe(instant);
  });

  test.each([
    ["2026-01-20T07:00-05:00", "2027-01-20T07:00-05:00", "365 before"],
    ["2028-01-19T07:00-05:00", "2027-01-19T07:00-05:00", "364 after"],
    // Neither this year's 20 February nor its neighbours' is near: the plan's own date is offered.
    ["2027-02-20T07:00", "2027-01-20T07:00", "31 after"],
    ["2027-01-12T23:59", "2027-01-20T23:59", "8 before"],
    ["2027-01-13T00:00", null, ""],
    ["2027-01-27T23:59", null, ""],
    ["2027-01-28T00:00", "2027-01-20T00:00", "8 after"],
    ["01:30 +7d", null, ""],
    ["01:30 +8d", null, "8 after"],
  ])("a time in another year or week is a mistake: %s", (text, near, far) => {
    const result = parseInstant(text, clocks, null);
    const found = result.ok ? null : result.mistake({});
    const days = Number(found?.facts["days"] ?? 0);
    expect([found?.code ?? null, found?.facts["near"] ?? null]).toEqual([far === "" ? null : "time-far", near]);
    expect(days === 0 ? "" : `${Math.abs(days)} ${days < 0 ? "before" : "after"}`).toBe(far);
  });

  test("the turn of the year is near, the days of a longer plan and what went before reach further", () => {
    const turn = parseInstant("2027-12-31T20:00", { ...clocks, date: "2027-01-02" }, null);
    expect(turn.ok ? null : turn.mistake({}).facts["near"]).toBe("2026-12-31T20:00");
    expect(at("2027-01-30T05:00Z", null, { ...clocks, untilDays: 3 })).toBe("2027-01-30T05:00Z");
    expect(at("2027-01-31T05:00Z", null, { ...clocks, untilDays: 3 })).toBe("time-far");
    // 45 days before 20 January is 6 December.
    expect(readingOf(parseInstant("2026-12-06T05:00Z", clocks, null, BEFORE_THE_DAY))).not.toBe("time-far");
    expect(readingOf(parseInstant("2026-12-05T05:00Z", clocks, null, BEFORE_THE_DAY))).toBe("time-far");
  });

  test("local needs a place", () => {
    expect(at("05:00 local", null)).toBe("local-nowhere");
  });

  // Clock changes of the United States in 2027: 14 March and 7 November, 02:00 (Energy Policy Act of 2005, sec. 110).
  test("skipped and repeated times are mistakes, with an offset they are not", () => {
    expect(at("02:30", null, { ...clocks, date: "2027-03-14" })).toBe("time-skipped");
    expect(at("03:00", null, { ...clocks, date: "2027-03-14" })).toBe("2027-03-14T07:00Z");
    expect(at("01:59", null, { ...clocks, date: "2027-03-14" })).toBe("2027-03-14T06:59Z");
    expect(at("01:30", null, { ...clocks, date: "2027-11-07" })).toBe("time-twice");
    expect(at("2027-11-07T01:30-05:00", null, { ...clocks, date: "2027-11-07" })).toBe("2027-11-07T06:30Z");
    expect(at("02:00", null, { ...clocks, date: "2027-11-07" })).toBe("2027-11-07T07:00Z");
  });

  test.each([
    ["15:00", 900],
    ["0530", 330],
    ["24:00", 1440],
    ["15:00 CT", "time-bad"],
    ["15:00 +1d", "time-bad"],
  ])("a place's own clock: %s", (text, minute) => {
    expect(readingOf(parseClock(text))).toBe(minute);
  });
});

describe("amounts", () => {
  // Mile 1609.344 m, foot 0.3048 m, pound 0.45359237 kg, nautical mile 1852 m: exact by definition (NIST SP 811, app. B).
  test.each([
    ["400 km", q.distanceKm, 400],
    ["10 mi", q.distanceKm, 16.09344],
    ["41", q.distanceKm, "unit-missing"],
    ["41", q.roadKm, 41],
    ["41 KM", q.roadKm, 41],
    ["70 m", q.lengthMeters, 70],
    ["100 ft", q.lengthMeters, 30.48],
    ["16000 lb", q.massKg, 7257.47792],
    ["7.5 t", q.massKg, 7500],
    ["16000", q.massKg, "unit-missing"],
    ["16000 kilos", q.massKg, "unit-wrong"],
    ["600 W", q.powerWatts, 600],
    ["0.6 kW", q.powerWatts, 600],
    ["38", q.wattsNumber, 38],
    ["98", q.whNumber, 98],
    ["98 Wh", q.whNumber, 98],
    ["-14 C", q.celsius, -14],
    ["−14 °C", q.celsius, -14],
    ["7 F", q.celsius, -13.8888888889],
    ["-40 F", q.celsius, -40],
    ["-14", q.celsius, "unit-missing"],
    ["-100 C", q.celsius, "range-wrong"],
    ["80%", q.share, 0.8],
    ["80 %", q.share, 0.8],
    ["30%", q.share, 0.3],
    ["130%", q.share, "range-wrong"],
    ["-5%", q.share, "range-wrong"],
    ["0 Mbit/s", q.rateMegabits, "range-wrong"],
    ["1 kbit/s", q.rateMegabits, 0.001],
    ["0.8", q.share, "unit-missing"],
    ["30 km/h", q.speedKmh, 30],
    ["10 mph", q.speedKmh, 16.09344],
    ["10 m/s", q.speedKmh, 36],
    ["10 kn", q.speedKmh, 18.52],
    ["20 Mbit/s", q.rateMegabits, 20],
    ["3 Gbit/s", q.rateMegabits, 3000],
    ["2 GB", q.sizeMegabytes, 2000],
    ["11.95 GHz", q.gigahertz, 11.95],
    ["km", q.distanceKm, "value-bad"],
    ["4 0 km", q.distanceKm, "value-bad"],
    ["1e3 km", q.distanceKm, "value-bad"],
    ["0x10 km", q.distanceKm, "value-bad"],
    ["", q.distanceKm, "value-bad"],
  ] as const)("%s", (text, kind, value) => {
    expect(readingOf(q.parseQuantity(text, kind))).toBe(value);
  });

  test.each([
    ["101 west", -101],
    ["101W", -101],
    ["28.2 east", 28.2],
    ["0 east", 0],
    ["101", "value-bad"],
    ["-101", "value-bad"],
    ["181 west", "range-wrong"],
  ])("slot %s", (text, degrees) => {
    expect(readingOf(parseSlot(text))).toBe(degrees);
  });
});
