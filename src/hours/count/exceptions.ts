/**
 * What the law lets a limit give way for: a little more at the wheel to get home to a weekly rest (Regulation (EC) No 561/2006
 * Art 12), larger allowances that may be used a few times (the tenth hour, the sixteenth hour), and up to two hours of a day's
 * free time moved to the next day (SOR/2005-313 s. 16).
 */
import { type Instant, type Interval, instant, overlap } from "../../time/units.ts";
import type { Article12, Extension, MakeUp, MaxLimit } from "../rules/rule.ts";
import type { CountingPeriod, MaxContext } from "./countingPeriods.ts";
import { unitOf, weekStart } from "./since.ts";
import { indexAfter } from "./tally.ts";
import type { Owed } from "./weekly.ts";

/** The end of the shift around `at`: behind the rest that ends it, or the record's end. */
function shiftEnd(at: Instant, { shifts, input }: MaxContext): Instant {
  const first = indexAfter(shifts, at);
  const anchor = shifts[first]?.anchor;
  let end = input.end;
  for (let i = first; shifts[i] !== undefined && shifts[i]?.anchor === anchor; i++) end = shifts[i]?.to ?? end;
  return end;
}

/** Whether a shift ends in a rest that is long enough, as far as is known: one at the record's end may yet grow. */
function endsIn(end: Instant, minutes: number, { input }: MaxContext): boolean {
  if (end >= input.end) return true;
  const { rests } = input.reading;
  const rest = rests[indexAfter(rests, instant(end - 1))];
  return rest !== undefined && rest.to === end && rest.to - rest.from >= minutes;
}

/** Whether the drive that goes on or begins at `at` came straight after a break. */
function afterBreak(at: Instant, minutes: number, { counts, input }: MaxContext): boolean {
  const { stretches, rests } = input.reading;
  const [drive] = counts.driving.within(at, input.end);
  if (drive === undefined) return false;
  let i = indexAfter(stretches, drive.from);
  while (i > 0 && stretches[i - 1]?.status === "driving") i--;
  const from = stretches[i]?.from;
  if (from === undefined) return false;
  const rest = rests[indexAfter(rests, instant(from - 1))];
  return rest !== undefined && rest.to === from && rest.to - rest.from >= minutes;
}

/** How much more a limit allows, and until when; `first` is the first stretch beyond it. Null where nothing is excused. */
export function excusedFor(
  { homeward = [] }: MaxLimit,
  first: Interval,
  exhausted: (more: number) => Instant | null,
  context: MaxContext,
): { readonly more: number; readonly until: Instant } | null {
  const end = shiftEnd(first.from, context);
  const holds = ({ before, after }: Article12): boolean =>
    endsIn(end, before, context) && (after === null || afterBreak(first.from, after, context));
  const fitting = homeward.filter(holds);
  if (fitting.length === 0) return null;
  const more = Math.max(...fitting.map((one) => one.more));
  return { more, until: instant(Math.min(exhausted(more) ?? end, end)) };
}

/** How much more may be driven from the record's end on, if that is the way home. */
export const moreHome = ({ homeward = [] }: MaxLimit): number =>
  Math.max(0, ...homeward.flatMap(({ after, more }) => (after === null ? [more] : [])));

/** What each shift's excess leaves to be rested: an equal time, by the end of the third week after. */
export function owedFor(excused: readonly Interval[], rule: MakeUp, { shifts, input }: MaxContext): readonly Owed[] {
  const { dayOf, startOf } = input.calendar;
  const byShift = new Map<Instant | undefined, { from: Instant; to: Instant; minutes: number }>();
  for (const { from, to } of [...excused].sort((a, b) => a.from - b.from)) {
    const anchor = shifts[indexAfter(shifts, from)]?.anchor;
    const known = byShift.get(anchor);
    if (known === undefined) byShift.set(anchor, { from, to, minutes: to - from });
    else {
      known.minutes += Math.max(0, to - Math.max(from, known.to));
      known.to = instant(Math.max(to, known.to));
    }
  }
  return [...byShift.values()].map(({ from, to, minutes }): Owed => {
    const week = unitOf("week", dayOf(from));
    return { during: { from, to }, minutes, due: startOf(weekStart(week + rule.weeks + 1)), weeks: 1 };
  });
}

