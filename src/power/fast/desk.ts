/** The memory of one search for paths after another: labels, and lists of them. Made once and used anew each time. */

import { noSeats, type Seats } from "./seats.ts";

/** A larger array with the same beginning. */
function grown<A extends Float64Array | Int32Array | Int16Array>(old: A, fresh: A): A {
  fresh.set(old);
  return fresh;
}

/** Lists of label numbers, one behind the other in one array; what is pushed belongs to the last of them. */
export class Lists {
  ids = new Int32Array(4096);
  /** Where the next one goes. */
  top = 0;
  /** By place: its list, `from` inside, `to` outside. */
  from = new Int32Array(0);
  to = new Int32Array(0);

  /** Empties all, for that many places. */
  clear(places: number): void {
    this.top = 0;
    if (this.from.length < places) [this.from, this.to] = [new Int32Array(places), new Int32Array(places)];
    this.from.fill(0);
    this.to.fill(0);
  }

  /** Makes sure that so many more can be pushed. */
  room(count: number): void {
    const length = this.top + count;
    if (length > this.ids.length) this.ids = grown(this.ids, new Int32Array(2 * length));
  }
}

/** Labels, lists of them, and the arrays that questions are put in. */
export class Desk {
  charge = new Float64Array(4096);
  /** Charge if the pack leaves its place at the interval's end: less than `charge` in a charger. */
  out = new Float64Array(4096);
  value = new Float64Array(4096);
  parent = new Int32Array(4096);
  spot = new Int16Array(4096);
  since = new Int16Array(4096);
  size = 0;
  /** Labels of all searches so far, each search counted as some more: what budgets are counted in. */
  work = 0;
  private gains = new Float64Array(0);
  private costs = new Float64Array(0);
  private opens = new Uint8Array(0);
  private seated: Seats = noSeats(0);
  /** The lists of the interval before, and of the one that is worked on. */
  now = new Lists();
  next = new Lists();

  /** Makes sure that so many more labels can be made. */
  room(count: number): void {
    const length = this.size + count;
    if (length <= this.charge.length) return;
    this.charge = grown(this.charge, new Float64Array(2 * length));
    this.out = grown(this.out, new Float64Array(2 * length));
    this.value = grown(this.value, new Float64Array(2 * length));
    this.parent = grown(this.parent, new Int32Array(2 * length));
    this.spot = grown(this.spot, new Int16Array(2 * length));
    this.since = grown(this.since, new Int16Array(2 * length));
  }

  /** Zeroes, at least so many. */
  gain(length: number): Float64Array {
    if (this.gains.length < length) this.gains = new Float64Array(length);
    return this.gains.fill(0);
  }

  /** Room for what a move costs before each of so many intervals, with what was in it. */
  cost(length: number): Float64Array {
    if (this.costs.length < length) this.costs = new Float64Array(length);
    return this.costs;
  }

  /** Nowhere open, at least so many. */
  open(length: number): Uint8Array {
    if (this.opens.length < length) this.opens = new Uint8Array(length);
    return this.opens.fill(0);
  }

  /** Nobody anywhere, at least so many. */
  seats(length: number): Seats {
    if (this.seated.count.length < length) this.seated = noSeats(length);
    this.seated.count.fill(0);
    this.seated.level.fill(Number.POSITIVE_INFINITY);
    return this.seated;
  }

  turn(): void {
    const { now } = this;
    this.now = this.next;
    this.next = now;
  }

  /** Pushes two lists by falling charge in hand as one, without what is worth no more than something before it. */
  interleave(aFrom: number, aTo: number, other: Int32Array, bFrom: number, bTo: number): number {
    const { out, value, next } = this;
    next.room(aTo - aFrom + bTo - bFrom);
    const { ids } = next;
    const begin = next.top;
    let top = Number.NEGATIVE_INFINITY;
    let end = begin;
    let i = aFrom;
    let j = bFrom;
    while (i < aTo || j < bTo) {
      let id = 0;
      if (j >= bTo) id = ids[i++] ?? 0;
      else {
        const y = other[j] ?? 0;
        if (i >= aTo) {
          id = y;
          j++;
        } else {
          const x = ids[i] ?? 0;
          const ox = out[x] ?? 0;
          const oy = out[y] ?? 0;
          const first = ox > oy || (ox === oy && (value[x] ?? 0) >= (value[y] ?? 0));
          id = first ? x : y;
          if (first) i++;
          else j++;
        }
      }
      const worth = value[id] ?? 0;
      if (worth <= top) continue;
      top = worth;
      ids[end++] = id;
    }
    next.top = end;
    return begin;
  }

  /** Whether a list of the interval before falls by charge in hand. */
  falls(from: number, to: number): boolean {
    const { out, now } = this;
    for (let n = from + 1; n < to; n++) if ((out[now.ids[n - 1] ?? 0] ?? 0) < (out[now.ids[n] ?? 0] ?? 0)) return false;
    return true;
  }

  /** Pushes a list of the interval before by falling charge in hand, what is equal in its order; gives where it begins. */
  sortByHand(from: number, to: number): number {
    const { out, now, next } = this;
    next.room(to - from);
    const { ids } = next;
    const begin = next.top;
    for (let n = from; n < to; n++) {
      const id = now.ids[n] ?? 0;
      const held = out[id] ?? 0;
      let at = next.top++;
      while (at > begin && (out[ids[at - 1] ?? 0] ?? 0) < held) {
        ids[at] = ids[at - 1] ?? 0;
        at--;
      }
      ids[at] = id;
    }
    return begin;
  }

  /** Pushes two lists, charge falling, as one; what is worth no more than another, staying or in hand, is dropped. */
  merge(aFrom: number, aTo: number, bFrom: number, bTo: number): number {
    const { charge, value, out, next } = this;
    next.room(aTo - aFrom + bTo - bFrom);
    const { ids } = next;
    const begin = next.top;
    let end = begin;
    let top = Number.NEGATIVE_INFINITY;
    let best = -1;
    let i = aFrom;
    let j = bFrom;
    while (i < aTo || j < bTo) {
      let id = 0;
      if (j >= bTo) id = ids[i++] ?? 0;
      else if (i >= aTo) id = ids[j++] ?? 0;
      else {
        const x = ids[i] ?? 0;
        const y = ids[j] ?? 0;
        const cx = charge[x] ?? 0;
        const cy = charge[y] ?? 0;
        const first = cx > cy || (cx === cy && (value[x] ?? 0) >= (value[y] ?? 0));
        id = first ? x : y;
        if (first) i++;
        else j++;
      }
      const worth = value[id] ?? 0;
      if (worth > top) {
        top = worth;
        best = id;
      } else if (best >= 0 && (out[id] ?? 0) <= (out[best] ?? 0)) continue;
      ids[end++] = id;
    }
    next.top = end;
    return begin;
  }
}
