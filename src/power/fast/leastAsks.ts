/**
 * What any rotation needs at least: between two chores nothing moves, so each load keeps one pack, which holds no more than it
 * could if it were alone in the world. Each chore is reckoned to last until the latest moment that some packs would allow.
 */
import { sumOf } from "../../lists.ts";
import { chargeAlone, matches } from "../proof/ceiling.ts";
import type { Board, Wanted } from "../proof/searchState.ts";

/** Rounding allowed where charges are compared. */
const EPSILON_WH = 1e-6;

/** What no rotation can do without. */
export interface LeastAsks {
  readonly chores: number;
  readonly moves: number;
}

/** No rotation that covers everything with this margin, Wh, has fewer chores, or fewer moves. */
export function leastAsks(board: Board, wanted: Wanted, marginWh: number): LeastAsks {
  const alone = board.model.packs.map((_, pack) => chargeAlone(board, pack));
  const loads = [...board.places.keys()].filter((place) => board.places[place]?.kind === "load");
  const swaps = (some: readonly number[]): number => leastSwaps({ board, wanted, alone, marginWh, loads: some });
  return { chores: swaps(loads), moves: sumOf(loads, (load) => swaps([load])) };
}

interface Question {
  readonly board: Board;
  readonly wanted: Wanted;
  /** By pack, `[place * spans + k]`: the most it can hold there. */
  readonly alone: readonly Float64Array[];
  readonly marginWh: number;
  readonly loads: readonly number[];
}

/** How often the packs on these loads have to change at least. */
function leastSwaps(question: Question): number {
  const { spans } = question.board;
  const reachFrom = (k: number, least: number): number => {
    let end = least;
    while (end < spans && holds(question, k, end)) end++;
    return end;
  };
  let swaps = 0;
  let end = reachFrom(0, 0);
  let tried = 1;
  while (end < spans) {
    let next = end;
    for (; tried <= end; tried++) next = Math.max(next, holds(question, tried, next) ? reachFrom(tried, next) : next);
    if (next === end) break;
    swaps++;
    end = next;
  }
  return swaps;
}

/** Whether packs put on the loads before interval `from` could stay there to the end of interval `to`. */
function holds({ board, wanted, alone, marginWh, loads }: Question, from: number, to: number): boolean {
  const { spans, model } = board;
  const rows: number[][] = [];
  for (const place of loads) {
    const row = place * spans;
    let drain = 0;
    let isNeeded = false;
    for (let k = from; k <= to; k++) {
      drain += wanted.drain[row + k] ?? 0;
      isNeeded ||= wanted.need[row + k] === 1;
    }
    if (!isNeeded) continue;
    rows.push(
      model.packs.map(({ reserveWh }, pack) => {
        if (from === 0 && board.startPlace[pack] !== place) return Number.NEGATIVE_INFINITY;
        if (hasFact(board, pack, from, to)) return Number.POSITIVE_INFINITY;
        return (alone[pack]?.[row + from] ?? Number.NEGATIVE_INFINITY) - drain - reserveWh;
      }),
    );
  }
  return matches(rows, marginWh - EPSILON_WH);
}

/** Whether the pack's account begins anew within these intervals. */
function hasFact({ found }: Board, pack: number, from: number, to: number): boolean {
  for (const k of found[pack]?.keys() ?? []) if (from < k && k <= to) return true;
  return false;
}
