/**
 * A second reading of what surrounds packs, minute by minute and without memory: where a bay is, how warm it is, what feeds it,
 * whose hands are free there. It starts from who and what is where (`presenceOf`), and shares nothing else with `src/power/day`.
 */
import type { Day } from "../../../src/day/day.ts";
import type { PersonPresence, Presence } from "../../../src/day/people/presence.ts";
import type { Charger, Id } from "../../../src/plan/plan.ts";
import type { HandBay } from "../../../src/power/day/touches.ts";
import { type Instant, instant } from "../../../src/time/units.ts";

/** A day with its whereabouts, from the release before to the evening after. */
export interface Around {
  readonly day: Day;
  readonly presence: Presence;
  readonly from: number;
}

const isBed = ({ day }: Around, place: Id): boolean =>
  day.plan.places.get(place)?.kind === "lodging" ||
  day.people.some(({ slept, sleeps }) => slept === place || sleeps === place);

export function placeOf({ day, presence }: Around, bay: Id, at: Instant): Id | null {
  if (day.plan.places.has(bay)) return bay;
  return presence.vehicle(bay).find(({ from, to }) => from <= at && at < to)?.place ?? null;
}

/** An engine runs on the road, which a ferry is not, and while the crew works at a stop that is no bed. */
export function runs(around: Around, vehicle: Id, at: Instant): boolean {
  const { day } = around;
  const move = day.moves.find((one) => one.vehicle === vehicle && one.leave <= at && at < one.arrive);
  if (move !== undefined) return move.leg.ferry === undefined;
  return day.stops.some(({ vehicle: own, arrive, leave, terms, activities, place }) => {
    const [from, to] = [arrive ?? terms[0]?.from ?? Infinity, leave ?? terms.at(-1)?.to ?? -Infinity];
    return own === vehicle && activities.length > 0 && from <= at && at < to && !isBed(around, place);
  });
}

export function outdoors({ day }: Around, place: Id | null, at: Instant): number | null {
  const now = day.plan.weather.filter(
    ({ from, to }) => at >= (from ?? Number.NEGATIVE_INFINITY) && at < (to ?? Number.POSITIVE_INFINITY),
  );
  const coldest = (rows: typeof now): number | null => {
    const known = rows.flatMap(({ celsius }) => celsius ?? []);
    return known.length === 0 ? null : (known.toSorted((a, b) => a - b)[0] ?? null);
  };
  const own = place === null ? null : coldest(now.filter(({ places }) => places.includes(place)));
  return own ?? coldest(now.filter(({ places }) => places.length === 0));
}

export function inside(around: Around, bay: Id, at: Instant): number | null {
  const { places, vehicles } = around.day.plan;
  const place = placeOf(around, bay, at);
  if (place !== null && (isBed(around, place) || places.get(place)?.shelter === true)) return 20;
  const kept = vehicles.get(bay)?.insideCelsius ?? null;
  return kept !== null && runs(around, bay, at) ? kept : outdoors(around, place, at);
}

const warmth = (around: Around, bay: Id, at: number): number => inside(around, bay, instant(at)) ?? 20;

/** Whether a charger has power at a minute, by what of a vehicle's source the chargers before it and what hangs on it leave. */
export function isFed(around: Around, charger: Charger, at: Instant): boolean {
  const { plan } = around.day;
  const place = placeOf(around, charger.in, at);
  const mains = plan.places.get(place ?? "")?.mains === true;
  const vehicle = plan.vehicles.get(charger.in);
  if (vehicle === undefined) return mains;
  if (mains && (vehicle.shoreWatts === null || isBed(around, place ?? ""))) return true;
  if (!mains && !runs(around, vehicle.id, at)) return false;
  let left = (mains ? vehicle.shoreWatts : vehicle.inverterWatts) ?? Number.NEGATIVE_INFINITY;
  for (const piece of plan.kit.values())
    if (piece.in === vehicle.id && piece.mount === null) left -= (piece.watts ?? 0) * piece.count;
  for (const one of plan.chargers.values()) {
    if (one.in !== vehicle.id) continue;
    const need = one.totalWatts ?? one.watts * one.slots;
    if (one.id === charger.id) return need <= left;
    left -= need <= left ? need : 0;
  }
  return false;
}

/**
 * When what lies in a bay is warm: the last hour of frost in the six hours before is looked for, backwards; then `warmUp` after
 * the first minute of 10 °C that followed it.
 */
export function warmFrom(around: Around, bay: Id, at: number): number {
  let frozen = 0;
  for (let minute = at - 1; minute >= Math.max(around.from, at - 360); minute--) {
    frozen = warmth(around, bay, minute) < 0 ? frozen + 1 : 0;
    if (frozen < 60) continue;
    let warm = minute + 60;
    while (warm < at && warmth(around, bay, warm) < 10) warm++;
    return warm + around.day.plan.rules.warmUp;
  }
  return at;
}

