/** One question to the search: can exactly these demands be covered together, with this margin? */

import { firstAlike } from "./fast/alike.ts";
import {
  coverRounds,
  diveSteps,
  type Effort,
  fastShare,
  fastWork,
  freshRounds,
  freshWork,
  lpRounds,
  searchWork,
  solverWork,
} from "./fast/effort.ts";
import { coverAll } from "./fast/fast.ts";
import type { PackPath } from "./fast/packPath.ts";
import { Paths } from "./fast/paths.ts";
import { randomFrom } from "./fast/random.ts";
import type { PlacedPacks } from "./fast/seats.ts";
import type { Demand, Model } from "./model.ts";
import { dive } from "./proof/branching.ts";
import { marginCeiling } from "./proof/ceiling.ts";
import { solveMaster } from "./proof/columnGeneration.ts";
import { lacksEnergy } from "./proof/energy.ts";
import { type Board, layBoard, type Wanted, wantedOf } from "./proof/searchState.ts";
import { loadSolver } from "./proof/solver.ts";

/** Whether demands can be powered together. */
export type CoverVerdict =
  | { readonly kind: "yes"; readonly paths: readonly PackPath[] }
  /** Proved by our own bound. */
  | { readonly kind: "no" }
  | { readonly kind: "unknown" };

/** A set of demands on a board, ready to be asked about; keeps the paths that were worth something. */
export interface Case {
  readonly board: Board;
  readonly wanted: Wanted;
  readonly paths: Paths;
  readonly ceilingWh: number;
  readonly pool: PackPath[];
}

/** The seed that settles what is equal. */
const SEED = 20_270_120;
/** Work that came to nothing counts so many times: where the solver does not know, it seldom does the next time. */
const IN_VAIN = 2;
/** Margins closer than this are the same. */
export const SAME_WH = 1e-7;

/** Boards by model: one search asks about many sets of demands of one model. */
const boards = new WeakMap<Model, Board>();

/** Prepares the demands of `demands` for questions. */
export function caseOf(model: Model, demands: readonly Demand[]): Case {
  const board = boards.get(model) ?? layBoard(model);
  boards.set(model, board);
  const wanted = wantedOf(board, demands);
  return { board, wanted, paths: new Paths(board, wanted), ceilingWh: marginCeiling(board, wanted), pool: [] };
}

interface FastStart {
  readonly from?: PlacedPacks | null;
  readonly most?: number;
  /** Settles what is equal. */
  readonly seed?: number;
}

/**
 * Answers without the solver: the ceiling and the sum of energy say no, the fast rotation says yes, else unknown. `from` is a
 * place to start at, `most` the labels after which no further round begins.
 */
export function askFast(
  one: Case,
  marginWh: number,
  rounds: number,
  { from = null, most, seed = SEED }: FastStart = {},
): CoverVerdict {
  const { board, wanted, paths } = one;
  if (one.ceilingWh < marginWh - SAME_WH || lacksEnergy(board, wanted, marginWh - SAME_WH)) return { kind: "no" };
  const until = paths.desk.work + (most ?? Number.POSITIVE_INFINITY);
  const found = coverAll({ paths, marginWh, random: randomFrom(seed), rounds, until }, from);
  if (found === null) return { kind: "unknown" };
  one.pool.push(...found);
  return { kind: "yes", paths: found };
}

/** Answers with the solver; `unknown` only where the counted budget runs out or fractions alone would do. */
export async function askExactly(one: Case, marginWh: number, effort: Effort): Promise<CoverVerdict> {
  const { paths, pool } = one;
  const { desk } = paths;
  const left = searchWork(effort);
  const kept = fastShare(effort);
  if (left.labels <= kept) return { kind: "unknown" };
  const openLp = await loadSolver();
  const fixed = one.board.model.packs.map(() => null);
  const before = desk.work;
  const budget = { rounds: lpRounds(effort), until: before + solverWork({ labels: left.labels - kept }) };
  const alike = firstAlike(one.board.model);
  const query = { paths, marginWh, moveCost: 0, openLp, alike, fixed, pool, budget, enoughMoves: 0 } as const;
  const root = solveMaster(query);
  const random = randomFrom(SEED);
  const steps = { left: diveSteps(effort) };
  const found = dive({ ...query, random, steps, fewerThan: Number.POSITIVE_INFINITY }, root);
  const isKnown = root.kind === "impossible" || found !== null;
  left.labels = Math.max(kept, left.labels - (desk.work - before) * (isKnown ? 1 : IN_VAIN));
  if (root.kind === "impossible") return { kind: "no" };
  return found === null ? { kind: "unknown" } : { kind: "yes", paths: found };
}

/** Answers without the solver, within what its search may still take. */
export function askQuickly(
  one: Case,
  marginWh: number,
  effort: Effort,
  { from = null, start = 0 }: { readonly from?: PlacedPacks | null; readonly start?: number } = {},
): CoverVerdict {
  const { board, paths } = one;
  const before = paths.desk.work;
  const size = board.spans * board.spots.length;
  const most = Math.min(fastWork(effort, size), effort.left?.labels ?? Number.POSITIVE_INFINITY);
  const verdict = askFast(one, marginWh, coverRounds(effort), { from, most, seed: SEED + 3 * start });
  if (effort.left !== undefined) effort.left.labels -= paths.desk.work - before;
  return verdict;
}

/** Paths with this margin from an empty start, sought for longer than one question is; or null. */
export function askAfresh(one: Case, marginWh: number, effort: Effort): readonly PackPath[] | null {
  const { board, paths } = one;
  const before = paths.desk.work;
  const most = Math.min(
    freshWork(effort, board.spans * board.spots.length),
    effort.left?.labels ?? Number.POSITIVE_INFINITY,
  );
  const verdict = askFast(one, marginWh, freshRounds(effort), { most });
  if (effort.left !== undefined) effort.left.labels -= paths.desk.work - before;
  return verdict.kind === "yes" ? verdict.paths : null;
}

/** Answers as cheaply as it can, loading the solver only where the fast way does not know. */
export async function ask(one: Case, marginWh: number, effort: Effort): Promise<CoverVerdict> {
  const quick = askQuickly(one, marginWh, effort);
  return quick.kind === "unknown" && effort.quick !== true ? askExactly(one, marginWh, effort) : quick;
}
