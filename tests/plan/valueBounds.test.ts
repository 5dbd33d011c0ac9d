/**
 * The bounds of every value and what is offered for one that cannot be read. Factors: international mile 1.609344 km, foot
 * 0.3048 m, nautical mile 1.852 km, pound 0.45359237 kg (NIST Special Publication 811, appendix B.8); bounds: chosen by the house, no source outside.
 */
import { describe, expect, test } from "vitest";
import { badDate } from "../../src/plan/values/date.ts";
import { LATITUDE, LONGITUDE, parseDegrees, parseEastWest } from "../../src/plan/values/degrees.ts";
import { parseLength } from "../../src/plan/values/length.ts";
import type { Parsed } from "../../src/plan/values/parsed.ts";
import * as q from "../../src/plan/values/quantity.ts";
import { numberMeant, unitMeant } from "../../src/plan/values/spelled.ts";
import { parseClock, parseTime } from "../../src/plan/values/time.ts";

/** The value; or the code of the mistake and what is offered: a fix, an example, a range. */
function read<T>(result: Parsed<T>): T | string {
  if (result.ok) return result.value;
  const { code, facts } = result.mistake({});
  const offered = facts["fix"] ?? facts["example"] ?? facts["like"] ?? facts["range"] ?? null;
  return offered === null ? code : `${code}: ${String(offered)}`;
}

