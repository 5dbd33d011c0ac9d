/**
 * Pay of worked days, through a log file and the JSON that `timecard` prints. Examples and their sources are those of
 * `hours.json`: California Labor Code 510(a); 29 U.S.C. 207(a)(1) and 29 CFR Part 778 (LAB-03 from memory).
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { logText } from "../hours/logs.ts";

interface Example {
  readonly id: string;
  readonly rules: string;
  readonly zone: string;
  readonly source: string;
  readonly spans?: readonly { readonly from: string; readonly to: string; readonly is: string }[];
  readonly daily_worked_h?: readonly number[];
  readonly expected: Readonly<Record<string, unknown>>;
}

interface Paid {
  readonly workedMinutes: number;
  readonly straightMinutes: number;
  readonly overtimeMinutes: number;
  readonly doubleMinutes: number;
}

interface CardDay extends Paid {
  readonly date: string;
  readonly by: string;
  readonly mealsMissed: number | null;
  readonly shortTurnaroundMinutes: number | null;
}

const file: { readonly examples: readonly Example[] } = JSON.parse(
  readFileSync(new URL("hours.json", import.meta.url), "utf8"),
);
function example(id: string): Example {
  const found = file.examples.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no example ${id}`);
  return found;
}

async function card(text: string): Promise<{ readonly days: readonly CardDay[]; readonly totals: Paid }> {
  const { out, err } = await ran(["timecard", "week.yaml", "--json"], { files: { "week.yaml": text } });
  const [person] = JSON.parse(out).data?.people ?? [];
  if (person === undefined) throw new Error(`${out}${err}`);
  return person;
}

/** Days of so many hours from 06:00 on, the first of them Monday 2 March 2026. */
const week = ({ rules, zone, daily_worked_h = [] }: Example): string =>
  logText({
    zone,
    rules,
    spans: daily_worked_h.flatMap((hours, day) => {
      const date = `2026-03-0${2 + day}`;
      const end = `${date}T${String(6 + hours).padStart(2, "0")}:00`;
      const before = { from: `${date}T00:00`, to: `${date}T06:00`, is: "off" };
      const work = hours === 0 ? [] : [{ from: `${date}T06:00`, to: end, is: "duty" }];
      const rest = { from: hours === 0 ? `${date}T06:00` : end, to: `2026-03-0${3 + day}T00:00`, is: "off" };
      return [before, ...work, rest];
    }),
  });

describe("a log paid by labour law", () => {
  it("LAB-01: 14 h worked in California are 8 straight, 4 at one and a half, 2 double", async () => {
    const one = example("LAB-01");
    const { days } = await card(logText({ zone: one.zone, rules: one.rules, spans: one.spans ?? [] }));
    const { worked_min, regular_h, overtime_1_5_h, double_time_h } = one.expected;
    expect(days).toHaveLength(1);
    expect(days[0]?.workedMinutes).toBe(worked_min);
    expect(days[0]).toMatchObject({
      straightMinutes: Number(regular_h) * 60,
      overtimeMinutes: Number(overtime_1_5_h) * 60,
      doubleMinutes: Number(double_time_h) * 60,
      by: "california",
    });
  });

  it("LAB-03 (from memory): a federal week of 46 h has 6 h of overtime, none by the day", async () => {
    const one = example("LAB-03");
    const { totals } = await card(week(one));
    const { worked_h, overtime_1_5_h } = one.expected;
    expect(totals).toMatchObject({
      workedMinutes: Number(worked_h) * 60,
      overtimeMinutes: Number(overtime_1_5_h) * 60,
      doubleMinutes: 0,
    });
  });

  it("LAB-04: the sixth day is over 40 h, the seventh in one week has no straight time", async () => {
    const one = example("LAB-04");
    const { days, totals } = await card(week(one));
    const { day7, day6_over_40_h, week_worked_h } = one.expected;
    expect(day7).toEqual({ overtime_1_5_h: 8, double_time_h: 2 });
    expect(days[6]).toMatchObject({ straightMinutes: 0, overtimeMinutes: 480, doubleMinutes: 120 });
    expect(days[5]?.overtimeMinutes).toBe(Number(day6_over_40_h) * 60);
    expect(totals.workedMinutes).toBe(Number(week_worked_h) * 60);
  });
});

describe("riding as a passenger", () => {
  const lab = example("LAB-06");
  const told = async (rules: string, is: string): Promise<string> => {
    const spans = (lab.spans ?? []).map((span) => ({ ...span, is }));
    const { out } = await ran(["timecard", "ride.yaml"], {
      files: { "ride.yaml": logText({ zone: lab.zone, rules, spans }) },
    });
    return out;
  };

  // The example has a passenger's 4 h outside 09:00 to 17:00 not worked, the driver's worked; a log states no usual hours.
  it("LAB-06: is counted, and said to be what federal law need not count; the driver's hours are not", async () => {
    expect(lab.expected["driver_worktime_min"]).toBe(240);
    const passenger = await told("us-labor", "riding");
    expect(passenger).toContain("rode 4 h as a passenger, counted as worked");
    expect(passenger).toContain(`(${lab.source.slice(0, "29 CFR 785.39".length)})`);
    expect(await told("us-labor", "driving")).not.toContain("passenger");
    expect(await told("california", "riding")).not.toContain("passenger");
  });
});

describe("the days of a log", () => {
  // 6 h of rest part two shifts; both begin on the 2nd, and 23:00 to 03:00 is all of the 2nd: 4 + 4 + 4 h.
  const shifts = [
    { from: "2026-03-02T06:00", to: "2026-03-02T10:00", is: "duty" },
    { from: "2026-03-02T10:00", to: "2026-03-02T16:00", is: "off" },
    { from: "2026-03-02T16:00", to: "2026-03-02T20:00", is: "duty" },
    { from: "2026-03-02T20:00", to: "2026-03-02T23:00", is: "off" },
    { from: "2026-03-02T23:00", to: "2026-03-03T03:00", is: "duty" },
    { from: "2026-03-03T03:00", to: "2026-03-03T12:00", is: "off" },
    { from: "2026-03-03T12:00", to: "2026-03-03T18:30", is: "duty" },
  ];

  it("are those on which a shift began", async () => {
    const { days } = await card(logText({ zone: "America/Chicago", rules: "us-labor", spans: shifts }));
    expect(days.map(({ date, workedMinutes }) => [date, workedMinutes])).toEqual([
      ["2026-03-02", 720],
      ["2026-03-03", 390],
    ]);
    // Nothing says when a meal is due, or how long a turnaround must be.
    expect(days.map((day) => [day.mealsMissed, day.shortTurnaroundMinutes])).toEqual([
      [null, null],
      [null, null],
    ]);
  });

  it("have meals and turnarounds by the house rules where the log names these", async () => {
    const { days } = await card(logText({ zone: "America/Chicago", rules: "[us-labor, house]", spans: shifts }));
    // 10 h from release to call are asked for: the rests of 6 h and 9 h lack 4 and 1; the first one is not in the log.
    expect(days.map(({ shortTurnaroundMinutes }) => shortTurnaroundMinutes)).toEqual([240, 60]);
    // 6 h 30 min without a meal on the 3rd; on the 2nd no six hours are worked without a break.
    expect(days.map(({ mealsMissed }) => mealsMissed)).toEqual([0, 1]);
  });
});
