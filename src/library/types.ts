/** The types of the library's values. */
export type { Said, Start } from "../authoring/start.ts";
export type { Day, Why } from "../day/day.ts";
export type { AnyEntry, Finding, Level, Say, Span } from "../findings/finding.ts";
export type { RoutedAnswer, RoutedAnswers } from "../legs/legs.ts";
export type { Edit } from "../plan/edit/request.ts";
export type { HoursLog } from "../plan/log/log.ts";
export type { Coordinates, Id, Plan, Routing } from "../plan/plan.ts";
export type { FileReading, PlanFiles } from "../plan/text/files.ts";
export type { DayMap } from "../reports/drives/map.ts";
export type { LogClock } from "../reports/hours/log.ts";
export type { ReportName, ReportOptions } from "../reports/index.ts";
export type { FindingForm, PlanHead } from "../reports/shared/envelope.ts";
export type { Judged, Results } from "../reports/shared/judged.ts";
export type { Topic } from "../reports/shared/topics.ts";
export type { Json, Report } from "../reports/shared/view.ts";
export type { Sheet } from "../reports/sheet/view.ts";
export type { ReliefProposal } from "../roads/index.ts";
export type { ClockStyle, Instant, Interval, ZoneId } from "../time/index.ts";
