/** The patterns of the JSON Schema say what the readers of values say: held against them over random texts near each form. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseZone } from "../../src/plan/read/clock.ts";
import { idMistake } from "../../src/plan/read/ids.ts";
import { amountPattern, PATTERNS } from "../../src/plan/shape/patterns.ts";
import { LATITUDE, LONGITUDE, parseDegrees, parseEastWest } from "../../src/plan/values/degrees.ts";
import { parseLength } from "../../src/plan/values/length.ts";
import type { Parsed } from "../../src/plan/values/parsed.ts";
import * as q from "../../src/plan/values/quantity.ts";
import { parseClock, parseTime } from "../../src/plan/values/time.ts";
import { dayOfDate } from "../../src/time/index.ts";
import { runs } from "../fuzz.ts";

/** Read, or refused for its size alone, which no pattern of text can know. */
const readable = (result: Parsed<unknown>): boolean => result.ok || result.mistake({}).code === "range-wrong";

/** Texts made of the pieces of a form, each perhaps left out, put twice or changed in one sign. */
const near = (...pieces: readonly string[]): fc.Arbitrary<string> =>
  fc
    .tuple(
      fc.array(fc.constantFrom(...pieces, " ", ""), { maxLength: 6 }),
      fc.nat(40),
      fc.constantFrom("", "", "9", "x", " "),
    )
    .map(([parts, at, sign]) => {
      const text = parts.join("");
      return sign === "" ? text : text.slice(0, at) + sign + text.slice(at);
    });

const CASES: readonly (readonly [string, string, fc.Arbitrary<string>, (text: string) => boolean])[] = [
  [
    "time",
    PATTERNS.time,
    near(
      ...["07:00", "7:05", "0700", "24:00", "25:10", ":30", ".5", ",25", "070059", "2027-01-20", "20270120", "T", "t"],
      ...[
        "Z",
        " UTC",
        "-06",
        "-06:00",
        "+0545",
        " +1d",
        "-1d",
        " CT",
        " local",
        " America/Chicago",
        " am",
        " tomorrow",
      ],
    ),
    (text) => parseTime(text).ok,
  ],
  [
    "clock",
    PATTERNS.clock,
    near("07:00", "0700", "24:00", "7:5", " local", " +1d", " CT"),
    (text) => parseClock(text, 1).ok,
  ],
  [
    "length",
    PATTERNS.length,
    near("1", "35", "1.5", " min", "min", "h", " h ", "d", " days", "P", "T", "M", "H", "D", "20", "hours"),
    (text) => readable(parseLength(text)),
  ],
  [
    "date",
    PATTERNS.date,
    near("2027", "-01", "-20", "-1", "-12", "-31", "20.1."),
    (text) => dayOfDate(text.trim()) !== null,
  ],
  [
    "distance",
    amountPattern(q.distanceKm),
    near("41", "0.5", "-3", " km", "KM", "mi", " m", " W", "ft"),
    (text) => readable(q.parseQuantity(text, q.distanceKm)),
  ],
  [
    "kilometres of a road",
    amountPattern(q.roadKm),
    near("41", "0.5", " km", "mi", ".5"),
    (text) => readable(q.parseQuantity(text, q.roadKm)),
  ],
  [
    "temperature",
    amountPattern(q.celsius),
    near("-14", "−14", "10", " C", "°C", " f", "F"),
    (text) => readable(q.parseQuantity(text, q.celsius)),
  ],
  [
    "speed",
    amountPattern(q.speedKmh),
    near("30", " km/h", "kmh", "MPH", " m/s", "kn"),
    (text) => readable(q.parseQuantity(text, q.speedKmh)),
  ],
  [
    "share",
    amountPattern(q.share),
    near("80", "0.5", "%", " %", "120"),
    (text) => readable(q.parseQuantity(text, q.share)),
  ],
  [
    "east or west",
    PATTERNS.eastWest,
    near("101", "28.2", " west", "W", "°", " east", "e", " north"),
    (text) => readable(parseEastWest(text, "it", 180, "")),
  ],
  [
    "number",
    PATTERNS.number,
    near("5", "0", "1.5", "+", "-", ".", "1e3", ",", "007"),
    (text) => readable(q.parseNumber(text, { what: "it", least: 0, most: 9, example: "5" })),
  ],
  [
    "whole number",
    PATTERNS.wholeNumber,
    near("5", "0", ".0", "+", "-", ".5", "12"),
    (text) => readable(q.parseNumber(text, { what: "it", least: 0, most: 9, whole: true, example: "5" })),
  ],
  [
    "id",
    PATTERNS.id,
    near("brick", "2", "-", "Bär", "off", "all", "none", ".", "_", "é", "/", "("),
    (text) => idMistake(text) === null,
  ],
];

describe("a pattern of the schema", () => {
  test.each(CASES)("of a %s takes what its reader takes", (name, pattern, texts, reads) => {
    const form = new RegExp(pattern);
    const portable = new RegExp(pattern, "u");
    fc.assert(
      fc.property(texts, (text) => {
        const takes = form.test(text);
        // February has no 30th: which days a month has is for the reader.
        const day = /^\d{4}-?\d{2}-?(?:29|30|31)/.test(text.trim());
        // Nor does it know whether 1.51 h are whole minutes.
        const fraction = name === "length" && text.includes(".");
        if (!((day || fraction) && takes)) expect([text, takes]).toEqual([text, reads(text)]);
        expect([text, portable.test(text)]).toEqual([text, takes]);
      }),
      { seed: 20270120, numRuns: runs(3000, 100_000) },
    );
  });

  test("of a zone and of degrees takes all that its reader takes", () => {
    for (const zone of [
      "America/Chicago",
      "UTC",
      "CET",
      "Etc/GMT+6",
      "America/Argentina/Buenos_Aires",
      "EST5EDT",
      "EST",
      "MST",
    ])
      expect([zone, new RegExp(PATTERNS.zone).test(zone)]).toEqual([zone, parseZone(zone).ok]);
    const texts = near("46", "40", "°", "26", "'", "46", '"', "N", "W", " ", "-", ".81");
    fc.assert(
      fc.property(texts, (text) => {
        for (const [axis, pattern] of [
          [LATITUDE, PATTERNS.latitude],
          [LONGITUDE, PATTERNS.longitude],
        ] as const)
          if (parseDegrees(text, axis).ok) expect([text, new RegExp(pattern).test(text)]).toEqual([text, true]);
      }),
      { seed: 20270120, numRuns: runs(3000, 100_000) },
    );
  });
});
