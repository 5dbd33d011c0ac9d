/**
 * Solves a power model: coverage, then margin, then chores and moves, each with the word for how far it is proved. What comes
 * out has been replayed by the simulator, with the time that hands take.
 */
import { inPlanOrder } from "../fast/alike.ts";
import { type Coverage, coverAgain, coverInOrder } from "../fast/coverage.ts";
import { choreAllowance, choreRounds, coverRounds, type Effort, isPatient } from "../fast/effort.ts";
import { coverAll } from "../fast/fast.ts";
import { atBetterMoments, isLeast, withFewerChores } from "../fast/fewChores.ts";
import { onAllTouches, withFewTouches } from "../fast/fewTouches.ts";
import { leastAsks } from "../fast/leastAsks.ts";
import type { PackPath } from "../fast/packPath.ts";
import { randomFrom } from "../fast/random.ts";
import { marginOf } from "../fast/seats.ts";
import { withSparesCharged } from "../fast/spares.ts";
import { compareTolls, movesAt, placeIn, tollOf } from "../fast/toll.ts";
import { demandsInOrder, type Model, type PackMove, type Rotation, type TouchWork, workSpan } from "../model.ts";
import { askAfresh, type Case, caseOf, SAME_WH } from "../question.ts";
import { type Replay, replay } from "../replay.ts";
import { bestMargin, type Margin } from "./margin.ts";
import { proveMoves } from "./moves.ts";

/** How far a goal is proved: best for certain; best found; cannot all be covered, for certain. */
export type ProofWord = "exhausted" | "simulated" | "impossible";

/** How far each goal is proved. */
export interface RotationProof {
  readonly coverage: ProofWord;
  readonly margin: ProofWord;
  readonly moves: ProofWord;
  /** No rotation of this coverage leaves more; null where nothing is covered. */
  readonly marginBoundWh: number | null;
  /** No rotation within a grain of the best margin moves less; 0 where it was not asked. */
  readonly movesBound: number;
}

/** A rotation with its proof and its replay. */
export interface Solution {
  readonly model: Model;
  readonly rotation: Rotation;
  readonly replay: Replay;
  readonly proof: RotationProof;
  readonly moveCount: number;
  /** Of the moves, those that only charge packs which nothing asks for. */
  readonly spareMoves: number;
  readonly dropped: Coverage["dropped"];
}

const SEED = 8;
/** Fresh rotations from which chores are saved, besides the one that is there. */
const STARTS = 2;
/** Shares of the margin sought that a fresh rotation is asked for. */
const SHARES = [0.6, 0.3] as const;
/** How often the search learns how long its chores were, before a use is given up. */
const LESSONS = 4;
/** Labels of a search from which on it is not done once more for what it learns. */
const DEAR = 50_000;

/** Solves `model`. Rejects only for a bug: a rotation that its own replay refuses. */
export async function solve(model: Model, effort: Effort): Promise<Solution> {
  let asked = model;
  let found: Found | null = null;
  let isDear = false;
  for (let lesson = 1; ; lesson++) {
    const before = effort.left?.labels ?? 0;
    found = found !== null && isDear ? searchAgain(asked, found, effort) : await search(asked, effort);
    isDear ||= effort.brief !== true && before - (effort.left?.labels ?? 0) > DEAR;
    const rotation = rotationOf(found);
    const played = replay(model, rotation);
    if (played.faults.length === 0) return solutionOf(model, found, rotation, played, lesson === 1);
    if (found.coverage.covered.length === 0)
      throw new Error(`the rotation found does not stand its replay: ${played.faults.join("; ")}`);
    if (lesson > 2 * LESSONS) asked = { ...asked, demands: [] };
    else
      asked =
        lesson <= LESSONS
          ? taught(asked, rotation, isDear && lesson > 1)
          : without(asked, found, played, lesson > LESSONS + 1);
  }
}

interface Found {
  readonly one: Case;
  readonly coverage: Coverage;
  readonly margin: Margin;
  readonly paths: readonly PackPath[];
  readonly spareMoves: number;
  readonly movesBound: number;
}

async function search(model: Model, effort: Effort): Promise<Found> {
  const few = withFewTouches(model);
  const coverage = await coverInOrder(few, effort);
  if (effort.brief === true) return asCovered(coverage);
  const one = coverage.last;
  const margin = await bestMargin(one, coverage.paths, model.enoughWh, effort);
  const fewer = orKeepingMore(one, fewestChores(one, margin, effort), model.enoughWh, effort);
  const moves = isPatient(effort)
    ? await proveMoves(one, fewer, { margin, model, floorWh: floorFor(one, fewer) }, effort)
    : { paths: fewer, bound: 0 };
  return { ...finished(model, one, moves.paths, effort), coverage, margin, movesBound: moves.bound };
}

