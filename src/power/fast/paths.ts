/**
 * The best day of one pack for given prices: a dynamic program over the touches with labels (charge, value).
 *
 * More charge is never worse, so of two labels at one place the one with less charge and no more value is dropped; what is
 * left is exact. The fast rotation, the pricing of columns and every bound of ours are this one program.
 */
import { type Board, chargeAfter, type Wanted } from "../proof/searchState.ts";

/** Rounding allowed where a charge is held against its floor. */
const EPSILON_WH = 1e-9;

export interface PathQuery {
  readonly pack: number;
  /** Asked above the reserve at the end of each use; may be negative, or -Infinity for none. */
  readonly marginWh: number;
  /** `[spot * spans + k]`: 1 where the pack may stand there in interval k. */
  readonly open: Uint8Array;
  /** `[spot * spans + k]`: what standing there is worth. */
  readonly gain: Float64Array;
  readonly moveCost: number;
}

/** Where one pack is in each interval. */
export interface PackPath {
  readonly pack: number;
  readonly spots: Int16Array;
  readonly moves: number;
  /** Smallest charge above the reserve after a use; Infinity where it powers nothing. */
  readonly marginWh: number;
}

export interface BestPath extends PackPath {
  readonly value: number;
}

/** Finds best paths on one board for one set of wanted demands; counts its work in `labels`. */
export class Paths {
  readonly board: Board;
  readonly wanted: Wanted;
  /** Labels made so far, the measure of work. */
  labels = 0;
  private charge = new Float64Array(4096);
  private value = new Float64Array(4096);
  private parent = new Int32Array(4096);
  private spot = new Int16Array(4096);
  private since = new Int16Array(4096);
  private size = 0;

  constructor(board: Board, wanted: Wanted) {
    this.board = board;
    this.wanted = wanted;
  }

  /** The path of most value, or null where the pack has none (it is held where it must not stay, or runs dry there). */
  best(query: PathQuery): BestPath | null {
    const { board } = this;
    const pack = board.model.packs[query.pack];
    const start = board.startPlace[query.pack];
    if (pack === undefined || start === undefined) return null;
    this.size = 0;
    let fronts: number[][] = board.places.map(() => []);
    fronts[start] = [this.label(pack.startWh, 0, -1, -1, -1)];
    for (let k = 0; k < board.spans; k++) fronts = this.step(query, fronts, k);
    let best = -1;
    for (const front of fronts) for (const id of front) if (best < 0 || this.worth(id) > this.worth(best)) best = id;
    this.labels += this.size;
    return best < 0 ? null : { ...this.trace(query.pack, best), value: this.worth(best) };
  }

  private worth(id: number): number {
    return this.value[id] ?? 0;
  }

  private label(charge: number, value: number, parent: number, spot: number, since: number): number {
    if (this.size === this.charge.length) this.grow();
    const id = this.size++;
    this.charge[id] = charge;
    this.value[id] = value;
    this.parent[id] = parent;
    this.spot[id] = spot;
    this.since[id] = since;
    return id;
  }

  private grow(): void {
    const double = <A extends Float64Array | Int32Array | Int16Array>(old: A, fresh: A): A => {
      fresh.set(old);
      return fresh;
    };
    const length = this.size * 2;
    this.charge = double(this.charge, new Float64Array(length));
    this.value = double(this.value, new Float64Array(length));
    this.parent = double(this.parent, new Int32Array(length));
    this.spot = double(this.spot, new Int16Array(length));
    this.since = double(this.since, new Int16Array(length));
  }

  /** Takes the labels through the touch before interval k and through the interval. */
  private step(query: PathQuery, fronts: readonly number[][], k: number): number[][] {
    const { board, wanted } = this;
    const touchable = (place: number): boolean => {
      const at = place * board.spans + k;
      return k > 0 && board.reach[at] === 1 && wanted.locked[at] === 0;
    };
    let hands: number[] = [];
    fronts.forEach((front, place) => {
      if (front.length > 0 && touchable(place)) hands = hands.length === 0 ? front : this.merge(hands, front);
    });
    return board.places.map((place, number) => {
      const stay = fronts[number] ?? [];
      const enters = touchable(number) && hands.length > 0 && board.fits[query.pack]?.[number] === true;
      if (stay.length === 0 && !enters) return [];
      let front: number[] = [];
      for (const spot of place.spots) {
        if (query.open[spot * board.spans + k] !== 1) continue;
        const here = this.extend(query, stay, 0, spot, k);
        const moved = enters ? this.extend(query, hands, query.moveCost, spot, k) : [];
        front = this.merge(front, this.merge(here, moved));
      }
      return front;
    });
  }

