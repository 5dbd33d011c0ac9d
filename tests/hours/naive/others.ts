/** Canada, the working time directive, Great Britain and the house rules minute by minute. */

import { european } from "./europe.ts";
import {
  american,
  BERTH,
  between,
  countOf,
  DRIVE,
  DUTY,
  IDLE,
  type Marks,
  MEAL,
  type Minutes,
  mark,
  OFF,
  type Pairing,
  rests,
  rollingDuty,
  runsOf,
  shiftsOf,
  statuses,
} from "./minutes.ts";
import { weekOf } from "./weekly.ts";

export interface CanadaOptions {
  readonly cycle: 1 | 2;
  readonly drivers: 1 | 2;
  readonly adverse: boolean;
  readonly deferral: boolean;
}

/**
 * s. 16: the days that may leave up to two hours of their ten to the next, not two in a row, if the next has those and
 * its own free, eight of them and the two in one piece, and both together at most 26 hours at the wheel. What lies
 * outside the log is free.
 */
function deferredDays(
  m: Minutes,
  status: Uint8Array,
  free: Uint8Array,
  dayLength: (day: number) => number,
): ReadonlySet<number> {
  const done = new Set<number>();
  const last = m.day[m.length - 1] ?? 0;
  const minutes = (day: number, fits: (i: number) => boolean): number => {
    let count = 0;
    for (let i = 0; i < m.length; i++) if (m.day[i] === day && fits(i)) count += 1;
    return count;
  };
  const isRest = (i: number): boolean => status[i] === OFF || status[i] === BERTH;
  const longest = (day: number): number => {
    let [best, run, seen] = [0, 0, 0];
    for (let i = 0; i < m.length; i++) {
      if (m.day[i] !== day) continue;
      seen += 1;
      run = isRest(i) ? run + 1 : 0;
      best = Math.max(best, run);
    }
    return day >= last ? Math.max(best, run + dayLength(day) - seen) : best;
  };
  for (let day = m.day[0] ?? 0; day <= last; day++) {
    const short = 600 - (dayLength(day) - minutes(day, (i) => free[i] === 0));
    if (short <= 0 || short > 120 || done.has(day - 1)) continue;
    const next = day + 1;
    if (dayLength(next) - minutes(next, (i) => free[i] === 0) < 600 + short) continue;
    if (longest(next) < 480 + short) continue;
    if (minutes(day, (i) => status[i] === DRIVE) + minutes(next, (i) => status[i] === DRIVE) > 1560) continue;
    done.add(day);
  }
  return done;
}

/**
 * SOR/2005-313 ss. 12 to 14, 16, 18, 19, 25 to 28. `dayLength` of a calendar day, minutes; `bites` takes the first minute
 * of work that leaves a day too little free.
 */
export function canada(
  m: Minutes,
  o: CanadaOptions,
  dayLength: (day: number) => number,
  pairing: Pairing,
  bites: number[] = [],
): Marks {
  const marks: Marks = new Map();
  const status = american(m, 480, false);
  const s = shiftsOf(
    status,
    480,
    o.drivers === 2 ? { each: 240, sum: 480, long: null, pairing } : { each: 120, sum: 600, long: null, pairing },
  );
  const drives = countOf(status, DRIVE);
  const works = countOf(status, DRIVE, DUTY);
  const extra = o.adverse ? 120 : 0;
  const cycle = rollingDuty(m, status, [DUTY, DRIVE], o.cycle === 1 ? 7 : 14, o.cycle === 1 ? 2160 : 4320);
  const all = rests(status);
  let begin = 0;
  let lastDayOff = all[0]?.[0] === 0 ? all[0][1] : 0;
  const free = new Uint8Array(m.length);
  for (const [a, b] of all) if (b - a >= 30 || b === m.length) free.fill(1, a, b);
  const ends = new Map(all.map(([a, b]) => [b, b - a]));
  const excused = o.deferral ? deferredDays(m, status, free, dayLength) : new Set<number>();
  let busy = 0;
  let broken = false;
  const breakDay = (day: number): void => {
    for (let i = 0; i < m.length; i++) if (m.day[i] === day) mark(marks, "ca-south.day-off", i, m.length);
  };
  for (let i = 0; i < m.length; i++) {
    const day = m.day[i] ?? 0;
    if (i > 0 && m.day[i - 1] !== day) {
      begin = i;
      busy = 0;
      broken = false;
    }
    if ((ends.get(i) ?? 0) >= 1440) lastDayOff = i;
    const work = status[i] === DRIVE || status[i] === DUTY;
    if (work && !broken && !excused.has(day) && busy >= dayLength(day) - 600) {
      broken = true;
      bites.push(i);
      breakDay(day);
    }
    if (free[i] === 0) busy += 1;
    if (status[i] !== DRIVE) continue;
    const anchor = s.anchor[i] ?? 0;
    const most = (sums: Int32Array): number => Math.max(between(sums, begin, i), between(sums, anchor, i));
    if (most(drives) >= 780 + extra) mark(marks, "ca-south.driving", i, m.length);
    if (most(works) >= 840 + extra) mark(marks, "ca-south.duty", i, m.length);
    if (i - anchor - between(s.paired, anchor, i) >= 960) mark(marks, "ca-south.elapsed", i, m.length);
    if ((cycle[i] ?? 0) >= (o.cycle === 1 ? 4200 : 7200)) mark(marks, "ca-south.cycle", i, m.length);
    if (o.cycle === 2 && between(works, lastDayOff, i) >= 4200) mark(marks, "ca-south.cycle-rest", i, m.length);
    if (i - lastDayOff >= 13 * 1440) mark(marks, "ca-south.day-in-14", i, m.length);
  }
  return marks;
}

