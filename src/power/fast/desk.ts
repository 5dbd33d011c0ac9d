/** The memory of one search for paths after another: labels, those that wait, and the arrays that questions are put in. */

import { noSeats, type Seats } from "./seats.ts";

/** A larger array with the same beginning. */
function grown<A extends Float64Array | Int32Array | Int16Array>(old: A, fresh: A): A {
  fresh.set(old);
  return fresh;
}

/** Labels, the heap of those that wait, and the arrays that questions are put in. */
export class Desk {
  /** By label: no path through it is worth more; of those that were not looked at yet; and of those that were, the least. */
  worth = new Float64Array(2048);
  left = new Float64Array(2048);
  seen = new Float64Array(2048);
  charge = new Float64Array(2048);
  /** Charge if the pack leaves its place at the interval's end: less than `charge` in a charger. */
  out = new Float64Array(2048);
  parent = new Int32Array(2048);
  spot = new Int16Array(2048);
  /** The interval that comes next. */
  time = new Int16Array(2048);
  size = 0;
  /** Labels of all searches so far, each search counted as some more: what budgets are counted in. */
  work = 0;
  /** `[place * (spans + 1) + k]`: no path from there on is worth more. */
  ahead = new Float64Array(0);
  /** `[spot * spans + k]`: the same for a pack that stays there, or is put there, in interval k. */
  stay = new Float64Array(0);
  put = new Float64Array(0);
  /** By interval: the most of what is put anywhere. */
  hand = new Float64Array(0);
  /** As in `ahead`: the label of most charge that was taken up there. */
  fullest = new Int32Array(0);
  private heap = new Int32Array(2048);
  private waiting = 0;
  private gains = new Float64Array(0);
  private costs = new Float64Array(0);
  private opens = new Uint8Array(0);
  private seated: Seats = noSeats(0);

  /** Forgets all labels; there are so many states, spots and intervals. */
  clear(states: number, spots: number, spans: number): void {
    this.size = 0;
    this.waiting = 0;
    if (this.ahead.length < states) {
      this.ahead = new Float64Array(states);
      this.fullest = new Int32Array(states);
    }
    if (this.stay.length < spots * spans) {
      this.stay = new Float64Array(spots * spans);
      this.put = new Float64Array(spots * spans);
    }
    if (this.hand.length < spans) this.hand = new Float64Array(spans);
    this.fullest.fill(-1, 0, states);
  }

  /** Makes sure that so many more labels can be made. */
  room(count: number): void {
    const length = this.size + count;
    if (length <= this.charge.length) return;
    this.worth = grown(this.worth, new Float64Array(2 * length));
    this.left = grown(this.left, new Float64Array(2 * length));
    this.seen = grown(this.seen, new Float64Array(2 * length));
    this.charge = grown(this.charge, new Float64Array(2 * length));
    this.out = grown(this.out, new Float64Array(2 * length));
    this.parent = grown(this.parent, new Int32Array(2 * length));
    this.spot = grown(this.spot, new Int16Array(2 * length));
    this.time = grown(this.time, new Int16Array(2 * length));
    this.heap = grown(this.heap, new Int32Array(2 * length));
  }

  /** Whether the label comes before all that wait. */
  isNext(id: number): boolean {
    return this.waiting === 0 || !this.before(this.heap[0] ?? 0, id);
  }

  /** Lets a label wait. */
  push(id: number): void {
    const { heap } = this;
    let at = this.waiting++;
    while (at > 0) {
      const up = (at - 1) >> 1;
      const above = heap[up] ?? 0;
      if (!this.before(id, above)) break;
      heap[at] = above;
      at = up;
    }
    heap[at] = id;
  }

  /** Takes the label of most worth, of equal ones the one that came furthest, then the fullest; -1 where none waits. */
  pop(): number {
    const { heap } = this;
    if (this.waiting === 0) return -1;
    const top = heap[0] ?? 0;
    const last = heap[--this.waiting] ?? 0;
    const end = this.waiting;
    let at = 0;
    for (let down = 1; down < end; down = 2 * at + 1) {
      if (down + 1 < end && this.before(heap[down + 1] ?? 0, heap[down] ?? 0)) down++;
      const below = heap[down] ?? 0;
      if (!this.before(below, last)) break;
      heap[at] = below;
      at = down;
    }
    heap[at] = last;
    return top;
  }

  private before(a: number, b: number): boolean {
    const { left, time, charge } = this;
    const more = (left[a] ?? 0) - (left[b] ?? 0);
    if (more !== 0) return more > 0;
    const further = (time[a] ?? 0) - (time[b] ?? 0);
    return further !== 0 ? further > 0 : (charge[a] ?? 0) > (charge[b] ?? 0);
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
}
