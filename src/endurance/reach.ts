/** How far rolling on reaches on the plan's roads, and what must happen next. */
import type { Day } from "../day/day.ts";
import { legBetween, type RoutedAnswers, sourcesOf, withEstimates } from "../legs/legs.ts";
import { plannedMinutes } from "../legs/times.ts";
import { weatherOn } from "../legs/weather.ts";
import type { Id } from "../plan/plan.ts";
import { after, type Instant } from "../time/units.ts";
import type { VehicleEndurance } from "./vehicles.ts";

/** A place and whether the vehicle gets there, and back from there, before the law or the fuel stops it. */
export interface PlaceReach {
  readonly vehicle: Id;
  readonly place: Id;
  readonly minutes: number;
  readonly there: boolean;
  readonly back: boolean;
}

interface Position {
  readonly place: Id;
  readonly minutes: number;
  /** Of them at the wheel: none on a ferry. */
  readonly wheel: number;
}

/** Where a vehicle is, or next comes to, and how long that still takes. */
export function positionOf(day: Day, vehicle: Id, at: Instant): Position | null {
  const moves = day.moves.filter((move) => move.vehicle === vehicle);
  const rolling = moves.find((move) => move.leave < at && at < move.arrive);
  if (rolling !== undefined) {
    const minutes = rolling.arrive - at;
    return { place: rolling.to, minutes, wheel: rolling.leg.ferry === undefined ? minutes : 0 };
  }
  const last = moves.findLast((move) => move.arrive <= at);
  const place = last?.to ?? moves[0]?.from;
  return place === undefined ? null : { place, minutes: 0, wheel: 0 };
}

/** Roads are taken at their bad time, with the weather as it is at the moment. */
export async function reachOf(
  day: Day,
  vehicles: readonly VehicleEndurance[],
  at: Instant,
  routed: RoutedAnswers,
): Promise<readonly PlaceReach[]> {
  const from = vehicles.flatMap((own) => {
    const position = positionOf(day, own.vehicle, at);
    return position === null ? [] : [{ own, ...position }];
  });
  const places = [...day.plan.places.keys()];
  const pairs = from.flatMap(({ place }) =>
    places.flatMap((to) => [
      { from: place, to },
      { from: to, to: place },
    ]),
  );
  const sources = await withEstimates(sourcesOf(day.plan, routed), pairs);
  return from.flatMap(({ own, place: start, minutes: left, wheel }) =>
    places.flatMap((place): readonly PlaceReach[] => {
      const [out, home] = [legBetween(sources, start, place), legBetween(sources, place, start)];
      if (place === start || out === null || home === null) return [];
      const slower = day.plan.vehicles.get(own.vehicle)?.slower ?? 1;
      const during = { from: at, to: after(at, 1) };
      const timeOf = (leg: typeof out): number =>
        plannedMinutes(leg, { slower, weather: weatherOn(day.plan.weather, during, [leg.from, leg.to]), at: "bad" });
      const [there, back] = [timeOf(out), timeOf(out) + timeOf(home)];
      const fuel = (km: number | null): boolean => own.fuelKm === null || km === null || km <= own.fuelKm;
      const both = out.km === null || home.km === null ? null : out.km + home.km;
      return [
        {
          ...{ vehicle: own.vehicle, place, minutes: left + there },
          there: wheel + there <= own.wheelMinutes && fuel(out.km),
          back: wheel + back <= own.wheelMinutes && fuel(both),
        },
      ];
    }),
  );
}

/** What must happen next on the road. */
export type NextKind = "break" | "fuel" | "hit" | "meal" | "check-in" | "last-signal";

/** Something that must happen, by when, and whom or what it is about. */
export interface Next {
  readonly kind: NextKind;
  readonly by: Instant;
  readonly what: Id;
  readonly place: Id | null;
}

/** The house's meal hours run from the last meal, else from the call. */
function meals(day: Day, at: Instant): readonly Next[] {
  return day.people.flatMap(({ id, call, spans }): readonly Next[] => {
    const eaten = spans.filter((span) => span.is === "meal" && span.from < at).at(-1)?.to ?? call;
    if (eaten === null || eaten > at) return [];
    return [{ kind: "meal", by: after(eaten, day.plan.rules.mealEvery), what: id, place: null }];
  });
}

/** Tonight's lodging, where it is another than last night's: to be reached by the day's own arrival there. */
function checkIns(day: Day, at: Instant): readonly Next[] {
  return day.people.flatMap(({ sleeps, slept, duties }): readonly Next[] => {
    const place = sleeps === null || sleeps === slept ? undefined : day.plan.places.get(sleeps);
    const by = duties.at(-1)?.release ?? null;
    return place?.kind === "lodging" && by !== null && by >= at
      ? [{ kind: "check-in", by, what: place.id, place: place.id }]
      : [];
  });
}

/** What must happen next, each kind once at its earliest, in time order. */
export function nextOf(day: Day, vehicles: readonly VehicleEndurance[], at: Instant): readonly Next[] {
  const hits = day.activities.flatMap(({ id, activity, start, place }): readonly Next[] =>
    activity.kind === "hit" && start !== null && start >= at ? [{ kind: "hit", by: start, what: id, place }] : [],
  );
  const [hit] = hits.toSorted((a, b) => a.by - b.by);
  const silent = day.moves.find(
    (move) => move.leave >= at && move.leg.noSignal && (hit === undefined || move.leave < hit.by),
  );
  const all: readonly Next[] = [
    ...vehicles.flatMap((own): readonly Next[] =>
      own.breakBecause === null ? [] : [{ kind: "break", by: own.breakBy, what: own.vehicle, place: null }],
    ),
    ...vehicles.flatMap((own): readonly Next[] =>
      own.fuelUntil === null ? [] : [{ kind: "fuel", by: own.fuelUntil, what: own.vehicle, place: null }],
    ),
    ...hits,
    ...meals(day, at),
    ...checkIns(day, at),
    ...(silent === undefined
      ? []
      : [{ kind: "last-signal", by: silent.leave, what: silent.vehicle, place: silent.from } as const]),
  ];
  const first = new Map<NextKind, Next>();
  for (const next of all.toSorted((a, b) => a.by - b.by)) if (!first.has(next.kind)) first.set(next.kind, next);
  return [...first.values()];
}
