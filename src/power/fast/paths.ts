/**
 * The best day of one pack for given prices: a dynamic program over the touches with labels (charge, value).
 *
 * More charge is never worse, so of two labels at one place the one with less charge and no more value is dropped; what is
 * left is exact. The fast rotation, the pricing of columns and every bound of ours are this one program.
 */
import type { ModelPack } from "../model.ts";
import { type Board, chargeAfter, type Wanted } from "../proof/searchState.ts";
import { Desk } from "./desk.ts";
import type { BestPath, PackPath } from "./packPath.ts";
import { heldPath } from "./seats.ts";

/** What a search costs besides its labels, in labels. */
const SEARCH_WORK = 50;

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

/** What a search needs to know of its pack. */
interface About {
  readonly pack: ModelPack;
  /** By place: whether its mount fits. */
  readonly fits: readonly boolean[];
  /** What it was found to hold at the start of an interval. */
  readonly found: ReadonlyMap<number, number> | undefined;
  /** By interval: whether it is out of service in any part of it. */
  readonly broken: readonly boolean[];
}

/** Finds best paths on one board for one set of wanted demands. */
export class Paths {
  readonly board: Board;
  readonly wanted: Wanted;
  readonly desk: Desk;

  private readonly helds: (PackPath | undefined)[] = [];

  constructor(board: Board, wanted: Wanted, desk: Desk = new Desk()) {
    this.board = board;
    this.wanted = wanted;
    this.desk = desk;
  }

  /** Where a pack that is not placed yet is held. */
  held(pack: number): PackPath {
    const known = this.helds[pack] ?? heldPath(this.board, this.wanted, pack);
    this.helds[pack] = known;
    return known;
  }

  /** The path of most value, or null where the pack has none (it is held where it must not stay, or runs dry there). */
  best(query: PathQuery): BestPath | null {
    const { board, desk } = this;
    const pack = board.model.packs[query.pack];
    const start = board.startPlace[query.pack];
    if (pack === undefined || start === undefined) return null;
    this.begin(start, pack.startWh);
    const about: About = {
      pack,
      fits: board.fits[query.pack] ?? [],
      found: board.found[query.pack],
      broken: board.broken[query.pack] ?? [],
    };
    for (let k = 0; k < board.spans; k++) {
      this.step(query, about, k);
      desk.turn();
    }
    const { endWorth } = query;
    const { charge, value } = desk;
    const { ids, from, to } = desk.now;
    let best = -1;
    let most = Number.NEGATIVE_INFINITY;
    for (let place = 0; place < board.places.length; place++) {
      const end = to[place] ?? 0;
      for (let n = from[place] ?? 0; n < end; n++) {
        const id = ids[n] ?? 0;
        const worth = (value[id] ?? 0) + (endWorth === undefined ? 0 : (endWorth[place] ?? 0) * (charge[id] ?? 0));
        if (worth <= most) continue;
        best = id;
        most = worth;
      }
    }
    return best < 0 ? null : this.trace(query.pack, best, most);
  }

  /** One label: the pack where it starts. */
  private begin(start: number, startWh: number): void {
    const { board, desk } = this;
    const { now } = desk;
    now.clear(board.places.length);
    desk.charge[0] = startWh;
    desk.out[0] = startWh;
    desk.value[0] = 0;
    desk.parent[0] = -1;
    desk.spot[0] = -1;
    desk.since[0] = -1;
    desk.work += desk.size + SEARCH_WORK;
    desk.size = 1;
    now.ids[0] = 0;
    now.top = 1;
    now.to[start] = 1;
  }

  /** Takes the labels through the touch before interval k and through the interval. */
  private step(query: PathQuery, about: About, k: number): void {
    const { board, desk } = this;
    const { spans, firstSpot } = board;
    const { now, next } = desk;
    const places = board.places.length;
    next.clear(places);
    const handsFrom = k > 0 ? this.takeInHand(k) : 0;
    const handsTo = next.top;
    for (let place = 0; place < places; place++) {
      const stayFrom = now.from[place] ?? 0;
      const stayTo = now.to[place] ?? 0;
      const enters = handsTo > handsFrom && this.canTouch(place, k) && about.fits[place] === true;
      if (stayTo === stayFrom && !enters) continue;
      let from = 0;
      let to = 0;
      const end = firstSpot[place + 1] ?? 0;
      for (let spot = firstSpot[place] ?? 0; spot < end; spot++) {
        if (query.open[spot * spans + k] !== 1) continue;
        let fresh = next.top;
        if ((board.wattsOf[spot] ?? 0) === 0 && about.found?.get(k) === undefined)
          this.pass(query, about, stayFrom, stayTo, handsFrom, enters ? handsTo : handsFrom, spot, k);
        else {
          this.extend(query, about, now.ids, stayFrom, stayTo, true, spot, k);
          const moved = next.top;
          if (enters) this.extend(query, about, next.ids, handsFrom, handsTo, false, spot, k);
          if (moved > fresh && next.top > moved) fresh = desk.merge(fresh, moved, moved, next.top);
        }
        if (from === to) from = fresh;
        else if (next.top > fresh) from = desk.merge(from, to, fresh, next.top);
        else continue;
        to = next.top;
      }
      next.from[place] = from;
      next.to[place] = to;
    }
  }

