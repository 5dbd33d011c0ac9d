/** Who stands where: from the paths of the packs already placed, what is still open to another pack and what lacks one. */
import { sumOf } from "../../lists.ts";
import type { Board, Wanted } from "../proof/searchState.ts";
import type { PackPath } from "./paths.ts";

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

/** Counts the packs of these paths. */
export function seatsOf(board: Board, paths: readonly PackPath[]): Seats {
  const size = board.places.length * board.spans;
  const count = new Uint8Array(size);
  const level = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  for (const path of paths) {
    for (let k = 0; k < board.spans; k++) {
      const spot = board.spots[path.spots[k] ?? ANYWHERE];
      if (spot === undefined) continue;
      const at = spot.place * board.spans + k;
      count[at] = (count[at] ?? 0) + 1;
      level[at] = Math.min(level[at] ?? 0, spot.level);
    }
  }
  return { count, level };
}

/** `[spot * spans + k]`: where one more pack may stand beside those counted. */
export function openBeside(board: Board, seats: Seats): Uint8Array {
  const open = new Uint8Array(board.spots.length * board.spans);
  board.spots.forEach((spot, number) => {
    const room = board.places[spot.place]?.room ?? 0;
    for (let k = 0; k < board.spans; k++) {
      const at = spot.place * board.spans + k;
      const heads = (seats.count[at] ?? 0) + 1;
      open[number * board.spans + k] = heads <= Math.min(room, spot.level, seats.level[at] ?? 0) ? 1 : 0;
    }
  });
  return open;
}

/** The load intervals that need a pack and have none, as `place * spans + k`. */
export function lacking(board: Board, wanted: Wanted, paths: readonly PackPath[]): number[] {
  const { count } = seatsOf(board, paths);
  const lacks: number[] = [];
  wanted.need.forEach((need, at) => {
    if (need === 1 && (count[at] ?? 0) === 0) lacks.push(at);
  });
  return lacks;
}

/** Moves of all packs together. */
export const totalMoves = (paths: readonly PackPath[]): number => sumOf(paths, (path) => path.moves);

/** True where no place holds too many and no pack counts on less company than it has. */
export function pathsFit(board: Board, paths: readonly PackPath[]): boolean {
  const { count, level } = seatsOf(board, paths);
  return board.places.every((place, p) => {
    for (let k = 0; k < board.spans; k++) {
      const at = p * board.spans + k;
      if ((count[at] ?? 0) > Math.min(place.room, level[at] ?? 0)) return false;
    }
    return true;
  });
}

/** The smallest margin of all packs together; Infinity where nothing is powered. */
export const marginOf = (paths: readonly PackPath[]): number =>
  paths.reduce((least, path) => Math.min(least, path.marginWh), Number.POSITIVE_INFINITY);
