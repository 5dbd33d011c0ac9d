/** Who stands where: from the paths of the packs already placed, what is still open to another pack and what lacks one. */
import type { Board, Wanted } from "./board.ts";
import type { PackPath } from "./paths.ts";

/** One path for each pack, null where it is not placed yet. */
export type Placed = readonly (PackPath | null)[];

/** The interval from which a pack can first leave the place it starts at; `spans` where it never can. */
export function heldUntil(board: Board, wanted: Wanted, pack: number): number {
  const start = board.startPlace[pack] ?? 0;
  for (let k = 1; k < board.spans; k++) {
    const at = start * board.spans + k;
    if (board.reach[at] === 1 && wanted.locked[at] === 0) return k;
  }
  return board.spans;
}

/** Head counts per place and interval, and the smallest level that someone there counts on. */
export interface Seats {
  readonly count: Uint8Array;
  readonly level: Float64Array;
}

/**
 * Counts everyone but `except`. A pack not placed yet counts where it is held at its start; from there it can always go
 * to the shelf.
 */
export function seatsOf(board: Board, wanted: Wanted, placed: Placed, except: number): Seats {
  const size = board.places.length * board.spans;
  const count = new Uint8Array(size);
  const level = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  placed.forEach((path, pack) => {
    if (pack === except) return;
    const until = path === null ? heldUntil(board, wanted, pack) : board.spans;
    const held = board.places[board.startPlace[pack] ?? 0]?.spots.at(-1) ?? 0;
    for (let k = 0; k < until; k++) {
      const spot = board.spots[path === null ? held : (path.spots[k] ?? 0)];
      if (spot === undefined) continue;
      const at = spot.place * board.spans + k;
      count[at] = (count[at] ?? 0) + 1;
      level[at] = Math.min(level[at] ?? 0, spot.level);
    }
  });
  return { count, level };
}

/** Where one more pack may stand beside those counted. */
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
export function lacking(wanted: Wanted, seats: Seats): number[] {
  const lacks: number[] = [];
  wanted.need.forEach((need, at) => {
    if (need === 1 && (seats.count[at] ?? 0) === 0) lacks.push(at);
  });
  return lacks;
}

/** Moves of all packs together. */
export const movesOf = (placed: Placed): number => placed.reduce((sum, path) => sum + (path?.moves ?? 0), 0);
