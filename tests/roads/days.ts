/** A Day made by hand: one vehicle after another, stops with work and waits, as the roads read it. */
import type { ActivityTimes, Day, DayTerm, Move, PersonDay, PersonSpan, StopTimes } from "../../src/day/day.ts";
import type { Leg } from "../../src/legs/leg.ts";
import { badTime, driveTime, plannedMinutes, roundUp } from "../../src/legs/times.ts";
import { DRY } from "../../src/legs/weather.ts";
import type { Id, Plan } from "../../src/plan/plan.ts";
import { type Instant, instant, minutes } from "../../src/time/units.ts";
import { hit, plan, stop } from "../day/parts.ts";

/** 2027-01-20T00:00Z, minutes since the epoch. */
export const MIDNIGHT = 30_006_720;

export const at = (minute: number): Instant => instant(MIDNIGHT + minute);

const term = (name: string, from: Instant, to: Instant, place: Id): DayTerm => ({
  name,
  from,
  to,
  minutes: to - from,
  where: null,
  place,
  vehicle: null,
  activity: null,
});

/** What happens between two drives: a wait and then work, and perhaps a hit one is in position for after that. */
export interface Pause {
  readonly wait?: number;
  readonly work?: number;
  readonly hit?: Id;
  readonly firm?: boolean;
}

export interface Trip {
  readonly vehicle: Id;
  readonly people: readonly Id[];
  readonly leave: Instant;
  /** A leg, the pause after it, a leg … */
  readonly way: readonly (readonly [Leg, "bad" | "drive", Pause])[];
}

interface Built {
  readonly moves: readonly Move[];
  readonly stops: readonly StopTimes[];
  readonly activities: readonly ActivityTimes[];
  readonly terms: readonly DayTerm[];
}

const moveOf = (trip: Trip, index: number, leave: Instant): Move => {
  const entry = trip.way[index];
  if (entry === undefined) throw new RangeError("no such leg");
  const [own, plannedAt] = entry;
  const time = driveTime(own, { slower: 1, weather: DRY });
  const planned = plannedMinutes(own, { slower: 1, weather: DRY, at: plannedAt });
  const [driver = "wren", ...riders] = trip.people;
  const arrive = instant(leave + planned);
  return {
    id: `${trip.vehicle}.${index + 1}`,
    vehicle: trip.vehicle,
    from: own.from,
    to: own.to,
    leave,
    arrive,
    driver,
    riders,
    asleep: [],
    wheel: [{ from: leave, to: arrive, driver }],
    halts: [],
    leg: own,
    plannedMinutes: planned,
    plannedAt,
    likelyMinutes: roundUp(time.median),
    badMinutes: roundUp(badTime(time)),
    leaveBy: null,
    slackMinutes: null,
    overLikelyMinutes: minutes(planned - roundUp(time.median)),
  };
};

function build(trip: Trip): Built {
  const moves: Move[] = [];
  const stops: StopTimes[] = [];
  const activities: ActivityTimes[] = [];
  const terms: DayTerm[] = [];
  let clock = trip.leave;
  const first = trip.way[0]?.[0].from ?? "lodge";
  const bare = { vehicle: trip.vehicle, parked: null, activities: [], terms: [] };
  stops.push({ ...bare, stop: stop(`${trip.vehicle}.1`, first), place: first, arrive: null, leave: trip.leave });
  for (const [index, [own, , pause]] of trip.way.entries()) {
    const move = moveOf(trip, index, clock);
    moves.push(move);
    terms.push(term("drive", move.leave, move.arrive, own.to));
    const ready = instant(move.arrive + (pause.wait ?? 0));
    const done = instant(ready + (pause.work ?? 0));
    terms.push(term("wait", move.arrive, ready, own.to), term("work", ready, done, own.to));
    clock = pause.hit === undefined ? done : instant(done + 10 + 3);
    const id = `${trip.vehicle}.${index + 2}`;
    const leave = index === trip.way.length - 1 ? null : clock;
    const listed = pause.hit === undefined ? [] : [pause.hit];
    stops.push({
      ...bare,
      stop: stop(id, own.to, { do: listed }),
      place: own.to,
      arrive: move.arrive,
      leave,
      activities: listed,
    });
    if (pause.hit === undefined) continue;
    const start = instant(done + 10);
    terms.push(term("hit", done, clock, own.to));
    activities.push({
      activity: hit(pause.hit, own.to, { at: start, firm: pause.firm ?? true }),
      id: pause.hit,
      who: trip.people,
      stops: [id],
      place: own.to,
      vehicle: null,
      state: "fixed",
      lineCheck: null,
      inPosition: done,
      start,
      end: clock,
      clearEnd: clock,
      slackMinutes: null,
      roadShare: null,
    });
  }
  return { moves, stops, activities, terms };
}