  /**
   * Pushes everything that hands can take at a touch, the charge that it has in hand falling, the value rising; gives where it
   * begins.
   */
  private takeInHand(k: number): number {
    const { board, desk } = this;
    const { now, next } = desk;
    let from = 0;
    let to = 0;
    for (let place = 0; place < board.places.length; place++) {
      const first = now.from[place] ?? 0;
      const last = now.to[place] ?? 0;
      if (first === last || !this.canTouch(place, k)) continue;
      if (board.places[place]?.kind !== "charger" || desk.falls(first, last))
        from = desk.interleave(from, to, now.ids, first, last);
      else {
        const sorted = desk.sortByHand(first, last);
        from = desk.interleave(from, to, next.ids, sorted, next.top);
      }
      to = next.top;
    }
    return from;
  }

  private canTouch(place: number, k: number): boolean {
    const at = place * this.board.spans + k;
    return k > 0 && this.board.reach[at] === 1 && this.wanted.locked[at] === 0;
  }

  /**
   * Pushes the labels after interval k on a spot that does not charge, those that stay and those in hand as one list: what it
   * holds in hand is what it holds, so of two labels the one with less charge must be worth more.
   */
  private pass(
    query: PathQuery,
    { pack, broken }: About,
    stayFrom: number,
    stayTo: number,
    handsFrom: number,
    handsTo: number,
    spot: number,
    k: number,
  ): void {
    const { board, wanted, desk } = this;
    const at = (board.placeOf[spot] ?? 0) * board.spans + k;
    const needed = wanted.need[at] === 1;
    if (needed && broken[k] === true) return;
    const gain = query.gain[spot * board.spans + k] ?? 0;
    const entering = gain - (query.moveCost[k] ?? 0);
    const drain = wanted.drain[at] ?? 0;
    const floor = needed ? pack.reserveWh + query.marginWh - EPSILON_WH : Number.NEGATIVE_INFINITY;
    const still = gain === 0 && drain === 0;
    const most = stayTo - stayFrom + handsTo - handsFrom;
    desk.next.room(most);
    desk.room(most);
    const { charge, out, value, parent, next } = desk;
    const { ids } = next;
    const stays = desk.now.ids;
    const begin = next.top;
    let top = begin;
    let size = desk.size;
    let best = Number.NEGATIVE_INFINITY;
    let i = stayFrom;
    let j = handsFrom;
    let stay = i < stayTo ? (stays[i] ?? 0) : -1;
    let hand = j < handsTo ? (ids[j] ?? 0) : -1;
    let staying = stay < 0 ? Number.NEGATIVE_INFINITY : (charge[stay] ?? 0) - drain;
    let handed = hand < 0 ? Number.NEGATIVE_INFINITY : (out[hand] ?? 0) - drain;
    while (stay >= 0 || hand >= 0) {
      const first =
        hand < 0 ||
        (stay >= 0 &&
          (staying > handed || (staying === handed && (value[stay] ?? 0) + gain >= (value[hand] ?? 0) + entering)));
      const id = first ? stay : hand;
      const after = first ? staying : handed;
      if (after < floor) break;
      if (first) {
        i++;
        stay = i < stayTo ? (stays[i] ?? 0) : -1;
        staying = stay < 0 ? Number.NEGATIVE_INFINITY : (charge[stay] ?? 0) - drain;
      } else {
        j++;
        hand = j < handsTo ? (ids[j] ?? 0) : -1;
        handed = hand < 0 ? Number.NEGATIVE_INFINITY : (out[hand] ?? 0) - drain;
      }
      const worth = (value[id] ?? 0) + (first ? gain : entering);
      if (worth <= best) continue;
      best = worth;
      let fresh = id;
      if (!first || !still || desk.spot[id] !== spot) {
        fresh = size++;
        charge[fresh] = after;
        out[fresh] = after;
        value[fresh] = worth;
        parent[fresh] = id;
        desk.spot[fresh] = spot;
        desk.since[fresh] = k;
      }
      if (top > begin && after >= (charge[ids[top - 1] ?? 0] ?? 0)) top--;
      ids[top++] = fresh;
    }
    next.top = top;
    desk.size = size;
  }

