/**
 * Solves a power model: coverage, then margin, then moves, each with the word for how far it is proved. What comes out
 * has been replayed by the simulator.
 */
import { type Coverage, coverInOrder } from "../fast/coverage.ts";
import { coverRounds, diveSteps, type Effort, lpRounds, quickRounds, saveRounds } from "../fast/effort.ts";
import { coverAll, withFewerMoves } from "../fast/fast.ts";
import type { PackPath } from "../fast/paths.ts";
import { randomFrom } from "../fast/random.ts";
import { marginOf, movesOf } from "../fast/seats.ts";
import { inOrder, type Model, type PackMove, type Rotation } from "../model.ts";
import { askExactly, askFast, type Case, SAME_WH } from "../question.ts";
import { type Replay, replay } from "../replay.ts";
import { dive } from "./branching.ts";
import { solveMaster } from "./columnGeneration.ts";
import { loadSolver } from "./solver.ts";

/** How far a goal is proved: best for certain; best found; cannot all be covered, for certain. */
export type ProofWord = "exhausted" | "simulated" | "impossible";

export interface Proof {
  readonly coverage: ProofWord;
  readonly margin: ProofWord;
  readonly moves: ProofWord;
  /** No rotation of this coverage leaves more; null where nothing is covered. */
  readonly marginBoundWh: number | null;
  /** No rotation within a grain of the best margin moves less. */
  readonly movesBound: number;
}

export interface Solution {
  readonly model: Model;
  readonly rotation: Rotation;
  readonly replay: Replay;
  readonly proof: Proof;
  readonly moveCount: number;
  readonly dropped: Coverage["dropped"];
}

/** A margin this close to its bound is the best. */
const CLOSE_WH = 0.002;
const SEED = 46_8090;
/** Fresh rotations from which moves are saved, beside the one that is there. */
const STARTS = 2;

/** Solves `model`. Rejects only for a bug: a rotation that its own replay refuses. */
export async function solve(model: Model, effort: Effort): Promise<Solution> {
  const coverage = await coverInOrder(model, effort);
  const one = coverage.last;
  const margin =
    effort.goals === "cover"
      ? asFound(one, coverage.paths)
      : await bestMargin(one, coverage.paths, model.enoughWh, effort);
  const moves =
    effort.goals === "cover"
      ? { paths: margin.paths, bound: 0 }
      : await fewestMoves(one, margin.paths, floorsOf(margin, model), effort);
  const rotation = rotationOf(one, coverage, moves.paths);
  const played = replay(model, rotation);
  if (played.faults.length > 0)
    throw new Error(`the rotation found does not stand its replay: ${played.faults.join("; ")}`);
  const reached = isReached(margin, model);
  const proof: Proof = {
    coverage:
      coverage.dropped.length === 0
        ? "exhausted"
        : coverage.dropped.every((one) => one.proved)
          ? "impossible"
          : "simulated",
    margin: reached ? "exhausted" : "simulated",
    moves: moves.bound >= rotation.moves.length ? "exhausted" : "simulated",
    marginBoundWh: coverage.covered.length === 0 ? null : Math.max(margin.boundWh, played.leastMarginWh ?? 0),
    movesBound: Math.min(moves.bound, rotation.moves.length),
  };
  return { model, rotation, replay: played, proof, moveCount: rotation.moves.length, dropped: coverage.dropped };
}

/** Margins that the moves must keep: what is asked of the rotation, and the least that the best margin could allow. */
interface Floors {
  readonly kept: number;
  readonly least: number;
}

const isReached = ({ foundWh, boundWh }: Margin, { enoughWh, grainWh }: Model): boolean =>
  Math.min(foundWh, enoughWh) >= Math.min(boundWh, enoughWh) - grainWh;

/** Within a grain of the best, which lies between what was found and its bound. */
function floorsOf(margin: Margin, model: Model): Floors {
  const floor = (wh: number): number => Math.max(0, Math.min(wh, model.enoughWh) - model.grainWh) - SAME_WH;
  const least = floor(margin.foundWh);
  return { kept: isReached(margin, model) ? Math.min(floor(margin.boundWh), margin.foundWh) : least, least };
}

interface Margin {
  readonly paths: readonly PackPath[];
  readonly foundWh: number;
  readonly boundWh: number;
}

/** The margin that covering left, nothing sought beyond it. */
const asFound = (one: Case, paths: readonly PackPath[]): Margin => ({
  paths,
  foundWh: marginOf(paths),
  boundWh: one.ceilingWh,
});

