/**
 * What a late vehicle makes late: every departure with what it has to wait for, every hit with who has to arrive for it.
 *
 * Between an arrival and what follows it a part of the planned time is wait, and only that can be eaten up. Where several
 * people arrive together, the one with the least wait decides; so the chance never rests on a wait that is not everyone's.
 */

import { type ActivityTimes, aboardOf, type Day, type Move, type PersonDay } from "../../day/day.ts";
import { type Conditions, type DriveTime, driveTime } from "../../legs/times.ts";
import { weatherOn } from "../../legs/weather.ts";
import { sumOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, type Interval, instant, overlap } from "../../time/units.ts";

/** Something can happen `workMinutes` after the arrival of a move at the earliest. */
export interface Gate {
  /** Index into `departures`. */
  readonly departure: number;
  readonly workMinutes: number;
  /** The share of the leg that has to be driven: 1 but for a hit on the road. */
  readonly share: number;
  /** Opens by then or not at all: a ferry sails, and no later one is known. Null where one can be late. */
  readonly until: Instant | null;
}

/** A drive of a chain with its distribution of times. */
export interface Departure {
  readonly move: Move;
  readonly time: DriveTime;
  /** Whether the chance counts it as driven in the dark, which the planned time does not. */
  readonly dark: boolean;
  /** Minutes of halts on the way; they do not vary. */
  readonly haltMinutes: number;
  readonly gates: readonly Gate[];
}

/** To be in position for a hit, everyone behind a gate has to be there. */
export interface PositionTarget {
  readonly hit: Id;
  readonly deadline: Instant;
  readonly firm: boolean;
  readonly gates: readonly Gate[];
}

/** Drives that follow each other, and what they must reach. */
export interface Chain {
  /** In time order: gates lead to earlier departures only. */
  readonly departures: readonly Departure[];
  readonly targets: readonly PositionTarget[];
}

/** Whether it is dark somewhere at some time; the roads know nothing of the sun themselves. */
export type Dark = (at: Instant, place: Id) => boolean;

/**
 * The time factor of the dark: HCM 7 exhibit 11-21 has a speed factor of 0.96 for low visibility at 55 mph. It slows the
 * chance only; planned times do not know it.
 */
export const DARK_FACTOR = 1 / 0.96;

const waitWithin = (person: PersonDay | undefined, during: Interval): number =>
  sumOf(person?.terms ?? [], (term) => (term.name === "wait" ? overlap(term, during) : 0));

const isAboard = (move: Move, who: Id): boolean => aboardOf(move).includes(who);

/** The index of someone's last move before `end` that has arrived by `at`; -1 where there is none, or they came by a later ride. */
function lastMove(day: Day, who: Id, at: Instant, end = day.moves.length): number {
  const found = day.moves.findLastIndex((move, index) => index < end && move.arrive <= at && isAboard(move, who));
  const ride = day.rides.findLast((own) => own.who.includes(who) && own.ride.arrive <= at);
  const arrived = day.moves[found]?.arrive;
  return arrived !== undefined && ride !== undefined && ride.ride.arrive > arrived ? -1 : found;
}

/** What each of `who` has to do between their last arrival before `at` and `at`, by move; the most work decides. */
function gatesOf(day: Day, who: readonly Id[], at: Instant, end = day.moves.length): Gate[] {
  const people = new Map(day.people.map((person) => [person.id, person]));
  const work = new Map<number, number>();
  for (const id of who) {
    const index = lastMove(day, id, at, end);
    const move = day.moves[index];
    if (move === undefined) continue;
    const own = at - move.arrive - waitWithin(people.get(id), { from: move.arrive, to: at });
    work.set(index, Math.max(own, work.get(index) ?? 0));
  }
  return [...work]
    .sort(([a], [b]) => a - b)
    .map(([departure, workMinutes]) => ({ departure, workMinutes, share: 1, until: null }));
}

/**
 * By when a gate has to be open for a ferry: when it sails, or sailed by the log, and if the stop has an `arriveBy`, for
 * who arrives by then.
 */
