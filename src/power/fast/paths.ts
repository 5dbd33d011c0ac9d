/**
 * The best day of one pack for given prices: its ways over the touches, those that may be worth most looked at first.
 *
 * What a way can still bring is bounded by what it would bring if charge were no matter, except for uses that no charge the pack
 * can have there would last for. A label is a way so far (charge, bound); the first one that comes to the end of the day is the
 * best. More charge is never worse, so a label is dropped where one of more charge and no less worth was at the same place: what
 * is left is exact. The fast rotation, the pricing of columns and every bound of ours are this one program.
 */
import type { ModelPack } from "../model.ts";
import { chargeAlone } from "../proof/ceiling.ts";
import { type Board, chargeAfter, type Wanted } from "../proof/searchState.ts";
import { Desk } from "./desk.ts";
import type { BestPath, PackPath } from "./packPath.ts";
import { heldPath } from "./seats.ts";

/** What a search costs besides its labels, in labels: on a large board one for so many intervals of spots. */
const SEARCH_WORK = 50;
const CELLS = 8;

/** Ways worth this much less than the best ones are looked at together with them. */
const SLACK = 150;

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
  /** A path worth less than this is not asked for; nothing where any is. */
  readonly least?: number;
  /** What a Wh held at the end is worth, by place; nothing where it is left out. */
  readonly endWorth?: Float64Array;
}

/** What a search needs to know of its pack. */
interface About {
  readonly pack: ModelPack;
  /** `[place * spans + k]`: whether it may stay there, be taken from there and be put there, as bits. */
  readonly ways: Uint8Array;
  /** What it was found to hold at the start of an interval. */
  readonly found: ReadonlyMap<number, number> | undefined;
  /** By interval: whether it is out of service in any part of it. */
  readonly broken: readonly boolean[];
  /** The least that it may hold after a use. */
  readonly floor: number;
}

const STAY = 1;
const TAKE = 2;
const PUT = 4;

/** Finds best paths on one board for one set of wanted demands. */
export class Paths {
  readonly board: Board;
  readonly wanted: Wanted;
  readonly desk: Desk;

