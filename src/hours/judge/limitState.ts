/** How a limit stands: the outcome of judging one. */
import type { Instant } from "../../time/units.ts";
import type { Limit } from "../rules/rule.ts";

/** How a limit stands at the end of the record. */
export interface LimitState {
  readonly limit: Limit;
  /** For a rest: the minutes it must have. */
  readonly allowedMinutes: number;
  /** For a rest: the minutes taken; null where nothing is known of it. */
  readonly usedMinutes: number | null;
  readonly leftMinutes: number | null;
  /** When nothing will be left if what it counts goes on; in the past where nothing is left; null where nothing runs. */
  readonly runsOutAt: Instant | null;
  /** From when on it counts; null for a rest. */
  readonly countsFrom: Instant | null;
  /** The figures reach over time of which nothing is known. */
  readonly atLeast?: boolean;
  /** A rest shorter than the limit asks for, which began no new shift and broke nothing. */
  readonly short?: boolean;
  /** How many larger allowances, or reduced rests, may still be used; left out where the limit knows none. */
  readonly extensionsLeft?: number;
}
