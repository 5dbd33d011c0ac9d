/** Where each bay is, what stands there with it, how warm it is: what the model needs of a Day besides its activities. */

import type { Day } from "../../day/day.ts";
import { type Presence, presenceOf, presenceSpan } from "../../day/people/presence.ts";
import { leastOf } from "../../lists.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import { derate, INDOORS_CELSIUS } from "../physics.ts";

/** Who is where and how cold it is, over the time of the model. */
export interface Surroundings {
  readonly day: Day;
  readonly presence: Presence;
  readonly span: Interval;
  /** The place a bay is at; null on the road or where it is not known. */
  placeOf(bay: Id, at: Instant): Id | null;
  /** Outdoors; null where no weather row says. */
  outdoors(place: Id | null, at: Instant): number | null;
  /** Inside a bay: a running vehicle's `inside`, a bed's room, else outdoors. */
  inside(bay: Id, at: Instant): number | null;
  /** True while a vehicle is driven, which it is not on a ferry, or stands at a stop where the crew works. */
  runs(vehicle: Id, at: Instant): boolean;
  isBed(place: Id): boolean;
  /** The latest instant up to `at` and the next one after it at which any of this may change. */
  steady(at: Instant): Steady;
}

/** From when on and until when nothing changes; -Infinity and Infinity where nothing did before or does after. */
interface Steady {
  readonly from: number;
  readonly to: number;
}

/** Looks at one Day. */
export function surroundingsOf(day: Day): Surroundings {
  const { plan } = day;
  const presence = presenceOf(day);
  const beds = new Set(day.people.flatMap((person) => [person.slept, person.sleeps]).filter((place) => place !== null));
  const isBed = (place: Id): boolean => beds.has(place) || plan.places.get(place)?.kind === "lodging";
  const work = workStops(day);
  const stretches = stretchesBetween(changesOf(plan, presence, work));
  const placeOf = steadily(stretches, (bay: Id, at): Id | null =>
    plan.vehicles.has(bay) ? (presence.vehicleAt(bay, at)?.place ?? null) : plan.places.has(bay) ? bay : null,
  );
  const outdoors = steadily(stretches, (place: Id | null, at) => celsiusAt(plan, place, at));
  const runs = steadily(stretches, (vehicle: Id, at): boolean => {
    const here = presence.vehicleAt(vehicle, at);
    if (here === null) return false;
    if (here.move !== null) return here.move.leg.ferry === undefined;
    return work.some((stop) => stop.vehicle === vehicle && stop.from <= at && at < stop.to && !isBed(stop.place));
  });
  const inside = steadily(stretches, (bay: Id, at): number | null => {
    const place = placeOf(bay, at);
    if (place !== null && (isBed(place) || plan.places.get(place)?.shelter === true)) return INDOORS_CELSIUS;
    const stated = plan.vehicles.get(bay)?.insideCelsius ?? null;
    return stated !== null && runs(bay, at) ? stated : outdoors(place, at);
  });
  const steady = (at: Instant): Steady => stretches.stretch(stretches.numberAt(at));
  return { day, presence, span: presenceSpan(day), placeOf, outdoors, inside, runs, isBed, steady };
}

/** The instants at which anything here may change, in time order: vehicles come and go, work begins and ends, the weather turns. */
function changesOf(plan: Plan, presence: Presence, work: readonly WorkStop[]): readonly number[] {
  const stays = [...plan.vehicles.keys()].flatMap((id) => presence.vehicle(id));
  const rows = plan.weather.map((row) => ({ from: row.from ?? row.to, to: row.to ?? row.from }));
  const all = [...stays, ...work, ...rows].flatMap(({ from, to }) => [from, to]).filter((at) => at !== null);
  return [...new Set<number>(all)].sort((a, b) => a - b);
}

/** The stretches between changes, by number: the first is before all of them. */
interface Stretches {
  numberAt(at: Instant): number;
  stretch(number: number): Steady;
}

function stretchesBetween(changes: readonly number[]): Stretches {
  return {
    numberAt: (at) => {
      let [low, high] = [0, changes.length];
      while (low < high) {
        const middle = (low + high) >>> 1;
        if ((changes[middle] ?? 0) <= at) low = middle + 1;
        else high = middle;
      }
      return low;
    },
    stretch: (number) => ({
      from: changes[number - 1] ?? Number.NEGATIVE_INFINITY,
      to: changes[number] ?? Number.POSITIVE_INFINITY,
    }),
  };
}

/** The same answers, each worked out once between two changes. */
function steadily<K extends Id | null, T extends NonNullable<unknown> | null>(
  { numberAt }: Stretches,
  answer: (of: K, at: Instant) => T,
): (of: K, at: Instant) => T {
  const known = new Map<K, T[]>();
  return (of, at) => {
    const answers = known.get(of) ?? [];
    if (answers.length === 0) known.set(of, answers);
    const number = numberAt(at);
    const told = answers[number];
    if (told !== undefined) return told;
    const fresh = answer(of, at);
    answers[number] = fresh;
    return fresh;
  };
}

interface WorkStop extends Interval {
  readonly vehicle: Id;
  readonly place: Id;
}

function workStops(day: Day): WorkStop[] {
  return day.stops.flatMap((stop) => {
    const from = stop.arrive ?? stop.terms[0]?.from;
    const to = stop.leave ?? stop.terms.at(-1)?.to;
    return stop.activities.length === 0 || from === undefined || to === undefined
      ? []
      : [{ from, to, vehicle: stop.vehicle, place: stop.place }];
  });
}

/** The coldest row that names the place; where none does, the coldest that names none. */
function celsiusAt(plan: Plan, place: Id | null, at: Instant): number | null {
  const rows = plan.weather.filter(
    (row) => row.celsius !== null && (row.from === null || row.from <= at) && (row.to === null || at < row.to),
  );
  const named = rows.filter((row) => place !== null && row.places.includes(place));
  const general = rows.filter((row) => row.places.length === 0);
  return leastOf((named.length > 0 ? named : general).flatMap((row) => row.celsius ?? []));
}

/** By how much cold raises a draw over a stretch, minute by minute, at the temperature that `celsius` gives; 1 in the warm. */
export function coldDrawFactor(
  around: Surroundings,
  during: Interval,
  celsius: (at: Instant) => number | null,
): number {
  let sum = 0;
  for (let at = during.from; at < during.to; ) {
    const next = nextMinute(around, at, during.to);
    const factor = 1 / derate(celsius(at) ?? INDOORS_CELSIUS);
    for (let minute: number = at; minute < next; minute++) sum += factor;
    at = next;
  }
  return during.to > during.from ? sum / (during.to - during.from) : 1;
}

/** The first whole minute after `at`, counted from there, at which something may have changed; `end` where that is earlier. */
const nextMinute = (around: Surroundings, at: Instant, end: Instant): Instant =>
  instant(Math.min(end, at + Math.max(1, Math.ceil(around.steady(at).to - at))));

/** The maximal stretches of `during`, in whole minutes, in which what `around` says is such that it `holds`. */
export function stretchesWhere(around: Surroundings, during: Interval, holds: (at: Instant) => boolean): Interval[] {
  const stretches: Interval[] = [];
  let from: Instant | null = null;
  for (let at = during.from; at < during.to; at = nextMinute(around, at, during.to)) {
    if (holds(at)) from ??= at;
    else if (from !== null) {
      stretches.push({ from, to: at });
      from = null;
    }
  }
  if (from !== null) stretches.push({ from, to: during.to });
  return stretches;
}
