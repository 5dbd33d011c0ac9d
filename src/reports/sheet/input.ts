/** What a sheet is made from: the day, what the topics found out about it, and how it was asked for. */

import type { Changes } from "../../changes/between.ts";
import type { Day } from "../../day/day.ts";
import type { Finding, Wording } from "../../findings/finding.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import type { Instant, ZoneId } from "../../time/units.ts";
import type { Names } from "../shared/cells.ts";
import { clocksOf, type ReportClocks } from "../shared/clocks.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import type { BatteryFact, GearFact, SunFact } from "./facts.ts";

/** What topics found out, as far as a sheet reads it; null for a topic that has not judged the day. */
export interface SheetFacts {
  readonly sun: readonly SunFact[] | null;
  /** Degrees; null at a place without coordinates. */
  readonly sunAltitude: ((place: Id, at: Instant) => number | null) | null;
  readonly batteries: readonly BatteryFact[] | null;
  readonly gear: readonly GearFact[] | null;
  readonly cautions: readonly Finding[] | null;
  /** What a code means in one line; null for a code that is not in the catalogue. */
  readonly titleOf?: (code: string) => string | null;
  /** Topics that `check` has not judged yet, by name. */
  readonly notJudged: readonly string[];
}

/** Where no topic has judged. */
export const NO_FACTS: SheetFacts = {
  sun: null,
  sunAltitude: null,
  batteries: null,
  gear: null,
  cautions: null,
  notJudged: [],
};

/** What a sheet is for, where that is no person: the dashboard of a vehicle, one hit, the gate of a place. */
export interface Focus {
  readonly kind: "vehicle" | "hit" | "place";
  readonly id: Id;
}

/** What a sheet is asked for. */
export interface SheetRequest {
  readonly day: Day;
  readonly facts: SheetFacts;
  /** All findings of the day and its topics, worst first, cautions included. */
  readonly findings: readonly Finding[];
  readonly say: Wording;
  /** Stands in for the control room's clock; null for the plan's own. */
  readonly desk: ZoneId | null;
  /** One person's view, or the whole crew's. */
  readonly person: Id | null;
  /** A vehicle's, a hit's or a place's view in place of a person's. */
  readonly focus?: Focus | null;
  /** Leaves out telephone numbers, line numbers, bookings, addresses and positions. */
  readonly redact: boolean;
  /** The moment that the sheet is as of, for a day under way. */
  readonly now?: Instant | null;
  /** The older version itself, for the calendar. */
  readonly older?: Day | null;
  /** Against an older version; null where none was named. */
  readonly changes: Changes | null;
}

/** A request with what every section needs settled once. */
export interface SheetInput extends SheetRequest {
  readonly desk: ZoneId;
  /** Whom it concerns; null for everyone. */
  readonly concerned: ReadonlySet<Id> | null;
  /** Over the places where the vehicles stop. */
  readonly clocks: ReportClocks;
  /** How the sheet calls something after its first mention: a person by the first word of their name where that says who is meant. */
  readonly short: Names;
}

/** What the sheet shows, gathered from all engines. */
export function sheetInput(request: SheetRequest): SheetInput {
  const { day, say } = request;
  const desk = request.desk ?? day.plan.clock;
  const clocks = clocksOf(
    day.plan,
    say,
    day.stops.map(({ place }) => place),
    desk,
  );
  const concerned = request.person === null ? concernedBy(request) : new Set([request.person]);
  return {
    ...request,
    desk,
    clocks,
    concerned,
    say: localFirst(day.plan, say, desk, clocks),
    short: shortNames(request),
  };
}

function concernedBy({ day, focus }: SheetRequest): ReadonlySet<Id> | null {
  switch (focus?.kind) {
    case "vehicle":
      return new Set(
        day.moves.filter(({ vehicle }) => vehicle === focus.id).flatMap(({ driver, riders }) => [driver, ...riders]),
      );
    case "hit":
      return new Set(day.activities.find(({ id }) => id === focus.id)?.who ?? []);
    case "place":
      return new Set(
        day.people.filter(({ spans }) => spans.some(({ place }) => place === focus.id)).map(({ id }) => id),
      );
    default:
      return null;
  }
}

/** On a sheet the clock that people get up by comes first, the desk's in brackets. */
const localFirst = (plan: Plan, say: Wording, desk: ZoneId, clocks: ReportClocks): Wording => ({
  ...say,
  time(at, place = null) {
    const zone = place === null ? clocks.main : zoneOfPlace(plan, place);
    const own = `${clocks.text(at, zone)} ${clocks.name(zone)}`;
    const other = `${clocks.text(at, desk)} ${clocks.name(desk)}`;
    return clocks.text(at, zone) === clocks.text(at, desk) ? own : `${own} (${other})`;
  },
});

/** The first word of a name; the whole where that word has no letter. */
function firstWord(name: string): string {
  const [first = name] = name.trim().split(/\s+/u);
  return /\p{L}/u.test(first) ? first : name;
}

function shortNames({ day, say }: SheetRequest): Names {
  const firsts = day.people.map(({ id }) => [id, firstWord(say.name(id))] as const);
  const known = new Map(
    firsts.filter(([id, first]) => firsts.every(([other, name]) => other === id || name !== first)),
  );
  return { ...say, name: (id) => known.get(id) ?? say.name(id) };
}
