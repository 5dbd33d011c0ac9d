/** Each person's record over a chain of days: history, earlier days, the day judged; what is not known is said, not guessed. */
import type { Day, PersonDay, PersonSpan } from "../../day/day.ts";
import type { History, Id, Plan } from "../../plan/plan.ts";
import { dayOfDate } from "../../time/index.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import { type Calendar, type DayTotal, type HoursRecord, isDuty, isRest, type LogSpan } from "../count/spans.ts";
import { missingDaysOf, withMissing } from "./unknown.ts";

/** A person's spans, as a record for any calendar. */
export interface Ledger {
  readonly spans: readonly LogSpan[];
  /** The spans, and what is known only as totals on the days of a calendar. */
  recordIn(calendar: Calendar): HoursRecord;
  /** Stretches between known ones of which nothing is stated. */
  readonly gaps: readonly Interval[];
  /** Of them those that are whole days of the chain without a file. */
  readonly unknown: readonly Interval[];
}

/** `next`: the span behind it. Time off that work for the gear ends is no night, however it began. */
function spanOf(plan: Plan, span: PersonSpan, next: PersonSpan | undefined): LogSpan {
  const { from, to, vehicle, activity } = span;
  const found = vehicle === null ? undefined : plan.vehicles.get(vehicle);
  const noBerth = span.is === "berth" && vehicle !== null && found?.berth !== true;
  const down = activity !== null && plan.tasks.get(activity)?.kind === "standdown" && span.is === "off";
  // One as long as the turnaround is the rest between two days, whether they are in one file or in two.
  const pause = down && to - from < plan.rules.turnaround;
  return {
    from,
    to,
    is: noBerth ? "riding" : span.is,
    ...(span.bunk === true ? { bunk: true } : {}),
    in: found !== undefined && (found.commercial || found.rules.length > 0) ? "commercial" : "light",
    ...(found === undefined ? {} : { vehicle: found }),
    pause,
    night: (span.doing === "off" || (down && !pause)) && next?.doing !== "chore",
  };
}

const off = (from: Instant, to: Instant): LogSpan => ({
  from,
  to,
  is: "off",
  in: "commercial",
  pause: false,
  night: true,
});

const cutAt = (span: LogSpan, to: Instant): readonly LogSpan[] => (span.from < to ? [{ ...span, to }] : []);

/** Where a person's record of the days themselves begins, and the first work in it, if only for the gear. */
interface Begin {
  readonly record: Instant | null;
  readonly work: Instant | null;
}

/**
 * What is known from before the first day: spans as in a log, then the time since the last release. The plan says what is
 * done from the first work on: rest that was stated beyond it ends there.
 */
function fromHistory(history: History | undefined, { record, work }: Begin): readonly LogSpan[] {
  const spans = (history?.spans ?? [])
    .map((span): LogSpan => ({ ...span, pause: false }))
    .flatMap((span) => (work === null || span.to <= work || !isRest(span) ? [span] : cutAt(span, work)))
    .sort((a, b) => a.from - b.from);
  const end = spans.at(-1)?.to;
  const released = history?.released ?? null;
  if (end === undefined || released === null || record === null || end < released) return spans;
  return end < record ? [...spans, off(end, record)] : spans;
}

/** Spans before a hole, kept as totals by day: work that is known still counts, rest across the hole is not. */
function asTotals(spans: readonly LogSpan[], calendar: Calendar): readonly DayTotal[] {
  const totals = new Map<number, { duty: number; driving: number }>();
  for (const { from, to, is } of spans.filter(isDuty)) {
    for (let at = from; at < to; ) {
      const day = calendar.dayOf(at);
      const end = instant(Math.min(to, calendar.startOf(day + 1)));
      const total = totals.get(day) ?? { duty: 0, driving: 0 };
      total.duty += end - at;
      if (is === "driving") total.driving += end - at;
      totals.set(day, total);
      at = end;
    }
  }
  return [...totals].map(([day, { duty, driving }]) => ({ day, dutyMinutes: duty, drivingMinutes: driving }));
}

/** Totals of whole days, less the work on them that is stated in spans as well. */
function totalsOf(history: History | undefined, calendar: Calendar): readonly DayTotal[] {
  const inSpans = asTotals(fromHistory(history, { record: null, work: null }), calendar);
  return (history?.totals ?? []).flatMap(({ date, dutyMinutes, drivingMinutes }) => {
    const day = dayOfDate(date);
    if (day === null) return [];
    const own = inSpans.find((total) => total.day === day);
    const duty = Math.max(0, dutyMinutes - (own?.dutyMinutes ?? 0));
    const driving = Math.max(0, drivingMinutes - (own?.drivingMinutes ?? 0));
    return [{ day, dutyMinutes: duty, drivingMinutes: driving }];
  });
}

/** Cuts a sequence at its holes; overlaps are cut from the later span. */
function pieces(spans: readonly LogSpan[]): {
  readonly runs: readonly LogSpan[][];
  readonly gaps: readonly Interval[];
} {
  const runs: LogSpan[][] = [];
  const gaps: Interval[] = [];
  let end: Instant | null = null;
  for (const span of spans) {
    if (end !== null && span.to <= end) continue;
    const from: Instant = end !== null && span.from < end ? end : span.from;
    const run = runs.at(-1);
    if (run === undefined || (end !== null && from > end)) {
      if (end !== null && from > end) gaps.push({ from: end, to: from });
      runs.push([{ ...span, from }]);
    } else run.push({ ...span, from });
    end = span.to;
  }
  return { runs, gaps };
}

/** The record of one person up to the end of the last of `days`. */
export function ledgerOf(days: readonly Day[], person: Id): Ledger {
  const first = days[0];
  const own = days.flatMap((day): readonly (readonly [Day, PersonDay])[] => {
    const found = day.people.find(({ id }) => id === person);
    return found === undefined ? [] : [[day, found]];
  });
  const history = first?.plan.history.get(person);
  const itsSpans = own.flatMap(([, { spans }]) => spans);
  const begin: Begin = {
    record: itsSpans[0]?.from ?? null,
    work: itsSpans.find(({ doing }) => doing !== "off")?.from ?? null,
  };
  const lived = own.flatMap(([day, { spans }]) => spans.map((span, i) => spanOf(day.plan, span, spans[i + 1])));
  const missing = missingDaysOf(days, person);
  const { runs, gaps } = pieces(withMissing([...fromHistory(history, begin), ...lived], missing));
  const spans = runs.at(-1) ?? [];
  const recordIn = (calendar: Calendar): HoursRecord => ({
    spans,
    before: [
      ...totalsOf(history, calendar),
      ...missing.totals,
      ...runs.slice(0, -1).flatMap((run) => asTotals(run, calendar)),
    ],
  });
  return { spans, recordIn, gaps, unknown: missing.unknown };
}
