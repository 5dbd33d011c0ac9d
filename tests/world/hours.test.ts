/**
 * Worked examples for hours of service and rest, through a log file and the JSON that `hours` prints. Each names its
 * source in `hours.json`; `provenance` says whether its numbers are a regulator's or were made from the rule's text.
 * Expected values never come from this program.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { resolveLocal, zone } from "../../src/time/index.ts";
import { type Answer, answerTo, at, type LogText, logText } from "../hours/logs.ts";

interface Violation {
  readonly limit: string;
  readonly citation: string;
  readonly from?: string;
  readonly to?: string;
}

interface Example {
  readonly id: string;
  readonly title: string;
  readonly rules: string;
  readonly options: Readonly<Record<string, unknown>>;
  readonly source: string;
  readonly from_memory: boolean;
  readonly zone: string;
  readonly day_starts?: string;
  readonly spans?: LogText["spans"];
  readonly expected: {
    readonly evaluate_at: string;
    readonly compliant?: boolean | "review";
    readonly violations?: readonly Violation[];
    readonly driving_must_stop_at?: string;
    readonly [key: string]: unknown;
  };
}

const file: { readonly examples: readonly Example[] } = JSON.parse(
  readFileSync(new URL("hours.json", import.meta.url), "utf8"),
);
const example = (id: string): Example => {
  const found = file.examples.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no example ${id}`);
  return found;
};

/** An example's time: with an offset as it stands, else on its own clock. */
function minute(text: string, { zone: name }: Example): number {
  if (/([+-]\d{2}:\d{2}|Z)$/.test(text)) return at(text);
  const known = zone(name);
  if (known === null) throw new Error(`no zone ${name}`);
  const local = resolveLocal(text.slice(0, 10), Number(text.slice(11, 13)) * 60 + Number(text.slice(14, 16)), known);
  if (local.kind !== "once") throw new Error(`${text} is not one instant in ${name}`);
  return local.at;
}

const textOf = (one: Example, options: Readonly<Record<string, unknown>> = one.options, spans = one.spans): string =>
  logText({
    zone: one.zone,
    rules: one.rules,
    options: { ...options, ...(one.day_starts === undefined ? {} : { dayStarts: one.day_starts }) },
    spans: spans ?? [],
  });

const judged = (one: Example, when: string = one.expected.evaluate_at, options = one.options): Promise<Answer> =>
  answerTo(textOf(one, options), minute(when, one));

/** The clause of each citation as the program words it. */
const CITED: ReadonlyMap<string, string> = new Map([["contract", "house rules"]]);

const stretches = (one: Example, violations: readonly Violation[]): readonly unknown[] =>
  violations.map(({ from = "", to = "", citation }) => [
    minute(from, one),
    minute(to, one),
    CITED.get(citation) ?? citation,
  ]);

const breaches = ({ person }: Answer): readonly unknown[] =>
  person.breaches.map(({ from, to, clause }) => [at(from), at(to), clause]);

/** Judged at a moment of their own, not at the example's, because the expected value belongs to it; or not a plain log. */
const APART = new Set(["EU-09", "EU-11", "GB-01", "LAB-03", "LAB-04", "LAB-05", "LAB-06"]);
/** The example's note allows either clause for these. */
const marked = ({ id, title, from_memory }: Example): string => `${id} ${title}${from_memory ? " (from memory)" : ""}`;

describe("breaches", () => {
  for (const one of file.examples.filter(({ id }) => !APART.has(id))) {
    it(`${marked(one)} · ${one.source}`, async () => {
      const answer = await judged(one);
      expect(breaches(answer)).toEqual(stretches(one, one.expected.violations ?? []));
      expect(answer.errors > 0).toBe(one.expected.compliant === false);
      expect(answer.codes.includes("hours-review")).toBe(
        one.expected.compliant === "review" || one.rules === "us-production" || one.rules === "california",
      );
    });
  }
});

