/** What a person did when: the facts that every rule set reads, and the days they are counted in. */
import { type Instant, type Interval, joined } from "../../time/units.ts";
import type { DrivenVehicle, RuleSet, SpanKind } from "../rules/rule.ts";

/** A fact of someone's time. Spans of one record follow each other without gap or overlap. */
export interface LogSpan extends Interval {
  readonly is: SpanKind;
  /** Of the vehicle driven or ridden in; without meaning for other spans. */
  readonly in: "commercial" | "light";
  /** The vehicle itself, where a plan names it: each rule set then says whether it covers it. */
  readonly vehicle?: DrivenVehicle;
  /** On a ferry: a berth of one's own. */
  readonly bunk?: boolean;
  /** Released by the crew but to be called again the same day: free in law, no night's rest for the house. */
  readonly pause: boolean;
  /** A day inside a chain of which nothing is known: neither rest nor work. */
  readonly unknown?: boolean;
  /** From a release to the next call, as a plan states them: it parts two working days, however short it was. */
  readonly night?: boolean;
}

/** Whether a rule set is for the vehicle of a span; a log's own word holds for every set that it names. */
export const isCovered = ({ in: kind, vehicle }: LogSpan, rules: Pick<RuleSet, "covers">): boolean =>
  vehicle === undefined ? kind === "commercial" : rules.covers(vehicle);

/** Free time and sleep that no rule set reads otherwise. */
export const isRest = ({ is, pause, bunk, unknown }: LogSpan): boolean =>
  unknown !== true && (is === "off" || is === "berth" || (is === "ferry" && bunk === true)) && !pause;

/** Carried by others: in a vehicle without driving it, or on a ferry without a bunk. */
export const isCarried = ({ is, bunk }: LogSpan): boolean => is === "riding" || (is === "ferry" && bunk !== true);

/** Duty as people are paid and asked for it: without meals and pauses. */
export const isDuty = (span: LogSpan): boolean =>
  !span.pause && (isCarried(span) || span.is === "duty" || span.is === "driving" || span.is === "standby");

/** Meals that touch, as one. */
export const mealsOf = (spans: readonly Pick<LogSpan, "from" | "to" | "is">[]): readonly Interval[] =>
  joined(spans.filter(({ is }) => is === "meal"));

/** Minutes from before the spans, counted on one day of the calendar. */
export interface DayTotal {
  readonly day: number;
  readonly dutyMinutes: number;
  readonly drivingMinutes: number;
}

/** One person's time: spans in order, and what is known only as totals from before them. */
export interface HoursRecord {
  readonly spans: readonly LogSpan[];
  readonly before: readonly DayTotal[];
}

/** The days hours are counted in: numbered from 1970-01-01, cut at one hour of one clock, 23 or 25 h at a clock change. */
export interface Calendar {
  dayOf(at: Instant): number;
  startOf(day: number): Instant;
}

/** The record up to `at`: what a judge sees who looks at that instant. */
export function recordUntil(record: HoursRecord, at: Instant): HoursRecord {
  const spans = record.spans.flatMap((span) => (span.from >= at ? [] : [span.to <= at ? span : { ...span, to: at }]));
  return { ...record, spans };
}

/** The record with one more span behind it. */
export const recordThen = (record: HoursRecord, span: LogSpan): HoursRecord =>
  span.from < span.to ? { ...record, spans: [...record.spans, span] } : record;
