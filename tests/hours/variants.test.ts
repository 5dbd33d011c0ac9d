/** One rule set that two vehicles state with different weeks: the reading that breaks more is shown, then the one that leaves less. */
import { expect, it } from "vitest";
import { personHours } from "../../src/hours/judge/person.ts";
import { ruleSet } from "../../src/hours/rules/index.ts";
import { NO_OPTIONS } from "../../src/hours/rules/options.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import { DAYS, spansFrom } from "./records.ts";

type Week = "60/7" | "70/8";
const weekly = (week: Week) => ruleSet("us-property", { ...NO_OPTIONS, weeks: [week] }, houseDefaults());
const shift = "off 12, duty 10, ";

/** What the reading shown allows in its week, and what is over, for vehicles that state weeks in this order. */
function shown(weeks: readonly [Week, ...Week[]], text: string) {
  const [first, ...others] = weeks;
  const rules = weekly(first);
  const variants = others.map((other) => ({ rules: weekly(other), vehicles: ["van"] }));
  const hours = personHours({
    ...{ id: "tomas", bindings: [{ rules, because: "", variants }], calendars: () => DAYS },
    ...{ recordIn: () => ({ spans: spansFrom("04 00:00", text), before: [] }), drives: true, released: false },
  });
  const [verdict] = hours.verdicts;
  const week = verdict?.limits.find(({ limit }) => limit.id === "us-property.week");
  return [week?.allowedMinutes, verdict?.breaches.length];
}

// 49 CFR 395.3(b): 60 h in 7 days, or 70 h in 8; five shifts of 10 h leave 10 h of the one and 20 h of the other.
it.each([[["60/7", "70/8"]], [["70/8", "60/7"]], [["70/8", "60/7", "70/8"]]] as const)(
  "shows the week of 60 h, which leaves less, of %s",
  (weeks) => {
    expect(shown(weeks, `${shift.repeat(5)}off 12, driving 1`)).toEqual([3600, 0]);
  },
);
