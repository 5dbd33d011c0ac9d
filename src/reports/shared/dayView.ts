/** What the reports of a day have in common: what they are given, and what their tables are made from. */
import type { Day } from "../../day/day.ts";
import type { Finding, Wording } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant, ZoneId } from "../../time/index.ts";
import { clocksOf, placesInOrder, type ReportClocks } from "./clocks.ts";
import type { Words } from "./kinds.ts";
import { withoutContacts } from "./redact.ts";
import { isoAt } from "./stamps.ts";

/** A day, its words and its clocks: all that a table of it is made from. */
export interface DayView extends Words {
  readonly day: Day;
  readonly say: Wording;
  readonly clocks: ReportClocks;
  /** Whether telephone numbers, bookings and addresses are left out. */
  readonly redact: boolean;
  /** A plan's own words, without numbers and addresses where these are left out. */
  readonly clean: (text: string) => string;
}

/** What every report of a judged day is given. */
export interface ReportInput {
  readonly day: Day;
  /** Of the day and of the topics that the report asks for, worst first. */
  readonly findings: readonly Finding[];
  readonly say: Wording;
  /** Stands in for the control room's clock; null keeps the plan's. */
  readonly clock: ZoneId | null;
  /** One person's view; null shows everyone. */
  readonly person: Id | null;
  /** Leaves out telephone numbers, bookings and addresses. */
  readonly redact: boolean;
  /** The moment that is asked about; null where none is. */
  readonly now: Instant | null;
}

/** What a report of one topic is given. */
export interface TopicInput<Result> extends ReportInput {
  readonly result: Result;
}

/** The view of a day whose tables are over `places`, by default all of it. */
export const dayView = (
  { day, say, clock, redact }: Pick<ReportInput, "day" | "say" | "clock" | "redact">,
  places: Iterable<Id> = placesInOrder(day),
): DayView => ({
  day,
  say,
  clocks: clocksOf(day.plan, say, places, clock ?? undefined),
  iso: (at, place) => isoAt(day.plan, at, place),
  redact,
  clean: redact ? withoutContacts : (text) => text,
});
