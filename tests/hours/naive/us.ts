/** 49 CFR Part 395 minute by minute. */
import {
  american,
  BERTH,
  between,
  countOf,
  DRIVE,
  DUTY,
  type Marks,
  type Minutes,
  mark,
  OFF,
  type Pairing,
  rests,
  rollingDuty,
  shiftsOf,
} from "./minutes.ts";

export interface UsOptions {
  readonly week: "60/7" | "70/8";
  readonly adverse: boolean;
  readonly shortHaul: boolean;
  readonly nonCdlShortHaul: boolean;
  readonly sixteenHour: boolean;
}

/** 395.3 with the exceptions of 395.1. */
export function property(m: Minutes, o: UsOptions, pairing: Pairing): Marks {
  const marks: Marks = new Map();
  const status = american(m, 600, true);
  const s = shiftsOf(status, 600, o.nonCdlShortHaul ? null : { each: 120, sum: 600, long: 420, pairing });
  const drives = countOf(status, DRIVE);
  const works = countOf(status, DRIVE, DUTY);
  const all = rests(status);
  const used = (i: number, anchor: number): number => i - anchor - between(s.paired, anchor, i);
  const base = o.adverse ? 960 : 840;
  const [hours, days] = o.week === "60/7" ? [3600, 7] : [4200, 8];
  const week = rollingDuty(m, status, [DUTY, DRIVE], days, 2040);
  const uses: number[] = [];
  const windows = new Map<number, number>();
  /** What the window of the stretch around minute `i` allows; noted once for each stretch. */
  const windowAt = (i: number): number => {
    const until = s.until[i] ?? 0;
    const known = windows.get(until);
    if (known !== undefined) return known;
    const anchor = s.anchor[i] ?? 0;
    const most = o.nonCdlShortHaul || o.sixteenHour ? 960 : base;
    let allowed = base;
    const earlier = uses.filter((use) => {
      if (use === anchor || (m.day[anchor] ?? 0) - (m.day[use] ?? 0) >= 7) return false;
      return o.nonCdlShortHaul || !all.some(([a, b]) => a >= use && b <= anchor && b - a >= 2040);
    }).length;
    const late = o.sixteenHour && !o.nonCdlShortHaul && anchor + 960 < until && between(works, anchor + 960, until) > 0;
    if (most > base && !late && earlier < (o.nonCdlShortHaul ? 2 : 1)) allowed = most;
    if (allowed > base) {
      let over = false;
      const from = windowStart(i);
      for (let t = from; t < until; t++) if (status[t] === DRIVE && used(t, anchor) >= base) over = true;
      if (over && !uses.includes(anchor)) uses.push(anchor);
    }
    windows.set(until, allowed);
    return allowed;
  };
  const windowStart = (i: number): number => {
    let from = i;
    while (from > 0 && s.until[from - 1] === s.until[i]) from--;
    return from;
  };
  let sinceBreak = 0;
  let pause = 0;
  for (let i = 0; i < m.length; i++) {
    const driving = status[i] === DRIVE;
    if (i === 0 || s.until[i] !== s.until[i - 1]) windowAt(i);
    if (!driving) {
      pause = status[i] === OFF || status[i] === BERTH || status[i] === DUTY ? pause + 1 : 0;
      if (pause >= 30) sinceBreak = 0;
      continue;
    }
    pause = 0;
    const anchor = s.anchor[i] ?? 0;
    if (sinceBreak >= 480 && !o.nonCdlShortHaul && !o.shortHaul) mark(marks, "us-property.break", i, m.length);
    sinceBreak += 1;
    if (between(drives, anchor, i) >= (o.adverse ? 780 : 660)) mark(marks, "us-property.driving", i, m.length);
    if ((week[i] ?? 0) >= hours) mark(marks, "us-property.week", i, m.length);
    if (s.rested[i] === 0) {
      mark(marks, "us-property.rest", i, m.length);
      continue;
    }
    const allowed = windowAt(i);
    if (used(i, anchor) < allowed) continue;
    const tooLate = all.some(
      ([a, b]) => a >= anchor && b >= (s.since[i] ?? 0) && b <= i && b - a >= 360 && used(b, anchor) >= allowed,
    );
    mark(marks, tooLate ? "us-property.rest" : "us-property.window", i, m.length);
  }
  return marks;
}

/** 395.5 and 395.1(p): ten hours at the wheel and fifteen on duty after eight off. */
export function tenAndFifteen(
  m: Minutes,
  set: "us-passenger" | "us-production",
  o: UsOptions,
  pairing: Pairing,
): Marks {
  const marks: Marks = new Map();
  const passengers = set === "us-passenger";
  const status = american(m, passengers ? 480 : 600, false);
  const s = shiftsOf(status, 480, passengers ? { each: 120, sum: 480, long: null, pairing } : null);
  const drives = countOf(status, DRIVE);
  const works = countOf(status, DRIVE, DUTY);
  const all = rests(status);
  const extra = passengers && o.adverse ? 120 : 0;
  const [hours, days] = o.week === "60/7" ? [3600, 7] : [4200, 8];
  const week = rollingDuty(m, status, [DUTY, DRIVE], days, passengers ? null : 2040);
  for (let i = 0; i < m.length; i++) {
    if (status[i] !== DRIVE) continue;
    const anchor = s.anchor[i] ?? 0;
    if (between(drives, anchor, i) >= 600 + extra) mark(marks, `${set}.driving`, i, m.length);
    if ((week[i] ?? 0) >= hours) mark(marks, `${set}.week`, i, m.length);
    if (s.rested[i] === 0) {
      mark(marks, `${set}.rest`, i, m.length);
      continue;
    }
    if (between(works, anchor, i) < 900 + extra) continue;
    const late = all.some(
      ([a, b]) =>
        a >= anchor && b >= (s.since[i] ?? 0) && b <= i && b - a >= 360 && between(works, anchor, b) >= 900 + extra,
    );
    mark(marks, late ? `${set}.rest` : `${set}.duty`, i, m.length);
  }
  return marks;
}
