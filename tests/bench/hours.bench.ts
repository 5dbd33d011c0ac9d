/** Hours: a 15-day log of 200 spans, and logs of twice and four times as many, which should take twice and four times as long. */

import type { Calendar, LogSpan } from "../../src/hours/count/spans.ts";
import { judgeRecord } from "../../src/hours/judge/judge.ts";
import { personHours } from "../../src/hours/judge/person.ts";
import { type RuleSetId, ruleSet } from "../../src/hours/rules/index.ts";
import { NO_OPTIONS } from "../../src/hours/rules/options.ts";
import type { RuleSet } from "../../src/hours/rules/rule.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import { instant } from "../../src/time/units.ts";
import type { Bench } from "./bench.ts";

/** Days on UTC: clock changes are no part of what is measured. */
const calendar: Calendar = { dayOf: (at) => Math.floor(at / 1440), startOf: (day) => instant(day * 1440) };

/** A working day of thirteen spans and a night, 200 spans in 15 days. */
const DAY: readonly (readonly [is: LogSpan["is"], minutes: number])[] = [
  ["duty", 30],
  ["driving", 110],
  ["duty", 45],
  ["meal", 30],
  ["duty", 60],
  ["driving", 90],
  ["duty", 40],
  ["off", 60],
  ["duty", 75],
  ["driving", 100],
  ["standby", 60],
  ["duty", 35],
  ["off", 705],
];

function logOf(days: number): readonly LogSpan[] {
  const spans: LogSpan[] = [];
  let at = 29_770_560;
  for (let day = 0; day < days; day++) {
    for (const [is, minutes] of DAY) {
      spans.push({ from: instant(at), to: instant(at + minutes), is, in: "commercial", pause: false });
      at += minutes;
    }
  }
  return spans;
}

const named = (name: RuleSetId): RuleSet => ruleSet(name, NO_OPTIONS, houseDefaults());

const NAMES = ["us-property", "ca-south", "eu", "house"] as const;

const sizes = (name: RuleSetId): readonly Bench[] =>
  [15, 30, 60].map((days) => {
    const spans = logOf(days);
    const rules = named(name);
    return {
      name: `${name}: limits and breaches of ${spans.length} spans`,
      units: 1,
      run: () => judgeRecord({ spans, before: [] }, rules, calendar),
    };
  });

const whole = logOf(15);
const record = { spans: whole, before: [] };
const bindings = (["us-property", "house"] as const).map((name) => ({ rules: named(name), because: "" }));

export const benches: readonly Bench[] = [
  ...NAMES.flatMap(sizes),
  {
    name: `a driver's 15 days, ${whole.length} spans, two rule sets, next call and drive`,
    units: 1,
    run: () =>
      personHours({
        id: "tomas",
        recordIn: () => record,
        bindings,
        calendars: () => calendar,
        drives: true,
        released: true,
      }).earliestNextDrive,
  },
];