  /**
   * Pushes the labels of a list after interval k on `spot`, those that `stay` or those in hand. What runs under the floor is
   * left out, and so is everything after it, which has less charge.
   */
  private extend(
    query: PathQuery,
    { pack, found, broken }: About,
    list: Int32Array,
    from: number,
    to: number,
    stay: boolean,
    spot: number,
    k: number,
  ): void {
    const { board, wanted, desk } = this;
    const place = board.placeOf[spot] ?? 0;
    const watts = board.wattsOf[spot] ?? 0;
    const at = place * board.spans + k;
    const needed = wanted.need[at] === 1;
    const isBroken = broken[k] === true;
    if (needed && isBroken) return;
    const gain = (query.gain[spot * board.spans + k] ?? 0) - (stay ? 0 : (query.moveCost[k] ?? 0));
    const charges = watts > 0 && (board.hours[at] ?? 0) > 0 && !isBroken;
    const hours = (stay ? board.hours[at] : board.hoursIn[at]) ?? 0;
    const hoursOut = (stay ? board.hoursOut[at] : board.hoursBoth[at]) ?? 0;
    const drain = wanted.drain[at] ?? 0;
    const floor = needed ? pack.reserveWh + query.marginWh - EPSILON_WH : Number.NEGATIVE_INFINITY;
    const taper = board.taper[place] ?? 1;
    const held = found?.get(k);
    desk.next.room(to - from);
    desk.room(to - from);
    const { charge, out, value, parent, next } = desk;
    const { ids } = next;
    const begin = next.top;
    let top = begin;
    let size = desk.size;
    for (let n = from; n < to; n++) {
      const id = list[n] ?? 0;
      const before = held ?? (stay ? charge[id] : out[id]) ?? 0;
      const after = charges ? chargeAfter(before, pack.wh, taper, watts, hours) : before - drain;
      if (after < floor) break;
      const inHand = !charges || hoursOut === hours ? after : chargeAfter(before, pack.wh, taper, watts, hoursOut);
      const worth = (value[id] ?? 0) + gain;
      let fresh = id;
      const same = stay && gain === 0 && after === before && inHand === out[id] && desk.spot[id] === spot;
      if (!same) {
        fresh = size++;
        charge[fresh] = after;
        out[fresh] = inHand;
        value[fresh] = worth;
        parent[fresh] = id;
        desk.spot[fresh] = spot;
        desk.since[fresh] = k;
      }
      const last = top > begin ? (ids[top - 1] ?? 0) : -1;
      const better =
        last >= 0 && after >= (charge[last] ?? 0) && worth >= (value[last] ?? 0) && inHand >= (out[last] ?? 0);
      if (better) ids[top - 1] = fresh;
      else ids[top++] = fresh;
    }
    next.top = top;
    desk.size = size;
  }

  private trace(number: number, label: number, value: number): BestPath {
    const { parent, spot, since } = this.desk;
    const spots = new Int16Array(this.board.spans);
    let until = this.board.spans;
    for (let id = label; id >= 0 && until > 0; id = parent[id] ?? -1) {
      const from = Math.max(0, since[id] ?? -1);
      const on = spot[id] ?? 0;
      for (let k = from; k < until; k++) spots[k] = on;
      until = Math.min(until, from);
    }
    const { moves, marginWh } = this.judge(number, spots);
    return { pack: number, spots, moves, marginWh, value };
  }

  /** Moves, and the smallest charge above the reserve after a use, of a pack that stands on these spots. */
  private judge(number: number, spots: Int16Array): { readonly moves: number; readonly marginWh: number } {
    const { board, wanted } = this;
    const { spans, placeOf, wattsOf, hours, hoursIn, hoursOut, hoursBoth, taper } = board;
    const pack = board.model.packs[number];
    let moves = 0;
    let marginWh = Number.POSITIVE_INFINITY;
    if (pack === undefined) return { moves, marginWh };
    const found = board.found[number];
    const broken = board.broken[number] ?? [];
    let held = pack.startWh;
    let before = -1;
    for (let k = 0; k < spans; k++) {
      const spot = spots[k] ?? 0;
      const place = placeOf[spot] ?? 0;
      const at = place * spans + k;
      const enters = k > 0 && before !== place;
      const leaves = k + 1 < spans && placeOf[spots[k + 1] ?? 0] !== place;
      if (enters) moves++;
      before = place;
      held = found?.get(k) ?? held;
      const watts = wattsOf[spot] ?? 0;
      if (watts > 0 && broken[k] !== true) {
        const on = (enters ? (leaves ? hoursBoth : hoursIn) : leaves ? hoursOut : hours)[at] ?? 0;
        held = chargeAfter(held, pack.wh, taper[place] ?? 1, watts, on);
      }
      held -= wanted.drain[at] ?? 0;
      if (wanted.need[at] === 1) marginWh = Math.min(marginWh, held - pack.reserveWh);
    }
    return { moves, marginWh };
  }
}
