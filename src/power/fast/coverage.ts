/** Goal 1: which demands are covered, in the order firm, other hits, standby, each by start, then id. */

import { type Demand, demandsInOrder, type Model } from "../model.ts";
import { ask, type Case, caseOf } from "../question.ts";
import type { Effort } from "./effort.ts";
import type { PackPath } from "./packPath.ts";

/** What a rotation can power, and what it drops. */
export interface Coverage {
  /** In the order of the goal. */
  readonly covered: readonly Demand[];
  /** In the order of the goal; `proved` where it cannot go together with those covered before it. */
  readonly dropped: readonly {
    readonly demand: Demand;
    readonly before: readonly Demand[];
    readonly proved: boolean;
  }[];
  readonly last: Case;
  readonly paths: readonly PackPath[];
}

/** Takes one demand after the other where it can go together with all before it; asks for many at once. */
export async function coverInOrder(model: Model, effort: Effort): Promise<Coverage> {
  let covered: readonly Demand[] = [];
  let todo: readonly Demand[] = demandsInOrder(model.demands);
  let best: { readonly last: Case; readonly paths: readonly PackPath[] } | null = null;
  const dropped: { demand: Demand; before: readonly Demand[]; proved: boolean }[] = [];
  for (;;) {
    const split = await firstRefused(model, covered, todo, effort);
    covered = [...covered, ...todo.slice(0, split.taken)];
    if (split.best !== null) best = split.best;
    const refused = todo[split.taken];
    if (refused === undefined) break;
    dropped.push({ demand: refused, before: covered, proved: split.proved });
    todo = todo.slice(split.taken + 1);
  }
  if (best === null) {
    const last = caseOf(model, []);
    const verdict = await ask(last, 0, effort);
    best = { last, paths: verdict.kind === "yes" ? verdict.paths : [] };
  }
  return { covered, dropped, ...best };
}

interface Split {
  /** How many of the list go together with those covered. */
  readonly taken: number;
  /** Whether the next one after them is proved not to. */
  readonly proved: boolean;
  readonly best: { readonly last: Case; readonly paths: readonly PackPath[] } | null;
}

/** Halves the list until it is known where it stops going together: a set that cannot be covered cannot with more. */
async function firstRefused(
  model: Model,
  covered: readonly Demand[],
  todo: readonly Demand[],
  effort: Effort,
): Promise<Split> {
  let low = 0;
  let high = todo.length + 1;
  let proved = false;
  let best: Split["best"] = null;
  while (high - low > 1) {
    const size = high > todo.length ? todo.length : Math.ceil((low + high) / 2);
    if (isOver(effort)) {
      high = size;
      proved = false;
      continue;
    }
    const last = caseOf(model, [...covered, ...todo.slice(0, size)]);
    if (effort.left !== undefined) effort.left.labels -= CASE_WORK * last.board.spans * last.board.spots.length;
    const verdict = await ask(last, 0, effort);
    if (verdict.kind === "yes") {
      low = size;
      best = { last, paths: verdict.paths };
    } else {
      high = size;
      proved = verdict.kind === "no";
    }
  }
  return { taken: low, proved, best };
}

/** Laying out a question takes as long as so many labels for each interval of each spot. */
const CASE_WORK = 4;
/** Beyond its budget a search looks so much longer at what is left to ask, each question without a second try. */
const GRACE = 50_000;

/** Whether nothing more is asked: what is left to ask stays undecided. */
const isOver = ({ left }: Effort): boolean => left !== undefined && left.labels < -GRACE;
