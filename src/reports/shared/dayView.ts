/** What the reports of a day have in common: what they are given, and what their tables are made from. */
import type { Day } from "../../day/day.ts";
import type { Finding, Say } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { ZoneId } from "../../time/index.ts";
import { clocksOf, type ReportClocks } from "./clocks.ts";
import type { Words } from "./kinds.ts";
import { isoAt } from "./stamps.ts";

/** A day, its words and its clocks: all that a table of it is made from. */
export interface DayView extends Words {
  readonly day: Day;
  readonly say: Say;
  readonly clocks: ReportClocks;
}

/** The view of a day whose tables are over `places`; `desk` stands in for the control room's clock. */
export const dayView = (day: Day, say: Say, places: Iterable<Id>, desk: ZoneId | null): DayView => ({
  day,
  say,
  clocks: clocksOf(day.plan, say, places, desk ?? undefined),
  iso: (at, place) => isoAt(day.plan, at, place),
});

/** What a report of one topic is given besides the day. */
export interface TopicOptions<Result> {
  readonly result: Result;
  /** Stands in for the control room's clock. */
  readonly clock: ZoneId | null;
  /** What is found of the topic, told with the day's own. */
  readonly findings: readonly Finding[];
}

/** For reports that can be narrowed to one person. */
export interface PersonOptions {
  /** One person's view; null shows everyone. */
  readonly person: Id | null;
}
