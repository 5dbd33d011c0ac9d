/** One question to the search: can exactly these demands be covered together, with this margin? */

import { coverRounds, diveSteps, type Effort, lpRounds, type SearchWork, searchWork } from "./fast/effort.ts";
import { coverAll } from "./fast/fast.ts";
import type { PackPath } from "./fast/packPath.ts";
import { Paths } from "./fast/paths.ts";
import { randomFrom } from "./fast/random.ts";
import type { PlacedPacks } from "./fast/seats.ts";
import type { Demand, Model } from "./model.ts";
import { dive } from "./proof/branching.ts";
import { marginCeiling } from "./proof/ceiling.ts";
import { solveMaster } from "./proof/columnGeneration.ts";
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
/** Margins closer than this are the same. */
export const SAME_WH = 1e-7;

/** Prepares the demands of `demands` for questions. */
export function caseOf(model: Model, demands: readonly Demand[]): Case {
  const board = layBoard(model);
  const wanted = wantedOf(board, demands);
  return { board, wanted, paths: new Paths(board, wanted), ceilingWh: marginCeiling(board, wanted), pool: [] };
}

/** Answers without the solver: the ceiling says no, the fast rotation says yes, else unknown. `from` is a place to start at. */
export function askFast(
  one: Case,
  marginWh: number,
  rounds: number,
  { from = null, left }: { readonly from?: PlacedPacks | null; readonly left?: SearchWork | undefined } = {},
): CoverVerdict {
  if (one.ceilingWh < marginWh - SAME_WH) return { kind: "no" };
  const { desk } = one.paths;
  const before = desk.work;
  const until = before + (left?.labels ?? Number.POSITIVE_INFINITY);
  const paths = coverAll({ paths: one.paths, marginWh, random: randomFrom(SEED), rounds, until }, from);
  if (left !== undefined) left.labels -= desk.work - before;
  if (paths === null) return { kind: "unknown" };
  one.pool.push(...paths);
  return { kind: "yes", paths };
}

/** Answers with the solver; `unknown` only where the counted budget runs out or fractions alone would do. */
export async function askExactly(one: Case, marginWh: number, effort: Effort): Promise<CoverVerdict> {
  const openLp = await loadSolver();
  const fixed = one.board.model.packs.map(() => null);
  const budget = { rounds: lpRounds(effort), work: searchWork(effort) };
  const query = {
    paths: one.paths,
    marginWh,
    moveCost: 0,
    openLp,
    fixed,
    pool: one.pool,
    budget,
    enoughMoves: 0,
  } as const;
  const root = solveMaster(query);
  if (root.kind === "impossible") return { kind: "no" };
  const random = randomFrom(SEED);
  const steps = { left: diveSteps(effort) };
  const paths = dive({ ...query, random, steps, fewerThan: Number.POSITIVE_INFINITY }, root);
  return paths === null ? { kind: "unknown" } : { kind: "yes", paths };
}

/** Answers as cheaply as it can, loading the solver only where the fast way does not know. */
export async function ask(one: Case, marginWh: number, effort: Effort): Promise<CoverVerdict> {
  const quick = askFast(one, marginWh, coverRounds(effort), { left: effort.left });
  return quick.kind === "unknown" && effort.quick !== true ? askExactly(one, marginWh, effort) : quick;
}