describe("amounts", () => {
  test.each<[q.Quantity, string, number | string]>([
    [q.distanceKm, "1500 m", 1.5],
    [q.distanceKm, "10 mi", 16.09344],
    [q.distanceKm, "1000 ft", 0.3048],
    [q.distanceKm, "250 cm", 0.0025],
    [q.distanceKm, "0 km", 0],
    [q.distanceKm, "20000 km", 20_000],
    // 20,000 km are twenty million metres; ranges are told in the first unit of the kind.
    [q.distanceKm, "20000.1 km", "range-wrong: 0 m to 20000000 m"],
    [q.distanceKm, "-1 km", "range-wrong: 0 m to 20000000 m"],
    [q.roadKm, "41", 41],
    [q.roadKm, "20001", "range-wrong: 0 m to 20000000 m"],
    [q.odometer, "5000000", 5_000_000],
    [q.odometer, "5000001", "range-wrong: 0 m to 5000000000 m"],
    [q.lengthMeters, "70 ft", 21.336],
    [q.lengthMeters, "100 km", 100_000],
    [q.lengthMeters, "100001 m", "range-wrong: 0 m to 100000 m"],
    [q.massKg, "16000 lb", 7257.47792],
    [q.massKg, "1 lbs", 0.45359237],
    [q.massKg, "200 t", 200_000],
    [q.massKg, "200001 kg", "range-wrong: 0 kg to 200000 kg"],
    [q.powerWatts, "1.2 kW", 1200],
    [q.powerWatts, "1000 kW", 1_000_000],
    [q.powerWatts, "1001 kW", "range-wrong: 0 W to 1000000 W"],
    [q.wattsNumber, "38", 38],
    [q.wattsNumber, "1000001", "range-wrong: 0 W to 1000000 W"],
    [q.energyWh, "1.5 kWh", 1500],
    [q.energyWh, "1000 kWh", 1_000_000],
    [q.energyWh, "1001 kWh", "range-wrong: 0 Wh to 1000000 Wh"],
    [q.whNumber, "98", 98],
    [q.whNumber, "1000001", "range-wrong: 0 Wh to 1000000 Wh"],
    [q.speedKmh, "10 m/s", 36],
    [q.speedKmh, "100 mph", 160.9344],
    [q.speedKmh, "10 kn", 18.52],
    [q.speedKmh, "10 kt", 18.52],
    [q.speedKmh, "500 km/h", 500],
    [q.speedKmh, "501 kmh", "range-wrong: 0 km/h to 500 km/h"],
    // (F - 32) * 5/9; -40 is the same on both scales.
    [q.celsius, "32 F", 0],
    [q.celsius, "-40 °F", -40],
    [q.celsius, "158 F", 70],
    [q.celsius, "-90 C", -90],
    [q.celsius, "70.1 C", "range-wrong: -90 C to 70 C"],
    [q.celsius, "-90.1 C", "range-wrong: -90 C to 70 C"],
    [q.celsius, "\u221214 C", -14],
    [q.rateMegabits, "1 kbit/s", 0.001],
    [q.rateMegabits, "1 Gbps", 1000],
    [q.rateMegabits, "1000 Gbit/s", 1_000_000],
    [q.rateMegabits, "1001 Gbit/s", "range-wrong: 1 kbit/s to 1000000000 kbit/s"],
    [q.rateMegabits, "0 Mbit/s", "range-wrong: 1 kbit/s to 1000000000 kbit/s"],
    [q.sizeMegabytes, "1500 kB", 1.5],
    [q.sizeMegabytes, "2 GB", 2000],
    [q.sizeMegabytes, "100 TB", 100_000_000],
    [q.sizeMegabytes, "101 TB", "range-wrong: 0 kB to 100000000000 kB"],
    [q.gigahertz, "950 MHz", 0.95],
    [q.gigahertz, "300 GHz", 300],
    [q.gigahertz, "301 GHz", "range-wrong: 0 GHz to 300 GHz"],
    [q.share, "30 %", 0.3],
    [q.share, "100%", 1],
    [q.share, "100.1%", "range-wrong: 0% to 100%"],
  ])("%s %s %s", (kind, text, value) => {
    expect(read(q.parseQuantity(text, kind))).toBe(value);
  });

  test("a number without a unit, and a share written as a fraction", () => {
    const shares = ["80", "0.8", ".8", "1.0", "1", "1.5"].map((text) => read(q.parseQuantity(text, q.share)));
    expect(shares).toEqual([
      "unit-missing: 80%",
      "unit-missing: 80%",
      "value-bad",
      "unit-missing: 100%",
      "unit-missing: 1%",
      "unit-missing: 1.5%",
    ]);
    expect(read(q.parseQuantity("41", q.distanceKm))).toBe("unit-missing: 41 km");
  });

  test("a text of 64 signs is looked at, a longer one is not", () => {
    const padded = (length: number): string => "41 km".padEnd(length);
    expect(read(q.parseQuantity(padded(64), q.distanceKm))).toBe(41);
    expect(read(q.parseQuantity(padded(65), q.distanceKm))).toBe("value-bad: 41 km");
  });

  test("a unit of another kind is no slip of one that is spelled like it", () => {
    expect(unitMeant("min", ["m", "km", "mi", "ft"])).toBeNull();
    expect(unitMeant("kg", ["m", "km", "mi", "ft"])).toBeNull();
    expect(unitMeant("mile", ["m", "km", "mi", "ft"])).toBe("mi");
    expect(unitMeant("miels", ["m", "km", "mi", "ft"])).toBe("mi");
    expect(unitMeant("KM", ["m", "km", "mi", "ft"])).toBe("km");
    expect(unitMeant("degrees celsius", ["C", "F"])).toBe("C");
    expect(unitMeant("hours", ["m", "km", "mi", "ft"])).toBeNull();
    expect(read(q.parseQuantity("28 min", q.distanceKm))).toBe("unit-wrong: 41 km");
    expect(read(q.parseQuantity("28 miles", q.distanceKm))).toBe("unit-wrong: 28 mi");
    expect(read(q.parseQuantity("9,800 pounds", q.massKg))).toBe("value-bad: 9800 lb");
    expect(read(q.parseQuantity("99,999,000 km", q.distanceKm))).toBe("value-bad");
  });
});

