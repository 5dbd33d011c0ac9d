/** Charges the packs that nothing asks for where a charger has a free slot and hands are at it anyway: no chore more. */

import { bayAt } from "../model.ts";
import type { Case } from "../question.ts";
import type { PackPath } from "./packPath.ts";
import { openBeside, seatsOf } from "./seats.ts";
import { movesAt, tollOf } from "./toll.ts";

/** What a Wh is worth against a move, and less than this is not gone to a charger for. */
const WORTH_WH = 10;
const MOVE = 50;
/** No touch that is not used anyway. */
const NEVER = 1e9;

/** The same rotation with spare packs charged; it keeps its margin, `floorWh`, and its chores. */
export function withSparesCharged(one: Case, from: readonly PackPath[], floorWh: number): readonly PackPath[] {
  const { board, wanted, paths } = one;
  const chores = tollOf(board, wanted, from).chores;
  let best = from;
  for (const [pack, path] of from.entries()) {
    if (powers(one, path)) continue;
    const others = best.filter((_, other) => other !== pack);
    const used = movesAt(board, others);
    const endWorth = Float64Array.from(board.places, (_, place) => (isHome(one, pack, place) ? WORTH_WH : 0));
    const gain = new Float64Array(board.spots.length * board.spans);
    board.spots.forEach((spot, number) => {
      const home = isHome(one, pack, spot.place);
      gain[number * board.spans + board.spans - 1] = home ? 0 : -NEVER;
    });
    const spare = paths.best({
      ...{ pack, marginWh: Number.NEGATIVE_INFINITY, open: openBeside(board, seatsOf(board, others)), gain, endWorth },
      moveCost: Float64Array.from(used, (count) => (count > 0 ? MOVE : NEVER)),
    });
    if (spare === null || spare.value < 0) continue;
    const next = best.map((own, other) => (other === pack ? spare : own));
    const toll = tollOf(board, wanted, next);
    if (toll.chores <= chores && toll.marginWh >= floorWh) best = next;
  }
  return best;
}

const powers = ({ board, wanted }: Case, path: PackPath): boolean =>
  path.spots.some((spot, k) => wanted.need[(board.spots[spot]?.place ?? 0) * board.spans + k] === 1);

/** Where a spare may end the day: with what it started in, on the shelf or in a charger of the same bay. */
function isHome({ board }: Case, pack: number, place: number): boolean {
  const { model } = board;
  const bayOf = (id: string): string => {
    const load = model.loads.find((own) => own.id === id);
    if (load !== undefined) return bayAt(load, model.to);
    return model.chargers.find((own) => own.id === id)?.bay ?? id;
  };
  const start = board.places[board.startPlace[pack] ?? 0]?.id ?? "";
  const end = board.places[place];
  return end !== undefined && end.kind !== "load" && bayOf(end.id) === bayOf(start);
}
