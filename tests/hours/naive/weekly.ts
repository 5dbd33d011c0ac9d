/** Weekly rests of Regulation 561/2006 minute by minute: Art 8(6), 8(6b), 8(7), 8(9), by the reading that the program names. */
import { type Marks, type Minutes, mark } from "./minutes.ts";

/** Something to be made up for: how much, and at which minute it is due. */
export interface Debt {
  readonly minutes: number;
  readonly due: number;
}

/** Monday-based week of a day number; day 4 (1970-01-05) was a Monday. */
export const weekOf = (day: number): number => Math.floor((day - 4) / 7);

/** The minute at which a week ends, counted from the log's first; it may lie far behind the last. */
export function weekEnds(m: Minutes, dayLength: (day: number) => number): (week: number) => number {
  let first = 0;
  while (first < m.length && m.day[first] === m.day[0]) first += 1;
  const known = m.day[first] ?? 0;
  const ends = new Map<number, number>();
  return (week) => {
    const seen = ends.get(week);
    if (seen !== undefined) return seen;
    const monday = 4 + (week + 1) * 7;
    let at = first;
    for (let day = known; day < monday; day++) at += dayLength(day);
    for (let day = monday; day < known; day++) at -= dayLength(day);
    ends.set(week, at);
    return at;
  };
}

interface Long {
  readonly begins: number;
  readonly ends: number;
  unused: number;
  /** What it makes up for. */
  pays: Debt | null;
}

const FULL = 45 * 60;

/**
 * Marks work while two weeks are short of their rests, and while something due can no longer be rested in time. `more`:
 * what is owed besides, from the minute it is noted at.
 */
export function weeklyRests(
  m: Minutes,
  isRest: (i: number) => boolean,
  dayLength: (day: number) => number,
  marks: Marks,
  more: readonly (Debt & { readonly at: number })[],
): void {
  const endOf = weekEnds(m, dayLength);
  const weekAt = (i: number): number => weekOf(m.day[i] ?? 0);
  let week = weekAt(0);
  let before: "unknown" | "full" | "less" = "unknown";
  let tooLittle = false;
  let debts: Debt[] = [];
  let longs: Long[] = [];

  const pay = (begins: number, length: number): Debt | null => {
    const payable = debts.filter(({ minutes }) => length >= minutes + 540).sort((a, b) => a.due - b.due);
    const debt = payable.find(({ due }) => due > begins) ?? payable[0] ?? null;
    debts = debts.filter((one) => one !== debt);
    return debt;
  };

  const rested = (begins: number, ends: number): void => {
    const length = ends - begins;
    const pays = pay(begins, length);
    if (length >= FULL) tooLittle = false;
    if (length < 1440) return;
    longs.push({ begins, ends, unused: length - (pays?.minutes ?? 0), pays });
    debts = debts.filter(({ due }) => due > ends);
  };

  const weekOver = (): void => {
    const inIt = longs.filter(({ begins }) => begins < endOf(week));
    const longest = (of: Long[]): Long | undefined =>
      [...of].sort((a, b) => b.ends - b.begins - (a.ends - a.begins) || a.begins - b.begins)[0];
    const taken =
      inIt.find(({ unused }) => unused >= FULL) ??
      inIt
        .filter(({ pays, begins, ends }) => pays !== null && ends - begins >= FULL)
        .sort((a, b) => (b.pays?.due ?? 0) - (a.pays?.due ?? 0))[0] ??
      longest(inIt.filter(({ pays, unused }) => pays === null && unused >= 1440)) ??
      longest(inIt.filter(({ pays }) => pays !== null));
    let counts = 0;
    if (taken !== undefined) {
      // A reduced one may be what makes up for an older debt, too, where that is due with this week and a full one is not.
      const both = (taken.pays?.due ?? 0) <= endOf(week) && taken.unused >= 1440 && before !== "less";
      if (taken.unused < FULL && taken.pays !== null && !both) {
        debts.push(taken.pays);
        taken.unused = taken.ends - taken.begins;
      }
      counts = Math.min(FULL, taken.unused);
      taken.unused -= counts;
      taken.pays = null;
      if (counts < FULL && taken.begins > 0) debts.push({ minutes: FULL - counts, due: endOf(week + 3) });
    }
    const full = counts === FULL;
    if (before !== "unknown" && !full && (before === "less" || counts === 0)) tooLittle = true;
    if (before !== "unknown" || counts > 0) before = full ? "full" : "less";
    longs = longs.filter(({ ends }) => ends > endOf(week));
    week += 1;
  };

  const late = (i: number): boolean =>
    debts.some(({ due }) => {
      const together = debts.filter((one) => one.due === due);
      const needed = together.reduce((sum, { minutes }) => sum + minutes, 0) + (together.length - 1) * 541;
      return i >= due - needed;
    });

  let begins = 0;
  for (let i = 0; i < m.length; i++) {
    if (isRest(i)) continue;
    if (i > 0 && isRest(i - 1)) {
      begins = i - 1;
      while (begins > 0 && isRest(begins - 1)) begins -= 1;
      while (endOf(week) <= begins) weekOver();
      debts.push(...more.filter(({ at }) => at === begins));
      rested(begins, i);
    }
    while (endOf(week) <= i) weekOver();
    if (tooLittle) mark(marks, "eu.weekly-regular", i, m.length);
    if (late(i)) mark(marks, "eu.make-up", i, m.length);
  }
}
