/** What is the smallest way out of what is wrong with a day, and is it proved? Edits of the plan, each judged by all engines. */
import { candidatesFor } from "./candidates.ts";
import type { Repair } from "./choices.ts";
import type { JudgeEdits, RepairProblem, RepairProof } from "./outcome.ts";
import { search } from "./search.ts";

export type { Repair } from "./choices.ts";
export { repairable } from "./codes.ts";
export type { JudgeEdits, RepairProof } from "./outcome.ts";

/** Judgements at most, multiplied by `--patience`. */
const BUDGET = 200;
/** Work without a gain at most, multiplied by `--patience`. */
const CALM = 1_200_000;
const DEEPEST = 3;
/** Combinations that all engines judge, multiplied by `--patience`. */
const TOGETHER = 12;

/** The repairs found, best first, and how far the search went. */
export interface Repairs {
  /** Best first. */
  readonly repairs: readonly Repair[];
  readonly proof: RepairProof;
}

/** How many repairs are wanted, and how hard they are searched. */
export interface SearchRequest {
  /** Multiplies the counted budget. */
  readonly patience: number;
  /** Repairs that are wanted. */
  readonly most: number;
  /** Judgements so far, and the best found, which is not yet judged as `check` does. */
  progress?(judged: number, best: Repair | null): void;
}

/** Ways out of `problem.targets`, best first; none if nothing helps. */
export function repairsOf(
  problem: RepairProblem,
  judge: JudgeEdits,
  { patience, most, progress }: SearchRequest,
): Promise<Repairs> {
  const options = {
    budget: BUDGET * patience,
    calm: CALM * patience,
    deepest: DEEPEST,
    together: TOGETHER * patience,
    most,
    ...(progress === undefined ? {} : { progress }),
  };
  return search(problem.now, problem.targets, candidatesFor(problem), judge, options);
}
