/**
 * A second reading of the rules, minute by minute, that knows nothing of the engine's: a log is an array of minutes, a
 * rule a loop over it. Slow, plain, and written from the rules' text.
 */
export const OFF = 0;
export const BERTH = 1;
export const MEAL = 2;
export const DUTY = 3;
export const DRIVE = 4;
export const IDLE = 5;

/** One minute of a log: what it is, whether it is in a light vehicle, and its calendar day. */
export interface Minutes {
  readonly length: number;
  readonly is: readonly string[];
  readonly light: readonly boolean[];
  /** Day number of each minute on the log's clock. */
  readonly day: Int32Array;
}

export type Marks = Map<string, Uint8Array>;

/** A status for each minute. */
export function statuses(m: Minutes, of: (word: string | undefined, minute: number) => number): Uint8Array {
  const status = new Uint8Array(m.length);
  for (let i = 0; i < m.length; i++) status[i] = of(m.is[i], i);
  return status;
}

/** Marks a minute as a breach of a limit. */
export function mark(marks: Marks, limit: string, minute: number, length: number): void {
  const bits = marks.get(limit) ?? new Uint8Array(length);
  marks.set(limit, bits);
  bits[minute] = 1;
}

/** The maximal stretches [from, to) whose minutes fit. */
export function runsOf(length: number, fits: (minute: number) => boolean): [number, number][] {
  const runs: [number, number][] = [];
  for (let i = 0; i < length; i++) {
    if (!fits(i)) continue;
    let end = i;
    while (end < length && fits(end)) end++;
    runs.push([i, end]);
    i = end;
  }
  return runs;
}

const isFree = (word: string | undefined): boolean => word === "off" || word === "berth" || word === "meal";

/** Statuses under US and Canadian rules: riding by order is duty unless so many free minutes follow on arrival. */
export function american(m: Minutes, travel: number, seat: boolean): Uint8Array {
  const status = new Uint8Array(m.length);
  for (let i = 0; i < m.length; i++) {
    const word = m.is[i];
    if (word === "off" || word === "meal") status[i] = OFF;
    else if (word === "berth") status[i] = BERTH;
    else if (word === "driving") status[i] = m.light[i] === true ? DUTY : DRIVE;
    else if (word === "personal") status[i] = IDLE;
    else status[i] = DUTY;
  }
  const ordered = new Set<number>();
  for (const [from, to] of runsOf(m.length, (i) => m.is[i] === "riding")) {
    let end = to;
    while (end < m.length && isFree(m.is[end])) end++;
    const free = end - to >= travel;
    for (let i = from; i < to; i++) {
      if (free) status[i] = OFF;
      else if (m.light[i] !== true) ordered.add(i);
    }
  }
  if (!seat) return status;
  const inBerth = status.slice();
  for (const [from, to] of runsOf(m.length, (i) => inBerth[i] === BERTH)) {
    if (to - from < 420) continue;
    if (ordered.has(to)) {
      for (let i = to, n = 0; ordered.has(i); i++, n++) {
        if (n < 180) status[i] = OFF;
        ordered.delete(i);
      }
    } else for (let i = from - 1, n = 0; n < 180 && ordered.has(i); i--, n++) status[i] = OFF;
  }
  return status;
}

export const rests = (status: Uint8Array): [number, number][] =>
  runsOf(status.length, (i) => status[i] === OFF || status[i] === BERTH);

/** The longest stretch in the berth inside [from, to). */
function berthIn(status: Uint8Array, from: number, to: number): [number, number] {
  let best: [number, number] = [from, from];
  for (const [a, b] of runsOf(to - from, (i) => status[from + i] === BERTH)) {
    if (b - a > best[1] - best[0]) best = [from + a, from + b];
  }
  return best;
}

/** For each minute: since when shift limits count, whether a rest is known, and how much of paired rests lies before. */
export interface Shifts {
  readonly anchor: Int32Array;
  readonly rested: Uint8Array;
  /** Minutes of paired rests up to each minute. */
  readonly paired: Int32Array;
  /** The stretch in which the same count holds. */
  readonly since: Int32Array;
  readonly until: Int32Array;
}

/**
 * Where a rest could be paired with several earlier ones: how many of these are passed over, from the latest on, one
 * number for each such rest; none where the list ends. How many there were is noted in `open`.
 */
export interface Pairing {
  readonly passed: readonly number[];
  readonly open: number[];
}

export interface PairRule {
  readonly pairing: Pairing;
  readonly each: number;
  readonly sum: number;
  /** Minutes in the berth that one of the two must have; null where both are all berth. */
  readonly long: number | null;
}

