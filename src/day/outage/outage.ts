/** What a plan loses where a vehicle or path is out of service or somebody is away: the plan without it, and what is lost. */
import type { Hit, Id, OpenInterval, Plan, Run, Stop, Task } from "../../plan/plan.ts";
import { manningOf } from "../../plan/sense/manning.ts";
import type { Instant } from "../../time/units.ts";
import { type ActivityTimes, aboardOf, type Day, type Move } from "../day.ts";

/** A stretch in which something or someone is not there. */
export interface ServiceOutage {
  readonly kind: "vehicle" | "path" | "person";
  readonly id: Id;
  readonly during: OpenInterval;
}

/** A plan without what an outage takes from it. */
export interface Loss {
  readonly plan: Plan;
  /** Activities of the plan before that cannot be. */
  readonly lost: readonly Id[];
  /** Who is left where: only those who would be elsewhere at the end of the day. */
  readonly stranded: ReadonlyMap<Id, Id>;
  /** Where the vehicle is left: a place, or on the road from one to another. */
  readonly place: Id | null;
  readonly road: readonly [from: Id, to: Id] | null;
  /** Departures that wait until what is out of service is there again; by stop. */
  readonly standing: ReadonlyMap<Id, Instant>;
  /** What begins before this stands as it was. */
  readonly from: Instant;
}

/** In time order. */
export function outagesOf(plan: Plan): readonly ServiceOutage[] {
  const all: ServiceOutage[] = [];
  for (const { id, broken } of plan.vehicles.values())
    if (broken !== null) all.push({ kind: "vehicle", id, during: broken });
  for (const { id, broken } of plan.paths.values()) if (broken !== null) all.push({ kind: "path", id, during: broken });
  for (const { id, away } of plan.crew.values()) if (away !== null) all.push({ kind: "person", id, during: away });
  return all.toSorted((a, b) => a.during.from - b.during.from);
}

const isWithin = ({ from, to }: OpenInterval, at: Instant): boolean => at >= from && (to === null || at < to);

/** What is out of service or away at an instant. */
const isOut = (outages: readonly ServiceOutage[], kind: ServiceOutage["kind"], id: Id, at: Instant): boolean =>
  outages.some((one) => one.kind === kind && one.id === id && isWithin(one.during, at));

interface Rides {
  /** Vehicles that end at a stop, by the index of that stop. */
  readonly cut: Map<Id, number>;
  /** Where everybody is from when on. */
  readonly at: ReadonlyMap<Id, readonly (readonly [from: number, place: Id | null])[]>;
  /** Who rides each leg or ride that is left. */
  readonly aboard: ReadonlyMap<Id, readonly Id[]>;
}

/** `day` is the day as it is without this outage; `outages` are all of the plan, this one among them. */
export function lossOf(day: Day, plan: Plan, outage: ServiceOutage, outages: readonly ServiceOutage[]): Loss {
  const { during } = outage;
  const standing = new Map<Id, Instant>();
  const cut = new Map<Id, number>();
  let from = during.from;
  let broken: Move | null = null;
  for (const move of outage.kind === "vehicle" ? day.moves : []) {
    if (move.vehicle !== outage.id || move.arrive <= during.from) continue;
    if (during.to !== null && move.leave >= during.to) continue;
    if (during.to !== null && move.leave >= during.from) standing.set(move.id, during.to);
    else {
      cut.set(outage.id, indexOf(plan, move));
      if (move.leave < from) {
        from = move.leave;
        broken = move;
      }
    }
    break;
  }
  const rides = ridesLeft(day, plan, outages, cut);
  const lost = day.activities.flatMap((one) => (canBe(day, plan, one, rides, outages, during.from) ? [] : one.id));
  const stranded = new Map<Id, Id>();
  for (const person of day.people) {
    const place = rides.at.get(person.id)?.at(-1)?.[1] ?? null;
    if (place !== null && person.sleeps !== null && place !== person.sleeps && !isAway(outages, person.id))
      stranded.set(person.id, place);
  }
  const road: Loss["road"] = broken === null ? null : [broken.from, broken.to];
  if (broken !== null) for (const id of aboardOf(broken)) stranded.set(id, broken.from);
  const last = outage.kind === "vehicle" ? cut.get(outage.id) : undefined;
  const place = last === undefined ? null : (plan.runs.get(outage.id)?.stops[last]?.place ?? null);
  return { plan: planLeft(day, plan, rides, lost, outages), lost, stranded, place, road, standing, from };
}

