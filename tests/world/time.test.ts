/**
 * Published rules of clocks and zones against the table; `time.json` names the source of each. The offsets that Node 20 has
 * wrong in Canada since November 2026 have no check: the program reads its own table, which `time-canada-2026` holds.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { between, dateText, isoLocal, isoUtc, offsetMinutes, resolveLocal } from "../../src/time/index.ts";
import { at, changesBetween, zoneOf } from "../time/zones.ts";

const entrySchema = z.object({ id: z.string(), source: z.string(), inputs: z.json(), expected: z.json() });
const entries = z.array(entrySchema).parse(JSON.parse(readFileSync(new URL("./time.json", import.meta.url), "utf8")));

const checked: string[] = [];

/** Runs a check of one entry with its inputs and what its source expects, both read by a schema. */
function world<I, E>(
  id: string,
  inputs: z.ZodType<I>,
  expected: z.ZodType<E>,
  check: (inputs: I, expected: E) => void,
): void {
  checked.push(id);
  const entry = entries.find((candidate) => candidate.id === id);
  it(`${id}: ${entry?.source ?? "missing"}`, () => check(inputs.parse(entry?.inputs), expected.parse(entry?.expected)));
}

const years = z.object({ years: z.array(z.number()) });
const pairs = z.array(z.tuple([z.string(), z.string()]));
const offset = (name: string, iso: string): number => offsetMinutes(zoneOf(name), at(iso));

const minutesOf = (name: string, date: string, minute: number) => {
  const reading = resolveLocal(date, minute, zoneOf(name));
  if (reading.kind !== "once") throw new Error(`${date} ${minute} is ${reading.kind}`);
  return reading.at;
};

const changesOf = (name: string, year: number) =>
  changesBetween(zoneOf(name), at(`${year}-01-01T12:00Z`), at(`${year}-12-31T12:00Z`));

describe("clock changes", () => {
  world("time-us-dst", years, pairs, ({ years: list }, expected) => {
    for (const name of [
      "America/New_York",
      "America/Chicago",
      "America/Denver",
      "America/Los_Angeles",
      "America/Menominee",
    ]) {
      expect(list.map((year) => changesOf(name, year).map((change) => dateText(change, zoneOf(name))))).toEqual(
        expected,
      );
    }
    for (const [spring, fall] of expected) {
      expect(resolveLocal(spring, 120, zoneOf("America/Chicago")).kind).toBe("never");
      expect(resolveLocal(fall, 119, zoneOf("America/Chicago")).kind).toBe("twice");
      expect(resolveLocal(fall, 120, zoneOf("America/Chicago")).kind).toBe("once");
    }
  });

  world("time-eu-dst", years, pairs, ({ years: list }, expected) => {
    const utc = expected.map((pair) => pair.map((date) => `${date}T01:00Z`));
    for (const name of ["Europe/London", "Europe/Berlin", "Europe/Athens"]) {
      expect(list.map((year) => changesOf(name, year).map(isoUtc))).toEqual(utc);
    }
  });

  const hours = z.object({ spring: z.number(), fall: z.number() });
  world("time-rest-loss", z.object({ zone: z.string() }), hours, ({ zone: name }, { spring, fall }) => {
    const night = (evening: string, morning: string) =>
      between(minutesOf(name, evening, 22 * 60), minutesOf(name, morning, 360));
    expect(night("2027-03-13", "2027-03-14")).toBe(spring * 60);
    expect(night("2027-11-06", "2027-11-07")).toBe(fall * 60);
  });

  const local = z.object({ local: z.tuple([z.string(), z.string()]), zone: z.string() });
  world(
    "time-rfc5545-gap",
    local,
    z.tuple([z.string(), z.string()]),
    ({ local: [gap, twice], zone: name }, expected) => {
      const read = (text: string) =>
        resolveLocal(text.slice(0, 10), Number(text.slice(11, 13)) * 60 + Number(text.slice(14, 16)), zoneOf(name));
      expect(read(gap)).toMatchObject({ kind: "never", later: at(expected[0]) });
      expect(read(twice)).toMatchObject({ kind: "twice", earlier: at(expected[1]) });
    },
  );
});

describe("zones", () => {
  const twoZones = z.object({ phoenix: z.array(z.number()), denver: z.array(z.number()) });
  world("time-arizona", z.object({ iso: z.array(z.string()) }), twoZones, ({ iso }, { phoenix, denver }) => {
    expect(iso.map((text) => offset("America/Phoenix", text))).toEqual(phoenix);
    expect(iso.map((text) => offset("America/Denver", text))).toEqual(denver);
  });

  world("time-fraction-zones", z.object({ iso: z.string() }), z.array(z.number()), ({ iso }, expected) => {
    const names = [
      "America/St_Johns",
      "Asia/Kolkata",
      "Asia/Kathmandu",
      "Australia/Adelaide",
      "Australia/Eucla",
      "Pacific/Chatham",
    ];
    expect([...names, "Australia/Lord_Howe"].map((name) => offset(name, iso))).toEqual(expected.slice(0, 7));
    expect(offset("Australia/Lord_Howe", "2027-01-15T00:00Z")).toBe(expected[7]);
  });

  world("time-canada-2026", z.object({ iso: z.string() }), z.record(z.string(), z.number()), ({ iso }, expected) => {
    const region = (city: string) => (city === "Casablanca" ? "Africa" : "America");
    for (const [city, minutes] of Object.entries(expected))
      expect(offset(`${region(city)}/${city}`, iso), city).toBe(minutes);
  });

  const reading = z.object({ utc: z.string(), zone: z.string(), consistent: z.boolean() });
  world("time-rfc9557", z.object({ s: z.string() }), reading, ({ s }, expected) => {
    const [stamp = "", name = ""] = s.split(/[[\]]/);
    expect(at(stamp)).toBe(at(expected.utc));
    expect(isoLocal(at(stamp), zoneOf(name)) === stamp.replace(/:00(?=[+-])/, "")).toBe(expected.consistent);
  });
});

it("checks every entry of time.json", () => {
  expect(checked.sort()).toEqual(entries.map((entry) => entry.id).sort());
});
