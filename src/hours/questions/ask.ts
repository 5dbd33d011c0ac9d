/** What asks an open question of a rule set, and what it gives. */
import type { PlanPath } from "../../findings/finding.ts";
import type { Instant, Interval } from "../../time/units.ts";
import type { LogSpan } from "../count/spans.ts";
import type { PersonHours } from "../judge/person.ts";
import type { RuleSet } from "../rules/rule.ts";

/** The record of one person, and what its places and clocks are. */
export interface AskContext {
  readonly hours: Pick<PersonHours, "id" | "bindings" | "verdicts" | "disputed">;
  readonly spans: readonly LogSpan[];
  /** What ended before it was reported on an earlier day. */
  readonly from: Instant;
  readonly path: PlanPath;
  /** Minutes by which the home terminal's clock is ahead of UTC. */
  offset(at: Instant): number;
  /** Whether someone who is free in this span may yet be bound to the spot: at a venue, not at a bed. */
  atVenue(span: LogSpan): boolean;
  /** The labour law that is named for the person. */
  readonly labour: readonly RuleSet[];
}

/** A question, with the stretch of time that raises it where there is one. */
export interface OpenQuestion {
  readonly rules: RuleSet;
  readonly question: string;
  readonly during: Interval | null;
}

/** Gives the questions that a record raises under a rule set. */
export type Ask = (context: AskContext, rules: RuleSet) => readonly OpenQuestion[];
