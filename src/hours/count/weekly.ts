/**
 * Weekly rests by calendar week, what a short one leaves to be rested later, and the rests that make up for it: Regulation
 * (EC) No 561/2006 Art 8(6) to 8(9). One walk over a record's rests; a week is settled when it and its last rest are over.
 */
import { type Instant, type Interval, instant, lengthOf } from "../../time/units.ts";
import type { MakeUp } from "../rules/rule.ts";
import type { CountingInput } from "./countingPeriods.ts";
import type { RestRun } from "./reading.ts";
import { unitOf, weekStart } from "./since.ts";

/** What one short weekly rest, or one run home beyond the limits, leaves to be rested. */
export interface Owed {
  readonly during: Interval;
  readonly minutes: number;
  readonly due: Instant;
  /** Calendar weeks that what left it lies in. */
  readonly weeks: 1 | 2;
}

/** A rest that makes up for something, with what is left of it besides. */
export interface MakeUpRest {
  readonly rest: RestRun;
  readonly owed: Owed;
  readonly besides: number;
}

/** The weekly rests of a record, what is still owed, and when the next must begin. */
export interface WeeklyRests {
  /** At the record's end, as if the week ended with it, in the order in which it is due. */
  readonly owed: readonly Owed[];
  /** The last moment at which the next of the rests that are owed must begin; null where none is. */
  readonly beginBy: Instant | null;
  /** Stretches between rests in which it was too late for something owed. In order. */
  readonly late: readonly Interval[];
  /** Stretches after two weeks that held too little weekly rest, until there is a full one. In order. */
  readonly short: readonly Interval[];
  /** Whether the record's end is in such a stretch. */
  readonly isShort: boolean;
  readonly carried: readonly MakeUpRest[];
  /** What was not made up for in time. */
  readonly missed: readonly Owed[];
}

const inOrder = (owed: readonly Owed[]): Owed[] =>
  [...owed].sort((a, b) => a.due - b.due || a.during.from - b.during.from);

/**
 * The last moment to begin: what is owed is rested before it is due, the rest beside it may follow. Of several due at one
 * moment all but the last also have that rest, and a minute of work behind it.
 */
function beginBy(owed: readonly Owed[], beside: number): Instant | null {
  let first: number | null = null;
  let [due, by] = [0, 0];
  for (const one of owed) {
    by = (one.due === due ? by - 1 - beside : one.due) - one.minutes;
    due = one.due;
    first = Math.min(first ?? by, by);
  }
  return first === null ? null : instant(first);
}

/** A rest long enough for a weekly one that no week has been settled with. */
interface Open {
  readonly run: RestRun;
  readonly weeks: readonly [first: number, last: number];
  /** What can still be counted of it. */
  left: number;
  carries: MakeUpRest | null;
}

class Walk {
  readonly late: Interval[] = [];
  readonly short: Interval[] = [];
  readonly missed = new Set<Owed>();
  carried: MakeUpRest[] = [];
  owed: Owed[] = [];
  /** Two weeks held too little, and no full rest has come since. */
  isShort = false;
  readonly #input: CountingInput;
  readonly #rule: MakeUp;
  /** The first week that is not settled. */
  #week: number;
  #open: Open[] = [];
  /** Whether the week before had no full weekly rest; null where nothing is known of it. */
  #reduced: boolean | null = null;
  /** What is owed only from a later moment on, in that order. */
  #later: readonly Owed[];

  constructor(input: CountingInput, rule: MakeUp, owed: readonly Owed[]) {
    this.#input = input;
    this.#rule = rule;
    this.#week = this.#weekOf(input.start);
    this.#later = owed;
  }

  /** From the end of one rest to the start of the next, or to the record's end. */
  work(from: Instant, to: Instant): void {
    let at = from;
    for (let end = this.#endOf(this.#week); end <= to; end = this.#endOf(this.#week)) {
      this.#judge(at, end);
      this.#settle(this.#week++);
      at = instant(Math.max(at, end));
    }
    this.#judge(at, to);
    for (let next = this.#later[0]; next !== undefined && next.during.to <= to; next = this.#later[0]) {
      this.owed = inOrder([...this.owed, next]);
      this.#later = this.#later.slice(1);
    }
  }

