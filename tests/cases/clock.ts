/** Instants of a day's plan as its own clock shows them, for what a case should say. */
import type { Day } from "../../src/day/index.ts";
import { clockText, type Instant } from "../../src/time/index.ts";

/** `07:00` on the clock of the plan's zone for each of `ids`; `-` for an instant that the day does not have. */
export const clocks = (day: Day, ...ids: readonly string[]): readonly string[] =>
  ids.map((id) => {
    const at = day.instants.get(id);
    return at === undefined ? "-" : clockText(at, day.plan.zone);
  });

export const clock = (day: Day, at: Instant): string => clockText(at, day.plan.zone);