describe("numbers", () => {
  const seats = { what: "seats", least: 1, most: 60, whole: true, example: "5" };
  test.each([
    ["1", 1],
    ["60", 60],
    ["0", "range-wrong: 1 to 60"],
    ["61", "range-wrong: 1 to 60"],
    ["2.5", "value-bad"],
    ["five", "value-bad: 5"],
    ["ten", "value-bad: 10"],
    ["3 seats", "value-bad: 3"],
    ["seventy", "value-bad"],
    ["1e1", "value-bad"],
  ])("%s", (text, value) => {
    expect(read(q.parseNumber(text, seats))).toBe(value);
  });

  // A compass has 32 points of 11.25 degrees; these are every second of them, from north by east.
  test("sides of the compass", () => {
    expect(["N", "NE", "e", "SSW", "NNW"].map(numberMeant)).toEqual(["0", "45", "90", "202.5", "337.5"]);
  });
});

describe("lengths of time", () => {
  test.each([
    ["1.1 h", 66],
    ["15 d", 21_600],
    ["360 h", 21_600],
    ["21601 min", "range-wrong: 0 min to 15 days"],
    ["P14DT24H", 21_600],
    ["1 d", 1440],
    ["60 s", "length-bad: 1 min"],
    ["61 s", "length-bad: 2 min"],
    ["1 min 30 s", "length-bad: 2 min"],
    ["0:20", "length-bad: 20 min"],
    ["2:00", "length-bad: 2 h"],
    ["2:05", "length-bad: 2 h 5 min"],
    ["\u00bd h", "length-bad: 0.5 h"],
    ["1\u00bd h", "length-bad: 1.5 h"],
    ["1 \u00bc h", "length-bad: 1.25 h"],
    ["an hour", "length-bad: 1 h"],
    ["30-45 min", "length-bad: 30 min or 45 min"],
    ["30 to 45 minutes", "length-bad: 30 min or 45 min"],
    ["1 hour and 20 minutes", "length-bad: 1 h 20 min"],
    ["1,5 h", "length-bad: 1.5 h"],
    ["3 weeks", "length-bad"],
    ["400 hours and 1 minute", "length-bad"],
    ["30", "unit-missing: 30 min or 30 h"],
    ["-30", "unit-missing: 30 min or 30 h"],
  ])("%s", (text, minutes) => {
    expect(read(parseLength(text))).toBe(minutes);
  });
});

describe("times", () => {
  const minute = (text: string): unknown => {
    const time = parseTime(text);
    return time.ok ? [time.value.minute, time.value.days, time.value.clock] : read(time);
  };
  const desk = { kind: "desk" };
  test.each([
    ["00:00", [0, 0, desk]],
    ["23:59", [1439, 0, desk]],
    ["24:00", [1440, 0, desk]],
    ["24:01", 'time-bad: "00:01 +1d"'],
    ["05:59 -1d", [359, -1, desk]],
    ["05:60", "time-bad"],
    // ISO 8601 knows no offset beyond a day; the greatest in use is 14 hours. The format takes up to 18.
    ["05:00 UTC+18:00", [300, 0, { kind: "offset", minutes: 1080 }]],
    ["05:00 UTC-18:00", [300, 0, { kind: "offset", minutes: -1080 }]],
    ["05:00 UTC+18:01", "time-bad"],
    ["05:00 UTC+05:59", [300, 0, { kind: "offset", minutes: 359 }]],
    ["05:00 UTC+05:60", "time-bad"],
    ["47:30", 'time-bad: "23:30 +1d"'],
    ["48:00", "time-bad"],
    ["23:60", "time-bad"],
    ["12 am", 'time-bad: "00:00"'],
    ["12 pm", 'time-bad: "12:00"'],
    ["1 pm", 'time-bad: "13:00"'],
    ["13 pm", 'time-bad: "13:00"'],
    ["7 tomorrow", 'time-bad: "07:00 +1d"'],
    ["2027-01-20T7:30", [450, 0, desk]],
    ["2027-1-20 7 pm", 'time-bad: "2027-01-20T19:00"'],
    ["05:00-20:00", 'time-bad: "05:00"; the other, "20:00", goes into `to`, or into `for` as a length'],
    ["5:00 to noon", "time-bad"],
    [`05:00 ${"x".repeat(58)}`, [300, 0, { kind: "named", name: "x".repeat(58) }]],
    [`05:00 ${"x".repeat(59)}`, "time-bad"],
  ])("%s", (text, time) => {
    expect(minute(text)).toEqual(time);
  });

  test("on the clock of a place, up to so many days later", () => {
    const clocks = (days: number) =>
      ["02:00", "02:00 local", "02:00 +1d", "02:00 +2d", "02:00 -1d", "02:00 CT"].map((text) => {
        const clock = parseClock(text, days);
        return clock.ok ? clock.value : null;
      });
    expect(clocks(0)).toEqual([120, 120, null, null, null, null]);
    expect(clocks(1)).toEqual([120, 120, 1560, null, null, null]);
    expect(read(parseClock("2:00 pm", 1))).toBe('time-bad: "14:00"');
    expect(read(parseClock("2:00 pm CT", 1))).toBe('time-bad: "05:30", on the clock of the place');
  });
});

