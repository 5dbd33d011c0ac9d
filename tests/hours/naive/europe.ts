/** Regulation 561/2006 minute by minute: driving, breaks, daily and weekly rest, the way home of Art 12. */
import { BERTH, DRIVE, DUTY, type Marks, type Minutes, mark, OFF, rests, statuses } from "./minutes.ts";
import { weekEnds, weeklyRests, weekOf } from "./weekly.ts";

export function european(m: Minutes, lightDrives: boolean): Uint8Array {
  return statuses(m, (word, i) => {
    if (word === "off" || word === "meal") return OFF;
    if (word === "berth") return BERTH;
    return word === "driving" && (lightDrives || m.light[i] !== true) ? DRIVE : DUTY;
  });
}

/** What Art 12 is claimed for. */
export interface EuropeOptions {
  readonly drivers: 1 | 2;
  readonly homeHour: boolean;
  readonly homeTwoHours: boolean;
}

/** A minute of work beyond a limit, how far beyond, and the stretch in which the limit counts. */
interface Beyond {
  readonly limit: string;
  readonly minute: number;
  readonly by: number;
  readonly stretch: string;
  readonly shift: number;
}

/** Art 12: marks what lies beyond a limit but for the way home; gives the excused minutes of each shift. */
function markBeyond(
  m: Minutes,
  status: Uint8Array,
  all: readonly Beyond[],
  o: EuropeOptions,
  marks: Marks,
): number[][] {
  const isRest = (i: number): boolean => status[i] === OFF || status[i] === BERTH;
  const restAfter = (i: number, least: number): boolean => {
    // The shift ends where the next one begins; the last goes on.
    const shift = shiftAt(i);
    let end = i;
    while (end < m.length && (isRest(end) || shiftAt(end) === shift)) end++;
    if (end >= m.length) return true;
    let begin = end;
    while (begin > 0 && isRest(begin - 1)) begin--;
    return end - begin >= least;
  };
  const shifts = new Map<number, number>();
  const shiftAt = (i: number): number => shifts.get(i) ?? -1;
  for (const { minute, shift, limit } of all) if (limit === "work") shifts.set(minute, shift);
  const paused = (i: number): boolean => {
    let drive = i;
    while (drive < m.length && status[drive] !== DRIVE) drive++;
    if (drive === m.length) return false;
    while (drive > 0 && status[drive - 1] === DRIVE) drive--;
    let begin = drive;
    while (begin > 0 && isRest(begin - 1)) begin--;
    return drive - begin >= 30;
  };
  const firsts = new Map<string, { readonly shift: number; readonly most: number }>();
  const excused = new Map<number, Set<number>>();
  for (const { limit, minute, by, stretch, shift } of all) {
    if (limit === "work") continue;
    const key = `${limit} ${stretch}`;
    const most = (): number => {
      if (o.homeTwoHours && restAfter(minute, 2700) && paused(minute)) return 120;
      return o.homeHour && restAfter(minute, 1440) ? 60 : 0;
    };
    const first = firsts.get(key) ?? { shift, most: most() };
    firsts.set(key, first);
    if (by >= first.most || shift !== first.shift) mark(marks, limit, minute, m.length);
    else excused.set(shift, (excused.get(shift) ?? new Set()).add(minute));
  }
  return [...excused.values()].map((minutes) => [...minutes].sort((a, b) => a - b));
}

/** Regulation 561/2006: a state that is carried from minute to minute, and the weeks in a file of their own. */
export function europe(m: Minutes, o: EuropeOptions, dayLength: (day: number) => number): Marks {
  const { marks, beyond } = walkEurope(m, o.drivers);
  const status = european(m, false);
  const isRest = (i: number): boolean => status[i] === OFF || status[i] === BERTH;
  const endOf = weekEnds(m, dayLength);
  const more = markBeyond(m, status, beyond, o, marks).map((minutes) => {
    const [first = 0, last = 0] = [minutes[0], minutes.at(-1)];
    let at = last + 1;
    while (at < m.length && !isRest(at)) at++;
    return { minutes: minutes.length, due: endOf(weekOf(m.day[first] ?? 0) + 3), at };
  });
  weeklyRests(m, isRest, dayLength, marks, more);
  restsAboard(status, marks, m.length);
  return marks;
}

/** Art 8(8): 45 h or more, and less than that outside the vehicle; the longest stay in its berth is marked. */
function restsAboard(status: Uint8Array, marks: Marks, length: number): void {
  for (const [a, b] of rests(status)) {
    let [best, run, end] = [0, 0, a];
    for (let i = a; i < b; i++) {
      run = status[i] === BERTH ? run + 1 : 0;
      if (run > best) [best, end] = [run, i + 1];
    }
    if (b - a < 2700 || best === 0 || b - a - best >= 2700) continue;
    for (let i = end - best; i < end; i++) mark(marks, "eu.weekly-place", i, length);
  }
}

/** The least rest that ends the working day with which a log ends. */
export const shortestRest = (m: Minutes, drivers: 1 | 2): number => walkEurope(m, drivers).shortest;

