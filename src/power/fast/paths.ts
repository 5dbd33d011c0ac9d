/**
 * The best day of one pack for given prices: a dynamic program over the touches with labels (charge, value).
 *
 * More charge is never worse, so of two labels at one place the one with less charge and no more value is dropped; what is
 * left is exact. The fast rotation, the pricing of columns and every bound of ours are this one program.
 */
import { type Board, chargeAfter, type Wanted } from "../proof/searchState.ts";

/** Rounding allowed where a charge is held against its floor. */
const EPSILON_WH = 1e-9;

/** What the best path of one pack is searched with. */
export interface PathQuery {
  readonly pack: number;
  /** Asked above the reserve at the end of each use; may be negative, or -Infinity for none. */
  readonly marginWh: number;
  /** `[spot * spans + k]`: 1 where the pack may stand there in interval k. */
  readonly open: Uint8Array;
  /** `[spot * spans + k]`: what standing there is worth. */
  readonly gain: Float64Array;
  /** What a move costs, by the interval that it begins. */
  readonly moveCost: Float64Array;
  /** What a Wh held at the end is worth, by place; nothing where it is left out. */
  readonly endWorth?: Float64Array;
}

/** Where one pack is in each interval. */
export interface PackPath {
  readonly pack: number;
  readonly spots: Int16Array;
  readonly moves: number;
  /** Smallest charge above the reserve after a use; Infinity where it powers nothing. */
  readonly marginWh: number;
}

/** A path and its value. */
export interface BestPath extends PackPath {
  readonly value: number;
}

/** The labels of one search after another, and the arrays that its questions are put in: used anew each time. */
export class Desk {
  charge = new Float64Array(4096);
  /** Charge if the pack leaves its place at the interval's end: less than `charge` in a charger. */
  out = new Float64Array(4096);
  value = new Float64Array(4096);
  parent = new Int32Array(4096);
  spot = new Int16Array(4096);
  since = new Int16Array(4096);
  size = 0;
  private gains = new Float64Array(0);

  /** Zeroes, at least so many. */
  gain(length: number): Float64Array {
    if (this.gains.length < length) this.gains = new Float64Array(length);
    return this.gains.fill(0);
  }

  label(charge: number, out: number, value: number, parent: number, spot: number, since: number): number {
    if (this.size === this.charge.length) this.grow();
    const id = this.size++;
    this.charge[id] = charge;
    this.out[id] = out;
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
    this.out = double(this.out, new Float64Array(length));
    this.value = double(this.value, new Float64Array(length));
    this.parent = double(this.parent, new Int32Array(length));
    this.spot = double(this.spot, new Int16Array(length));
    this.since = double(this.since, new Int16Array(length));
  }
}

/** Finds best paths on one board for one set of wanted demands. */
export class Paths {
  readonly board: Board;
  readonly wanted: Wanted;
  readonly desk: Desk;

  constructor(board: Board, wanted: Wanted, desk: Desk = new Desk()) {
    this.board = board;
    this.wanted = wanted;
    this.desk = desk;
  }

  /** The path of most value, or null where the pack has none (it is held where it must not stay, or runs dry there). */
  best(query: PathQuery): BestPath | null {
    const { board } = this;
    const pack = board.model.packs[query.pack];
    const start = board.startPlace[query.pack];
    if (pack === undefined || start === undefined) return null;
    this.desk.size = 0;
    let fronts: number[][] = board.places.map(() => []);
    fronts[start] = [this.desk.label(pack.startWh, pack.startWh, 0, -1, -1, -1)];
    for (let k = 0; k < board.spans; k++) fronts = this.step(query, fronts, k);
    const { endWorth } = query;
    let best = -1;
    let most = Number.NEGATIVE_INFINITY;
    fronts.forEach((front, place) => {
      for (const id of front) {
        const worth = (this.desk.value[id] ?? 0) + (endWorth?.[place] ?? 0) * (this.desk.charge[id] ?? 0);
        if (worth > most) [best, most] = [id, worth];
      }
    });
    return best < 0 ? null : { ...this.trace(query.pack, best), value: most };
  }

  /** Takes the labels through the touch before interval k and through the interval. */
  private step(query: PathQuery, fronts: readonly number[][], k: number): number[][] {
    const { board } = this;
    const hands = this.inHand(fronts, k);
    return board.places.map((place, number) => {
      const stay = fronts[number] ?? [];
      const enters = hands.length > 0 && this.canTouch(number, k) && board.fits[query.pack]?.[number] === true;
      if (stay.length === 0 && !enters) return [];
      let front: number[] = [];
      for (const spot of place.spots) {
        if (query.open[spot * board.spans + k] !== 1) continue;
        const here = this.extend(query, stay, null, spot, k);
        const moved = enters ? this.extend(query, hands, query.moveCost[k] ?? 0, spot, k) : [];
        front = this.merge(front, this.merge(here, moved));
      }
      return front;
    });
  }

  /** Everything that hands can take at a touch, the charge that it has in hand falling, the value rising. */
  private inHand(fronts: readonly (readonly number[])[], k: number): readonly number[] {
    const { out } = this.desk;
    let all: readonly number[] = [];
    fronts.forEach((front, place) => {
      if (front.length === 0 || !this.canTouch(place, k)) return;
      const falling = this.falls(front) ? front : [...front].sort((a, b) => (out[b] ?? 0) - (out[a] ?? 0));
      all = this.interleave(all, falling);
    });
    return all;
  }

