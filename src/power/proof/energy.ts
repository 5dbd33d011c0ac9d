/**
 * A sum of energy: whether more is drawn up to some interval than the packs can hold above their reserves and the chargers can
 * have given by then. It sees no places and no uses, so it proves only a no; on days far short of power it does so in a moment.
 */
import { sumOf } from "../../lists.ts";
import type { Board, Wanted } from "./searchState.ts";

/** Rounding allowed in a sum. */
const EPSILON_WH = 1e-6;

/** Whether no rotation can cover all wanted demands with this margin, because there is too little energy for it. */
export function lacksEnergy(board: Board, wanted: Wanted, marginWh: number): boolean {
  const mounts = new Set(board.model.loads.map(({ mount }) => mount));
  return [...mounts].some((mount) => lacksOf(board, wanted, mount, marginWh));
}

/** The same for the loads and packs of one mount. */
function lacksOf(board: Board, { drain }: Wanted, mount: string, marginWh: number): boolean {
  const { model, places, spans } = board;
  // A pack that is below its floor gives nothing, and what charges it to its floor is counted as if it were given.
  let left = sumOf(model.packs, (pack) =>
    pack.mount === mount ? Math.max(0, pack.startWh - pack.reserveWh - marginWh) : 0,
  );
  const given = givenBy(board, mount);
  for (let k = 0; k < spans; k++) {
    left += given[k] ?? 0;
    for (let place = 0, at = k; place < places.length; place++, at += spans)
      if (places[place]?.mount === mount) left -= drain[at] ?? 0;
    if (left < -EPSILON_WH) return true;
  }
  return false;
}

/** By interval: the most that comes out of chargers at the touch before it, and what packs are found to hold at its start. */
function givenBy(board: Board, mount: string): Float64Array {
  const { model, places, spans, reach, hours } = board;
  const given = new Float64Array(spans);
  const packs = model.packs.filter((pack) => pack.mount === mount);
  const largest = Math.max(0, ...packs.map(({ wh }) => wh));
  places.forEach((place, p) => {
    if (place.kind !== "charger" || place.mount !== mount) return;
    let heads = packs.filter(({ at }) => at === place.id).length;
    let inside = 0;
    for (let k = 0, at = p * spans; k < spans; k++, at++) {
      if (reach[at] === 1) {
        // Between two touches a slot charges one pack, and no pack by more than it holds.
        given[k] = (given[k] ?? 0) + Math.min(inside, heads * largest);
        inside = 0;
        heads = Math.min(place.room, packs.length);
      }
      inside += wattsFor(board, place.spots, heads) * (hours[at] ?? 0);
    }
  });
  board.found.forEach((found, pack) => {
    if (model.packs[pack]?.mount === mount) for (const [k, wh] of found) given[k] = (given[k] ?? 0) + wh;
  });
  return given;
}

/** The most that a charger gives to so many packs together. */
const wattsFor = (board: Board, spots: readonly number[], heads: number): number =>
  Math.max(0, ...spots.map((spot) => (board.wattsOf[spot] ?? 0) * Math.min(heads, board.levelOf[spot] ?? 0)));
