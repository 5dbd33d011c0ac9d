/**
 * The ceiling: an upper bound on the margin in a moment. Each pack is alone in the world (a free slot at every touch, no
 * other use), then the uses that run at the same time are matched to different packs.
 */
import { type Board, chargeAfter, type Wanted } from "./searchState.ts";

/** No rotation that covers all wanted demands leaves more than this; -Infinity where no pack gets there at all. */
export function marginCeiling(board: Board, wanted: Wanted): number {
  const alone = board.model.packs.map((_, pack) => chargeAlone(board, pack));
  let ceiling = Number.POSITIVE_INFINITY;
  for (let k = 0; k < board.spans; k++) {
    const rows: number[][] = [];
    board.places.forEach((_, place) => {
      if (wanted.need[place * board.spans + k] === 1) rows.push(marginsAt(board, wanted, alone, place, k));
    });
    if (rows.length > 0) ceiling = Math.min(ceiling, bottleneck(rows));
  }
  return ceiling;
}

/** What each pack can hold alone, by board: every question about a board asks for it. */
const known = new WeakMap<Board, Map<number, Float64Array>>();

/** The most that one pack can hold at the start of each interval at each place, alone; -Infinity where it cannot be. */
export function chargeAlone(board: Board, number: number): Float64Array {
  const ofBoard = known.get(board) ?? new Map<number, Float64Array>();
  known.set(board, ofBoard);
  const most = ofBoard.get(number) ?? mostAlone(board, number);
  ofBoard.set(number, most);
  return most;
}

function mostAlone(board: Board, number: number): Float64Array {
  const { spans, places } = board;
  const most = new Float64Array(places.length * spans).fill(Number.NEGATIVE_INFINITY);
  const pack = board.model.packs[number];
  if (pack === undefined) return most;
  const { reach, hours, taper, firstSpot, wattsOf } = board;
  const fits = board.fits[number] ?? [];
  const found = board.found[number];
  const now = new Float64Array(places.length).fill(Number.NEGATIVE_INFINITY);
  now[board.startPlace[number] ?? 0] = pack.startWh;
  // Loops and no callbacks: this runs thousands of times before it is compiled.
  for (let k = 0; k < spans; k++) {
    let hand = Number.NEGATIVE_INFINITY;
    for (let p = 0, at = k; k > 0 && p < places.length; p++, at += spans)
      if (reach[at] === 1 && (now[p] ?? 0) > hand) hand = now[p] ?? 0;
    for (let p = 0, at = k; p < places.length; p++, at += spans) {
      let wh = now[p] ?? 0;
      if (k > 0 && hand > wh && reach[at] === 1 && fits[p] === true) wh = hand;
      if (wh === Number.NEGATIVE_INFINITY) continue;
      wh = found?.get(k) ?? wh;
      most[at] = wh;
      const watts = wattsOf[firstSpot[p] ?? 0] ?? 0;
      now[p] = watts > 0 ? chargeAfter(wh, pack.wh, taper[p] ?? 1, watts, hours[at] ?? 0) : wh;
    }
  }
  return most;
}

/** What each pack could have left after the use that runs on `place` in interval k, from where it may begin. */
function marginsAt(board: Board, wanted: Wanted, alone: readonly Float64Array[], place: number, k: number): number[] {
  const row = place * board.spans;
  let first = k;
  while (first > 0 && wanted.locked[row + first] === 1) first--;
  let drain = wanted.drain[row + first] ?? 0;
  for (let next = first + 1; next < board.spans && wanted.locked[row + next] === 1; next++)
    drain += wanted.drain[row + next] ?? 0;
  return board.model.packs.map(
    (pack, n) => (alone[n]?.[row + first] ?? Number.NEGATIVE_INFINITY) - drain - pack.reserveWh,
  );
}

/** The largest smallest entry when every row gets a column of its own. */
function bottleneck(rows: readonly number[][]): number {
  const levels = [...new Set(rows.flat())].filter(Number.isFinite).sort((a, b) => b - a);
  return levels.find((level) => matches(rows, level)) ?? Number.NEGATIVE_INFINITY;
}

/** Whether every row can have a column of its own whose entry is `level` (Wh) or more. */
export function matches(rows: readonly number[][], level: number): boolean {
  const owner = new Map<number, number>();
  const seat = (row: number, seen: Set<number>): boolean =>
    (rows[row] ?? []).some((margin, column) => {
      if (margin < level || seen.has(column)) return false;
      seen.add(column);
      const holder = owner.get(column);
      if (holder !== undefined && !seat(holder, seen)) return false;
      owner.set(column, row);
      return true;
    });
  return rows.every((_, row) => seat(row, new Set()));
}