function lastFor(day: Day, move: Move, { workMinutes }: Gate): Instant | null {
  const { ferry } = move.leg;
  if (ferry === undefined) return null;
  const sailed = day.plan.actual.stops.get(move.id)?.left ?? null;
  if (sailed !== null) return sailed;
  const arriveBy = day.stops.find(({ stop }) => stop.id === move.id)?.stop.arriveBy ?? null;
  return arriveBy === null ? ferry.sail : instant(Math.min(ferry.sail, arriveBy + workMinutes));
}

function departureOf(
  day: Day,
  move: Move,
  index: number,
  conditions: Conditions & { readonly dark: boolean },
): Departure {
  const gates = gatesOf(day, aboardOf(move), move.leave, index);
  const own = day.moves.findLastIndex((earlier, at) => at < index && earlier.vehicle === move.vehicle);
  if (own >= 0 && !gates.some((gate) => gate.departure === own))
    gates.push({ departure: own, workMinutes: 0, share: 1, until: null });
  return {
    move,
    time: driveTime(move.leg, conditions),
    dark: conditions.dark,
    haltMinutes: sumOf(move.halts, (halt) => halt.to - halt.from),
    gates: gates.map((gate) => ({ ...gate, until: lastFor(day, move, gate) })),
  };
}

/** Everyone who must have arrived for a hit: its people, and who comes with the vehicles that make the visit. */
function neededFor(day: Day, activity: ActivityTimes, at: Instant): readonly Id[] {
  const vehicles = day.stops.filter((stop) => activity.stops.includes(stop.stop.id));
  const brought = vehicles.flatMap((stop) => {
    const move = day.moves.find((own) => own.vehicle === stop.vehicle && own.arrive === stop.arrive);
    return move === undefined ? [] : aboardOf(move);
  });
  const stillThere = (who: Id): boolean => day.moves[lastMove(day, who, at)]?.to === activity.place;
  return [...new Set([...activity.who, ...brought.filter(stillThere)])];
}

function targetOf(day: Day, activity: ActivityTimes): PositionTarget | null {
  const { activity: hit, inPosition } = activity;
  if (hit.kind !== "hit" || inPosition === null) return null;
  const common = { hit: activity.id, deadline: inPosition, firm: hit.firm };
  if (activity.roadShare === null)
    return { ...common, gates: gatesOf(day, neededFor(day, activity, inPosition), inPosition) };
  const departure = day.moves.findIndex((move) => move.halts.some((halt) => halt.activity === activity.id));
  return departure < 0
    ? null
    : { ...common, gates: [{ departure, workMinutes: 0, share: activity.roadShare, until: null }] };
}

/** A drive that is over, or has an arrival on record, takes what it took. */
function isPast(day: Day, move: Move, now: Instant | null): boolean {
  if (now !== null && move.arrive <= now) return true;
  const stop = day.stops.find((own) => own.vehicle === move.vehicle && own.arrive === move.arrive);
  return stop !== undefined && (day.plan.actual.stops.get(stop.stop.id)?.arrived ?? null) !== null;
}

const asItWent = (departure: Departure): Departure => {
  const { move, haltMinutes } = departure;
  return { ...departure, dark: false, gates: [], time: { median: move.arrive - move.leave - haltMinutes, spread: 0 } };
};

const middle = (move: Move): Instant => instant(Math.floor((move.leave + move.arrive) / 2));

/** Reads the chain of a day: what is late when a drive is. What is past by `now`, or on record, no longer varies. */
export function chainOf(day: Day, dark: Dark, now: Instant | null = null): Chain {
  const departures = day.moves.map((move, index) => {
    const slower = day.plan.vehicles.get(move.vehicle)?.slower ?? 1;
    const weather = weatherOn(day.plan.weather, { from: move.leave, to: move.arrive }, [move.from, move.to]);
    const isDark = move.leg.ferry === undefined && dark(middle(move), move.from);
    const conditions = { slower: slower * (isDark ? DARK_FACTOR : 1), weather, dark: isDark };
    const departure = departureOf(day, move, index, conditions);
    return isPast(day, move, now) ? asItWent(departure) : departure;
  });
  return { departures, targets: day.activities.flatMap((activity) => targetOf(day, activity) ?? []) };
}