/** The minutes in which a charger charges: fed, from 0 to 45 °C, warm after a frost, half of the cold minutes of an hour lost. */
export function chargingMinutes(around: Around, charger: Charger, during: { from: number; to: number }): Set<number> {
  const bay = charger.in;
  const minutes = new Set<number>();
  const mild = (at: number): boolean => {
    const celsius = warmth(around, bay, at);
    return celsius >= 0 && celsius <= 45 && isFed(around, charger, instant(at));
  };
  let at = during.from;
  while (at < during.to) {
    if (!mild(at)) {
      at++;
      continue;
    }
    let end = at;
    while (end < during.to && mild(end)) end++;
    let hour = Math.max(at, warmFrom(around, bay, at));
    for (; hour < end; hour += 60) {
      const last = Math.min(end, hour + 60);
      let cold = 0;
      for (let one = hour; one < last; one++) if (warmth(around, bay, one) < 5) cold++;
      for (let one = hour + Math.round(cold / 2); one < last; one++) minutes.add(one);
    }
    at = end;
  }
  return minutes;
}

/** A moment at which hands reach bays: when, where, whose with the stretch of each, what. */
export type Offered = readonly [at: number, where: Id, hands: readonly string[], reach: readonly Id[]];

const GEAR = ["loading", "set-up", "strike", "unload"];

/** Every moment at which somebody who is awake has hands free, or ends work with gear in hand, and reaches a bay. */
export function offered(around: Around, bays: readonly HandBay[]): readonly Offered[] {
  const { day, presence } = around;
  const found = new Map<string, { at: number; where: Id; hands: Map<Id, string>; reach: Set<Id> }>();
  for (const { id } of day.people.filter(({ call }) => call !== null))
    for (const stretch of presence.person(id))
      for (const [at, from, to, where] of momentsIn(around, bays, stretch)) {
        const reach = bays.filter(
          ({ within, hands }) =>
            (within === where || placeOf(around, within, instant(from)) === where) && (hands?.includes(id) ?? true),
        );
        if (reach.length === 0) continue;
        const key = `${at} ${where}`;
        const moment = found.get(key) ?? { at, where, hands: new Map(), reach: new Set() };
        if (!moment.hands.has(id)) moment.hands.set(id, `${id} ${stretch.doing} ${from}-${to}`);
        for (const bay of reach) moment.reach.add(bay.id);
        found.set(key, moment);
      }
  return [...found.values()].map(
    ({ at, where, hands, reach }): Offered => [at, where, [...hands.values()].toSorted(), [...reach].toSorted()],
  );
}

function momentsIn(
  around: Around,
  bays: readonly HandBay[],
  { from, to, place, vehicle, awake, free, doing }: PersonPresence,
): readonly (readonly [at: number, from: number, to: number, where: Id])[] {
  const where = place ?? vehicle;
  const rides = place === null && doing !== "drive";
  const gear = GEAR.includes(doing);
  if (where === null || !awake || !(free || rides || gear)) return [];
  const { swap } = around.day.plan.rules;
  const found: (readonly [number, number, number, Id])[] = [];
  let begun: number | null = null;
  for (let at: number = from; at <= to; at++) {
    const goesOn = at < to && !isQuiet(around, where, at) && (begun === null || !changesAt(around, bays, where, at));
    if (goesOn) {
      begun ??= at;
      continue;
    }
    const start: number | null = begun;
    begun = at < to && !isQuiet(around, where, at) ? at : null;
    if (start === null || at - start < swap) continue;
    if (gear && !free) found.push([at, start, at, where]);
    else {
      found.push([start + swap, start, at, where]);
      if (at - start < 20) continue;
      for (let hour = start + swap + 60; hour + 60 <= at; hour += 60) found.push([hour, start, at, where]);
      found.push([at, start, at, where]);
    }
  }
  return found;
}

/** While a hit is prepared, on or cleared at a place no one swaps a pack there. */
const isQuiet = ({ day }: Around, where: Id, at: number): boolean =>
  day.activities.some(({ activity, place, vehicle, lineCheck, inPosition, end, clearEnd }) => {
    const [from, to] = [lineCheck?.from ?? inPosition, clearEnd ?? end];
    return (
      activity.kind === "hit" && (place ?? vehicle) === where && from !== null && to !== null && from <= at && at < to
    );
  });

/** A bay comes or goes somewhere, or a hit there begins or ends: what a stretch is cut at. */
const changesAt = ({ day, presence }: Around, bays: readonly HandBay[], where: Id, at: number): boolean =>
  bays.some(({ within }) => presence.vehicle(within).some(({ from, to }) => from === at || to === at)) ||
  day.activities.some(
    ({ activity, place, vehicle, lineCheck, inPosition, end, clearEnd }) =>
      activity.kind === "hit" &&
      (place ?? vehicle) === where &&
      ((lineCheck?.from ?? inPosition) === at || (clearEnd ?? end) === at),
  );