/** Full rests cut the log; between them rests pair: each with one that fits, not before the newest pair's first. */
export function shiftsOf(status: Uint8Array, full: number, pair: PairRule | null): Shifts {
  const n = status.length;
  const anchor = new Int32Array(n).fill(0);
  const rested = new Uint8Array(n);
  const paired = new Int32Array(n + 1);
  const since = new Int32Array(n);
  const until = new Int32Array(n).fill(n);
  const all = rests(status);
  const left = new Uint8Array(n);
  const fulls = all.filter(([a, b]) => b - a >= full);
  const first = all[0] !== undefined && all[0][0] === 0 ? all[0][1] : 0;
  const starts: [number, number][] = [[0, first]];
  for (const [, b] of fulls) starts.push([b, b]);
  starts.forEach(([begin, count], g) => {
    const closing = fulls[g];
    const end = closing === undefined ? n : closing[1];
    const known = g > 0;
    const cuts: { at: number; anchor: number; rested: boolean }[] = [{ at: begin, anchor: count, rested: known }];
    if (pair !== null) {
      const inside = all.filter(([a, b]) => a >= begin && b <= end);
      const parts: { a: number; b: number; long: number; closes: boolean }[] = [];
      for (const [a, b] of inside) {
        const [x, y] = berthIn(status, a, b);
        const [from, to] = pair.long === null ? [x, y] : [a, b];
        if (to - from >= pair.each)
          parts.push({ a: from, b: to, long: y - x, closes: closing !== undefined && a === closing[0] });
      }
      let floor = 0;
      for (let j = 0; j < parts.length; j++) {
        const second = parts[j];
        if (second === undefined) continue;
        const fits = parts
          .map((_, i) => i)
          .filter((i) => {
            const one = parts[i];
            if (one === undefined || i < floor || i >= j) return false;
            const enough = one.b - one.a + second.b - second.a >= pair.sum;
            return enough && (pair.long === null || one.long >= pair.long || second.long >= pair.long);
          });
        let take = fits.length - 1;
        if (fits.length > 1) {
          take -= pair.pairing.passed[pair.pairing.open.length] ?? 0;
          pair.pairing.open.push(fits.length);
        }
        const i = fits[take];
        const one = i === undefined ? undefined : parts[i];
        if (i === undefined || one === undefined) continue;
        left.fill(1, one.a, one.b);
        left.fill(1, second.a, second.b);
        floor = i + 1;
        if (!second.closes) cuts.push({ at: second.b, anchor: one.b, rested: true });
      }
    }
    cuts.forEach((cut, k) => {
      const to = cuts[k + 1]?.at ?? end;
      for (let i = cut.at; i < to; i++) {
        anchor[i] = cut.anchor;
        rested[i] = cut.rested ? 1 : 0;
        since[i] = cut.at;
        until[i] = to;
      }
    });
  });
  for (let i = 0; i < n; i++) paired[i + 1] = (paired[i] ?? 0) + (left[i] ?? 0);
  return { anchor, rested, paired, since, until };
}

/** How many minutes with these statuses lie before each minute. */
export function countOf(status: Uint8Array, ...which: number[]): Int32Array {
  const sums = new Int32Array(status.length + 1);
  for (let i = 0; i < status.length; i++) sums[i + 1] = (sums[i] ?? 0) + (which.includes(status[i] ?? -1) ? 1 : 0);
  return sums;
}

export const between = (sums: Int32Array, from: number, to: number): number => (sums[to] ?? 0) - (sums[from] ?? 0);

/** Duty in the running calendar day and those before it, wiped by a long rest; what it is before each minute. */
export function rollingDuty(
  m: Minutes,
  status: Uint8Array,
  counted: readonly number[],
  days: number,
  wipe: number | null,
): Int32Array {
  const sum = new Int32Array(m.length);
  const byDay = new Map<number, number>();
  const ends = new Set(
    wipe === null
      ? []
      : rests(status)
          .filter(([a, b]) => b - a >= wipe)
          .map(([, b]) => b),
  );
  let total = 0;
  let today = m.day[0] ?? 0;
  for (let i = 0; i < m.length; i++) {
    if (ends.has(i)) {
      byDay.clear();
      total = 0;
    }
    const day = m.day[i] ?? 0;
    while (today < day) {
      today += 1;
      total -= byDay.get(today - days) ?? 0;
    }
    sum[i] = total;
    if (counted.includes(status[i] ?? -1)) {
      byDay.set(day, (byDay.get(day) ?? 0) + 1);
      total += 1;
    }
  }
  return sum;
}
