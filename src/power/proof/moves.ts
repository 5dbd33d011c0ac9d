/** How few moves would do: a bound by the solver's prices, and rotations that it leads to. Only where patience is asked for. */
import { firstAlike } from "../fast/alike.ts";
import { choreAllowance, choreRounds, diveSteps, type Effort, lpRounds, searchWork } from "../fast/effort.ts";
import { withFewerChores } from "../fast/fewChores.ts";
import { leastAsks } from "../fast/leastAsks.ts";
import type { PackPath } from "../fast/packPath.ts";
import { randomFrom } from "../fast/random.ts";
import { totalMoves } from "../fast/seats.ts";
import { compareTolls, tollOf } from "../fast/toll.ts";
import type { Model } from "../model.ts";
import { type Case, SAME_WH } from "../question.ts";
import { dive } from "./branching.ts";
import { solveMaster } from "./columnGeneration.ts";
import type { Margin } from "./margin.ts";
import { loadSolver } from "./solver.ts";

/** Paths with the fewest moves found, and the bound on any. */
export interface FewestMoves {
  readonly paths: readonly PackPath[];
  readonly bound: number;
}

/** What the search for fewer moves needs. */
export interface MovesQuery {
  readonly margin: Margin;
  readonly model: Model;
  /** The margin that `from` has and that has to stay, the time of hands counted. */
  readonly floorWh: number;
}

const SEED = 8;

/** Better paths than `from` where the solver leads to some, and the fewest moves that any rotation of this margin needs. */
export async function proveMoves(
  one: Case,
  from: readonly PackPath[],
  { margin, model, floorWh }: MovesQuery,
  effort: Effort,
): Promise<FewestMoves> {
  const { board, wanted, paths } = one;
  const tollFor = (all: readonly PackPath[]) => tollOf(board, wanted, all);
  if (tollFor(from).moves === 0) return { paths: from, bound: 0 };
  const openLp = await loadSolver();
  const fixed = board.model.packs.map(() => null);
  const left = searchWork(effort);
  const before = paths.desk.work;
  const budget = { rounds: lpRounds(effort) * 2, until: before + left.labels };
  const pool = [...one.pool, ...from];
  const keptWh = Math.max(0, Math.min(margin.foundWh, model.enoughWh) - model.grainWh) - SAME_WH;
  const marginWh = Math.min(keptWh, floorWh);
  const query = {
    paths,
    moveCost: 1,
    openLp,
    alike: firstAlike(board.model),
    fixed,
    pool,
    budget,
    enoughMoves: tollFor(from).moves,
    marginWh,
  } as const;
  const root = solveMaster(query);
  const random = randomFrom(SEED);
  const least = leastAsks(board, wanted, floorWh);
  let best = from;
  let fewerThan = tollFor(from).moves;
  while (fewerThan > root.movesBound) {
    const steps = { left: diveSteps(effort) };
    const found = dive({ ...query, enoughMoves: fewerThan, random, steps, fewerThan }, root);
    if (found === null) break;
    fewerThan = Math.min(fewerThan - 1, totalMoves(found));
    const allowance = choreAllowance(effort, wanted.demands.length, paths.desk);
    const begun = paths.desk.work;
    const saved = withFewerChores(
      { paths, marginWh: floorWh, random, rounds: choreRounds(effort, board.model), allowance, least },
      found,
    );
    budget.until += paths.desk.work - begun;
    const toll = tollFor(saved);
    if (toll.marginWh >= floorWh - SAME_WH && compareTolls(toll, tollFor(best)) < 0) best = saved;
  }
  left.labels -= paths.desk.work - before;
  return { paths: best, bound: root.movesBound };
}