function walkEurope(
  m: Minutes,
  drivers: 1 | 2,
): { readonly marks: Marks; readonly beyond: readonly Beyond[]; readonly shortest: number } {
  const marks: Marks = new Map();
  const status = european(m, false);
  const isRest = (i: number): boolean => status[i] === OFF || status[i] === BERTH;
  const team = drivers === 2;
  let dayFrom = isRest(0) ? -1 : 0;
  let weekFrom = dayFrom;
  let [driven, sinceBreak, reduced, rest] = [0, 0, 0, 0];
  let [threeTaken, fifteenTaken] = [false, false];
  let owed = { from: -1, until: -1 };
  let besideFor = 0;
  const beyond: Beyond[] = [];
  const note = (limit: string, minute: number, by: number, stretch: string): void => {
    if (by >= 0) beyond.push({ limit, minute, by, stretch, shift: dayFrom });
  };
  const tenHourDays: { readonly from: number; readonly week: number }[] = [];
  const byWeek = new Map<number, number>();
  const shortest = (): number => (threeTaken || reduced < 3 ? 540 : team ? 540 : 660);
  /** Whether no daily rest comes in time after the one that ends at `i`, and work goes on beyond that time. */
  const lastRest = (i: number, length: number): boolean => {
    const need = team ? shortest() : 540;
    const latest = dayFrom + (team ? 1800 : 1440) - need;
    const next = rests(status).find(([a, b]) => a > i - length && b - a >= need);
    if (next !== undefined && next[0] <= latest) return false;
    let end = m.length;
    while (end > 0 && isRest(end - 1)) end--;
    return end > latest && end > i;
  };
  const endRest = (i: number, length: number): void => {
    if (length >= 45 || (fifteenTaken && length >= 30)) {
      sinceBreak = 0;
      fifteenTaken = false;
    } else if (length >= 15) fifteenTaken = true;
    if (length >= 1440) {
      weekFrom = i;
    } else if (weekFrom < 0) weekFrom = i;
    if (dayFrom < 0) {
      dayFrom = i;
      if (length >= shortest()) {
        // The first rest of the log has no day before it whose end could make it reduced.
        if (length >= 1440) reduced = 0;
      }
      return;
    }
    if (length >= shortest()) {
      const inside = Math.min(i, dayFrom + (team ? 1800 : 1440)) - (i - length);
      if (length >= 1440) reduced = 0;
      else if (!threeTaken && inside < (team ? 540 : 660)) reduced += 1;
      dayFrom = i;
      driven = 0;
      threeTaken = false;
    } else if (length >= 420 && lastRest(i, length)) {
      // Commission decision of 7 June 2011: driving is counted anew; what the rest lacks is a breach, once.
      const latest = dayFrom + (team ? 1800 : 1440) - shortest();
      const late = Math.max(0, i - length - latest);
      owed = { from: i, until: i + Math.max(0, shortest() - length - late) };
      dayFrom = i;
      driven = 0;
      threeTaken = false;
    } else if (!team && length >= 180) threeTaken = true;
  };
  for (let i = 0; i < m.length; i++) {
    if (isRest(i)) {
      rest += 1;
      besideFor = 0;
      continue;
    }
    if (rest > 0) endRest(i, rest);
    rest = 0;
    note("work", i, 0, "");
    // Art 7: beside the other driver, 45 minutes in one piece.
    if (team && m.is[i] === "riding" && m.light[i] !== true) {
      besideFor += 1;
      if (besideFor >= 45) [sinceBreak, fifteenTaken] = [0, false];
    } else besideFor = 0;
    if (owed.from === dayFrom && i < owed.until) mark(marks, "eu.daily-rest", i, m.length);
    else note("eu.daily-rest", i, i - dayFrom - (team ? 1800 : 1440) + shortest(), `${dayFrom} ${threeTaken}`);
    if (i - weekFrom >= 8640) mark(marks, "eu.weekly-rest", i, m.length);
    if (status[i] !== DRIVE) continue;
    const week = weekOf(m.day[i] ?? 0);
    const own = weekOf(m.day[dayFrom] ?? 0);
    const others = tenHourDays.filter((day) => day.week === own && day.from !== dayFrom).length;
    if (driven >= 540 && others < 2 && !tenHourDays.some(({ from }) => from === dayFrom)) {
      tenHourDays.push({ from: dayFrom, week: own });
    }
    note("eu.driving", i, driven - (others < 2 ? 600 : 540), `${dayFrom} ${threeTaken}`);
    if (sinceBreak >= 270) mark(marks, "eu.break", i, m.length);
    const before = byWeek.get(week) ?? 0;
    note("eu.week", i, before - 3360, `${week}`);
    if (before + (byWeek.get(week - 1) ?? 0) >= 5400) mark(marks, "eu.fortnight", i, m.length);
    driven += 1;
    sinceBreak += 1;
    byWeek.set(week, before + 1);
  }
  return { marks, beyond, shortest: shortest() };
}