/** What a search found, with chores that are known to take longer: one that took long is not done anew, little is left for it. */
const searchAgain = (model: Model, { one, coverage, paths }: Found, effort: Effort): Found =>
  asCovered(coverAgain(model, { ...coverage, last: one, paths }, effort));

/** With the margin and the chores that it is covered with. */
function asCovered(coverage: Coverage): Found {
  const { last: one, paths } = coverage;
  const margin = { paths, foundWh: marginOf(paths), boundWh: one.ceilingWh };
  return { one, coverage, margin, paths, spareMoves: 0, movesBound: 0 };
}

/** The rotation of a day with few touches on all of them: at the best moments, spare packs charged. */
function finished(model: Model, { board, wanted }: Case, found: readonly PackPath[], effort: Effort) {
  const one = caseOf(model, wanted.demands);
  const spread = found.map((path) => onAllTouches(board, one.board, path));
  const marginWh = floorFor(one, spread);
  const rounds = choreRounds(effort, model);
  const allowance = choreAllowance(effort, wanted.demands.length, one.paths.desk);
  const query = {
    paths: one.paths,
    marginWh,
    random: randomFrom(SEED),
    rounds,
    allowance,
    least: { chores: 0, moves: 0 },
  };
  const placed = atBetterMoments(query, spread);
  if (effort.left !== undefined) effort.left.chores -= one.paths.desk.work;
  const paths = inPlanOrder(one.board, withSparesCharged(one, placed, floorFor(one, placed)));
  const count = (all: readonly PackPath[]): number => movesAt(one.board, all).reduce((sum, n) => sum + n, 0);
  return { one, paths, spareMoves: count(paths) - count(placed) };
}

/** A grain below what these paths leave, as far as it counts. */
const floorFor = ({ board, wanted }: Case, paths: readonly PackPath[]): number =>
  floorOf(tollOf(board, wanted, paths).marginWh, board.model);

const floorOf = (wh: number, { enoughWh, grainWh }: Model): number =>
  Math.max(0, Math.min(wh, enoughWh) - grainWh) - SAME_WH;

/** Goal 3: fewest chores, then moves, at this margin or at the best that the time of hands leaves. */
function fewestChores(one: Case, margin: Omit<Margin, "boundWh">, effort: Effort): readonly PackPath[] {
  const { board, wanted, paths } = one;
  const rounds = choreRounds(effort, board.model);
  const allowance = choreAllowance(effort, wanted.demands.length, paths.desk);
  const begun = paths.desk.work;
  const aim = floorOf(margin.foundWh, board.model);
  const least = leastAsks(board, wanted, aim);
  const fewer = (from: readonly PackPath[], floorWh: number, seed: number): readonly PackPath[] =>
    withFewerChores({ paths, marginWh: floorWh, random: randomFrom(seed), rounds, allowance, least }, from);
  const first = fewer(margin.paths, aim, SEED);
  const reached = tollOf(board, wanted, first).marginWh;
  const floor = reached >= aim ? aim : floorOf(reached, board.model);
  let best = reached >= aim ? first : fewer(first, floor, SEED);
  const isDone = (): boolean => allowance.isSpent() || isLeast(tollOf(board, wanted, best), { least, marginWh: floor });
  for (let start = 1; start <= STARTS && !isDone(); start++) {
    const random = randomFrom(SEED + start);
    const fresh = coverAll({ paths, marginWh: aim, random, rounds: coverRounds(effort) });
    if (fresh === null) continue;
    const other = fewer(fresh, floor, SEED + start);
    const toll = tollOf(board, wanted, other);
    if (toll.marginWh >= floor && compareTolls(toll, tollOf(board, wanted, best)) < 0) best = other;
  }
  if (effort.left !== undefined) effort.left.chores -= paths.desk.work - begun;
  return best;
}

/**
 * Where `paths` keep less than a grain, others from an empty start that keep more, if any are found: what was covered with little
 * to spare is seldom near what keeps much.
 */