/** Twelve hours off, then what the terms say: at the wheel, in another seat, or on duty. */
function spansOf(id: Id, built: readonly (Built & { trip: Trip })[], terms: readonly DayTerm[]): readonly PersonSpan[] {
  const [first] = terms;
  if (first === undefined) return [];
  const moves = built.flatMap((own) => own.moves);
  const bare = { vehicle: null, activity: null, place: null };
  const spans = terms
    .filter(({ from, to }) => to > from)
    .map((own): PersonSpan => {
      const move = moves.find(
        ({ leave, driver, riders }) =>
          own.name === "drive" && leave === own.from && (driver === id || riders.includes(id)),
      );
      const { from, to, place, name } = own;
      if (move === undefined) return { ...bare, from, to, is: "duty", place, doing: name };
      const drives = move.driver === id;
      return {
        ...bare,
        from,
        to,
        is: drives ? "driving" : "riding",
        vehicle: move.vehicle,
        doing: drives ? "drive" : "ride",
      };
    });
  return [{ ...bare, from: instant(first.from - 720), to: first.from, is: "off", doing: "off" }, ...spans];
}

const personOf = (id: Id, built: readonly (Built & { trip: Trip })[]): PersonDay => {
  const terms = built
    .flatMap(({ trip, terms: own }) => (trip.people.includes(id) ? own : []))
    .sort((a, b) => a.from - b.from);
  return {
    id,
    call: terms[0]?.from ?? null,
    release: terms.at(-1)?.to ?? null,
    slept: null,
    sleeps: null,
    duties: [],
    spans: spansOf(id, built, terms),
    terms,
    previousRelease: null,
    lateRelease: null,
    chores: [],
  };
};

/** Merges the visits of several vehicles to one hit: who comes with any of them is needed. */
function merged(activities: readonly ActivityTimes[]): ActivityTimes[] {
  const all = new Map<Id, ActivityTimes>();
  for (const own of activities) {
    const before = all.get(own.id);
    if (before === undefined) all.set(own.id, own);
    else all.set(own.id, { ...before, who: [...before.who, ...own.who], stops: [...before.stops, ...own.stops] });
  }
  return [...all.values()];
}

export function day(trips: readonly Trip[], parts: Partial<Plan> = {}): Day {
  const built = trips.map((trip) => ({ ...build(trip), trip }));
  const people = [...new Set(trips.flatMap((trip) => trip.people))];
  const moves = built.flatMap((own) => own.moves).sort((a, b) => a.leave - b.leave);
  const made: Day = {
    plan: plan(parts),
    people: people.map((id) => personOf(id, built)),
    stops: built.flatMap((own) => own.stops),
    moves,
    activities: merged(built.flatMap((own) => own.activities)),
    rides: [],
    findings: [],
    instants: new Map(),
    why: () => null,
    unedited: null,
    intact: null,
    withChores: () => made,
    span: { from: at(0), to: at(1440) },
  };
  return made;
}