  /** Two lists by falling charge in hand as one, without what is worth no more than something before it. */
  private interleave(a: readonly number[], b: readonly number[]): readonly number[] {
    const { out, value } = this.desk;
    const all: number[] = [];
    let top = Number.NEGATIVE_INFINITY;
    for (let i = 0, j = 0; i < a.length || j < b.length; ) {
      const [x, y] = [a[i] ?? -1, b[j] ?? -1];
      const [ox, oy] = [out[x] ?? Number.NEGATIVE_INFINITY, out[y] ?? Number.NEGATIVE_INFINITY];
      const first = y < 0 || (x >= 0 && (ox > oy || (ox === oy && (value[x] ?? 0) >= (value[y] ?? 0))));
      const id = first ? x : y;
      if (first) i++;
      else j++;
      const worth = value[id] ?? 0;
      if (worth <= top) continue;
      top = worth;
      all.push(id);
    }
    return all;
  }

  private falls(front: readonly number[]): boolean {
    for (let n = 1; n < front.length; n++)
      if ((this.desk.out[front[n - 1] ?? 0] ?? 0) < (this.desk.out[front[n] ?? 0] ?? 0)) return false;
    return true;
  }

  private canTouch(place: number, k: number): boolean {
    const at = place * this.board.spans + k;
    return k > 0 && this.board.reach[at] === 1 && this.wanted.locked[at] === 0;
  }

  /** Joins two fronts, charge falling, into one; what is worth no more than another, staying or in hand, is dropped. */
  private merge(a: number[], b: number[]): number[] {
    if (b.length === 0) return a;
    if (a.length === 0) return b;
    const { charge, value, out } = this.desk;
    const front: number[] = [];
    let top = Number.NEGATIVE_INFINITY;
    let best = -1;
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
      if (worth <= top && (out[id] ?? 0) <= (out[best] ?? 0)) continue;
      if (worth > top) [top, best] = [worth, id];
      front.push(id);
    }
    return front;
  }

  /** The labels of `from` after interval k on `spot`; `cost` null where they stay. Those that run under the floor are dropped. */
  private extend(query: PathQuery, from: readonly number[], cost: number | null, spot: number, k: number): number[] {
    const { board, wanted } = this;
    const pack = board.model.packs[query.pack];
    const on = board.spots[spot];
    if (pack === undefined || on === undefined) return [];
    const at = on.place * board.spans + k;
    const gain = (query.gain[spot * board.spans + k] ?? 0) - (cost ?? 0);
    const charges = on.watts > 0 && (board.hours[at] ?? 0) > 0 && board.broken[query.pack]?.[k] !== true;
    const hours = (cost === null ? board.hours[at] : board.hoursIn[at]) ?? 0;
    const hoursOut = (cost === null ? board.hoursOut[at] : board.hoursBoth[at]) ?? 0;
    const needed = wanted.need[at] === 1;
    const drain = wanted.drain[at] ?? 0;
    const floor = needed ? pack.reserveWh + query.marginWh - EPSILON_WH : Number.NEGATIVE_INFINITY;
    const taper = board.taper[on.place] ?? 1;
    const front: number[] = [];
    const found = board.found[query.pack]?.get(k);
    const broken = board.broken[query.pack]?.[k] === true;
    if (needed && broken) return [];
    for (const id of from) {
      const held = found ?? (cost === null ? this.desk.charge[id] : this.desk.out[id]) ?? 0;
      const after = charges ? chargeAfter(held, pack.wh, taper, on.watts, hours) : held - drain;
      if (after < floor) break;
      const out = !charges ? after : hoursOut === hours ? after : chargeAfter(held, pack.wh, taper, on.watts, hoursOut);
      const value = (this.desk.value[id] ?? 0) + gain;
      const same =
        cost === null && gain === 0 && after === held && out === this.desk.out[id] && this.desk.spot[id] === spot;
      const fresh = same ? id : this.desk.label(after, out, value, id, spot, k);
      const last = front.at(-1) ?? -1;
      const equal = last >= 0 && after >= (this.desk.charge[last] ?? 0);
      if (equal && value >= (this.desk.value[last] ?? 0) && out >= (this.desk.out[last] ?? 0))
        front[front.length - 1] = fresh;
      else front.push(fresh);
    }
    return front;
  }

  private trace(pack: number, label: number): PackPath {
    const spots = new Int16Array(this.board.spans);
    let until = this.board.spans;
    for (let id = label; id >= 0 && until > 0; id = this.desk.parent[id] ?? -1) {
      const since = this.desk.since[id] ?? -1;
      for (let k = Math.max(0, since); k < until; k++) spots[k] = this.desk.spot[id] ?? 0;
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
    const placeAt = (k: number): number => board.spots[spots[k] ?? -1]?.place ?? -1;
    spots.forEach((place, k) => {
      const spot = board.spots[place];
      if (spot === undefined) return;
      const at = spot.place * board.spans + k;
      const enters = k > 0 && placeAt(k - 1) !== spot.place;
      const leaves = k + 1 < board.spans && placeAt(k + 1) !== spot.place;
      held = board.found[number]?.get(k) ?? held;
      const { hours, hoursIn, hoursOut, hoursBoth } = board;
      const on =
        board.broken[number]?.[k] === true
          ? 0
          : ((enters ? (leaves ? hoursBoth : hoursIn) : leaves ? hoursOut : hours)[at] ?? 0);
      held = chargeAfter(held, pack.wh, board.taper[spot.place] ?? 1, spot.watts, on) - (wanted.drain[at] ?? 0);
      if (wanted.need[at] === 1) least = Math.min(least, held - pack.reserveWh);
    });
    return least;
  }
}
