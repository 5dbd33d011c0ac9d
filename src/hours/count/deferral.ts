/** Moving up to two hours of a day's free time to the next day: SOR/2005-313 s. 16. */
import type { Instant, Interval } from "../../time/units.ts";
import { overlap } from "../../time/units.ts";
import type { MaxLimit } from "../rules/rule.ts";
import type { MaxContext } from "./context.ts";
import type { Epoch } from "./countingPeriods.ts";

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
export function deferred(limit: MaxLimit, days: readonly Epoch[], context: MaxContext): ReadonlySet<Instant> {
  const excused = new Set<Instant>();
  const { deferral, allows } = limit;
  if (deferral === undefined) return excused;
  days.forEach((epoch, i) => {
    const before = days[i - 1];
    const { startOf, dayOf } = context.input.calendar;
    const next = { from: epoch.to, to: startOf(dayOf(epoch.to) + 1) };
    // A day that began before the record: what is not known of it counts as free, as for the limit itself.
    const day = { from: epoch.anchor, to: epoch.to };
    const short = allows - freeIn(day, context);
    if (short <= 0 || short > deferral.most || (before !== undefined && excused.has(before.from))) return;
    const madeUp =
      freeIn(next, context) >= allows + short &&
      longestFree(next, context) >= deferral.core + short &&
      drivenIn(day, context) + drivenIn(next, context) <= deferral.twoDaysDriving;
    if (madeUp) excused.add(epoch.from);
  });
  return excused;
}