  /** Joins two fronts (charge falling, value rising) into one. */
  private merge(a: number[], b: number[]): number[] {
    if (b.length === 0) return a;
    if (a.length === 0) return b;
    const { charge, value } = this;
    const front: number[] = [];
    let top = Number.NEGATIVE_INFINITY;
    for (let i = 0, j = 0; i < a.length || j < b.length; ) {
      const x = a[i] ?? -1;
      const y = b[j] ?? -1;
      const cx = x < 0 ? Number.NEGATIVE_INFINITY : (charge[x] ?? 0);
      const cy = y < 0 ? Number.NEGATIVE_INFINITY : (charge[y] ?? 0);
      const first = x >= 0 && (y < 0 || cx > cy || (cx === cy && (value[x] ?? 0) >= (value[y] ?? 0)));
      const id = first ? x : y;
      if (first) i++;
      else j++;
      const worth = value[id] ?? 0;
      if (worth <= top) continue;
      top = worth;
      front.push(id);
    }
    return front;
  }

  /** The labels of `from` after interval k on `spot`, `cost` paid; those that run under the floor are dropped. */
  private extend(query: PathQuery, from: readonly number[], cost: number, spot: number, k: number): number[] {
    const { board, wanted } = this;
    const pack = board.model.packs[query.pack];
    const on = board.spots[spot];
    if (pack === undefined || on === undefined) return [];
    const at = on.place * board.spans + k;
    const gain = (query.gain[spot * board.spans + k] ?? 0) - cost;
    const hours = on.watts > 0 ? (board.hours[at] ?? 0) : 0;
    const needed = wanted.need[at] === 1;
    const drain = wanted.drain[at] ?? 0;
    const floor = needed ? pack.reserveWh + query.marginWh - EPSILON_WH : Number.NEGATIVE_INFINITY;
    const taper = board.taper[on.place] ?? 1;
    const front: number[] = [];
    for (const id of from) {
      const held = this.charge[id] ?? 0;
      const after = hours > 0 ? chargeAfter(held, pack.wh, taper, on.watts, hours) : held - drain;
      if (after < floor) break;
      const value = (this.value[id] ?? 0) + gain;
      const same = cost === 0 && gain === 0 && after === held && this.spot[id] === spot;
      const fresh = same ? id : this.label(after, value, id, spot, k);
      const last = front.at(-1);
      if (last !== undefined && after >= (this.charge[last] ?? 0)) front[front.length - 1] = fresh;
      else front.push(fresh);
    }
    return front;
  }

  private trace(pack: number, label: number): PackPath {
    const spots = new Int16Array(this.board.spans);
    let until = this.board.spans;
    for (let id = label; id >= 0 && until > 0; id = this.parent[id] ?? -1) {
      const since = this.since[id] ?? -1;
      for (let k = Math.max(0, since); k < until; k++) spots[k] = this.spot[id] ?? 0;
      until = Math.min(until, Math.max(0, since));
    }
    return { pack, spots, moves: this.countMoves(spots), marginWh: this.marginOf(pack, spots) };
  }

  private countMoves(spots: Int16Array): number {
    const place = (k: number): number => this.board.spots[spots[k] ?? 0]?.place ?? 0;
    let moves = 0;
    for (let k = 1; k < spots.length; k++) if (place(k) !== place(k - 1)) moves++;
    return moves;
  }

  private marginOf(number: number, spots: Int16Array): number {
    const { board, wanted } = this;
    const pack = board.model.packs[number];
    if (pack === undefined) return Number.POSITIVE_INFINITY;
    let held = pack.startWh;
    let least = Number.POSITIVE_INFINITY;
    spots.forEach((number, k) => {
      const spot = board.spots[number];
      if (spot === undefined) return;
      const at = spot.place * board.spans + k;
      held =
        chargeAfter(held, pack.wh, board.taper[spot.place] ?? 1, spot.watts, board.hours[at] ?? 0) -
        (wanted.drain[at] ?? 0);
      if (wanted.need[at] === 1) least = Math.min(least, held - pack.reserveWh);
    });
    return least;
  }
}
