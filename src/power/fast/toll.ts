/**
 * What a rotation asks of hands and what it leaves in the packs, with the time that the hands take counted: what comes off a
 * charger charges until its chore begins, what goes in from its end on.
 */
import type { Interval } from "../../time/units.ts";
import { type Touch, workSpan } from "../model.ts";
import { type Board, chargeAfter, hoursOn, intervalMinutes, type Wanted } from "../proof/searchState.ts";
import type { PackPath } from "./packPath.ts";

/** What a rotation asks of hands. */
export interface Asks {
  /** Touches with moves; one that is too short for its moves counts once for each pair of hands that it takes. */
  readonly chores: number;
  readonly moves: number;
  /** How unwelcome the touches are to those who do it, added up. */
  readonly burden: number;
}

/** What a rotation costs and keeps, by which rotations are compared. */
export interface Toll extends Asks {
  /** Smallest charge above the reserve after a use, Wh; Infinity where nothing is powered. */
  readonly marginWh: number;
  /** Charge of all packs at the end of the day, Wh. */
  readonly heldWh: number;
}

/** The place a path stands at in interval k. */
export const placeIn = ({ placeOf }: Board, { spots }: PackPath, k: number): number => placeOf[spots[k] ?? 0] ?? 0;

/** Reckons `paths`, one for each pack. */
export function tollOf(board: Board, wanted: Wanted, paths: readonly PackPath[]): Toll {
  const work = workAt(board, movesAt(board, paths));
  return chargedBy(board, wanted, paths, work, asksOf(board, wanted, paths, work));
}

/** The same where it asks less of hands than `than`, or as much; null where it asks more. */
export function tollWithin(board: Board, wanted: Wanted, paths: readonly PackPath[], than: Asks): Toll | null {
  const counts = movesAt(board, paths);
  if (compareAsks(fewestOf(board, counts), than) > 0) return null;
  const work = workAt(board, counts);
  const asks = asksOf(board, wanted, paths, work);
  return compareAsks(asks, than) > 0 ? null : chargedBy(board, wanted, paths, work, asks);
}

/** What so many moves at each touch ask where one pair of hands is enough for each. */
function fewestOf({ model, spans }: Board, counts: Uint8Array): Asks {
  let [chores, moves, burden] = [0, 0, 0];
  for (let k = 1; k < spans; k++) {
    const count = counts[k] ?? 0;
    if (count === 0) continue;
    chores++;
    moves += count;
    burden += model.touches[k - 1]?.burden ?? 0;
  }
  return { chores, moves, burden };
}

interface Work extends Interval {
  readonly moves: number;
}

/** When the moves at each touch are made. */
const workAt = ({ model }: Board, counts: Uint8Array): readonly Work[] =>
  model.touches.map((touch, n) => {
    const moves = counts[n + 1] ?? 0;
    return { moves, ...workSpan(touch, model.swapMinutes * moves) };
  });

function asksOf(board: Board, wanted: Wanted, paths: readonly PackPath[], work: readonly Work[]): Asks {
  let chores = 0;
  let moves = 0;
  let burden = 0;
  for (const [n, span] of work.entries()) {
    const touch = board.model.touches[n];
    if (span.moves === 0 || touch === undefined) continue;
    chores += handsFor(board, wanted, paths, n + 1, span.moves, span);
    moves += span.moves;
    burden += touch.burden ?? 0;
  }
  return { chores, moves, burden };
}

/** With what is left in the packs. */
function chargedBy(board: Board, wanted: Wanted, paths: readonly PackPath[], work: readonly Work[], asks: Asks): Toll {
  let marginWh = Number.POSITIVE_INFINITY;
  let heldWh = 0;
  for (const path of paths) {
    const walked = walk(board, wanted, path, work);
    marginWh = Math.min(marginWh, walked.leastWh);
    heldWh += walked.heldWh;
  }
  return { ...asks, marginWh, heldWh };
}

/** Below 0 where `a` asks less than `b`: fewer chores, then fewer moves, then a lighter burden, then more charge. */
export const compareTolls = (a: Toll, b: Toll): number => compareAsks(a, b) || moreCharge(a, b);