  rest(run: RestRun): void {
    const { full, weekly } = this.#rule;
    const carries = this.#carry(run);
    if (lengthOf(run) >= full) this.isShort = false;
    if (lengthOf(run) < weekly) return;
    const weeks = [this.#weekOf(run.from), this.#weekOf(instant(run.to - 1))] as const;
    this.#open.push({ run, weeks, left: carries?.besides ?? lengthOf(run), carries });
    // With a long rest behind the deadline, what was missed is a thing of the past.
    for (const one of this.owed) if (one.due <= run.to) this.missed.add(one);
    this.owed = this.owed.filter(({ due }) => due > run.to);
  }

  beginBy(): Instant | null {
    return beginBy(this.owed, this.#rule.beside);
  }

  /** As if the running week were over. */
  close(): void {
    this.#settle(this.#week);
  }

  #weekOf(at: Instant): number {
    return unitOf("week", this.#input.calendar.dayOf(at));
  }

  #endOf(week: number): Instant {
    return this.#input.calendar.startOf(weekStart(week + 1));
  }

  #carry(run: RestRun): MakeUpRest | null {
    const fits = ({ minutes }: Owed): boolean => lengthOf(run) - minutes >= this.#rule.beside;
    const owed = this.owed.find((one) => one.due > run.from && fits(one)) ?? this.owed.find(fits);
    if (owed === undefined) return null;
    const carried = { rest: run, owed, besides: lengthOf(run) - owed.minutes };
    this.carried.push(carried);
    this.owed = this.owed.filter((one) => one !== owed);
    return carried;
  }

  #judge(from: Instant, to: Instant): void {
    if (from >= to) return;
    if (this.isShort) this.short.push({ from, to });
    const by = this.beginBy();
    if (by === null || by >= to) return;
    this.late.push({ from: instant(Math.max(from, by)), to });
    for (const one of this.owed) if (one.due - one.minutes < to) this.missed.add(one);
  }

  /** Which rest counts for a week: a full one, of those that make up for something the one whose make-up can wait; then the longest. */
  #chosen(week: number): Open | undefined {
    const { full, weekly } = this.#rule;
    const here = this.#open.filter(({ weeks: [first] }) => first <= week);
    const regular = here.find(({ left }) => left >= full);
    if (regular !== undefined) return regular;
    const carriers = here.filter(({ carries }) => carries !== null);
    const dueOf = ({ carries }: Open): number => carries?.owed.due ?? 0;
    const whole = carriers.filter(({ run }) => lengthOf(run) >= full);
    if (whole.length > 0) return whole.reduce((best, one) => (dueOf(one) > dueOf(best) ? one : best));
    const plain = here.filter(({ carries, left }) => carries === null && left >= weekly);
    return (plain.length > 0 ? plain : carriers).reduce<Open | undefined>(
      (best, one) => (best === undefined || lengthOf(one.run) > lengthOf(best.run) ? one : best),
      undefined,
    );
  }

  /** Whether a rest is counted as a reduced one beside what it makes up for, because that has no other time. */
  #both({ carries, left }: Open, week: number): boolean {
    return (
      carries !== null && carries.owed.due <= this.#endOf(week) && left >= this.#rule.weekly && this.#reduced !== true
    );
  }

  #settle(week: number): void {
    const { full } = this.#rule;
    const one = this.#chosen(week);
    const counted = one === undefined ? 0 : this.#count(one, week);
    if (counted < full && this.#reduced !== null && (this.#reduced || counted === 0)) this.isShort = true;
    if (counted > 0 || this.#reduced !== null) this.#reduced = counted < full;
    this.#open = this.#open.filter(({ weeks: [, last] }) => last > week);
  }

  /** Counts a rest for a week: how much of it. What it made up for is owed again if it is needed whole. */
  #count(one: Open, week: number): number {
    const { full } = this.#rule;
    const { carries, run } = one;
    if (carries !== null && one.left < full && !this.#both(one, week)) {
      this.carried = this.carried.filter((other) => other !== carries);
      this.owed = inOrder([...this.owed, carries.owed]);
      one.left = lengthOf(run);
    }
    const counted = Math.min(one.left, full);
    one.left -= counted;
    one.carries = null;
    // One that runs from before the record may be a full one.
    if (counted < full && run.from > this.#input.start) {
      const [first, last] = one.weeks;
      const due = this.#endOf(week + this.#rule.weeks);
      const owed = { during: run, minutes: full - counted, due, weeks: last > first ? 2 : 1 } as const;
      this.owed = inOrder([...this.owed, owed]);
    }
    return counted;
  }
}

/** The weekly rests of a record, what they leave owed, and what makes up for it. `called`: work begins at the record's end. */
export function weeklyRests(input: CountingInput, rule: MakeUp, owed: readonly Owed[], called: boolean): WeeklyRests {
  const walk = new Walk(input, rule, owed);
  let at = input.start;
  for (const run of input.reading.rests) {
    walk.work(at, run.from);
    walk.rest(run);
    at = run.to;
  }
  // A rest that goes on at the record's end may yet grow: the weeks it lies in are open.
  const known = at < input.end || called;
  if (known) walk.work(at, input.end);
  const { isShort, carried } = walk;
  if (known) walk.close();
  const { late, short, missed, owed: left } = walk;
  return { owed: left, beginBy: walk.beginBy(), late, short, isShort, carried, missed: [...missed] };
}