/** Shifts parted by six hours free: their starts, for each minute. */
function partedShifts(m: Minutes, isRest: (i: number) => boolean, least: number): Int32Array {
  const from = new Int32Array(m.length);
  let [start, rest] = [0, 0];
  for (let i = 0; i < m.length; i++) {
    if (isRest(i)) rest += 1;
    else {
      if (rest >= least || rest === i) start = i;
      rest = 0;
    }
    from[i] = start;
  }
  return from;
}

/** Minutes worked before a rest of six hours or more had reached `need`. */
function shortRests(
  m: Minutes,
  isRest: (i: number) => boolean,
  need: number,
  works: (i: number) => boolean,
  hit: (i: number) => void,
): void {
  for (const [a, b] of runsOf(m.length, isRest)) {
    if (b - a < 360 || b - a >= need) continue;
    for (let i = b; i < Math.min(m.length, a + need); i++) if (works(i)) hit(i);
  }
}

/** Directive 2003/88/EC Art 3 and 5. */
export function workingTime(m: Minutes): Marks {
  const marks: Marks = new Map();
  const status = european(m, true);
  const isRest = (i: number): boolean => status[i] === OFF || status[i] === BERTH;
  const works = (i: number): boolean => !isRest(i);
  shortRests(m, isRest, 660, works, (i) => mark(marks, "eu-working-time.rest", i, m.length));
  const day = partedShifts(m, isRest, 360);
  const week = partedShifts(m, isRest, 2100);
  for (let i = 0; i < m.length; i++) {
    if (!works(i)) continue;
    if (i - (day[i] ?? 0) >= 780) mark(marks, "eu-working-time.day", i, m.length);
    if (i - (week[i] ?? 0) >= 133 * 60) mark(marks, "eu-working-time.week", i, m.length);
  }
  return marks;
}

/** GB domestic rules: 24 hours from the first duty; the duty limit only with goods driving, and not in an easy week. */
export function gb(m: Minutes): Marks {
  const marks: Marks = new Map();
  const status = european(m, true);
  const works = (i: number): boolean => status[i] === DUTY || status[i] === DRIVE;
  const drivenOn = new Map<number, number>();
  for (let i = 0; i < m.length; i++) {
    const day = m.day[i] ?? 0;
    if (status[i] === DRIVE) drivenOn.set(day, (drivenOn.get(day) ?? 0) + 1);
  }
  const easy = (week: number): boolean =>
    [0, 1, 2, 3, 4, 5, 6].every((d) => (drivenOn.get(4 + week * 7 + d) ?? 0) <= 240);
  for (let from = 0; from < m.length; ) {
    if (!works(from)) {
      from += 1;
      continue;
    }
    const to = Math.min(m.length, from + 1440);
    let goods = false;
    for (let i = from; i < to; i++) if (status[i] === DRIVE && m.light[i] !== true) goods = true;
    let [duty, driving] = [0, 0];
    const bound = goods && !easy(weekOf(m.day[from] ?? 0));
    for (let i = from; i < to; i++) {
      if (!works(i)) continue;
      if (bound && duty >= 660) mark(marks, "gb-domestic.duty", i, m.length);
      duty += 1;
      if (status[i] !== DRIVE) continue;
      if (driving >= 600) mark(marks, "gb-domestic.driving", i, m.length);
      driving += 1;
    }
    from += 1440;
  }
  return marks;
}

/** Sleep in the berth under way is no night: neither work nor rest, unless the rest it lies in lasts 10 h. */
export function houseStatus(m: Minutes): Uint8Array {
  const status = statuses(m, (word) => {
    if (word === "off" || word === "personal") return OFF;
    if (word === "berth") return BERTH;
    if (word === "meal") return MEAL;
    return word === "driving" ? DRIVE : DUTY;
  });
  for (const [a, b] of rests(status)) {
    if (b - a >= 600) continue;
    for (let i = a; i < b; i++) if (status[i] === BERTH) status[i] = IDLE;
  }
  return status;
}

/** The defaults of the house rules. */
export function house(m: Minutes): Marks {
  const marks: Marks = new Map();
  const status = houseStatus(m);
  const isRest = (i: number): boolean => status[i] === OFF || status[i] === BERTH;
  const works = (i: number): boolean => status[i] === DUTY || status[i] === DRIVE;
  shortRests(m, isRest, 600, works, (i) => mark(marks, "house.turnaround", i, m.length));
  const day = partedShifts(m, isRest, 360);
  let begins = 0;
  while (begins < m.length && isRest(begins)) begins++;
  let [shift, duty, wheel, sinceBreak, away, fed, lastMeal] = [-1, 0, 0, 0, 0, 0, begins];
  for (let i = 0; i < m.length; i++) {
    if (day[i] !== shift && !isRest(i)) [shift, duty, wheel] = [day[i] ?? 0, 0, 0];
    const eats = isRest(i) || status[i] === MEAL || status[i] === IDLE;
    if (eats) fed += 1;
    else {
      if (fed >= 30) lastMeal = i;
      fed = 0;
    }
    if (works(i) && i - lastMeal >= 360) mark(marks, "house.mealEvery", i, m.length);
    if (status[i] === DRIVE) {
      if (wheel >= 600) mark(marks, "house.wheelDay", i, m.length);
      if (sinceBreak >= 120) mark(marks, "house.wheelBreak", i, m.length);
      wheel += 1;
      sinceBreak += 1;
      away = 0;
    } else {
      away += 1;
      if (away >= 15) sinceBreak = 0;
    }
    if (works(i) && duty >= 840) mark(marks, "house.dutyDay", i, m.length);
    if (works(i) || status[i] === MEAL) duty += 1;
  }
  return marks;
}
