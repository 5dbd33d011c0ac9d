/** Days inside a chain that no file and no history speaks of: time that is neither rest nor work. */
import type { Day } from "../../day/day.ts";
import { sumOf } from "../../lists.ts";
import type { History, Id } from "../../plan/plan.ts";
import { dateOfDay, dayNumber, startOnClock } from "../../time/index.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import { type DayTotal, isDuty, type LogSpan } from "../count/spans.ts";

/** The dates between two plans of a chain that neither of them runs into, day numbers in order. */
function missingDays(days: readonly Day[]): readonly number[] {
  return days.slice(1).flatMap(({ plan }, i) => {
    const before = days[i]?.plan ?? plan;
    const first = dayNumber(before.date) + before.untilDays + 1;
    return Array.from({ length: Math.max(0, dayNumber(plan.date) - first) }, (_, n) => first + n);
  });
}

/** What is known of one person's missing days. */
export interface MissingDays {
  /** Stretches of which nothing is known. In order. */
  readonly unknown: readonly Interval[];
  /** What histories state inside them. In order. */
  readonly spans: readonly LogSpan[];
  /** Minutes stated for a day without their times. */
  readonly totals: readonly DayTotal[];
}

/** The parts of a stretch that no span covers. */
function without(stretch: Interval, spans: readonly Interval[]): readonly Interval[] {
  const left: Interval[] = [];
  let from = stretch.from;
  for (const span of spans) {
    if (span.from > from) left.push({ from, to: span.from });
    from = instant(Math.max(from, span.to));
  }
  if (from < stretch.to) left.push({ from, to: stretch.to });
  return left;
}

const clipped = ({ from, to }: Interval, span: LogSpan): readonly LogSpan[] => {
  const [begin, end] = [instant(Math.max(from, span.from)), instant(Math.min(to, span.to))];
  return begin < end ? [{ ...span, from: begin, to: end }] : [];
};

/** A release stated in a stretch begins time off that lasts to its end, unless `spans`, in order, say more of it. */
function releasedIn(
  { from, to }: Interval,
  released: readonly Instant[],
  spans: readonly LogSpan[],
): readonly LogSpan[] {
  return released
    .filter((at) => at >= from && at < to)
    .flatMap((at) => {
      const known = spans.flatMap((span) => clipped({ from: at, to }, span));
      return without({ from: at, to }, known).map(
        (left): LogSpan => ({ ...left, is: "off", in: "commercial", pause: false }),
      );
    });
}

/** A day's total without the work on it that is stated in spans as well. */
function lessSpans({ day, dutyMinutes, drivingMinutes }: DayTotal, spans: readonly LogSpan[]): DayTotal {
  const minutes = (counts: (span: LogSpan) => boolean): number =>
    sumOf(spans, (span) => (counts(span) ? span.to - span.from : 0));
  return {
    day,
    dutyMinutes: Math.max(0, dutyMinutes - minutes(isDuty)),
    drivingMinutes: Math.max(0, drivingMinutes - minutes(({ is }) => is === "driving")),
  };
}

/** A day off that is stated is known: `totals: { 2027-03-14: { duty: 0 h, driving: 0 h } }`. */
export function missingDaysOf(days: readonly Day[], person: Id): MissingDays {
  const zone = days.at(-1)?.plan.zone;
  const histories = days.slice(1).flatMap(({ plan }): readonly History[] => {
    const history = plan.history.get(person);
    return history === undefined ? [] : [history];
  });
  const stated = histories
    .flatMap(({ spans }) => spans.map((span): LogSpan => ({ ...span, pause: false })))
    .sort((a, b) => a.from - b.from);
  const released = histories.flatMap((one) => one.released ?? []);
  const found: { unknown: Interval[]; spans: LogSpan[]; totals: DayTotal[] } = { unknown: [], spans: [], totals: [] };
  if (zone === undefined) return found;
  for (const day of missingDays(days)) {
    const date = dateOfDay(day);
    const stretch = { from: startOnClock(date, 0, zone), to: startOnClock(dateOfDay(day + 1), 0, zone) };
    const inside = [...stated, ...releasedIn(stretch, released, stated)]
      .flatMap((span) => clipped(stretch, span))
      .sort((a, b) => a.from - b.from);
    const total = histories.flatMap(({ totals }) => totals).find((one) => one.date === date);
    found.spans.push(...inside);
    if (total !== undefined && total.dutyMinutes > 0) found.totals.push(lessSpans({ ...total, day }, inside));
    if (total === undefined || total.dutyMinutes > 0) found.unknown.push(...without(stretch, inside));
  }
  return found;
}

/** Spans with the nights between two days cut where nothing is known, and what histories state put in. */
export function withMissing(spans: readonly LogSpan[], { unknown, spans: stated }: MissingDays): readonly LogSpan[] {
  if (unknown.length === 0 && stated.length === 0) return spans;
  const inside: readonly LogSpan[] = [
    ...unknown.map(({ from, to }): LogSpan => ({ from, to, is: "off", in: "commercial", pause: false, unknown: true })),
    ...stated,
  ].sort((a, b) => a.from - b.from);
  return spans.flatMap((span) => {
    if (span.night !== true) return [span];
    const own = inside.flatMap((one) => clipped(span, one));
    const rest = without(span, own).map((left): LogSpan => ({ ...span, ...left }));
    return [...own, ...rest].sort((a, b) => a.from - b.from);
  });
}

/** A stretch off in its parts: what is known of it, and what is not. */
export function partedByUnknown(
  stretch: Interval,
  unknown: readonly Interval[],
): readonly (Interval & { readonly isKnown: boolean })[] {
  const parts = unknown.flatMap(({ from, to }) => {
    const part = { from: instant(Math.max(from, stretch.from)), to: instant(Math.min(to, stretch.to)), isKnown: false };
    return part.from < part.to ? [part] : [];
  });
  const known = without(stretch, parts).map((part) => ({ ...part, isKnown: true }));
  return [...parts, ...known].sort((a, b) => a.from - b.from);
}

/** Whether a stretch that begins at `from` has unknown time in it. */
export const spansUnknown = (unknown: readonly Interval[], from: Instant): boolean =>
  unknown.some(({ to }) => to > from);
