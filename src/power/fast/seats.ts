/** Who stands where: from the paths of the packs already placed, what is still open to another pack and what lacks one. */
import { sumOf } from "../../lists.ts";
import type { Board, Wanted } from "../proof/searchState.ts";
import type { PackPath } from "./packPath.ts";

/** One path for each pack, null where it is not placed yet. */
export type PlacedPacks = readonly (PackPath | null)[];

/** A spot number that says: anywhere out of the way. */
const ANYWHERE = -1;

/** Where a pack that is not placed yet is held at its start; from there it can always go to the shelf. */
export function heldPath(board: Board, wanted: Wanted, pack: number): PackPath {
  const start = board.startPlace[pack] ?? 0;
  const spots = new Int16Array(board.spans).fill(ANYWHERE);
  for (let k = 0; k < board.spans; k++) {
    const at = start * board.spans + k;
    if (k > 0 && board.reach[at] === 1 && wanted.locked[at] === 0) break;
    spots[k] = board.places[start]?.spots.at(-1) ?? 0;
  }
  return { pack, spots, moves: 0, marginWh: Number.POSITIVE_INFINITY };
}

/** Head counts per place and interval and the smallest level that someone there counts on. */
export interface Seats {
  readonly count: Uint8Array;
  readonly level: Float64Array;
}

/** Nobody anywhere, on so many places and intervals. */
export const noSeats = (size: number): Seats => ({
  count: new Uint8Array(size),
  level: new Float64Array(size).fill(Number.POSITIVE_INFINITY),
});

/** Counts the packs of these paths, on top of whom `seats` counts. */
export function seatsOf(
  board: Board,
  paths: readonly PackPath[],
  seats: Seats = noSeats(board.places.length * board.spans),
): Seats {
  const { spans, placeOf, levelOf } = board;
  const { count, level } = seats;
  for (const { spots } of paths) {
    for (let k = 0; k < spans; k++) {
      const spot = spots[k] ?? ANYWHERE;
      if (spot === ANYWHERE) continue;
      const at = (placeOf[spot] ?? 0) * spans + k;
      const own = levelOf[spot] ?? 0;
      count[at] = (count[at] ?? 0) + 1;
      if (own < (level[at] ?? 0)) level[at] = own;
    }
  }
  return seats;
}

/** `[spot * spans + k]`: where one more pack may stand beside those counted; written into `open`, which holds zeroes. */
export function openBeside(
  { spots, spans, placeOf, levelOf, roomOf }: Board,
  { count, level }: Seats,
  open: Uint8Array = new Uint8Array(spots.length * spans),
): Uint8Array {
  for (let spot = 0; spot < spots.length; spot++) {
    const place = placeOf[spot] ?? 0;
    const most = Math.min(roomOf[place] ?? 0, levelOf[spot] ?? 0);
    for (let k = 0; k < spans; k++) {
      const heads = (count[place * spans + k] ?? 0) + 1;
      if (heads <= most && heads <= (level[place * spans + k] ?? 0)) open[spot * spans + k] = 1;
    }
  }
  return open;
}

/** The load intervals that need a pack and have none, as `place * spans + k`. */
export function lacking({ spans, placeOf }: Board, { needs }: Wanted, paths: readonly PackPath[]): number[] {
  const lacks: number[] = [];
  for (let n = 0; n < needs.length; n++) {
    const at = needs[n] ?? 0;
    const k = at % spans;
    const place = (at - k) / spans;
    let has = false;
    for (let path = 0; path < paths.length && !has; path++) has = placeOf[paths[path]?.spots[k] ?? 0] === place;
    if (!has) lacks.push(at);
  }
  return lacks;
}

/** Moves of all packs together. */
export const totalMoves = (paths: readonly PackPath[]): number => sumOf(paths, (path) => path.moves);

/** True where no place holds too many and no pack counts on less company than it has. */
export function pathsFit(board: Board, paths: readonly PackPath[]): boolean {
  const { places, spans, roomOf } = board;
  const { count, level } = seatsOf(board, paths);
  for (let place = 0; place < places.length; place++) {
    const room = roomOf[place] ?? 0;
    for (let at = place * spans; at < (place + 1) * spans; at++) {
      const heads = count[at] ?? 0;
      if (heads > room || heads > (level[at] ?? 0)) return false;
    }
  }
  return true;
}

/** The smallest margin of all packs together; Infinity where nothing is powered. */
export const marginOf = (paths: readonly PackPath[]): number =>
  paths.reduce((least, path) => Math.min(least, path.marginWh), Number.POSITIVE_INFINITY);
