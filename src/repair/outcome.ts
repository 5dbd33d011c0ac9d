/** What a repair works with: a plan as it was judged, and how an edited copy of it is judged. */
import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { Edit } from "../plan/edit/request.ts";

/** A plan, judged by every engine. */
export interface JudgedPlan {
  readonly day: Day;
  /** Of the reading and of every engine, `accept` applied. */
  readonly findings: readonly Finding[];
}

/** Judges the plan with edits made; null where the edited text is no plan. */
export type JudgeEdits = (edits: readonly Edit[]) => Promise<JudgedPlan | null>;

/** What a list of candidates is made from. */
export interface RepairProblem {
  readonly now: JudgedPlan;
  /** The text of the day's own file. */
  readonly text: string;
  /** What is to be repaired, worst first. */
  readonly targets: readonly Finding[];
}

/** One step of a repair: edits that belong together, such as a task and its place in `do`. */
export interface Candidate {
  readonly edits: readonly Edit[];
}