describe("the same day without its exception", () => {
  const cases: readonly (readonly [string, string])[] = [
    ["US-P-17", "without_exception"],
    ["US-P-19", "without_exception"],
    ["US-P-22", "without_exception"],
    ["CA-04", "without_declaration"],
  ];
  for (const [id, key] of cases) {
    it(`${id} ${key}`, async () => {
      const one = example(id);
      const without = one.expected[key];
      const violations = (without as { readonly violations: readonly Violation[] }).violations;
      expect(breaches(await judged(one, one.expected.evaluate_at, {}))).toEqual(stretches(one, violations));
    });
  }

  it("US-P-30 by the ordinary rules: eight hours are no rest", async () => {
    const one = { ...example("US-P-30"), rules: "us-property" };
    const without = one.expected["without_exemption"] as { readonly violations: readonly Violation[] };
    expect(breaches(await judged(one))).toEqual(stretches(one, without.violations));
  });

  it("US-P-35 by the Canadian rules: 12 h 30 min of 13", async () => {
    const { person, errors } = await judged({ ...example("US-P-35"), rules: "ca-south" });
    expect(errors).toBe(0);
    expect(person.limits.find(({ id }) => id === "ca-south.driving")).toMatchObject({
      usedMinutes: 750,
      allowedMinutes: 780,
    });
  });

  it("US-P-26 with driving an hour earlier: the ride counts, the window from 14:00 has closed", async () => {
    const one = example("US-P-26");
    const spans = (one.spans ?? []).map((span, i) =>
      i === 2 ? { ...span, to: "2026-03-03T04:00" } : i === 3 ? { ...span, from: "2026-03-03T04:00" } : span,
    );
    const { person } = await answerTo(textOf(one, {}, spans), minute("2026-03-03T05:00", one));
    expect(person.breaches.map(({ from, to }) => [at(from), at(to)])).toEqual([
      [minute("2026-03-03T04:00", one), minute("2026-03-03T05:00", one)],
    ]);
    const before = await answerTo(textOf(one, {}, spans), minute("2026-03-03T04:00", one));
    expect(at(before.person.earliestNextDrive ?? "")).toBe(minute("2026-03-03T05:00", one));
  });
});

describe("driving must stop", () => {
  for (const one of file.examples.filter(({ expected }) => expected.driving_must_stop_at !== undefined)) {
    // Two days later and after a reset a new shift has begun; what CA-05 asks for belongs to the day of the breach.
    const when = one.id === "CA-05" ? "2026-03-07T12:00" : one.expected.evaluate_at;
    it(`${marked(one)}`, async () => {
      const { person } = await judged(one, when);
      expect(at(person.drivingMustStopAt ?? "")).toBe(minute(one.expected.driving_must_stop_at ?? "", one));
    });
  }
});

