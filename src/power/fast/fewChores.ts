/**
 * Fewer chores for the same uses: takes touches away and lets the packs find other ways, on the touches that are left or on one
 * more, moves chores to better moments and onto one another. Searched, not proved; never worse than what it starts from.
 */
import type { Model } from "../model.ts";
import { marginCeiling } from "../proof/ceiling.ts";
import { type Board, layBoard, wantedOf } from "../proof/searchState.ts";
import type { Allowance } from "./effort.ts";
import { coverAll, withFewerMoves } from "./fast.ts";
import type { LeastAsks } from "./leastAsks.ts";
import type { PackPath } from "./packPath.ts";
import { Paths } from "./paths.ts";
import type { Random } from "./random.ts";
import { lacking, pathsFit } from "./seats.ts";
import { compareTolls, movesAt, placeIn, type Toll, tollOf, tollWithin } from "./toll.ts";

/** What the search for fewer chores needs. */
export interface ChoreQuery {
  readonly paths: Paths;
  /** The margin that has to stay, the time of hands counted. */
  readonly marginWh: number;
  readonly random: Random;
  /** Times that packs are taken out and put back, for each touch that is tried without. */
  readonly rounds: number;
  /** Once it is spent, nothing more is tried. */
  readonly allowance: Allowance;
  /** Nothing asks for less: what does as little is not sought to be made less. */
  readonly least: LeastAsks;
}

/** Rounding allowed where margins are compared. */
const EPSILON_WH = 1e-7;
/** As long as a margin is not held, a gain smaller than this is none. */
const LIFT_WH = 0.01;

/** Paths with fewer chores, then moves, then at better moments; with the margin where `from` has it. */
export function withFewerChores(query: ChoreQuery, from: readonly PackPath[]): readonly PackPath[] {
  const search = new Search(query, from);
  search.improve();
  return search.best;
}

/** The same chores at better moments, whole or in part; with the margin where `from` has it. */
export function atBetterMoments(query: ChoreQuery, from: readonly PackPath[]): readonly PackPath[] {
  const search = new Search(query, from);
  search.shiftChores();
  return search.best;
}

class Search {
  best: readonly PackPath[];
  private toll: Toll;
  private readonly query: ChoreQuery;
  private readonly board: Board;
  private readonly failures = new Failures();
  /** Intervals of all days with a chore moved that were looked at. */
  private shifts = 0;

  constructor(query: ChoreQuery, from: readonly PackPath[]) {
    this.query = query;
    this.board = query.paths.board;
    this.best = from;
    this.toll = tollOf(this.board, query.paths.wanted, from);
  }

  improve(): void {
    const { query } = this;
    const { until } = query.allowance;
    this.take(withFewerMoves({ ...query, rounds: this.isLeast() ? 0 : query.rounds, until }, this.best));
    for (let pass = 0; pass < PASSES; pass++) {
      const before = this.toll;
      this.shiftChores();
      this.dropTouches();
      if (compareTolls(this.toll, before) >= 0 && !this.exchangeTouch()) break;
    }
    this.shiftChores();
  }

  /** Keeps `paths` where they are better and hold the margin; as long as it is not held, where they leave more. */
  private take(paths: readonly PackPath[]): boolean {
    const toll = this.tollIfBetter(paths);
    if (toll === null) return false;
    this.keep(paths, toll);
    return true;
  }

  private keep(paths: readonly PackPath[], toll: Toll): void {
    const { chores, moves } = this.toll;
    if (toll.chores < chores || (toll.chores === chores && toll.moves < moves)) this.query.allowance.gain();
    this.best = paths;
    this.toll = toll;
  }

  private tollIfBetter(paths: readonly PackPath[]): Toll | null {
    const { wanted } = this.query.paths;
    const floor = this.query.marginWh - EPSILON_WH;
    if (this.toll.marginWh < floor) {
      const toll = tollOf(this.board, wanted, paths);
      return toll.marginWh > this.toll.marginWh + LIFT_WH ? toll : null;
    }
    const toll = tollWithin(this.board, wanted, paths, this.toll);
    return toll !== null && toll.marginWh >= floor && compareTolls(toll, this.toll) < 0 ? toll : null;
  }

  /** Tries the day without each touch in use, the least used first, on the touches that are left. */
  private dropTouches(): void {
    const tried = new Set<number>();
    for (;;) {
      const used = usedTouches(this.board, this.best);
      const next = used.find((k) => !tried.has(k));
      if (next === undefined || this.isSpent()) return;
      tried.add(next);
      const given = this.board.model.touches.flatMap(({ reach }, n) => (reach.length === 0 ? [n + 1] : []));
      const left = [...used.filter((k) => k !== next), ...given].sort((a, b) => a - b);
      const found = this.coverOn(left, next);
      if (found !== null && this.take(found)) tried.clear();
    }
  }

  private isSpent(): boolean {
    return this.query.allowance.isSpent() || this.isLeast();
  }

  private isLeast(): boolean {
    return isLeast(this.toll, this.query);
  }

  /** Tries the day without each touch in use, the least used first, on all others, where one more costs as much as a chore. */
  private exchangeTouch(): boolean {
    const { board, query } = this;
    for (const banned of usedTouches(board, this.best)) {
      if (this.isSpent()) return false;
      const start = this.best.map((path) => (movesBefore(board, path, banned) ? null : path));
      const without = { ...query, banned, sparing: true };
      const found = coverAll(without, start);
      if (found !== null && this.take(withFewerMoves(without, found))) return true;
    }
    return false;
  }