const compareAsks = (a: Asks, b: Asks): number => a.chores - b.chores || a.moves - b.moves || a.burden - b.burden;

const SAME_CHARGE = 1e-6;
const moreCharge = (a: Toll, b: Toll): number =>
  Math.abs(b.heldWh - a.heldWh) > SAME_CHARGE ? b.heldWh - a.heldWh : 0;

/** Moves at the touch before each interval. */
export function movesAt({ spans, placeOf }: Board, paths: readonly (PackPath | null)[]): Uint8Array {
  const counts = new Uint8Array(spans);
  for (const path of paths) {
    if (path === null) continue;
    const { spots } = path;
    let before = placeOf[spots[0] ?? 0];
    for (let k = 1; k < spans; k++) {
      const place = placeOf[spots[k] ?? 0];
      if (place !== before) counts[k] = (counts[k] ?? 0) + 1;
      before = place;
    }
  }
  return counts;
}

/** Pairs of hands that get the moves done in time: before the hands must leave, and before a load that they touch is wanted. */
function handsFor(
  board: Board,
  wanted: Wanted,
  paths: readonly PackPath[],
  k: number,
  count: number,
  work: Interval,
): number {
  const touch: Touch | undefined = board.model.touches[k - 1];
  const needed = board.model.swapMinutes * count;
  if (touch === undefined || needed === 0) return 1;
  const end = work.to > touch.at ? Math.min(work.to, wantedAfter(board, wanted, paths, k)) : work.to;
  return Math.max(1, Math.ceil(needed / Math.max(1, end - work.from)));
}

/** When the first load that gets or loses a pack at this touch is wanted after it. */
function wantedAfter(board: Board, wanted: Wanted, paths: readonly PackPath[], k: number): number {
  const at = board.model.touches[k - 1]?.at ?? 0;
  const loads = new Set<string>();
  for (const path of paths) {
    const [from, to] = [placeIn(board, path, k - 1), placeIn(board, path, k)];
    if (from !== to) for (const place of [from, to]) loads.add(board.places[place]?.id ?? "");
  }
  let first = Number.POSITIVE_INFINITY;
  for (const demand of wanted.demands)
    if (demand.to > at && [...demand.watts.keys()].some((load) => loads.has(load)))
      first = Math.min(first, Math.max(at, demand.from));
  return first;
}

function walk(board: Board, wanted: Wanted, path: PackPath, work: readonly Interval[]) {
  const pack = board.model.packs[path.pack];
  let heldWh = pack?.startWh ?? 0;
  let leastWh = Number.POSITIVE_INFINITY;
  if (pack === undefined) return { heldWh, leastWh };
  let entered = Number.NEGATIVE_INFINITY;
  let leaves = Number.POSITIVE_INFINITY;
  const { spans, placeOf, wattsOf } = board;
  const { spots } = path;
  let before = -1;
  for (let k = 0; k < spans; k++) {
    const spot = spots[k] ?? 0;
    const place = placeOf[spot] ?? 0;
    const watts = wattsOf[spot] ?? 0;
    const at = place * spans + k;
    if (before !== place) {
      before = place;
      const touch = board.model.touches[k - 1];
      entered = Math.max(touch?.warm ?? Number.NEGATIVE_INFINITY, work[k - 1]?.to ?? Number.NEGATIVE_INFINITY);
      let last = k;
      while (last + 1 < spans && placeOf[spots[last + 1] ?? 0] === place) last++;
      leaves = last + 1 < spans ? (work[last]?.from ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
    }
    heldWh = board.found[path.pack]?.get(k) ?? heldWh;
    if (watts > 0 && (board.hours[at] ?? 0) > 0 && board.broken[path.pack]?.[k] !== true) {
      const [from, to] = intervalMinutes(board.model, k);
      const hours = hoursOn(board.on[place] ?? [], Math.max(from, entered), Math.min(to, leaves));
      heldWh = chargeAfter(heldWh, pack.wh, board.taper[place] ?? 1, watts, hours);
    }
    heldWh -= wanted.drain[at] ?? 0;
    if (wanted.need[at] === 1) leastWh = Math.min(leastWh, heldWh - pack.reserveWh);
  }
  return { heldWh, leastWh };
}
