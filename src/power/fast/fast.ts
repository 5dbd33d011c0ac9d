/**
 * The fast rotation, no solver: packs get their best path one after another; two or three are taken out and put back until
 * every use is powered, then again for as long as it saves moves.
 */
import { sumOf } from "../../lists.ts";
import type { PackPath } from "./packPath.ts";
import type { Paths } from "./paths.ts";
import type { Random } from "./random.ts";
import { lacking, openBeside, type PlacedPacks, seatsOf, totalMoves } from "./seats.ts";
import { movesAt } from "./toll.ts";

/** Values of one path: powering comes before a chore more, that before a move more, that before a burden and a slot held. */
const WORTH = { use: 1_000_000, chore: 2000, move: 100, burden: 5, slot: 1, never: 1e12 } as const;

/** What the quick search needs. */
export interface FastQuery {
  readonly paths: Paths;
  readonly marginWh: number;
  readonly random: Random;
  /** Times that packs are taken out and put back. */
  readonly rounds: number;
  /** Work of the desk at which no more of them begin. */
  readonly until?: number;
  /** Whether a touch that no other pack uses costs more; where only covering counts it would stand in the way. */
  readonly sparing?: boolean;
  /** Whether every use must be powered by those that are put back; a pack that must help out in an interval then does. */
  readonly strict?: boolean;
  /** Weight of the uses that may be left without a pack: where the last pack cannot do with that, none is looked for. */
  readonly mayLack?: number;
  /** The interval at whose start nothing may move. */
  readonly banned?: number;
}

/** Paths that power every wanted use with the margin, or null where none was found. `from` is a place to start at. */
export function coverAll(query: FastQuery, from: PlacedPacks | null = null): PackPath[] | null {
  const { paths, random } = query;
  const packs = paths.board.model.packs.length;
  const weight = new Float64Array(paths.wanted.need.length).fill(1);
  const start: PlacedPacks = from ?? new Array<null>(packs).fill(null);
  const missing = Array.from({ length: packs }, (_, pack) => pack).filter((pack) => start[pack] === null);
  let placed = insert(query, start, byCharge(paths, missing), weight);
  if (placed === null) return null;
  let lacks = lacksOf(paths, placed);
  const until = query.until ?? Number.POSITIVE_INFINITY;
  for (let round = 0; round < query.rounds && lacks.length > 0 && packs > 1; round++) {
    if (paths.desk.work >= until) break;
    for (const at of lacks) weight[at] = (weight[at] ?? 0) + 1;
    const most = weigh(lacks, weight);
    const next = putBack({ ...query, mayLack: most }, placed, pick(random, packs, 2 + random.below(2)), weight);
    if (next === null) continue;
    const nextLacks = lacksOf(paths, next);
    if (weigh(nextLacks, weight) > most) continue;
    placed = next;
    lacks = nextLacks;
  }
  return lacks.length === 0 ? placed : null;
}

/** The same uses with fewer chores, then moves, as far as taking out and putting back finds; never with more. */
export function withFewerMoves(query: FastQuery, from: readonly PackPath[]): PackPath[] {
  const { paths, random } = query;
  const packs = from.length;
  const weight = new Float64Array(paths.wanted.need.length).fill(1);
  const asks = (all: readonly PackPath[]): number =>
    movesAt(paths.board, all).filter((count) => count > 0).length * CHORE_MOVES + totalMoves(all);
  const whole = { ...query, sparing: true, strict: true, mayLack: 0 };
  let best: readonly PackPath[] = from;
  const attempt = (out: readonly number[]): void => {
    const next = putBack(whole, best, out, weight);
    if (next !== null && lacksOf(paths, next).length === 0 && asks(next) <= asks(best)) best = next;
  };
  for (let pack = 0; pack < packs; pack++) attempt([pack]);
  const { until = Number.POSITIVE_INFINITY } = query;
  for (let round = 0; round < query.rounds && totalMoves(best) > 0 && paths.desk.work < until; round++)
    attempt(pick(random, packs, Math.min(packs, 2 + random.below(3))));
  return [...best];
}

/** The same uses with this margin, from a rotation with less: those that keep too little are put back, with some others; or null. */
export function withMoreMargin(query: FastQuery, from: readonly PackPath[]): PackPath[] | null {
  const { paths, random } = query;
  const weight = new Float64Array(paths.wanted.need.length).fill(1);
  const low = from.flatMap(({ pack, marginWh }) => (marginWh < query.marginWh ? [pack] : []));
  const others = from.flatMap(({ pack, marginWh }) => (marginWh < query.marginWh ? [] : [pack]));
  const { until = Number.POSITIVE_INFINITY } = query;
  for (let round = 0; round < query.rounds && paths.desk.work < until; round++) {
    const count = round === 0 ? 0 : Math.min(others.length, Math.max(1, 2 + random.below(3) - low.length));
    const out = random.shuffle([...low, ...random.shuffle(others).slice(0, count)]);
    const next = putBack({ ...query, strict: true, mayLack: 0 }, from, out, weight);
    if (next !== null && lacksOf(paths, next).length === 0) return next;
    if (others.length === 0) break;
  }
  return null;
}

/** One chore less is worth more than any number of moves less. */
const CHORE_MOVES = 1000;

const lacksOf = (paths: Paths, placed: readonly PackPath[]): number[] => lacking(paths.board, paths.wanted, placed);

const weigh = (lacks: readonly number[], weight: Float64Array): number => sumOf(lacks, (at) => weight[at] ?? 0);

