/** Regulation 561/2006 minute by minute: driving, breaks, daily and weekly rest. */
import { BERTH, DRIVE, DUTY, type Marks, type Minutes, mark, OFF, statuses } from "./minutes.ts";
import { weeklyRests, weekOf } from "./weekly.ts";

export function european(m: Minutes, lightDrives: boolean): Uint8Array {
  return statuses(m, (word, i) => {
    if (word === "off" || word === "meal") return OFF;
    if (word === "berth") return BERTH;
    return word === "driving" && (lightDrives || m.light[i] !== true) ? DRIVE : DUTY;
  });
}

/** Regulation 561/2006: a state that is carried from minute to minute, and the weeks in a file of their own. */
export function europe(m: Minutes, drivers: 1 | 2, dayLength: (day: number) => number): Marks {
  const { marks } = walkEurope(m, drivers);
  const status = european(m, false);
  weeklyRests(m, (i) => status[i] === OFF || status[i] === BERTH, dayLength, marks);
  return marks;
}

/** The least rest that ends the working day with which a log ends. */
export const shortestRest = (m: Minutes, drivers: 1 | 2): number => walkEurope(m, drivers).shortest;

function walkEurope(m: Minutes, drivers: 1 | 2): { readonly marks: Marks; readonly shortest: number } {
  const marks: Marks = new Map();
  const status = european(m, false);
  const isRest = (i: number): boolean => status[i] === OFF || status[i] === BERTH;
  const team = drivers === 2;
  let dayFrom = isRest(0) ? -1 : 0;
  let weekFrom = dayFrom;
  let [driven, sinceBreak, reduced, rest] = [0, 0, 0, 0];
  let [threeTaken, fifteenTaken] = [false, false];
  const tenHourDays: { readonly from: number; readonly week: number }[] = [];
  const byWeek = new Map<number, number>();
  const shortest = (): number => (threeTaken || reduced < 3 ? 540 : team ? 540 : 660);
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
    } else if (!team && length >= 180) threeTaken = true;
  };
  for (let i = 0; i < m.length; i++) {
    if (isRest(i)) {
      rest += 1;
      continue;
    }
    if (rest > 0) endRest(i, rest);
    rest = 0;
    if (i - dayFrom >= (team ? 1800 : 1440) - shortest()) mark(marks, "eu.daily-rest", i, m.length);
    if (i - weekFrom >= 8640) mark(marks, "eu.weekly-rest", i, m.length);
    if (status[i] !== DRIVE) continue;
    const week = weekOf(m.day[i] ?? 0);
    const own = weekOf(m.day[dayFrom] ?? 0);
    const others = tenHourDays.filter((day) => day.week === own && day.from !== dayFrom).length;
    if (driven >= 540 && others < 2 && !tenHourDays.some(({ from }) => from === dayFrom)) {
      tenHourDays.push({ from: dayFrom, week: own });
    }
    if (driven >= (others < 2 ? 600 : 540)) mark(marks, "eu.driving", i, m.length);
    if (sinceBreak >= 270) mark(marks, "eu.break", i, m.length);
    const before = byWeek.get(week) ?? 0;
    if (before >= 3360) mark(marks, "eu.week", i, m.length);
    if (before + (byWeek.get(week - 1) ?? 0) >= 5400) mark(marks, "eu.fortnight", i, m.length);
    driven += 1;
    sinceBreak += 1;
    byWeek.set(week, before + 1);
  }
  return { marks, shortest: shortest() };
}
