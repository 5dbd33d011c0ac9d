/**
 * A second reading of what an outage takes from a day, in one pass through time: whoever is where a vehicle leaves rides it, a
 * vehicle without its driver stays, and an activity is lost where its path, its vehicle or its people are not there.
 */
import type { ActivityTimes, Day, Move } from "../../../src/day/day.ts";
import type { ServiceOutage } from "../../../src/day/outage/outage.ts";
import type { Id, Plan } from "../../../src/plan/plan.ts";

export interface Left {
  readonly lost: readonly Id[];
  readonly stranded: Readonly<Record<Id, Id>>;
  readonly place: Id | null;
  readonly road: readonly [Id, Id] | null;
  readonly standing: Readonly<Record<Id, number>>;
  readonly from: number;
  /** The stops of each run that are left. */
  readonly stops: Readonly<Record<Id, number>>;
  /** Who rides what is left. */
  readonly riders: Readonly<Record<Id, readonly Id[]>>;
}

export function leftOf(day: Day, plan: Plan, outage: ServiceOutage, outages: readonly ServiceOutage[]): Left {
  const isOut = (kind: ServiceOutage["kind"], id: Id, at: number): boolean =>
    outages.some((one) => one.kind === kind && one.id === id && one.during.from <= at && at < (one.during.to ?? 1e12));
  const { from, to } = outage.during;
  const hit = outage.kind !== "vehicle" ? undefined : firstTouched(day.moves, outage);
  // Out of service before it leaves and back later: it leaves then. Else it goes no further than where it is.
  const waits = hit !== undefined && to !== null && hit.leave >= from;
  const stopped = waits ? undefined : hit;
  const broken = stopped !== undefined && stopped.leave < from ? stopped : null;

  const cut = new Map<Id, number>();
  const indexOf = (move: Move): number =>
    plan.runs.get(move.vehicle)?.stops.findIndex(({ id }) => id === move.id) ?? -1;
  if (stopped !== undefined) cut.set(stopped.vehicle, indexOf(stopped));
  const path = new Map<Id, { at: number; place: Id | null }[]>(
    day.people.map(({ id, slept }) => [id, [{ at: Number.NEGATIVE_INFINITY, place: slept }]]),
  );
  const whereAt = (id: Id, at: number): Id | null => path.get(id)?.findLast((one) => one.at <= at)?.place ?? null;
  const last = (id: Id): Id | null => path.get(id)?.at(-1)?.place ?? null;
  const riders: Record<Id, readonly Id[]> = {};
  const journeys = [
    ...day.moves.map((move) => ({ ...move, move, who: [move.driver, ...move.riders] })),
    ...[...plan.rides.values()].map((ride) => ({ ...ride, move: null })),
  ].toSorted((a, b) => a.leave - b.leave);
  for (const { id, leave, arrive, from: start, to: end, who, move } of journeys) {
    if (move !== null && indexOf(move) >= (cut.get(move.vehicle) ?? 1e9)) continue;
    const aboard = who.filter((one) => last(one) === start && !isOut("person", one, leave));
    if (move !== null && !aboard.includes(move.driver)) {
      cut.set(move.vehicle, indexOf(move));
      continue;
    }
    riders[id] = aboard;
    for (const one of aboard) path.get(one)?.push({ at: arrive, place: end });
  }

  const reaches = (stop: Id): boolean =>
    [...plan.runs.values()].every(({ vehicle, stops }) => {
      const index = stops.findIndex(({ id }) => id === stop);
      return index < 0 || index <= (cut.get(vehicle) ?? 1e9);
    });
  const isThere = (one: ActivityTimes, id: Id, start: number): boolean => {
    if (isOut("person", id, start)) return false;
    if (one.place !== null) return whereAt(id, start) === one.place;
    return day.moves.some(
      ({ id: move, leave, arrive, driver, riders: own }) =>
        leave <= start && start < arrive && [driver, ...own].includes(id) && (riders[move] ?? []).includes(id),
    );
  };
  const can = (one: ActivityTimes): boolean => {
    const { activity, start } = one;
    if (start === null) return comesThere(one);
    if (start < from) return true;
    const own = activity.signalPath;
    const spare = activity.kind === "hit" ? activity.spare : null;
    const hasPath = (id: Id | null): boolean => id !== null && plan.paths.has(id) && !isOut("path", id, start);
    if (own !== null && isOut("path", own, start) && !hasPath(spare)) return false;
    const carrier = own === null ? null : (plan.paths.get(own)?.vehicle ?? null);
    if (carrier !== null && one.stops.some((stop) => stop.startsWith(`${carrier}.`) && !reaches(stop))) return false;
    const there = one.who.filter((id) => isThere(one, id, start));
    return activity.who === null ? there.length > 0 : there.length === one.who.length;
  };
  /** Of one that is missed anyway: whether whoever would make it still comes to where it is. */
  const comesThere = ({ activity, stops, place, vehicle }: ActivityTimes): boolean => {
    const { location } = activity;
    const who = activity.who ?? [];
    if (place !== null)
      return (
        (stops.length === 0 || stops.some(reaches)) &&
        who.every((id) => path.get(id)?.some((one) => one.place === place) === true)
      );
    return day.moves.some(
      ({ id, vehicle: own, from: start, to: end }) =>
        own === vehicle &&
        riders[id] !== undefined &&
        who.every((one) => riders[id]?.includes(one)) &&
        (location.kind !== "onRoad" || (location.from === start && location.to === end)),
    );
  };

  const stranded: Record<Id, Id> = {};
  for (const { id, sleeps } of day.people) {
    const place = last(id);
    const isAway = outages.some((one) => one.kind === "person" && one.id === id && one.during.to === null);
    if (place !== null && sleeps !== null && place !== sleeps && !isAway) stranded[id] = place;
  }
  if (broken !== null) for (const id of [broken.driver, ...broken.riders]) stranded[id] = broken.from;
  const end = outage.kind === "vehicle" ? cut.get(outage.id) : undefined;
  return {
    lost: day.activities.filter((one) => !can(one)).map(({ id }) => id),
    stranded,
    place: end === undefined ? null : (plan.runs.get(outage.id)?.stops[end]?.place ?? null),
    road: broken === null ? null : [broken.from, broken.to],
    standing: waits && hit !== undefined ? { [hit.id]: to } : {},
    from: broken === null ? from : broken.leave,
    stops: Object.fromEntries(
      [...plan.runs.values()].map(({ vehicle, stops }) => [
        vehicle,
        Math.min(stops.length, (cut.get(vehicle) ?? 1e9) + 1),
      ]),
    ),
    riders,
  };
}

/** The first journey of a vehicle that an outage of it touches: on the road as it begins, or leaving while it lasts. */
const firstTouched = (moves: readonly Move[], { id, during }: ServiceOutage): Move | undefined =>
  moves.find(
    (move) => move.vehicle === id && move.arrive > during.from && (during.to === null || move.leave < during.to),
  );
