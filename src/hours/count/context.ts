/** What limits of a record are counted from. */
import type { Instant } from "../../time/units.ts";
import type { Count } from "../rules/rule.ts";
import type { Epoch, EpochInput } from "./countingPeriods.ts";
import type { Tally } from "./tally.ts";

/** The record's counts, read once for all limits. */
export interface MaxContext {
  readonly input: EpochInput;
  readonly counts: Readonly<Record<Count, Tally>>;
  /** Duty and driving: what a limit on work forbids; a meal on the clock is neither. */
  readonly work: Tally;
  /** Driving of vehicles the rules are for. */
  readonly commercial: Tally;
  /** The epochs of the rules' own shift; empty where they know none. */
  readonly shifts: readonly Epoch[];
  readonly knownUntil: Instant;
}
