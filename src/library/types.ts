/** The types of the library's values. */

export type { FirstPlan, Said, StartDrive, StartHit } from "../authoring/start.ts";
export type { VariantInput } from "../changes/variants.ts";
export type { Claim } from "../day/bookings.ts";
export type { Day, Why } from "../day/day.ts";
export type { AnyEntry, Finding, Level, Span, Wording } from "../findings/finding.ts";
export type { RoutedAnswer, RoutedAnswers } from "../legs/legs.ts";
export type { Page } from "../manual/page.ts";
export type { Edit } from "../plan/edit/splice.ts";
export type { HoursLog } from "../plan/log/log.ts";
export type { Coordinates, Hit, Id, Plan, Routing } from "../plan/plan.ts";
export type { FileReading, PlanFiles } from "../plan/text/files.ts";
export type { Repair } from "../repair/index.ts";
export type { JudgeEdits } from "../repair/outcome.ts";
export type { DayMap } from "../reports/drives/map.ts";
export type { LogClock } from "../reports/hours/log.ts";
export type { ReportName } from "../reports/index.ts";
export type { FindingForm, PlanHead } from "../reports/shared/envelope.ts";
export type { Judged, Results, Topic } from "../reports/shared/judged.ts";
export type { ReportOptions } from "../reports/shared/report.ts";
export type { Json, Report } from "../reports/shared/view.ts";
export type { Sheet } from "../reports/sheet/view.ts";
export type { ReliefProposal } from "../roads/index.ts";
export type { ClockStyle, Instant, Interval, ZoneId } from "../time/index.ts";