describe("earliest next call or drive, off duty from the moment on", () => {
  const cases: readonly (readonly [
    id: string,
    judgedAt: string,
    key: "earliestNextCall" | "earliestNextDrive",
    expected: string,
  ])[] = [
    ["US-P-13", "2026-03-06T20:00", "earliestNextDrive", "2026-03-08T06:00"],
    ["US-P-27", "2026-03-08T06:00:00-05:00", "earliestNextDrive", "2026-03-08T07:00:00-05:00"],
    ["US-P-31", "2026-03-02T20:35", "earliestNextDrive", "2026-03-03T06:35"],
    ["US-B-01", "2026-03-02T19:00", "earliestNextDrive", "2026-03-03T03:00"],
    ["CA-01", "2026-03-02T21:00", "earliestNextDrive", "2026-03-03T06:00"],
    ["CA-05", "2026-03-07T12:00", "earliestNextDrive", "2026-03-09T00:00"],
    ["EU-05", "2026-03-02T21:30", "earliestNextCall", "2026-03-03T06:30"],
    ["EU-13", "2026-03-03T09:30", "earliestNextCall", "2026-03-03T10:30"],
    ["LAB-05", "2026-03-03T08:00", "earliestNextCall", "2026-03-03T09:15"],
    ["US-P-33", "2026-03-02T23:40", "earliestNextCall", "2026-03-03T09:40"],
    ["PLAN-01", "2026-03-02T23:40", "earliestNextCall", "2026-03-03T09:40"],
  ];
  for (const [id, judgedAt, key, expected] of cases) {
    it(`${id} ${key}`, async () => {
      const one = example(id);
      const { person } = await judged(one, judgedAt);
      expect(at(person[key] ?? "")).toBe(minute(expected, one));
    });
  }

  it("US-P-01: work may go on after 20:00; off from then, driving again at 06:00", async () => {
    const one = example("US-P-01");
    const spans = [...(one.spans ?? []), { from: "2026-03-02T08:00", to: "2026-03-02T20:00", is: "duty" }];
    const { person, errors } = await answerTo(textOf(one, {}, spans), null);
    expect(errors).toBe(0);
    expect(at(person.earliestNextDrive ?? "")).toBe(minute("2026-03-03T06:00", one));
  });
});

describe("what is used and left", () => {
  const cases: readonly (readonly [
    id: string,
    limit: string,
    field: "usedMinutes" | "leftMinutes",
    expected: number,
  ])[] = [
    ["US-P-03", "us-property.driving", "leftMinutes", 0],
    ["US-P-03", "us-property.window", "leftMinutes", 120],
    ["US-P-13", "us-property.week", "usedMinutes", 70 * 60],
    ["US-P-13", "us-property.week", "leftMinutes", 0],
    ["US-P-22", "us-property.driving", "usedMinutes", 450],
    ["US-P-23", "us-property.driving", "leftMinutes", 180],
    ["US-P-27", "us-property.rest", "usedMinutes", 540],
    ["US-P-33", "us-property.rest", "usedMinutes", 580],
    ["US-B-01", "us-passenger.duty", "usedMinutes", 630],
    ["EU-01", "eu.driving", "usedMinutes", 540],
    ["EU-02", "eu.driving", "usedMinutes", 540],
    ["LAB-05", "house.turnaround", "usedMinutes", 525],
  ];
  for (const [id, limit, field, expected] of cases) {
    it(`${id} ${limit} ${field}`, async () => {
      const { person } = await judged(example(id));
      expect(person.limits.find((one) => one.id === limit)?.[field]).toBe(expected);
    });
  }

  it("EU-01: a tenth hour is left where a 10 h day of the week is", async () => {
    const { person } = await judged(example("EU-01"));
    expect(person.limits.find(({ id }) => id === "eu.driving")?.leftMinutes).toBe(60);
  });

  const windows: readonly (readonly [id: string, key: string])[] = [
    ["US-P-01", "driving_window_ends"],
    ["US-P-05", "driving_window_ends"],
    ["US-P-08", "window_ends"],
    ["US-P-17", "window_ends"],
    ["US-P-23", "window_ends"],
    ["US-P-26", "window_ends"],
    ["US-P-29", "window_ends_home"],
    ["PLAN-01", "window_ends"],
  ];
  for (const [id, key] of windows) {
    it(`${id}: the window ends`, async () => {
      const one = example(id);
      const { person } = await judged(one);
      const ends = person.limits.find((limit) => limit.id === "us-property.window")?.runsOutAt;
      expect(at(ends ?? "")).toBe(minute(String(one.expected[key]), one));
    });
  }
});