/** Goal 2: raises the threshold; where the fast way stops, the exact one decides, if it is asked to. */
async function bestMargin(one: Case, from: readonly PackPath[], enoughWh: number, effort: Effort): Promise<Margin> {
  const target = Math.min(one.ceilingWh, enoughWh);
  if (one.wanted.demands.length === 0 || marginOf(from) >= target - SAME_WH)
    return { paths: from, foundWh: marginOf(from), boundWh: one.ceilingWh };
  const quick = askFast(one, target - SAME_WH, effort);
  if (quick.kind === "yes") return { paths: quick.paths, foundWh: marginOf(quick.paths), boundWh: one.ceilingWh };
  const half = bisectFast(one, from, target, effort);
  return bisectExactly(one, half, target, effort);
}

function bisectFast(one: Case, from: readonly PackPath[], target: number, effort: Effort): readonly PackPath[] {
  let best = from;
  let high = target;
  for (let n = 0; n < 4 && high - marginOf(best) > 0.5; n++) {
    const middle = (marginOf(best) + high) / 2;
    const verdict = askFast(one, middle, effort);
    if (verdict.kind === "yes") best = verdict.paths;
    else high = middle;
  }
  return best;
}

async function bisectExactly(one: Case, from: readonly PackPath[], target: number, effort: Effort): Promise<Margin> {
  let best = from;
  let bound = target;
  let high = target;
  let middle = target;
  for (let n = 0; n < 30 && high - marginOf(best) > CLOSE_WH; n++) {
    const verdict = await askExactly(one, middle - SAME_WH, effort);
    if (verdict.kind === "yes") best = verdict.paths;
    else high = middle;
    if (verdict.kind === "no") bound = Math.min(bound, middle);
    const low = marginOf(best);
    // After a find, the next question is whether that already is the best; after a no, the middle of what is left.
    middle = verdict.kind === "yes" ? Math.min(high, low + CLOSE_WH) : (low + high) / 2;
  }
  const reached = marginOf(best) >= target - SAME_WH;
  return { paths: best, foundWh: marginOf(best), boundWh: reached ? one.ceilingWh : Math.min(one.ceilingWh, bound) };
}

/** Goal 3: fewest moves at this margin. */
async function fewestMoves(one: Case, from: readonly PackPath[], floors: Floors, effort: Effort): Promise<FewestMoves> {
  const marginWh = floors.kept;
  const save = (paths: readonly PackPath[], seed: number, rounds: number): readonly PackPath[] =>
    withFewerMoves({ paths: one.paths, marginWh, random: randomFrom(seed), rounds }, paths);
  let best = save(from, SEED, quickRounds(effort));
  for (let start = 1; start <= STARTS && movesOf(best) > 0; start++) {
    const random = randomFrom(SEED + start);
    const fresh = coverAll({ paths: one.paths, marginWh, random, rounds: coverRounds(effort) });
    for (const seed of [best, ...(fresh === null ? [] : [fresh])]) {
      const saved = save(seed, SEED + start, saveRounds(effort));
      if (movesOf(saved) < movesOf(best)) best = saved;
    }
  }
  if (movesOf(best) === 0) return { paths: best, bound: 0 };
  return proveMoves(one, best, floors, effort);
}

interface FewestMoves {
  readonly paths: readonly PackPath[];
  readonly bound: number;
}

async function proveMoves(one: Case, from: readonly PackPath[], floors: Floors, effort: Effort): Promise<FewestMoves> {
  const openLp = await loadSolver();
  const fixed = one.board.model.packs.map(() => null);
  const budget = { rounds: lpRounds(effort) * 2 };
  const pool = [...one.pool, ...from];
  const query = { paths: one.paths, moveCost: 1, openLp, fixed, pool, budget, enoughMoves: movesOf(from) } as const;
  const bounding = solveMaster({ ...query, marginWh: floors.least });
  const marginWh = floors.kept;
  const random = randomFrom(SEED);
  let best: readonly PackPath[] = from;
  const root =
    floors.kept === floors.least || movesOf(best) <= bounding.movesBound
      ? bounding
      : solveMaster({ ...query, marginWh });
  while (movesOf(best) > root.movesBound) {
    const steps = { left: diveSteps(effort) };
    const found = dive(
      { ...query, marginWh, enoughMoves: movesOf(best), random, steps, fewerThan: movesOf(best) },
      root,
    );
    if (found === null) break;
    best = withFewerMoves({ paths: one.paths, marginWh, random, rounds: saveRounds(effort) }, found);
  }
  return { paths: best, bound: bounding.movesBound };
}

function rotationOf(one: Case, coverage: Coverage, paths: readonly PackPath[]): Rotation {
  const { board } = one;
  const moves: PackMove[] = [];
  const place = (path: PackPath, k: number): string =>
    board.places[board.spots[path.spots[k] ?? 0]?.place ?? 0]?.id ?? "";
  board.model.touches.forEach((touch, n) => {
    for (const path of paths) {
      const [from, to] = [place(path, n), place(path, n + 1)];
      if (from !== to) moves.push({ touch: touch.id, pack: board.model.packs[path.pack]?.id ?? "", from, to });
    }
  });
  return { covered: inOrder(coverage.covered).map((demand) => demand.id), moves };
}