  private readonly helds: (PackPath | undefined)[] = [];
  private readonly known: (About | undefined)[] = [];

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
    const start = board.startPlace[query.pack];
    const about = this.about(query.pack, query.marginWh);
    if (about === null || start === undefined) return null;
    const { spans } = board;
    desk.clear(board.places.length * (spans + 1), board.spots.length, spans);
    this.look(query, about);
    const first = this.begin(start, about.pack.startWh);
    const least = query.least ?? Number.NEGATIVE_INFINITY;
    let id = (desk.worth[first] ?? 0) > Number.NEGATIVE_INFINITY ? first : -1;
    while (id >= 0 && (desk.time[id] ?? 0) < spans && (desk.left[id] ?? 0) >= least) {
      const next = this.extend(query, about, id);
      if (next < 0) id = desk.pop();
      else if (desk.isNext(next)) id = next;
      else {
        desk.push(next);
        id = desk.pop();
      }
    }
    desk.work += desk.size + Math.max(SEARCH_WORK, (board.spots.length * spans) / CELLS);
    return id < 0 || (desk.left[id] ?? 0) < least ? null : this.trace(query, id);
  }

  /** The same way where other uses are wanted; null where they, or this margin, do not let the pack go it. */
  again({ pack, spots }: PackPath, marginWh: number): PackPath | null {
    const { spans, placeOf } = this.board;
    const ways = this.about(pack, marginWh)?.ways;
    if (ways === undefined) return null;
    let before = placeOf[spots[0] ?? 0] ?? 0;
    for (let k = 0; k < spans; k++) {
      const place = placeOf[spots[k] ?? 0] ?? 0;
      const way = ways[place * spans + k] ?? 0;
      if ((way & STAY) === 0) return null;
      if (place !== before && (way < PUT || ((ways[before * spans + k] ?? 0) & TAKE) === 0)) return null;
      before = place;
    }
    const judged = this.judge(pack, spots);
    return judged.marginWh < marginWh ? null : { pack, spots, ...judged };
  }

  private about(number: number, marginWh: number): About | null {
    const { board } = this;
    const pack = board.model.packs[number];
    if (pack === undefined) return null;
    const floor = pack.reserveWh + marginWh - EPSILON_WH;
    const known = this.known[number];
    if (known?.floor === floor) return known;
    const about = {
      ...{ pack, floor, found: board.found[number], broken: board.broken[number] ?? [] },
      ways: this.ways(number, floor),
    };
    this.known[number] = about;
    return about;
  }

  private ways(number: number, floor: number): Uint8Array {
    const { board, wanted } = this;
    const { spans } = board;
    const alone = chargeAlone(board, number);
    const ways = new Uint8Array(board.places.length * spans);
    const found = board.found[number];
    for (let place = 0; place < board.places.length; place++) {
      let most = 0;
      for (let k = 0; k < spans; k++) {
        const at = place * spans + k;
        const before = wanted.locked[at] === 1 && found?.has(k) !== true ? most : Number.POSITIVE_INFINITY;
        most = Math.min(before, alone[at] ?? 0) - (wanted.drain[at] ?? 0);
        const lasts = wanted.need[at] === 0 || (board.broken[number]?.[k] !== true && most >= floor);
        const inReach = k > 0 && board.reach[at] === 1 && wanted.locked[at] === 0;
        const enters = inReach && lasts && board.fits[number]?.[place] === true;
        ways[at] = (lasts ? STAY : 0) | (inReach ? TAKE : 0) | (enters ? PUT : 0);
      }
    }
    return ways;
  }

  /** Bounds what every place and spot is worth from each interval on. */
  private look(query: PathQuery, { ways, pack }: About): void {
    const { spans, firstSpot, places } = this.board;
    const { ahead, stay, put, hand } = this.desk;
    const { open, gain, moveCost, endWorth } = query;
    const row = spans + 1;
    const count = places.length;
    for (let place = 0; place < count; place++)
      ahead[place * row + spans] = endWorth === undefined ? 0 : (endWorth[place] ?? 0) * pack.wh;
    for (let k = spans - 1; k >= 0; k--) {
      const cost = moveCost[k] ?? 0;
      let held = Number.NEGATIVE_INFINITY;
      for (let place = 0; place < count; place++) {
        const way = ways[place * spans + k] ?? 0;
        const end = (firstSpot[place + 1] ?? 0) * spans;
        const later = ahead[place * row + k + 1] ?? 0;
        let most = Number.NEGATIVE_INFINITY;
        for (let at = (firstSpot[place] ?? 0) * spans + k; at < end; at += spans) {
          const worth = (way & STAY) !== 0 && open[at] === 1 ? (gain[at] ?? 0) + later : Number.NEGATIVE_INFINITY;
          stay[at] = worth;
          put[at] = way >= PUT ? worth - cost : Number.NEGATIVE_INFINITY;
          if (worth > most) most = worth;
        }
        ahead[place * row + k] = most;
        if (way >= PUT && most > held) held = most;
      }
      held -= cost;
      hand[k] = held;
      for (let at = k, n = k; n < count * spans; at += row, n += spans)
        if (((ways[n] ?? 0) & TAKE) !== 0 && held > (ahead[at] ?? 0)) ahead[at] = held;
    }
  }

  /** The first label: the pack where it starts. */
  private begin(start: number, startWh: number): number {
    const { desk } = this;
    desk.size = 1;
    desk.worth[0] = desk.ahead[start * (this.board.spans + 1)] ?? 0;
    desk.left[0] = desk.worth[0] ?? 0;
    desk.seen[0] = Number.POSITIVE_INFINITY;
    desk.charge[0] = startWh;
    desk.out[0] = startWh;
    desk.parent[0] = -1;
    desk.spot[0] = this.board.firstSpot[start] ?? 0;
    desk.time[0] = 0;
    return 0;
  }

  /** Takes a label through the next touch and interval in the ways of most worth and lets it wait for the others; gives one, or -1. */
  private extend(query: PathQuery, about: About, id: number): number {
    const { board, desk } = this;
    const { spans, firstSpot } = board;
    const k = desk.time[id] ?? 0;
    const place = board.placeOf[desk.spot[id] ?? 0] ?? 0;
    const state = place * (spans + 1) + k;
    const least = (desk.left[id] ?? 0) - SLACK;
    const most = desk.seen[id] ?? 0;
    if (most === Number.POSITIVE_INFINITY) {
      if (this.isLess(state, desk.charge[id] ?? 0, desk.out[id] ?? 0)) return -1;
      desk.fullest[state] = id;
    }
    desk.seen[id] = least;
    desk.room(board.spots.length);
    const { stay, put } = desk;
    const whole = desk.worth[id] ?? 0;
    const ahead = desk.ahead[state] ?? 0;
    let left = Number.NEGATIVE_INFINITY;
    let best = -1;
    const own = firstSpot[place] ?? 0;
    const others = firstSpot[place + 1] ?? 0;
    for (let spot = own; spot < others; spot++) {
      const worth = whole - (ahead - (stay[spot * spans + k] ?? 0));
      if (worth >= most || worth === Number.NEGATIVE_INFINITY) continue;
      if (worth < least) left = Math.max(left, worth);
      else best = this.wait(best, this.stand(query, about, id, spot, true, worth));
    }
    const handed = whole - (ahead - (desk.hand[k] ?? 0));
    if (((about.ways[place * spans + k] ?? 0) & TAKE) === 0 || handed === Number.NEGATIVE_INFINITY)
      return this.leave(id, left, best);
    if (handed < least) return this.leave(id, Math.max(left, handed), best);
    for (let spot = 0; spot < board.spots.length; spot++) {
      const worth = whole - (ahead - (put[spot * spans + k] ?? 0));
      if (worth >= most || worth === Number.NEGATIVE_INFINITY || (spot >= own && spot < others)) continue;
      if (worth < least) left = Math.max(left, worth);
      else best = this.wait(best, this.stand(query, about, id, spot, false, worth));
    }
    return this.leave(id, left, best);
  }

  /** Goes on with the later one of two labels and lets the other wait. */
  private wait(before: number, next: number): number {
    if (next < 0) return before;
    if (before >= 0) this.desk.push(before);
    return next;
  }

  /** Lets a label wait for its ways of less worth. */
  private leave(id: number, left: number, best: number): number {
    if (left > Number.NEGATIVE_INFINITY) {
      this.desk.left[id] = left;
      this.desk.push(id);
    }
    return best;
  }

  /** Whether a label with no more charge, and no less worth, was at the same place. */
  private isLess(state: number, charge: number, out: number): boolean {
    const { desk } = this;
    const fullest = desk.fullest[state] ?? -1;
    return fullest >= 0 && charge <= (desk.charge[fullest] ?? 0) && out <= (desk.out[fullest] ?? 0);
  }

  /** The label after an interval on a spot, or -1 where the pack runs under its floor or another was there with more. */
  private stand(query: PathQuery, about: About, id: number, spot: number, stays: boolean, worth: number): number {
    const { board, desk, wanted } = this;
    const { spans } = board;
    const k = desk.time[id] ?? 0;
    const place = board.placeOf[spot] ?? 0;
    const at = place * spans + k;
    const watts = board.wattsOf[spot] ?? 0;
    const before = about.found?.get(k) ?? (stays ? desk.charge[id] : desk.out[id]) ?? 0;
    let after = before;
    let out = before;
    if (watts > 0 && (board.hours[at] ?? 0) > 0 && about.broken[k] !== true) {
      const taper = board.taper[place] ?? 1;
      const hours = (stays ? board.hours[at] : board.hoursIn[at]) ?? 0;
      const hoursOut = (stays ? board.hoursOut[at] : board.hoursBoth[at]) ?? 0;
      after = chargeAfter(before, about.pack.wh, taper, watts, hours);
      out = hoursOut === hours ? after : chargeAfter(before, about.pack.wh, taper, watts, hoursOut);
    } else {
      after -= wanted.drain[at] ?? 0;
      out = after;
      if (wanted.need[at] === 1 && after < about.floor) return -1;
    }
    if (this.isLess(place * (spans + 1) + k + 1, after, out)) return -1;
    const next = desk.size++;
    const isEnd = k + 1 === spans && query.endWorth !== undefined;
    const own = isEnd ? worth - (query.endWorth[place] ?? 0) * (about.pack.wh - after) : worth;
    desk.worth[next] = own;
    desk.left[next] = own;
    desk.seen[next] = Number.POSITIVE_INFINITY;
    desk.charge[next] = after;
    desk.out[next] = out;
    desk.parent[next] = id;
    desk.spot[next] = spot;
    desk.time[next] = k + 1;
    return next;
  }

  private trace({ pack, gain, moveCost, endWorth }: PathQuery, label: number): BestPath {
    const { board, desk } = this;
    const { spans, placeOf } = board;
    const spots = new Int16Array(spans);
    for (let id = label, k = spans - 1; k >= 0; k--) {
      spots[k] = desk.spot[id] ?? 0;
      id = desk.parent[id] ?? 0;
    }
    const end = placeOf[spots[spans - 1] ?? 0] ?? 0;
    let value = endWorth === undefined ? 0 : (endWorth[end] ?? 0) * (desk.charge[label] ?? 0);
    for (let k = 0; k < spans; k++) {
      const spot = spots[k] ?? 0;
      if (k > 0 && placeOf[spot] !== placeOf[spots[k - 1] ?? 0]) value -= moveCost[k] ?? 0;
      value += gain[spot * spans + k] ?? 0;
    }
    return { pack, spots, ...this.judge(pack, spots), value };
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
