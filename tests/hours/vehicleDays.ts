/** Days of one driver in vehicles that state keys, as a plan and as a log, for what the keys are to do. */
import { expect } from "vitest";
import { ran } from "../cli/fakeIo.ts";

export interface Told {
  readonly code: string;
  readonly level: string;
  readonly who: string | null;
  readonly message: string;
}

export interface Answer {
  readonly found: readonly Told[];
  /** `us-property.week` to minutes. */
  readonly used: ReadonlyMap<string, number | null>;
  /** Of law, as `limit from to`. */
  readonly breaches: readonly string[];
}

interface Shown {
  readonly id: string;
  readonly limits: readonly { readonly id: string; readonly usedMinutes: number | null }[];
  readonly breaches: readonly { readonly limit: string; readonly from: string; readonly to: string }[];
}

export async function asked(text: string, files: Readonly<Record<string, string>> = {}): Promise<Answer> {
  const { out } = await ran(["hours", "x.yaml", "--json"], { files: { ...files, "x.yaml": text } });
  const answer: { findings: readonly Told[]; data: { people: readonly Shown[] } | null } = JSON.parse(out);
  expect(answer.data, out).not.toBeNull();
  const wren = answer.data?.people.find(({ id }) => id === "wren");
  return {
    found: answer.findings,
    used: new Map((wren?.limits ?? []).map(({ id, usedMinutes }) => [id, usedMinutes])),
    breaches: (wren?.breaches ?? [])
      .filter(({ limit }) => !limit.startsWith("house."))
      .map(({ limit, from, to }) => `${limit} ${from.slice(5, 16)} ${to.slice(5, 16)}`),
  };
}

export type Span = readonly [from: string, is: string];

export const spanLines = (spans: readonly Span[], until: string): string =>
  spans
    .map(
      ([from, is], index) => `    - { from: ${from}-06:00, to: ${spans[index + 1]?.[0] ?? until}-06:00, is: ${is} }\n`,
    )
    .join("");

const PARTS = {
  wren: "{ role: camera, drives: all }",
  runs: "  wagon: { driver: wren, stops: [lodge, pier, lodge] }\n",
};

/** What was before the call at 03:45, and a morning with one hit in vehicles that state `wagon` and others. */
export const plan = (
  before: readonly Span[],
  wagon: string,
  more: Partial<typeof PARTS> & { others?: string } = {},
): string => {
  const { wren, runs, others = "" } = { ...PARTS, ...more };
  return `daywright: 1
date: 2027-01-20
clock: America/New_York
zone: America/Chicago
crew:
  wren: ${wren}
  ilse: { role: reporter, drives: all }
vehicles:
  wagon: { gross: 5 t, ${wagon} }
${others}places:
  lodge: { at: [46.60, -90.88] }
  pier: { at: [46.81, -90.82] }
roads:
  - { link: [lodge, pier], drive: 35 min, bad: 50 min }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier }
runs:
${runs}history:
  ilse: { released: 2027-01-19T17:00-06:00 }
  wren:
    spans:
${spanLines(before, "2027-01-20T03:45").replaceAll("    -", "      -")}`;
};

/** Walk-around and loading, 15 min each; 50 min there, into a firm hit; 35 min back from 06:33 on; 10 min each to unload and after the trip. */
export const MORNING: readonly Span[] = [
  ["2027-01-20T03:45", "duty"],
  ["2027-01-20T04:15", "driving"],
  ["2027-01-20T05:05", "duty"],
  ["2027-01-20T06:33", "driving"],
  ["2027-01-20T07:08", "duty"],
];

export const log = (before: readonly Span[], rules: string, options: string): string =>
  `log: 1\nzone: America/Chicago\nrules: ${rules}\noptions: { ${options} }\npeople:\n  wren:\n${spanLines([...before, ...MORNING], "2027-01-20T07:28")}`;

/** A weekly rest up to `work`, then duty. */
export const sinceWork = (work: string): readonly Span[] => [
  ["2027-01-16T08:00", "off"],
  [`2027-01-19T${work}`, "duty"],
];

/** 5 h, 4 h in the berth, 4 h, 4 h 45 min in the berth. */
export const BERTHS: readonly Span[] = [
  ["2027-01-18T20:00", "off"],
  ["2027-01-19T10:00", "duty"],
  ["2027-01-19T15:00", "berth"],
  ["2027-01-19T19:00", "duty"],
  ["2027-01-19T23:00", "berth"],
];

/** 13 h on duty from 06:00 on, 8 h 45 min off. */
export const LONG_DAY: readonly Span[] = [
  ["2027-01-18T10:00", "off"],
  ["2027-01-19T06:00", "duty"],
  ["2027-01-19T19:00", "off"],
];

/**
 * Days from 06:00: 13 h and 2 h 15 min on duty leave 8 h 45 min of the 10 h off (s. 14(1)); the 14th hour ends at 04:45
 * (s. 12(2)), 20 minutes before the pier. The last drive lies in the next day.
 */
export const FROM_SIX = ["ca-south.day-off 01-19T06:00 01-20T06:00", "ca-south.duty 01-20T04:45 01-20T05:05"];
