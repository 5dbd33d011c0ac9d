/** Goal 1: which demands are covered, in the order firm, other hits, standby, each by start, then id. */

import { type Demand, demandsInOrder, type Model } from "../model.ts";
import { ask, askExactly, askQuickly, type Case, type CoverVerdict, caseOf } from "../question.ts";
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

/**
 * The same uses once more where chores are known to take longer: the packs go the ways that they went on `last`, and those that
 * can no longer are put back. Where that does not cover all of them, the last ones are left out, twice as many each time.
 */
export function coverAgain(model: Model, { covered, dropped, last, paths }: Coverage, effort: Effort): Coverage {
  const { left: _, ...own } = effort;
  const { touches, bays } = last.board.model;
  const part = { ...model, touches: model.touches.filter(({ id }) => touches.some((one) => one.id === id)), bays };
  const all = covered.filter(({ id }) => model.demands.some((demand) => demand.id === id));
  for (let fewer = 0; ; fewer = Math.min(all.length, 2 * fewer + 1)) {
    const one = caseOf(part, all.slice(0, all.length - fewer));
    const from = part.packs.map((_, pack) => {
      const path = paths[pack];
      return path === undefined ? null : one.paths.again(path, 0);
    });
    const verdict = askQuickly(one, 0, own, { from });
    if (verdict.kind === "yes") return { covered: one.wanted.demands, dropped, last: one, paths: verdict.paths };
    if (fewer === all.length) return { covered: [], dropped, last: one, paths: [] };
  }
}

interface Split {
  /** How many of the list go together with those covered. */
  readonly taken: number;
  /** Whether the next one after them is proved not to. */
  readonly proved: boolean;
  readonly best: { readonly last: Case; readonly paths: readonly PackPath[] } | null;
}

/** Where a list stops going together with what is covered: a set that cannot be covered cannot with more. */
async function firstRefused(
  model: Model,
  covered: readonly Demand[],
  todo: readonly Demand[],
  effort: Effort,
): Promise<Split> {
  const border = new Border(model, covered, todo, effort);
  border.halve(todo.length);
  while (!border.isProved() && effort.quick !== true && (await border.goOn())) border.halve();
  return { taken: border.taken, proved: border.isProved(), best: border.best };
}

/** Between how many of a list are known to go together and how many are not. */
class Border {
  taken = 0;
  best: Split["best"] = null;
  /** So many are not known to go together. */
  private doubtful: number;
  /** So many are proved not to go together, or are more than there are. */
  private refused: number;
  /** Paths of all packs that were worth something in the questions so far. */
  private pool: readonly PackPath[] = [];
  private readonly model: Model;
  private readonly covered: readonly Demand[];
  private readonly todo: readonly Demand[];
  private readonly effort: Effort;

  constructor(model: Model, covered: readonly Demand[], todo: readonly Demand[], effort: Effort) {
    this.model = model;
    this.covered = covered;
    this.todo = todo;
    this.effort = effort;
    this.doubtful = this.refused = todo.length + 1;
  }

  isProved = (): boolean => this.refused === this.taken + 1;

  /** Halves what is not known, without the solver; `size` is asked about first. */
  halve(size = this.middle()): void {
    for (let next = size; this.doubtful - this.taken > 1; next = this.middle()) {
      if (isOver(this.effort)) this.doubtful = next;
      else {
        const last = this.caseOf(next);
        this.note(next, last, askQuickly(last, 0, this.effort));
      }
    }
  }

  /**
   * Asks the solver about one demand more than the fast way can do, and after each yes about twice as many more: the fewer
   * there are, the sooner it answers. False where it does not know about the first.
   */
  async goOn(): Promise<boolean> {
    for (let more = 1; !this.isProved(); more *= 2) {
      if (isOver(this.effort)) return false;
      const size = Math.min(this.taken + more, this.refused - 1);
      const last = this.caseOf(size);
      // Another start of the fast way costs a tenth of a question to the solver.
      const again = askQuickly(last, 0, this.effort, { start: 1 });
      const verdict = again.kind === "unknown" ? await askExactly(last, 0, this.effort) : again;
      this.note(size, last, verdict);
      if (verdict.kind !== "yes") return verdict.kind === "no" || size > this.taken + 1;
      this.doubtful = this.refused;
    }
    return false;
  }

  private note(size: number, last: Case, verdict: CoverVerdict): void {
    if (verdict.kind === "yes") {
      this.taken = size;
      this.best = { last, paths: verdict.paths };
    } else this.doubtful = size;
    if (verdict.kind === "no") this.refused = size;
    this.pool = last.pool;
  }

  private middle = (): number => Math.ceil((this.taken + this.doubtful) / 2);

  private caseOf(size: number): Case {
    const one = caseOf(this.model, [...this.covered, ...this.todo.slice(0, size)]);
    const { left } = this.effort;
    if (left !== undefined) left.labels -= CASE_WORK * one.board.spans * one.board.spots.length;
    one.pool.push(...this.pool.flatMap((path) => one.paths.again(path, 0) ?? []));
    return one;
  }
}

/** Laying out a question takes as long as so many labels for each interval of each spot. */
const CASE_WORK = 4;
/** Beyond its budget a search looks so much longer at what is left to ask, each question without a second try. */
const GRACE = 50_000;
const BRIEF_GRACE = 20_000;

/** Whether nothing more is asked: what is left to ask stays undecided. */
const isOver = ({ left, brief }: Effort): boolean =>
  left !== undefined && left.labels < -(brief === true ? BRIEF_GRACE : GRACE);
