/** How often a limit may still be stretched, and what is beyond it, on random weeks, counted shift by shift from the clauses alone. */
import { expect, it } from "vitest";
import { instant } from "../../../src/time/units.ts";
import { random } from "../../day/random.ts";
import { runs } from "../../fuzz.ts";
import { breachesOf, judged, utc } from "../records.ts";

const DAY = 1440;
/** Monday 18 January 2027. */
const MONDAY = utc("18 00:00");
const clock = (minutes: number): string => `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;

interface Shift {
  readonly from: number;
  readonly minutes: number;
  /** The rest before it. */
  readonly rest: number;
}

/** Shifts one after the other, each behind a rest; the first rest is two days. */
function randomShifts(dice: (below: number) => number, lengths: readonly number[], rests: readonly number[]): Shift[] {
  const shifts: Shift[] = [];
  let at = MONDAY + dice(4) * DAY + dice(DAY) - 2 * DAY;
  for (let n = 2 + dice(9); n > 0; n--) {
    const rest = shifts.length === 0 ? 2 * DAY : (rests[dice(rests.length)] ?? 0) + dice(60);
    const minutes = lengths[dice(lengths.length)] ?? 0;
    shifts.push({ from: at + rest, minutes, rest });
    at += rest + minutes;
  }
  return shifts;
}

const begins = (shifts: readonly Shift[]): string => {
  const [first] = shifts;
  const iso = new Date(((first?.from ?? 0) - (first?.rest ?? 0)) * 60_000).toISOString();
  return `${iso.slice(5, 10)} ${iso.slice(11, 16)}`;
};

it("Reg 561/2006 Art 6(1): of the shifts of a week that go over 9 h at the wheel two may have 10", () => {
  const told = new Set<number | undefined>();
  for (let seed = 1; seed <= Math.max(100, runs(100, 5000)); seed++) {
    const shifts = randomShifts(random(seed), [300, 539, 540, 541, 570, 600, 601], [660, 700, 900, 1500]);
    const text = shifts.map(({ rest, minutes }) => `off ${clock(rest)}, driving ${clock(minutes)}`).join(", ");
    const verdict = judged("eu", begins(shifts), text);
    // A week is from Monday 00:00 to Sunday 24:00 (Art 4(i)); a shift counts for that in which it begins.
    const weekOf = ({ from }: Shift): number => Math.floor((from - MONDAY) / (7 * DAY));
    const usedIn = (week: number, until: number): number =>
      shifts.slice(0, until).filter((one) => weekOf(one) === week && one.minutes > 540).length;
    const allowed = shifts.map((one, n) => (usedIn(weekOf(one), n) < 2 ? 600 : 540));
    const over = shifts.flatMap(({ from, minutes }, n) => {
      const most = allowed[n] ?? 0;
      return minutes > most ? [[instant(from + most), instant(from + minutes)]] : [];
    });
    expect(breachesOf(verdict, "eu.driving"), `seed ${seed}: ${text}`).toEqual(over);
    const last = shifts.at(-1);
    const left = last === undefined ? 2 : Math.max(0, 2 - usedIn(weekOf(last), shifts.length));
    expect(
      verdict.limits.find(({ limit }) => limit.id === "eu.driving"),
      `seed ${seed}: ${text}`,
    ).toMatchObject({
      extensionsLeft: left,
      allowedMinutes: allowed.at(-1),
    });
    told.add(left);
  }
  expect([...told].toSorted()).toEqual([0, 1, 2]);
});

it("49 CFR 395.1(o): 16 h instead of 14 h, not again within seven days but after 34 h off, if released within 16 h", () => {
  const told = new Set<number | undefined>();
  for (let seed = 1; seed <= Math.max(100, runs(100, 5000)); seed++) {
    const shifts = randomShifts(random(seed), [600, 839, 840, 841, 900, 960, 961], [600, 700, 1979, 2039]);
    // The last three hours of each shift are driven.
    const text = shifts
      .map(({ rest, minutes }) => `off ${clock(rest)}, duty ${clock(minutes - 180)}, driving 3`)
      .join(", ");
    const verdict = judged("us-property", begins(shifts), text, ["sixteenHour"]);
    const uses: Shift[] = [];
    const dayOf = ({ from }: Shift): number => Math.floor((from - MONDAY) / DAY);
    const bars = (use: Shift, one: Shift): boolean =>
      dayOf(one) - dayOf(use) < 7 &&
      !shifts.some(({ from, rest }) => rest >= 34 * 60 && from > use.from && from <= one.from);
    const over = shifts.flatMap((one) => {
      const may = one.minutes <= 960 && !uses.some((use) => bars(use, one));
      if (one.minutes > 840 && may) uses.push(one);
      const most = may ? 960 : 840;
      return one.minutes > most ? [[instant(one.from + most), instant(one.from + one.minutes)]] : [];
    });
    expect(breachesOf(verdict, "us-property.window"), `seed ${seed}: ${text}`).toEqual(over);
    const last = shifts.at(-1);
    const left = last !== undefined && uses.some((use) => bars(use, last)) ? 0 : 1;
    expect(
      verdict.limits.find(({ limit }) => limit.id === "us-property.window"),
      `seed ${seed}: ${text}`,
    ).toMatchObject({
      extensionsLeft: left,
    });
    told.add(left);
  }
  expect([...told].toSorted()).toEqual([0, 1]);
});
