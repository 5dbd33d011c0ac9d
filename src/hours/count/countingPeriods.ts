/** The stretches of a record in which a limit counts from one point, the common form of every `since`; what limits are counted from. */
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { Count, RuleSet } from "../rules/rule.ts";
import type { SpanReading } from "./reading.ts";
import type { Calendar, DayTotal } from "./spans.ts";
import type { Tally } from "./tally.ts";

/** Holds in [from, to): what is counted is what lies in [anchor, t) outside `excluded`, and `carried`. */
export interface CountingPeriod extends Interval {
  readonly anchor: Instant;
  /** Rests of a pair, which the elapsed time leaves out. In order. */
  readonly excluded: readonly Interval[];
  /** False where nothing in the record shows the rest that should come before. */
  readonly rested: boolean;
  /** Elapsed minutes allowed, where the kind of `since` decides it itself. */
  readonly allows: number | null;
  /** The clause that makes it so, where it is not the limit's own. */
  readonly clause?: string;
  /** Duty and driving minutes known only as totals from before the record. */
  readonly carried: { readonly duty: number; readonly driving: number };
}

/** What counting periods are made from. */
export interface CountingInput {
  readonly reading: SpanReading;
  readonly rules: RuleSet;
  readonly calendar: Calendar;
  readonly before: readonly DayTotal[];
  readonly start: Instant;
  readonly end: Instant;
}

/** No minutes from before a period. */
export const NO_CARRIED_HOURS = { duty: 0, driving: 0 } as const;

/** A counting period with nothing carried into it. */
export const plainPeriod = (from: Instant, to: Instant, rested: boolean): CountingPeriod => ({
  from,
  to,
  anchor: from,
  excluded: [],
  rested,
  allows: null,
  carried: NO_CARRIED_HOURS,
});

/** Where counting begins at the start of a record: behind the free time it begins with. */
export function firstWork({ reading, start }: CountingInput): Instant {
  const first = reading.rests[0];
  return first !== undefined && first.from === start ? first.to : start;
}

/** One period from each reset to the next; `ends` are the instants at which a reset is complete, in order. */
export function periodsBetween(input: CountingInput, ends: readonly Instant[]): CountingPeriod[] {
  const periods: CountingPeriod[] = [];
  let from = ends[0] === input.start ? input.start : firstWork(input);
  let rested = false;
  for (const end of ends) {
    if (end > from) periods.push(plainPeriod(from, end, rested));
    from = end;
    rested = true;
  }
  return [...periods, plainPeriod(from, instant(Math.max(from, input.end)), rested)];
}

/** The record's counts, read once for all limits. */
export interface MaxContext {
  readonly input: CountingInput;
  readonly counts: Readonly<Record<Count, Tally>>;
  /** Duty and driving: what a limit on work forbids; a meal on the clock is neither. */
  readonly work: Tally;
  /** Driving of vehicles the rules are for. */
  readonly commercial: Tally;
  /** The periods of the rules' own shift; empty where they know none. */
  readonly shifts: readonly CountingPeriod[];
  readonly knownUntil: Instant;
}