const isAway = (outages: readonly ServiceOutage[], id: Id): boolean =>
  outages.some((one) => one.kind === "person" && one.id === id && one.during.to === null);

const indexOf = (plan: Plan, move: Move): number =>
  plan.runs.get(move.vehicle)?.stops.findIndex(({ id }) => id === move.id) ?? 0;

/** Follows everybody through the day: who is not where a vehicle leaves does not ride, and without its driver it stays. */
function ridesLeft(day: Day, plan: Plan, outages: readonly ServiceOutage[], cut: Map<Id, number>): Rides {
  for (;;) {
    const at = new Map<Id, [number, Id | null][]>(day.people.map(({ id, slept }) => [id, [[-Infinity, slept]]]));
    const aboard = new Map<Id, readonly Id[]>();
    const placeOf = (id: Id): Id | null => at.get(id)?.at(-1)?.[1] ?? null;
    const arrive = (who: readonly Id[], when: Instant, place: Id): void => {
      for (const id of who) at.get(id)?.push([when, place]);
    };
    let another = false;
    const all = [
      ...day.moves.map((move) => ({ leave: move.leave, move, ride: null })),
      ...[...plan.rides.values()].map((ride) => ({ leave: ride.leave, move: null, ride })),
    ].toSorted((a, b) => a.leave - b.leave);
    for (const { leave, move, ride } of all) {
      const wanted = move === null ? (ride?.who ?? []) : aboardOf(move);
      const start = move?.from ?? ride?.from;
      const here = wanted.filter((id) => placeOf(id) === start && !isOut(outages, "person", id, leave));
      if (ride !== null) {
        aboard.set(ride.id, here);
        arrive(here, ride.arrive, ride.to);
      }
      if (move === null || indexOf(plan, move) >= (cut.get(move.vehicle) ?? Infinity)) continue;
      if (!here.includes(move.driver)) {
        cut.set(move.vehicle, indexOf(plan, move));
        another = true;
        break;
      }
      aboard.set(move.id, here);
      arrive(here, move.arrive, move.to);
    }
    if (!another) return { cut, at, aboard };
  }
}

function canBe(
  day: Day,
  plan: Plan,
  one: ActivityTimes,
  rides: Rides,
  outages: readonly ServiceOutage[],
  from: Instant,
): boolean {
  const { activity, start, place } = one;
  if (start === null) return isOnTheWay(day, plan, one, rides);
  if (start < from) return true;
  const path = activity.signalPath;
  if (path !== null && isOut(outages, "path", path, start) && spareOf(plan, activity, outages, start) === null)
    return false;
  const vehicle = path === null ? null : (plan.paths.get(path)?.vehicle ?? null);
  const needed = one.stops.filter((stop) => vehicle !== null && stop.startsWith(`${vehicle}.`));
  if (needed.some((stop) => !isReached(plan, stop, rides))) return false;
  const there = one.who.filter((id) => isThere(day, start, id, rides, place) && !isOut(outages, "person", id, start));
  return activity.who === null ? there.length > 0 : there.length === one.who.length;
}

function spareOf(plan: Plan, activity: Hit | Task, outages: readonly ServiceOutage[], at: Instant): Id | null {
  const spare = activity.kind === "hit" ? activity.spare : null;
  return spare !== null && plan.paths.has(spare) && !isOut(outages, "path", spare, at) ? spare : null;
}

function isReached(plan: Plan, stop: Id, { cut }: Rides): boolean {
  for (const run of plan.runs.values()) {
    const index = run.stops.findIndex(({ id }) => id === stop);
    if (index >= 0) return index <= (cut.get(run.vehicle) ?? Infinity);
  }
  return true;
}

/** Whether someone is still where they are needed: at the place, or aboard the leg. */
function isThere(day: Day, start: Instant, id: Id, rides: Rides, place: Id | null): boolean {
  if (place !== null) return rides.at.get(id)?.findLast(([from]) => from <= start)?.[1] === place;
  const move = day.moves.find(({ leave, arrive, driver, riders }) => {
    return leave <= start && start < arrive && (driver === id || riders.includes(id));
  });
  return move !== undefined && (rides.aboard.get(move.id)?.includes(id) ?? false);
}

