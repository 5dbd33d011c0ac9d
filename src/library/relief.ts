/** Who drives which stretch: a proposal by the real rule sets, and the edits that write it into the plan. */

import type { Day } from "../day/day.ts";
import { sumOf } from "../lists.ts";
import type { ReliefProposal } from "../roads/index.ts";
import { textEdits } from "../roads/relief/edits.ts";
import { hoursJudge } from "../roads/relief/hours.ts";
import { proposeRelief, RELIEF_EVERY_MINUTES } from "../roads/relief/propose.ts";
import type { Instant } from "../time/units.ts";

export { textEdits };

/** How often drivers may change (minutes), and how long to search. */
export interface DayReliefOptions {
  /** Planned minutes between the points of a leg at which drivers may change; by default two hours. */
  readonly everyMinutes?: number;
  /** Multiplies the counted budgets of the search; 1 by default. */
  readonly patience?: number;
  /** Keeps what is earlier; null (default) leaves the whole day open. */
  readonly now?: Instant | null;
}

/** The best drivers for the last of these days; `no-choice` where no one can relieve anybody. Throws a RangeError without days. */
export function proposal(days: readonly Day[], options: DayReliefOptions = {}): ReliefProposal | "no-choice" {
  const day = days.at(-1);
  if (day === undefined) throw new RangeError("no day to propose drivers for");
  const { everyMinutes = RELIEF_EVERY_MINUTES, patience = 1, now = null } = options;
  return proposeRelief(day, { everyMinutes, patience, now, judge: hoursJudge(days) }) ?? "no-choice";
}

/** Minutes of law that everyone of the last of these days breaks, as planned. Throws a RangeError without days. */
export function lawMinutesOfDays(days: readonly Day[]): number {
  const day = days.at(-1);
  if (day === undefined) throw new RangeError("no day to judge");
  const { judge } = hoursJudge(days);
  return sumOf(day.people, ({ id }) => judge(day, id).lawMinutes);
}
