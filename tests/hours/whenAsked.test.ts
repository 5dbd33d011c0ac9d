/** What may come next takes a search of half a month ahead: it is made when its answer is first read. */
import { expect, it } from "vitest";
import type { Calendar } from "../../src/hours/count/spans.ts";
import { personHours } from "../../src/hours/judge/person.ts";
import { ruleSet } from "../../src/hours/rules/index.ts";
import { NO_OPTIONS } from "../../src/hours/rules/options.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import { type Instant, instant } from "../../src/time/units.ts";

// Ten hours of driving and duty from 06:00 UTC on.
const SIX = 20_000 * 1440 + 360;
const span = (from: number, to: number, is: "driving" | "duty") =>
  ({ from: instant(SIX + from), to: instant(SIX + to), is, in: "commercial", pause: false }) as const;

/** Someone's hours, and how many days ahead the calendar has been asked for so far. */
function asked(foretells: boolean) {
  let furthest = 0;
  const calendar: Calendar = {
    dayOf: (at) => Math.floor(at / 1440),
    startOf(day) {
      furthest = Math.max(furthest, day - 20_000);
      return instant(day * 1440);
    },
  };
  const hours = personHours({
    id: "wren",
    recordIn: () => ({ spans: [span(0, 240, "driving"), span(240, 600, "duty")], before: [] }),
    bindings: [{ rules: ruleSet("us-property", NO_OPTIONS, houseDefaults()), because: "" }],
    calendars: () => calendar,
    drives: true,
    released: true,
    foretells,
  });
  return { hours, furthest: () => furthest };
}

it("the search ahead waits until its answer is read", () => {
  const { hours, furthest } = asked(true);
  expect(hours.verdicts).toHaveLength(1);
  const before = furthest();
  // 49 CFR 395.3(a)(1): ten consecutive hours off after 16:00 UTC, so 02:00.
  const next: Instant | null = hours.earliestNextCall;
  expect(next).toBe(SIX + 600 + 600);
  expect([before < 15, furthest()]).toEqual([true, 15]);
  // Driving in the same breath: no earlier than the call.
  expect(hours.earliestNextDrive).toBe(next);
});

it("nothing is foretold where that is not wanted", () => {
  const { hours, furthest } = asked(false);
  expect([hours.earliestNextCall, hours.earliestNextDrive, hours.drivingMustStopAt]).toEqual([null, null, null]);
  expect(furthest()).toBeLessThan(15);
});