/** Whether what is missed anyway is still where whoever would make it comes: else the plan that is left is mistaken. */
function isOnTheWay(day: Day, plan: Plan, { activity, stops, place, vehicle }: ActivityTimes, rides: Rides): boolean {
  const { location } = activity;
  const who = activity.who ?? [];
  if (place !== null) {
    const comes = (id: Id): boolean => rides.at.get(id)?.some(([, own]) => own === place) ?? false;
    return (stops.length === 0 || stops.some((stop) => isReached(plan, stop, rides))) && who.every(comes);
  }
  return day.moves.some((move) => {
    const aboard = rides.aboard.get(move.id);
    if (move.vehicle !== vehicle || aboard === undefined || !who.every((one) => aboard.includes(one))) return false;
    return location.kind !== "onRoad" || (location.from === move.from && location.to === move.to);
  });
}

function planLeft(day: Day, plan: Plan, rides: Rides, lost: readonly Id[], outages: readonly ServiceOutage[]): Plan {
  const left = <T extends Hit | Task>(all: ReadonlyMap<Id, T>): ReadonlyMap<Id, T> =>
    new Map([...all].filter(([id]) => !lost.includes(id)).map(([id, one]) => [id, onPath(day, plan, one, outages)]));
  const crew = new Map(
    [...plan.crew].map(([id, person]) => {
      const place = rides.at.get(id)?.at(-1)?.[1] ?? null;
      return [id, place === null || person.sleeps === null ? person : { ...person, sleeps: place }];
    }),
  );
  const runs = new Map([...plan.runs].map(([id, run]) => [id, runLeft(day, run, rides, lost)]));
  const people = [...plan.rides].map(([id, ride]): [Id, typeof ride] => [
    id,
    { ...ride, who: rides.aboard.get(id) ?? ride.who },
  ]);
  return {
    ...plan,
    crew,
    hits: left(plan.hits),
    tasks: left(plan.tasks),
    runs,
    rides: new Map(people.filter(([, { who }]) => who.length > 0)),
  };
}

function onPath<T extends Hit | Task>(day: Day, plan: Plan, one: T, outages: readonly ServiceOutage[]): T {
  const at = day.activities.find(({ id }) => id === one.id)?.start ?? null;
  if (at === null || one.signalPath === null || !isOut(outages, "path", one.signalPath, at)) return one;
  return { ...one, signalPath: spareOf(plan, one, outages, at) ?? one.signalPath };
}

function runLeft(day: Day, run: Run, { cut, aboard }: Rides, lost: readonly Id[]): Run {
  const mannings = manningOf(day.plan, run);
  const last = cut.get(run.vehicle) ?? run.stops.length - 1;
  const stops = run.stops.slice(0, last + 1).map((stop, index): Stop => {
    const manning = mannings?.[index];
    const doing = stop.do?.filter((id) => !lost.includes(id)) ?? null;
    if (manning === undefined || index === last) return { ...stop, do: doing };
    const who = aboard.get(stop.id) ?? manning.aboard;
    const { asleep, relieve, saidDriver } = manning;
    return {
      ...stop,
      do: doing,
      aboard: who,
      asleep: asleep.filter((id) => who.includes(id)),
      relieve: relieve.filter(({ driver }) => who.includes(driver)),
      driver: saidDriver?.who ?? null,
    };
  });
  return { ...run, stops: bounded(day, run, stops, lost) };
}

/** A run that lost a hit keeps its departure, which that may have fixed. */
function bounded(day: Day, run: Run, stops: readonly Stop[], lost: readonly Id[]): readonly Stop[] {
  const [first, ...others] = stops;
  const hits = day.activities.filter(({ id, stops: of }) => lost.includes(id) && of.some((stop) => ofRun(run, stop)));
  const leave = day.moves.find(({ id }) => id === first?.id)?.leave ?? null;
  if (first === undefined || hits.length === 0 || others.length === 0 || first.leave !== null || first.ferry !== null)
    return stops;
  return [{ ...first, leave }, ...others];
}

const ofRun = ({ stops }: Run, stop: Id): boolean => stops.some(({ id }) => id === stop);