describe("dates", () => {
  test.each([
    ["2027-13-01", ["2027-01-13"], null],
    ["2027-31-12", ["2027-12-31"], null],
    ["1/9/2027", ["2027-01-09", "2027-09-01"], null],
    ["9 Jan 2027", ["2027-01-09"], null],
    ["Dec 31, 2027", ["2027-12-31"], null],
    ["27-1-9", ["2027-01-09"], null],
    ["2027-04-31", ["2027-04-30"], "2027-04 has 30 days"],
    ["2027-02-29", ["2027-02-28"], "2027-02 has 28 days"],
    ["2028-02-30", ["2028-02-29"], "2028-02 has 29 days"],
    ["2027-12-32", [], null],
    ["2027-00-10", [], null],
  ])("%s", (text, like, reason) => {
    const result = badDate(text);
    expect(result.ok ? null : result.mistake({}).facts).toMatchObject({ like, reason });
  });
});

describe("degrees", () => {
  test.each([
    // 40 + 26/60 + 46/3600 = 40.446111111; 79 + 58/60 + 56/3600 = 79.982222222.
    ["40\u00b026'46\"N", 40.446111111],
    ["-40\u00b026'46\"", -40.446111111],
    ["S 40 26 46", -40.446111111],
    ["40\u00b059'59\" N", 40.999722222],
    ["40\u00b060' N", "range-wrong: 0 to 59.99"],
    ["40\u00b026'60\" N", "range-wrong: 0 to 59.99"],
    ["40\u00b026.5'30\" N", "value-bad"],
    ["-40\u00b026' N", "value-bad"],
    ["N 40\u00b026' N", "value-bad"],
    ["40\u00b026' W", "value-bad"],
    ["90\u00b00' N", 90],
    ["90\u00b00' S", -90],
    ["90\u00b01' N", "range-wrong: -90 to 90"],
    ["90\u00b01' S", "range-wrong: -90 to 90"],
    ["46,81", "value-bad: 46.81"],
    ["90", 90],
    ["91", "range-wrong: -90 to 90"],
    ["no", "value-bad"],
  ])("latitude %s", (text, degrees) => {
    expect(read(parseDegrees(text, LATITUDE))).toBe(degrees);
  });

  test.each([
    ["79\u00b058'56\"W", -79.982222222],
    ["180\u00b00' W", -180],
    ["180\u00b00' E", 180],
    ["180\u00b01' E", "range-wrong: -180 to 180"],
  ])("longitude %s", (text, degrees) => {
    expect(read(parseDegrees(text, LONGITUDE))).toBe(degrees);
  });

  test("with their side in words", () => {
    const words = ["101 west", "101W", "28.2 east", "0 west", "180 e", "180.1 east", "101", "-101", "101 north"];
    expect(words.map((text) => read(parseEastWest(text, "a place in orbit", 180, "101 west")))).toEqual([
      ...[-101, -101, 28.2, 0, 180, "range-wrong: 180 west to 180 east"],
      ...["value-bad: 101 west or 101 east", "value-bad: 101 west", "value-bad"],
    ]);
  });
});