function orKeepingMore(one: Case, paths: readonly PackPath[], enoughWh: number, effort: Effort): readonly PackPath[] {
  const { board, wanted } = one;
  const kept = (all: readonly PackPath[]): number => tollOf(board, wanted, all).marginWh;
  const target = Math.min(one.ceilingWh, enoughWh);
  const { grainWh } = board.model;
  const more = kept(paths) + grainWh;
  if (wanted.demands.length === 0 || kept(paths) >= grainWh) return paths;
  for (const share of SHARES) {
    if (share * target <= more) break;
    const fresh = askAfresh(one, share * target - SAME_WH, effort);
    if (fresh === null) continue;
    const other = fewestChores(one, { paths: fresh, foundWh: marginOf(fresh) }, effort);
    if (kept(other) > more) return other;
  }
  return paths;
}

/**
 * The same with as many moves counted on at each touch as its chore had; with as many as the longest had at `all` of them where
 * a search that takes long would otherwise learn of one after the other.
 */
function taught(model: Model, { moves }: Rotation, all: boolean): Model {
  const counts = model.touches.map((touch) => moves.filter((move) => move.touch === touch.id).length);
  const longest = all ? Math.max(0, ...counts) : 0;
  const touches = model.touches.map((touch, n) => {
    const count = Math.max(longest, counts[n] ?? 0);
    return count > (touch.moves ?? 1) ? { ...touch, moves: count } : touch;
  });
  return { ...model, touches };
}

/** The same without the last use that came out short, or without `all` that did: they are left undecided. */
function without(model: Model, { coverage }: Found, played: Replay, all: boolean): Model {
  const short = new Set(played.uses.filter((use) => use.marginWh < 0).map((use) => use.demand));
  const last = coverage.covered.findLast((demand) => short.has(demand.id)) ?? coverage.covered.at(-1);
  return { ...model, demands: model.demands.filter((one) => one !== last && !(all && short.has(one.id))) };
}

function solutionOf(model: Model, found: Found, rotation: Rotation, played: Replay, exact: boolean): Solution {
  const { coverage, margin, spareMoves, movesBound } = found;
  const dropped = droppedOf(model, coverage, exact);
  const needed = rotation.moves.length - spareMoves;
  const least = played.leastMarginWh ?? Number.POSITIVE_INFINITY;
  const { enoughWh, grainWh } = model;
  const reached = Math.min(least, enoughWh) >= Math.min(margin.boundWh, enoughWh) - grainWh;
  return {
    model,
    rotation,
    replay: played,
    proof: {
      coverage: dropped.length === 0 ? "exhausted" : dropped.every((one) => one.proved) ? "impossible" : "simulated",
      margin: reached ? "exhausted" : "simulated",
      moves: movesBound >= needed ? "exhausted" : "simulated",
      marginBoundWh: coverage.covered.length === 0 ? null : Math.max(margin.boundWh, played.leastMarginWh ?? 0),
      movesBound: Math.min(movesBound, needed),
    },
    moveCount: rotation.moves.length,
    spareMoves,
    dropped,
  };
}

/** With those that the search gave up because their chores took too long; nothing excludes them unless the search is `exact`. */
function droppedOf(model: Model, coverage: Coverage, exact: boolean): Coverage["dropped"] {
  const known = new Set([...coverage.covered, ...coverage.dropped.map((one) => one.demand)].map(({ id }) => id));
  const givenUp = demandsInOrder(model.demands).filter(({ id }) => !known.has(id));
  const dropped = coverage.dropped.map((one) => ({ ...one, proved: one.proved && exact }));
  return [...dropped, ...givenUp.map((demand) => ({ demand, before: coverage.covered, proved: false }))];
}

function rotationOf({ one, coverage, paths }: Found): Rotation {
  const { board } = one;
  const { model } = board;
  const id = (path: PackPath, k: number): string => board.places[placeIn(board, path, k)]?.id ?? "";
  const held = (place: string): number => (model.bays.includes(place) ? 0 : 1);
  const byTouch = model.touches.map((touch, n) =>
    paths
      .filter((path) => id(path, n) !== id(path, n + 1))
      .map(
        (path): PackMove => ({
          touch: touch.id,
          pack: model.packs[path.pack]?.id ?? "",
          from: id(path, n),
          to: id(path, n + 1),
        }),
      )
      .sort((a, b) => held(a.to) - held(b.to) || held(b.from) - held(a.from)),
  );
  return {
    covered: demandsInOrder(coverage.covered).map((demand) => demand.id),
    moves: byTouch.flat(),
    chores: byTouch.flatMap((moves, n): TouchWork[] => {
      const touch = model.touches[n];
      if (touch === undefined || moves.length === 0) return [];
      const work = workSpan(touch, moves.length * model.swapMinutes);
      return [{ touch: touch.id, begins: work.from, ends: work.to, who: [] }];
    }),
  };
}