  /** Covers everything with these touches only; the paths that do not move at `without` are the start. */
  private coverOn(touches: readonly number[], without: number): readonly PackPath[] | null {
    const { board, query } = this;
    const { paths, random, rounds, marginWh } = query;
    if (this.failures.has(touches)) return null;
    const part = partOf(board.model, touches);
    const sub = layBoard(part);
    const wanted = wantedOf(sub, paths.wanted.demands);
    const firsts = [0, ...touches];
    const start = this.best.map((path) =>
      movesBefore(board, path, without) ? null : { ...path, spots: Int16Array.from(firsts, (k) => path.spots[k] ?? 0) },
    );
    const subPaths = new Paths(sub, wanted, paths.desk);
    const isHopeless = marginCeiling(sub, wanted) < marginWh - EPSILON_WH;
    const found = isHopeless ? null : coverAll({ paths: subPaths, marginWh, random, rounds }, start);
    if (found === null) {
      this.failures.add(touches);
      return null;
    }
    const fewer = withFewerMoves({ paths: subPaths, marginWh, random, rounds: 0 }, found);
    return fewer.map((path) => ({ ...path, spots: spread(path.spots, firsts, board.spans) }));
  }

  /** Moves chores, whole or one pack of them, to other touches where that is better. */
  shiftChores(): void {
    for (let again = true; again; ) {
      again = false;
      for (let k = 1; k < this.board.spans && this.shifts < MOST_SHIFTS; k++) {
        const movers = this.best.filter((path) => movesBefore(this.board, path, k));
        if (movers.length === 0) continue;
        const groups = movers.length === 1 ? [movers] : [movers, ...movers.map((path) => [path])];
        if (
          groups.some((group) =>
            this.shift(
              group.map(({ pack }) => pack),
              k,
            ),
          )
        )
          again = true;
      }
    }
  }

  private shift(packs: readonly number[], k: number): boolean {
    const moving = this.best.filter((path) => packs.includes(path.pack));
    const [low, high] = this.roomAround(moving, k);
    const places = [...new Set(moving.flatMap((path) => [k - 1, k].map((n) => placeIn(this.board, path, n))))];
    let found = false;
    for (let to = low; to <= high; to++) {
      if (to === k || !places.every((place) => this.canTouch(place, to))) continue;
      this.shifts += this.board.spans;
      if (this.shifts >= MOST_SHIFTS) break;
      const paths = this.best.map((path) => (packs.includes(path.pack) ? this.moved(path, k, to) : path));
      const toll = this.tollIfBetter(paths);
      if (toll === null || !this.holds(paths)) continue;
      this.keep(paths, toll);
      found = true;
      break;
    }
    return found;
  }

  /** Between the moves of these packs before and after. */
  private roomAround(moving: readonly PackPath[], k: number): readonly [number, number] {
    const { board } = this;
    let low = k;
    while (low > 1 && moving.every((path) => !movesBefore(board, path, low - 1))) low--;
    let high = k;
    while (high + 1 < board.spans && moving.every((path) => !movesBefore(board, path, high + 1))) high++;
    return [low, high];
  }

  private canTouch(place: number, k: number): boolean {
    const at = place * this.board.spans + k;
    return this.board.reach[at] === 1 && this.query.paths.wanted.locked[at] === 0;
  }

  private holds(paths: readonly PackPath[]): boolean {
    return lacking(this.board, this.query.paths.wanted, paths).length === 0 && pathsFit(this.board, paths);
  }

  private moved(path: PackPath, k: number, to: number): PackPath {
    const spots = path.spots.slice();
    if (to > k) spots.fill(path.spots[k - 1] ?? 0, k, to);
    else spots.fill(path.spots[k] ?? 0, to, k);
    return { ...path, spots };
  }
}

/** Whether no rotation with the margin asks less, in chores and moves. */
export const isLeast = (toll: Toll, { least, marginWh }: Pick<ChoreQuery, "least" | "marginWh">): boolean =>
  toll.chores <= least.chores && toll.moves <= least.moves && toll.marginWh >= marginWh - EPSILON_WH;

/** Whether the pack moves at the touch before interval k. */
const movesBefore = (board: Board, path: PackPath, k: number): boolean =>
  placeIn(board, path, k) !== placeIn(board, path, k - 1);

/** The intervals that begin with moves, those with fewest first. */
function usedTouches(board: Board, paths: readonly PackPath[]): readonly number[] {
  const counts = movesAt(board, paths);
  const used = [...counts.keys()].filter((k) => (counts[k] ?? 0) > 0);
  return used.sort((a, b) => (counts[a] ?? 0) - (counts[b] ?? 0) || a - b);
}

/** Sets of touches with which covering failed: a part of one fails as well. */
class Failures {
  private readonly masks: bigint[] = [];

  has(touches: readonly number[]): boolean {
    const mask = maskOf(touches);
    return this.masks.some((failed) => (mask & failed) === mask);
  }

  add(touches: readonly number[]): void {
    this.masks.push(maskOf(touches));
  }
}

const maskOf = (touches: readonly number[]): bigint => touches.reduce((mask, k) => mask | (1n << BigInt(k)), 0n);

/** So many are looked at at most: those of random days take a third of it. */
const MOST_SHIFTS = 300_000;
/** Passes of shifting and dropping. */
const PASSES = 4;

/** The model with these of its touches (numbered from 1) only. */
const partOf = (model: Model, touches: readonly number[]): Model => ({
  ...model,
  touches: model.touches.filter((_, n) => touches.includes(n + 1)),
});

/** Spots by interval of a part, spread over the whole; `firsts` are the whole's intervals at which the part's begin. */
function spread(spots: Int16Array, firsts: readonly number[], spans: number): Int16Array {
  const whole = new Int16Array(spans);
  firsts.forEach((first, n) => {
    whole.fill(spots[n] ?? 0, first, firsts[n + 1] ?? spans);
  });
  return whole;
}
