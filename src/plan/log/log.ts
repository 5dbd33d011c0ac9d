/** A log file: what people did when, for hours alone; checked and typed. */
import type { PlanPath, Span } from "../../findings/finding.ts";
import type { Instant, Interval, ZoneId } from "../../time/units.ts";
import type { Id, RuleSetId, SpanKind } from "../plan.ts";

/** A checked log: who did what, when. */
export interface HoursLog {
  readonly file: string | null;
  readonly title: string | null;
  /** The clock of times without an offset, and of the days that are counted. */
  readonly zone: ZoneId;
  readonly rules: readonly RuleSetId[];
  readonly options: LogOptions;
  readonly people: readonly LogPerson[];
  locate(path: PlanPath): Span | null;
}

/** As stated; what is left out has the rule set's own default. */
export interface LogOptions {
  /** Exceptions that are claimed. */
  readonly claims: readonly string[];
  /** Variants of the rules, by the words of a vehicle's `week`. */
  readonly weeks: readonly string[];
  readonly drivers?: 1 | 2;
  /** Minutes after midnight. */
  readonly dayStarts?: number;
}

/** A person of a log with their spans. */
export interface LogPerson {
  readonly id: Id;
  readonly path: PlanPath;
  /** On duty in the days before the log that a rolling limit still counts; null where not stated. */
  readonly dutyMinutesBefore: number | null;
  readonly releasedAt: Instant | null;
  /** In time order, without gap or overlap; where the file says `fill: off` the gaps are in it. Never empty. */
  readonly spans: readonly WrittenSpan[];
}

/** A span of a log and where it is written; `path` null for one that fills a gap. */
export interface WrittenSpan extends Interval {
  readonly is: SpanKind;
  readonly in: "commercial" | "light";
  /** Of a `ferry`: whether a bunk or couchette was at hand. */
  readonly bunk: boolean;
  /** The span's own place in the file; null for a filled gap. */
  readonly path: PlanPath | null;
}