/** The starts of the shifts that used it, in order. */
export type ExtensionUses = Instant[];

/** Whether an earlier use still counts for a shift that began at `at`. */
function counts(use: Instant, at: Instant, extension: Extension, context: MaxContext): boolean {
  const { calendar, reading } = context.input;
  const { over, clearedBy } = extension;
  if (clearedBy !== undefined && reading.rests.some((r) => r.from >= use && r.to <= at && r.to - r.from >= clearedBy)) {
    return false;
  }
  const day = calendar.dayOf(at);
  const then = calendar.dayOf(use);
  return over === "week" ? unitOf("week", day) === unitOf("week", then) : day - then < over;
}

/** Whether the shift went on too long for the allowance to hold, as far as is known. */
function tooLate(extension: Extension, period: CountingPeriod, context: MaxContext): boolean {
  if (extension.releasedWithin === undefined) return false;
  const late = context.counts.duty.within(instant(period.anchor + extension.releasedWithin), period.to)[0];
  return late !== undefined && late.from < context.knownUntil;
}

/** How many uses are left for a shift that begins, or goes on, at `at`. */
export const usesLeft = (extension: Extension, uses: ExtensionUses, at: Instant, context: MaxContext): number =>
  Math.max(0, extension.times - uses.filter((use) => counts(use, at, extension, context)).length);

/** What a period allows, and how to note that it used the extension. */
export function extensionOf(
  limit: MaxLimit,
  period: CountingPeriod,
  base: number,
  uses: ExtensionUses,
  context: MaxContext,
): { readonly allowed: number; readonly use: () => void } {
  const { extension } = limit;
  const use = (): void => {
    if (uses.at(-1) !== period.anchor) uses.push(period.anchor);
  };
  if (extension === undefined || tooLate(extension, period, context)) return { allowed: base, use };
  const spent = uses.filter((at) => at !== period.anchor && counts(at, period.anchor, extension, context)).length;
  return { allowed: spent < extension.times ? extension.allows : base, use };
}

const freeIn = (day: Interval, context: MaxContext): number =>
  day.to - day.from - (context.counts.busy.upTo(day.to) - context.counts.busy.upTo(day.from));

const drivenIn = (day: Interval, { counts }: MaxContext): number =>
  counts.driving.upTo(day.to) - counts.driving.upTo(day.from);

/** The longest free stretch inside a day; what lies beyond the record is taken as free. */
function longestFree(day: Interval, context: MaxContext): number {
  const { reading, end } = context.input;
  const open = end < day.to ? reading.rests.at(-1) : undefined;
  const running = open !== undefined && open.to === end ? { from: open.from, to: day.to } : { from: end, to: day.to };
  const runs: readonly Interval[] = end < day.to ? [...reading.rests, running] : reading.rests;
  return runs.reduce((longest, run) => Math.max(longest, overlap(run, day)), 0);
}

/** The starts of the days that lawfully leave part of their free time to the next. */
export function deferred(limit: MaxLimit, days: readonly CountingPeriod[], context: MaxContext): ReadonlySet<Instant> {
  const excused = new Set<Instant>();
  const { deferral, allows } = limit;
  if (deferral === undefined) return excused;
  days.forEach((period, i) => {
    const before = days[i - 1];
    const { startOf, dayOf } = context.input.calendar;
    const next = { from: period.to, to: startOf(dayOf(period.to) + 1) };
    // A day that began before the record: what is not known of it counts as free, as for the limit itself.
    const day = { from: period.anchor, to: period.to };
    const short = allows - freeIn(day, context);
    if (short <= 0 || short > deferral.most || (before !== undefined && excused.has(before.from))) return;
    const madeUp =
      freeIn(next, context) >= allows + short &&
      longestFree(next, context) >= deferral.core + short &&
      drivenIn(day, context) + drivenIn(next, context) <= deferral.twoDaysDriving;
    if (madeUp) excused.add(period.from);
  });
  return excused;
}
