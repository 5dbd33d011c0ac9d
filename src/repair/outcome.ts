/** What a repair works with: a plan as it was judged, and how an edited copy of it is judged. */
import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { Edit } from "../plan/edit/splice.ts";
import type { Engine } from "./codes.ts";

/** A plan, judged by every engine. */
export interface JudgedPlan {
  readonly day: Day;
  /** Of the reading and of every engine, `accept` applied. */
  readonly findings: readonly Finding[];
}

/** How far an edited plan is judged; nothing stated: as `check` does. */
export interface Scope {
  /** With the first rotation of packs that covers, and without explanations. */
  readonly brief?: boolean;
  /** These engines alone; all by default. */
  readonly topics?: readonly Engine[];
  /** False: without the chores of packs where `topics` does not ask for them. */
  readonly chores?: boolean;
}

/** Judges the plan with edits made; null if the edited text is no plan. */
export type JudgeEdits = (edits: readonly Edit[], scope?: Scope) => Promise<JudgedPlan | null>;

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
  /** Where the only edit is a length: what it was and is. */
  readonly length?: ShorterLength;
}

/** A length in minutes and the shorter one in its place. */
export interface ShorterLength {
  readonly was: number;
  readonly minutes: number;
}

/** A step, and the codes against which its kind may help. */
export interface AimedCandidate extends Candidate {
  readonly codes: readonly string[];
}

/** How many candidates there were, how many were judged, and to which depth all of them. */
export interface RepairProof {
  readonly candidates: number;
  readonly judged: number;
  /** How many steps deep every combination was judged, single steps at least by the engines concerned; 0 if the budget ended before. */
  readonly completeTo: number;
  /** What no version that was judged clears: no repair that was found can do better. */
  readonly never: readonly Finding[];
  /** Where no repair was found: what clears most and breaks no law, but brings an error of the house; null where nothing does. */
  readonly nearest: NearestWay | null;
}

/** Edits that are no repair, and the errors that they bring. */
export interface NearestWay {
  readonly edits: readonly Edit[];
  readonly brings: readonly Finding[];
}
