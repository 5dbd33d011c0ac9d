/**
 * The moments at which packs can change place: where a swap fits before, somebody who may is there, awake, and has hands
 * free. Hands are free in a wait, off duty and awake, riding; and at the end of loading, set-up, strike and unloading, which
 * are gear in hand anyway.
 */
import type { PersonPresence } from "../../day/people/presence.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { Touch } from "../model.ts";
import type { Surroundings } from "./surroundings.ts";

/** A bay as hands see it: where it stands, and who may reach into it (null: anyone). */
export interface HandBay {
  readonly id: Id;
  /** The vehicle or place it is part of. */
  readonly within: Id;
  readonly hands: readonly Id[] | null;
}

/** Someone who is there: from when to when, in one stretch in which their hands can be on packs. */
export interface Hand extends Interval {
  readonly who: Id;
  /** As in their presence: `wait`, `loading`, `evening` …; what they would have to leave, for a cure. */
  readonly doing: string;
}

/** A moment, and whose it could be. */
export interface HandMoment extends Touch {
  /** The place, or the vehicle on the road. */
  readonly where: Id;
  /** In plan order; the moment is in the stretch of each, a swap after its start or later. */
  readonly hands: readonly Hand[];
}

const GEAR_IN_HAND: ReadonlySet<string> = new Set(["loading", "set-up", "strike", "unload"]);
/** In a long free stretch hands are offered once in this time, minutes. */
const STEP_MINUTES = 60;
/** A free stretch shorter than this offers one moment, at its start. */
const SHORT_MINUTES = 20;

/** All touches of a Day, in time order. */
export function touchesOf(around: Surroundings, bays: readonly HandBay[]): HandMoment[] {
  return momentsOf(
    around,
    bays,
    (stretch) => stretch.awake && (stretch.free || stretch.is === "riding" || stretch.gear),
    () => true,
  );
}

/** Touches that would be there if someone who is off or asleep were up: what a cure can ask for. */
export function spareTouches(around: Surroundings, bays: readonly HandBay[]): HandMoment[] {
  return momentsOf(
    around,
    bays,
    (stretch) => stretch.free || stretch.is === "riding",
    (stretch) => !stretch.awake,
  );
}

interface HandStretch extends Interval {
  readonly who: Id;
  readonly where: Id;
  readonly awake: boolean;
  readonly free: boolean;
  readonly is: "riding" | "other";
  readonly gear: boolean;
  readonly doing: string;
}

function stretchesOf(around: Surroundings): HandStretch[] {
  const { day, presence } = around;
  // Who has nothing to do has a day off: their hands are not counted on.
  const working = day.people.filter(({ call }) => call !== null);
  return working.flatMap((person) =>
    presence.person(person.id).flatMap((one): HandStretch[] => {
      const where = one.place ?? one.vehicle;
      if (where === null) return [];
      const rides = one.place === null && one.vehicle !== null && !drives(one);
      return [
        {
          who: person.id,
          where,
          from: one.from,
          to: one.to,
          awake: one.awake,
          free: one.free,
          is: rides ? "riding" : "other",
          gear: GEAR_IN_HAND.has(one.doing),
          doing: one.doing,
        },
      ];
    }),
  );
}

const drives = (one: PersonPresence): boolean => one.doing === "drive";

function momentsOf(
  around: Surroundings,
  bays: readonly HandBay[],
  usable: (stretch: HandStretch) => boolean,
  wanted: (stretch: HandStretch) => boolean,
): HandMoment[] {
  const { swap } = around.day.plan.rules;
  const found = new Map<string, { at: Instant; where: Id; reach: Set<Id>; hands: Map<Id, Hand> }>();
  const quiet = quietTimes(around);
  const changes = bayChanges(around, bays);
  for (const stretch of stretchesOf(around)) {
    if (!usable(stretch) || !wanted(stretch)) continue;
    for (const part of partsOf(stretch, changes, quiet.get(stretch.where) ?? [])) {
      const reach = bays.filter(
        (bay) => isWithin(around, bay, stretch, part.from) && (bay.hands?.includes(stretch.who) ?? true),
      );
      if (reach.length === 0) continue;
      for (const at of instantsIn(part, swap, stretch.gear && !stretch.free)) {
        const key = `${at} ${stretch.where}`;
        const moment = found.get(key) ?? { at, where: stretch.where, reach: new Set(), hands: new Map() };
        for (const bay of reach) moment.reach.add(bay.id);
        const { who, doing } = stretch;
        if (!moment.hands.has(who)) moment.hands.set(who, { who, doing, ...part });
        found.set(key, moment);
      }
    }
  }
  const order = bays.map((bay) => bay.id);
  return [...found.values()]
    .sort((a, b) => a.at - b.at)
    .map(({ at, where, reach, hands }, n) => ({
      id: `touch.${n + 1}`,
      at,
      where,
      hands: [...hands.values()],
      reach: order.filter((id) => reach.has(id)),
    }));
}

/** By place, or vehicle on the road: from the line check, or in position, until the desk clears. No one swaps a pack there then. */
function quietTimes(around: Surroundings): ReadonlyMap<Id, readonly Interval[]> {
  const quiet = new Map<Id, Interval[]>();
  for (const { activity, place, vehicle, lineCheck, inPosition, end, clearEnd } of around.day.activities) {
    const from = lineCheck?.from ?? inPosition;
    const to = clearEnd ?? end;
    const where = place ?? vehicle;
    if (activity.kind !== "hit" || from === null || to === null || where === null) continue;
    quiet.set(where, [...(quiet.get(where) ?? []), { from, to }]);
  }
  return quiet;
}

/** The instants at which a bay comes or goes. */
function bayChanges(around: Surroundings, bays: readonly HandBay[]): readonly Instant[] {
  const vehicles = new Set(bays.map(({ within }) => within));
  return [...new Set([...vehicles].flatMap((id) => around.presence.vehicle(id).flatMap(({ from, to }) => [from, to])))];
}

/** A stretch cut at these changes and where a hit is on, without the times in which one is. */
function partsOf(stretch: Interval, changes: readonly Instant[], quiet: readonly Interval[]): Interval[] {
  const cuts = [...changes, ...quiet.flatMap(({ from, to }) => [from, to])];
  const times = [
    ...new Set([stretch.from, ...cuts.filter((at) => at > stretch.from && at < stretch.to), stretch.to]),
  ].sort((a, b) => a - b);
  return times
    .slice(1)
    .map((to, n) => ({ from: times[n] ?? to, to }))
    .filter((part) => !quiet.some((one) => one.from < part.to && part.from < one.to));
}

const isWithin = (around: Surroundings, bay: HandBay, stretch: HandStretch, at: Instant): boolean =>
  bay.within === stretch.where || around.placeOf(bay.within, at) === stretch.where;

/** Once in a short stretch; at both ends and every hour of a long one; at the end only where gear is in hand. */
function instantsIn(part: Interval, swap: number, endOnly: boolean): Instant[] {
  const length = part.to - part.from;
  if (length < swap) return [];
  if (endOnly) return [part.to];
  const first = instant(part.from + swap);
  if (length < SHORT_MINUTES) return [first];
  const between: Instant[] = [];
  for (let at = first + STEP_MINUTES; at <= part.to - STEP_MINUTES; at += STEP_MINUTES) between.push(instant(at));
  return [first, ...between, part.to];
}

/** Work in which gear is in hand anyway. */
export const isGearInHand = (doing: string): boolean => GEAR_IN_HAND.has(doing);
