/** Every way to count from a point: breaks, days and weeks of the calendar, periods; rests have files of their own. */
import { sumOf } from "../../lists.ts";
import { type Instant, instant } from "../../time/units.ts";
import type { Since } from "../rules/rule.ts";
import {
  type CountingInput,
  type CountingPeriod,
  NO_CARRIED_HOURS,
  periodsBetween,
  plainPeriod,
} from "./countingPeriods.ts";
import type { RestRun, StatusStretch } from "./reading.ts";
import { periodsSinceDailyRest } from "./sinceDailyRest.ts";
import { periodsSinceRest } from "./sinceRest.ts";
import type { DayTotal } from "./spans.ts";

type Of<K extends Since["kind"]> = Extract<Since, { kind: K }>;

/** The ends of stretches beside another driver of `least` minutes or more, in one piece. */
function endsBeside(stretches: readonly StatusStretch[], least: number): readonly Instant[] {
  const ends: Instant[] = [];
  let from: Instant | null = null;
  stretches.forEach(({ beside, ...at }, i) => {
    if (!beside) from = null;
    else from ??= at.from;
    if (from !== null && at.to - from >= least && stretches[i + 1]?.beside !== true) ends.push(at.to);
  });
  return ends;
}

function periodsSinceBreak(input: CountingInput, since: Of<"break">): CountingPeriod[] {
  const parts = since.parts ?? [];
  const beside = since.beside === undefined ? [] : endsBeside(input.reading.stretches, since.beside);
  const ends: Instant[] = [];
  let part = 0;
  let run: { from: Instant; to: Instant } | null = null;
  const close = (): void => {
    if (run === null) return;
    const length = run.to - run.from;
    const next = parts[part];
    if (next !== undefined && length >= next && length < since.minutes) part += 1;
    if (length >= since.minutes || (parts.length > 0 && part === parts.length)) {
      ends.push(run.to);
      part = 0;
    }
    run = null;
  };
  for (const { from, to, status } of input.reading.stretches) {
    if (!since.of.includes(status)) close();
    else if (run === null) run = { from, to };
    else run.to = to;
    if (beside.includes(to)) {
      ends.push(to);
      part = 0;
    }
  }
  close();
  return periodsBetween(input, ends);
}

/** Weeks run from Monday; 1970-01-01 was a Thursday. */
const weekOf = (day: number): number => Math.floor((day + 3) / 7);
/** The Monday of a week, counted in days since 1970-01-01. */
export const weekStart = (week: number): number => week * 7 - 3;

/** The number of the calendar's day or week at an instant, and the first day of it. */
export const unitOf = (unit: "day" | "week", day: number): number => (unit === "day" ? day : weekOf(day));
const firstDayOf = (unit: "day" | "week", n: number): number => (unit === "day" ? n : weekStart(n));

function carriedIn(before: readonly DayTotal[], fromDay: number, toDay: number): { duty: number; driving: number } {
  const inside = before.filter(({ day }) => day >= fromDay && day < toDay);
  return {
    duty: sumOf(inside, ({ dutyMinutes }) => dutyMinutes),
    driving: sumOf(inside, ({ drivingMinutes }) => drivingMinutes),
  };
}

/** The ends of rests that wipe a rolling total, in order. */
const restartsOf = (rests: readonly RestRun[], minutes: number | undefined): readonly Instant[] =>
  minutes === undefined ? [] : rests.filter(({ from, to }) => to - from >= minutes).map(({ to }) => to);

function calendarPeriods(input: CountingInput, since: Of<"calendar">): CountingPeriod[] {
  const { calendar, start, end, before } = input;
  const restarts = restartsOf(input.reading.rests, since.restart);
  const startOf = (n: number): Instant => calendar.startOf(firstDayOf(since.unit, n));
  const periods: CountingPeriod[] = [];
  let next = 0;
  let restart: Instant | null = null;
  const last = unitOf(since.unit, calendar.dayOf(end));
  for (let n = unitOf(since.unit, calendar.dayOf(start)); n <= last; n++) {
    const window = startOf(n - since.count + 1);
    const until = startOf(n + 1);
    let from = instant(Math.max(start, startOf(n)));
    const push = (to: Instant): void => {
      const wiped: boolean = restart !== null && restart > window;
      const carried = wiped
        ? NO_CARRIED_HOURS
        : carriedIn(before, firstDayOf(since.unit, n - since.count + 1), firstDayOf(since.unit, n + 1));
      const anchor = wiped && restart !== null ? restart : window;
      periods.push({ ...plainPeriod(from, to, true), anchor, carried });
      from = to;
    };
    for (let at = restarts[next]; at !== undefined && at < until; at = restarts[++next]) {
      if (at > from) push(at);
      restart = at;
    }
    push(until);
  }
  return periods;
}

function fixedPeriods(input: CountingInput, since: Of<"period">): CountingPeriod[] {
  const periods: CountingPeriod[] = [];
  let end: Instant = input.start;
  for (const { from, to, status } of input.reading.stretches) {
    if (!input.rules.duty.includes(status)) continue;
    for (let at = instant(Math.max(from, end)); at < to; at = end) {
      end = instant(at + since.minutes);
      periods.push(plainPeriod(at, end, true));
    }
  }
  if (end <= input.end) periods.push(plainPeriod(input.end, input.end, true));
  return periods;
}

/** The periods of one `since` over a whole record, in order; the last one holds at the record's end. */
export function countingPeriodsOf(input: CountingInput, since: Since): readonly CountingPeriod[] {
  switch (since.kind) {
    case "rest":
      return periodsSinceRest(input, since);
    case "break":
      return periodsSinceBreak(input, since);
    case "dailyRest":
      return periodsSinceDailyRest(input, since);
    case "calendar":
      return calendarPeriods(input, since);
    case "period":
      return fixedPeriods(input, since);
  }
}
