/** What a sheet is made from: the day, what the topics found out about it, and how it was asked for. */

import type { Changes } from "../../changes/between.ts";
import type { Day } from "../../day/day.ts";
import type { Finding, Say } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { HandTask } from "../../power/todo.ts";
import type { Instant, ZoneId } from "../../time/units.ts";
import type { Names } from "../shared/cells.ts";
import { type Clocks, clocksOf } from "../shared/clocks.ts";

/** Sun of one place on the plan's day; `word` says what stands in for rise and set where there is none. */
export interface SunFact {
  readonly place: Id;
  readonly civilDawn: Instant | null;
  readonly rise: Instant | null;
  readonly set: Instant | null;
  readonly civilDusk: Instant | null;
  readonly word: string | null;
}

/** One thing that hands do with packs, from when to when. */
export interface BatteryFact extends Pick<HandTask, "from" | "to" | "who" | "others" | "workMinutes"> {
  readonly place: Id | null;
  /** `brick.1 off camera, into bench slot 2`. */
  readonly text: string;
}

export interface GearFact {
  readonly vehicle: Id;
  /** What goes in, worded: `camera`, `brick × 5`. */
  readonly items: readonly string[];
}

/** What topics found out, as far as a sheet reads it; null for a topic that has not judged the day. */
export interface SheetFacts {
  readonly sun: readonly SunFact[] | null;
  /** Degrees; null at a place without coordinates. */
  readonly sunAltitude: ((place: Id, at: Instant) => number | null) | null;
  readonly batteries: readonly BatteryFact[] | null;
  readonly gear: readonly GearFact[] | null;
  readonly cautions: readonly Finding[] | null;
  /** Topics that `check` has not judged yet, by name. */
  readonly notJudged: readonly string[];
}

/** What a sheet is asked for. */
export interface SheetRequest {
  readonly day: Day;
  readonly facts: SheetFacts;
  /** All findings of the day and its topics, worst first, cautions included. */
  readonly findings: readonly Finding[];
  readonly say: Say;
  /** Stands in for the control room's clock; null for the plan's own. */
  readonly desk: ZoneId | null;
  /** One person's view, or the whole crew's. */
  readonly person: Id | null;
  /** Leaves out telephone numbers, line numbers, bookings, addresses and positions. */
  readonly redact: boolean;
  /** Against an older version; null where none was named. */
  readonly changes: Changes | null;
}

/** A request with what every section needs settled once. */
export interface SheetInput extends SheetRequest {
  readonly desk: ZoneId;
  /** Over the places where the vehicles stop. */
  readonly clocks: Clocks;
  /** How the sheet calls something after its first mention: a person by the first word of their name where that says who is meant. */
  readonly short: Names;
}

export function sheetInput(request: SheetRequest): SheetInput {
  const { day, say, desk } = request;
  return {
    ...request,
    desk: desk ?? day.plan.clock,
    clocks: clocksOf(
      day.plan,
      say,
      day.stops.map(({ place }) => place),
      desk ?? undefined,
    ),
    short: shortNames(request),
  };
}

function shortNames({ day, say }: SheetRequest): Names {
  const firsts = day.people.map(({ id }) => [id, say.name(id).trim().split(/\s+/u)[0] ?? id] as const);
  const known = new Map(
    firsts.filter(([id, first]) => firsts.every(([other, name]) => other === id || name !== first)),
  );
  return { name: (id) => known.get(id) ?? say.name(id) };
}
