/** What is judged of a day and what that gives: the result of each topic, and the findings of all that were asked for. */
import type { BookingsResult } from "../../bookings/index.ts";
import type { CautionsResult } from "../../cautions/index.ts";
import type { Day } from "../../day/day.ts";
import type { Finding } from "../../findings/finding.ts";
import type { HoursResult } from "../../hours/index.ts";
import type { KitResult } from "../../kit/index.ts";
import type { PowerResult } from "../../power/index.ts";
import type { RoadsResult } from "../../roads/index.ts";
import type { SignalResult } from "../../signal/index.ts";
import type { SkyResult } from "../../sky/index.ts";

/** What each topic found out. */
export interface AllResults {
  sky: SkyResult;
  hours: HoursResult;
  signal: SignalResult;
  power: PowerResult;
  kit: KitResult;
  cautions: CautionsResult;
  roads: RoadsResult;
  bookings: BookingsResult;
}

/** The same, where a topic that was not asked for has nothing. */
export type Results = Partial<AllResults>;

/** A judged day. */
export interface Judged {
  readonly day: Day;
  /** The chain along `follows`, oldest first; the last is `day`. */
  readonly days: readonly Day[];
  readonly results: Readonly<Results>;
  /** The findings of the day and of the topics asked for: located in the plan, accepted ones marked, worst first. */
  readonly findings: readonly Finding[];
  /** Topics that were asked for and that nothing judges yet. */
  readonly notJudged: readonly Topic[];
}

/** A result that the order of the topics, or the caller's question, puts before. Throws where it is absent: a bug. */
export function had<R>(result: R | undefined): R {
  if (result === undefined) throw new Error("a topic was read before it was judged");
  return result;
}

/** In the order in which they are judged: a topic may read what earlier ones found out. */
export const TOPICS = ["sky", "signal", "power", "hours", "kit", "cautions", "roads", "bookings"] as const;
/** A topic that an engine judges. */
export type Topic = (typeof TOPICS)[number];