describe("examples that are no plain log", () => {
  it("EU-09 90 hours in two weeks: an hour over, the last of week 2 (Reg 561/2006 Art 6(3))", async () => {
    const one = example("EU-09");
    const hours = [10, 10, 9, 9, 9, 9, 0, 9, 9, 9, 8];
    const spans = drivenDays("2026-03-02", hours);
    const { person } = await answerTo(logText({ zone: "UTC", rules: "eu", spans }), null);
    const over = person.breaches.filter(({ clause }) => clause === "Reg 561/2006 Art 6(3)");
    expect(over.reduce((sum, { from, to }) => sum + at(to) - at(from), 0)).toBe(60);
    expect(person.breaches.length).toBe(over.length);
    expect(one.expected.violations?.[0]?.citation).toBe("Reg 561/2006 Art 6(3)");
  });

  it("EU-11 the weekly rest begins within six 24-hour periods (Reg 561/2006 Art 8(6))", async () => {
    const one = example("EU-11");
    const nights = [2, 3, 4, 5, 6, 7, 8].map((day) => `2026-03-0${day}`);
    const spans = [
      { from: "2026-02-28T09:00", to: "2026-03-02T06:00", is: "off" },
      ...nights.flatMap((date, i) => [
        { from: `${date}T06:00`, to: `${date}T${i === 6 ? "10" : "18"}:00`, is: "duty" },
        ...(i === 6 ? [] : [{ from: `${date}T18:00`, to: `${nights[i + 1]}T06:00`, is: "off" }]),
      ]),
    ];
    const answer = await answerTo(logText({ zone: one.zone, rules: "eu", spans }), minute("2026-03-08T10:00", one));
    expect(breaches(answer)).toEqual(stretches(one, one.expected.violations ?? []));
    expect(at(answer.person.earliestNextCall ?? "")).toBe(
      minute(String(one.expected["earliest_next_start_regular_45h"]), one),
    );
  });

  it("GB-01 a broadcast van up to 3.5 t (`in: light`) is outside the duty limit, a goods vehicle is not", async () => {
    const one = example("GB-01");
    const light = (one.spans ?? []).map((span) => ({ ...span, in: "light" }));
    const van = await answerTo(textOf(one, {}, light), null);
    expect(van.person.breaches).toEqual([]);
    expect(van.person).toMatchObject({ drivingMinutes: 300, dutyMinutes: 780 });
    const goods = one.expected["same_day_ordinary_goods_use"] as { readonly violations: readonly Violation[] };
    expect(breaches(await answerTo(textOf(one), null))).toEqual(stretches(one, goods.violations));
  });

  it("LAB-05 turnaround of 10 h (from memory; common practice): 75 min short, called at 08:00", async () => {
    const one = example("LAB-05");
    const spans = [...(one.spans ?? []), { from: "2026-03-03T08:00", to: "2026-03-03T12:00", is: "duty" }];
    const { person } = await answerTo(textOf(one, {}, spans), null);
    const short = person.breaches.filter(({ limit }) => limit === "house.turnaround");
    expect(short.map(({ from, to }) => [at(from), at(to)])).toEqual([
      [minute("2026-03-03T08:00", one), minute("2026-03-03T09:15", one)],
    ]);
    expect(person.restBeforeMinutes).toBe(one.expected["rest_min"]);
  });
});

/** One day after another that begins at 06:00 UTC: so many hours at the wheel, a break of 45 min after each 4 h 30. */
function drivenDays(first: string, hours: readonly number[]): LogText["spans"] {
  const start = at(`${first}T06:00Z`);
  const iso = (minutes: number): string => new Date(minutes * 60_000).toISOString().slice(0, 16);
  const spans: { from: string; to: string; is: string }[] = [];
  hours.forEach((count, day) => {
    let now = start + day * 1440;
    for (let left = count * 60; left > 0; left -= 270) {
      const drive = Math.min(270, left);
      spans.push({ from: iso(now), to: iso(now + drive), is: "driving" });
      now += drive;
      const rest = left > 270 ? now + 45 : start + (day + 1) * 1440;
      spans.push({ from: iso(now), to: iso(rest), is: "off" });
      now = rest;
    }
    if (count === 0) spans.push({ from: iso(now), to: iso(start + (day + 1) * 1440), is: "off" });
  });
  return spans;
}
