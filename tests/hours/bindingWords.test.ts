/** Why rules bind someone, and which of two vehicles a limit is of; two weeks of pay; days between two plans. By hand. */
import { describe, expect, it } from "vitest";
import { bindingsOf } from "../../src/hours/judge/applicableRules.ts";
import { missingDaysOf } from "../../src/hours/judge/unknown.ts";
import { bestPaid } from "../../src/hours/pay/pay.ts";
import { usLabor } from "../../src/hours/rules/sets/usLabor.ts";
import { dayOfDate } from "../../src/time/index.ts";
import { judgedText } from "../cases/judged.ts";
import { SMALLEST } from "../cli/plans.ts";
import { daysOf } from "../power/plans.ts";

describe("the rules of the vehicles that someone drives", () => {
  const bound = async (...vehicles: readonly string[]) => {
    const stops = (n: number) =>
      n === 0
        ? '{ place: lodge, leave: "08:00" }'
        : `{ place: lodge, leave: "${10 + 2 * n}:00", after: [v${n - 1}.3] }`;
    const text = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: [${vehicles.map((_, n) => `v${n}`).join(", ")}] } }
vehicles: { ${vehicles.map((one, n) => `v${n}: { ${one} }`).join(", ")} }
places: { lodge: { kind: lodging }, pier: {} }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 40 min }]
runs:
${vehicles.map((_, n) => `  v${n}: { driver: wren, aboard: [wren], stops: [${stops(n)}, pier, lodge] }`).join("\n")}
`;
    const [day] = await daysOf(text, new Map());
    if (day === undefined) throw new RangeError("no day");
    return bindingsOf(day, "wren").filter(({ rules }) => rules.id !== "house");
  };
  const because = async (...vehicles: readonly string[]) => (await bound(...vehicles)).map((one) => one.because);

  it("are stated by it, or by them", async () => {
    expect(await because("rules: us-property")).toEqual(["drives v0, which states them"]);
    expect(await because("rules: us-property", "rules: us-property")).toEqual(["drives v0 and v1, which state them"]);
  });

  // 49 CFR 390.5: 10,001 lb or more.
  it("are those of a commercial vehicle, whose weight is said of one alone", async () => {
    const [one] = await because("rules: us-property, gross: 16000 lb");
    expect(one).toMatch(/^drives v0 \(.*16,?000.*\)$/u);
    const [two] = await because("rules: us-property, gross: 16000 lb", "rules: us-property, gross: 17000 lb");
    expect(two).toBe("drives v0 and v1, which state them");
  });

  // 49 CFR 395.3(b): 60 h in 7 days or 70 h in 8.
  it("name the vehicles in the limits that differ, and in no other", async () => {
    const titles = async (...vehicles: readonly string[]) => {
      const [one] = await bound(...vehicles);
      const sets = one === undefined ? [] : [one.rules, ...(one.variants ?? []).map(({ rules }) => rules)];
      return sets.map(({ limits }) =>
        limits.filter(({ title }) => /\(v\d/u.test(title)).map(({ id, title }) => [id, title.replace(/^.*\(/u, "(")]),
      );
    };
    expect(await titles('rules: us-property, week: "60/7"', 'rules: us-property, week: "70/8"')).toEqual([
      [["us-property.week", "(v0)"]],
      [["us-property.week", "(v1)"]],
    ]);
    expect(await titles('rules: us-property, week: "70/8"', 'rules: us-property, week: "70/8"')).toEqual([[]]);
  });
});

describe("the workweek of 29 U.S.C. 207(a)(1)", () => {
  it("begins anew on Monday, and counts on within the week", () => {
    const monday = dayOfDate("2026-03-02") ?? 0;
    const worked = [0, 1, 2, 3, 4, 7, 8, 9, 10, 11].map((n) => ({ day: monday + n, workedMinutes: 9 * 60 }));
    const paid = bestPaid(worked, usLabor.pay === null ? [] : [usLabor.pay]);
    // 36 h until Thursday, then 4 of 9: 5 h of overtime on each Friday.
    expect(paid.map(({ overtimeMinutes }) => overtimeMinutes / 60)).toEqual([0, 0, 0, 0, 5, 0, 0, 0, 0, 5]);
  });
});

describe("days between two plans", () => {
  const unknown = async (until: string, history = "") => {
    const first = SMALLEST.replace("date: 2027-01-20", `date: 2027-01-18${until}`);
    const { days } = await judgedText(
      SMALLEST.replace("date: 2027-01-20", "date: 2027-01-22\nfollows: 18.yaml") + history,
      { "18.yaml": first },
    );
    return missingDaysOf(days, "wren");
  };
  const hours = ({ unknown: left }: Awaited<ReturnType<typeof unknown>>): readonly number[] =>
    left.map(({ from, to }) => (to - from) / 60);

  it("are those that the first does not run into", async () => {
    expect(hours(await unknown(""))).toEqual([24, 24, 24]);
    expect(hours(await unknown('\nuntil: "+1d"'))).toEqual([24, 24]);
    expect(hours(await unknown('\nuntil: "+3d"'))).toEqual([]);
  });

  it("are known if a total says that no one worked, and not if it says a minute", async () => {
    const total = (duty: string) => `history: { wren: { totals: { 2027-01-20: { duty: ${duty}, driving: 0 h } } } }\n`;
    const free = await unknown("", total("0 h"));
    expect([hours(free), free.totals]).toEqual([[24, 24], []]);
    const minute = await unknown("", total("1 min"));
    expect([hours(minute), minute.totals.map((one) => one.dutyMinutes)]).toEqual([[24, 24, 24], [1]]);
  });

  it("count a total beside spans without what the spans hold", async () => {
    const text = `history:
  wren:
    totals: { 2027-01-20: { duty: 8 h, driving: 3 h } }
    spans:
      - { from: 2027-01-20T08:00-06:00, to: 2027-01-20T10:00-06:00, is: driving }
      - { from: 2027-01-20T10:00-06:00, to: 2027-01-20T11:00-06:00, is: duty }
      - { from: 2027-01-20T11:00-06:00, to: 2027-01-20T12:00-06:00, is: off }
`;
    const found = await unknown("", text);
    expect(found.totals.map(({ dutyMinutes, drivingMinutes }) => [dutyMinutes / 60, drivingMinutes / 60])).toEqual([
      [5, 1],
    ]);
    expect(hours(found)).toEqual([24, 8, 12, 24]);
  });
});
