/** A little more at the wheel to get home to a weekly rest: Regulation (EC) No 561/2006 Art 12. */
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { Homeward, MakeUp, MaxLimit } from "../rules/rule.ts";
import type { MaxContext } from "./context.ts";
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
  const holds = ({ before, after }: Homeward): boolean =>
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