const pick = (random: Random, packs: number, count: number): number[] =>
  random.shuffle(Array.from({ length: packs }, (_, pack) => pack)).slice(0, count);

/** Fullest first: they can go far without a charger. */
function byCharge(paths: Paths, packs: readonly number[]): number[] {
  const wh = (pack: number): number => paths.board.model.packs[pack]?.startWh ?? 0;
  return [...packs].sort((a, b) => wh(b) - wh(a) || a - b);
}

/** A move at a touch that others use already costs no chore. */
function costAt({ sparing, banned, paths }: FastQuery, others: number, k: number): number {
  if (k === banned) return WORTH.never;
  return sparing === true
    ? WORTH.move + (others > 0 ? 0 : WORTH.chore) + WORTH.burden * (paths.board.model.touches[k - 1]?.burden ?? 0)
    : WORTH.move;
}

function putBack(
  query: FastQuery,
  placed: PlacedPacks,
  out: readonly number[],
  weight: Float64Array,
): PackPath[] | null {
  const without = placed.map((path, pack) => (out.includes(pack) ? null : path));
  return insert(query, without, out, weight);
}

/** Gives each pack of `order` its best path beside those placed; null where one has none. All packs are placed after. */
function insert(
  query: FastQuery,
  placed: PlacedPacks,
  order: readonly number[],
  weight: Float64Array,
): PackPath[] | null {
  const { paths } = query;
  const { board, desk } = paths;
  const next = [...placed];
  const gain = gainOf(paths, weight);
  const moveCost = desk.cost(board.spans);
  const short = query.strict === true ? new Shortfall(paths, next) : null;
  for (const [n, pack] of order.entries()) {
    const others = next.map((path, other) => path ?? paths.held(other));
    others.splice(pack, 1);
    const seats = seatsOf(board, others, desk.seats(board.places.length * board.spans));
    const open = openBeside(board, seats, desk.open(board.spots.length * board.spans));
    if (short !== null && !short.narrow(open, order.length - n)) return null;
    const used = query.sparing === true ? movesAt(board, next) : null;
    for (let k = 0; k < board.spans; k++) moveCost[k] = costAt(query, used?.[k] ?? 0, k);
    const isLast = query.mayLack !== undefined && n === order.length - 1;
    const least = isLast ? leastFor(paths, others, weight, query.mayLack ?? 0) : Number.NEGATIVE_INFINITY;
    const path = paths.best({ pack, marginWh: query.marginWh, open, gain, moveCost, least });
    if (path === null) return null;
    next[pack] = path;
    short?.fill(path);
  }
  return next.filter((path) => path !== null);
}

/** The least value of a path with which no more than this weight is lacking; moves cost less than a use is worth. */
const leastFor = (paths: Paths, others: readonly PackPath[], weight: Float64Array, mayLack: number): number =>
  WORTH.use * (weigh(lacksOf(paths, others), weight) - mayLack) - MOST_MOVES;

/** All moves of a pack cost less. */
const MOST_MOVES = 0.9 * WORTH.use;

/** The uses that no pack powers yet. */
class Shortfall {
  private readonly paths: Paths;
  /** `[place * spans + k]`: 1 where a load lacks a pack. */
  private readonly lacks: Uint8Array;
  /** How many do, by interval. */
  private readonly count: Uint8Array;

  constructor(paths: Paths, placed: PlacedPacks) {
    const { board, wanted } = paths;
    this.paths = paths;
    this.lacks = wanted.need.slice();
    this.count = new Uint8Array(board.spans);
    for (const at of wanted.needs) this.count[at % board.spans] = (this.count[at % board.spans] ?? 0) + 1;
    for (const path of placed) if (path !== null) this.fill(path);
  }

  fill({ spots }: PackPath): void {
    const { spans, placeOf } = this.paths.board;
    for (let k = 0; k < spans; k++) {
      const at = (placeOf[spots[k] ?? 0] ?? 0) * spans + k;
      if (this.lacks[at] !== 1) continue;
      this.lacks[at] = 0;
      this.count[k] = (this.count[k] ?? 0) - 1;
    }
  }

  /** Where as many packs as are left are lacked, leaves the next one only those loads; false where more are. */
  narrow(open: Uint8Array, left: number): boolean {
    const { spans, spots, placeOf } = this.paths.board;
    for (let k = 0; k < spans; k++) {
      const count = this.count[k] ?? 0;
      if (count > left) return false;
      if (count < left) continue;
      for (let spot = 0; spot < spots.length; spot++)
        if (this.lacks[(placeOf[spot] ?? 0) * spans + k] !== 1) open[spot * spans + k] = 0;
    }
    return true;
  }
}

/** What standing on each spot is worth in each interval. */
function gainOf({ board, wanted, desk }: Paths, weight: Float64Array): Float64Array {
  const { spans, placeOf, wattsOf, hours } = board;
  const gain = desk.gain(board.spots.length * spans);
  for (let spot = 0; spot < board.spots.length; spot++) {
    const row = (placeOf[spot] ?? 0) * spans;
    const charges = (wattsOf[spot] ?? 0) > 0;
    for (let k = 0; k < spans; k++) {
      if (wanted.need[row + k] === 1) gain[spot * spans + k] = WORTH.use * (weight[row + k] ?? 1);
      else if (charges && (hours[row + k] ?? 0) > 0) gain[spot * spans + k] = -WORTH.slot;
    }
  }
  return gain;
}
