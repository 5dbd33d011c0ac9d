/** What every topic's `assess` takes and gives; the order in which topics are judged is in `src/index.ts`. */
import type { Day } from "../day/day.ts";
import type { Instant } from "../time/units.ts";
import type { Finding } from "./finding.ts";

/** What an engine judges, and how long it may search. */
export interface JudgeInput {
  /** The chain of days along `follows`, oldest first; the last is the one judged. Never empty. */
  readonly days: readonly Day[];
  /** Multiplies every counted budget of a search. */
  readonly patience: number;
  /** Freezes what is past; null where the whole day is judged. */
  readonly now: Instant | null;
  /** Leaves out what only explains a finding (how much is short, what would do) and what no finding reads. */
  readonly brief?: boolean;
}

/** An engine's result and its findings. */
export interface Judgement<Result> {
  readonly result: Result;
  readonly findings: readonly Finding[];
}
