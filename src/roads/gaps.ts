/**
 * The gaps between hits: to which known place one could go, how long one could stay, and when to turn back.
 *
 * A gap of a vehicle opens when it is packed after a hit and closes at the latest arrival at its next stop that keeps every
 * fixed instant, by the Day's own terms. Between two hits of one visit going away means striking, and parking and setting
 * up again. What is planned in a gap is done first and taken off. Both ways are planned as the Day plans a drive before
 * that hit, and whoever stays parks.
 */
import type { ActivityTimes, Day, StopTimes } from "../day/day.ts";
import type { Leg, LegBasis } from "../legs/leg.ts";
import { type LegSources, legBetween, NO_ANSWERS, type RoutedAnswers, sourcesOf, withEstimates } from "../legs/legs.ts";
import { plannedMinutes } from "../legs/times.ts";
import { weatherOn } from "../legs/weather.ts";
import type { Hit, Id } from "../plan/plan.ts";
import { after, type Instant, instant } from "../time/units.ts";

/** A place that could be visited between two hits, and how long one could stay there, in minutes. */
export interface GapPlace {
  readonly vehicle: Id;
  /** The hits before and after. */
  readonly from: Id;
  readonly to: Id;
  readonly place: Id;
  readonly outMinutes: number | null;
  readonly backMinutes: number | null;
  /** What is planned in the gap already, and how many minutes of it are taken off the stay. */
  readonly planned: readonly Id[];
  readonly plannedMinutes: number;
  /** How long one can stay there; negative: too far by so many minutes; null where no road is known. */
  readonly stayMinutes: number | null;
  /** When one has to leave there; null where no road is known. */
  readonly turnBack: Instant | null;
  readonly km: number | null;
  readonly basis: LegBasis | null;
  /** The farthest place of this gap from which one is still back in time. */
  readonly farthest: boolean;
}

interface Gap {
  readonly vehicle: Id;
  readonly from: Id;
  readonly to: Id;
  readonly fromPlace: Id;
  readonly toPlace: Id;
  readonly free: Instant;
  /** The latest arrival at `toPlace`. */
  readonly back: Instant;
  readonly into: Hit;
  readonly planned: readonly Id[];
  readonly plannedMinutes: number;
}

interface Attended {
  readonly times: ActivityTimes & { readonly start: Instant; readonly end: Instant };
  readonly hit: Hit;
  readonly stop: StopTimes;
}

/** The hits a vehicle stands at, in time order. */
function attendedBy(day: Day, vehicle: Id): readonly Attended[] {
  const stops = day.stops.filter((stop) => stop.vehicle === vehicle);
  return day.activities.flatMap((times): Attended[] => {
    const stop = stops.find((own) => times.stops.includes(own.stop.id));
    const { activity, start, end } = times;
    if (stop === undefined || activity.kind !== "hit" || start === null || end === null) return [];
    return [{ times: { ...times, start, end }, hit: activity, stop }];
  });
}

/** Whether a hit of a stop from one on goes out, or can, by a dish of this vehicle. */
function needsDish(day: Day, { vehicle, activities }: StopTimes, from: Id): boolean {
  const ids = new Set(activities.slice(Math.max(0, activities.indexOf(from))));
  return day.activities.some(({ id, activity }) => {
    if (!ids.has(id) || activity.kind !== "hit") return false;
    return [activity.signalPath, activity.spare].some((name) => {
      const path = name === null ? undefined : day.plan.paths.get(name);
      return path?.kind === "satellite" && (path.vehicle === null || path.vehicle === vehicle);
    });
  });
}

/** Minutes from arrival to air where everything is set up anew for a hit. */
function preparationOf(day: Day, stop: StopTimes, hit: Id): number {
  const { park, lineCheck, setUp, inPosition } = day.plan.rules;
  const dish = stop.terms.find(({ name }) => name === "dish-up");
  const dishUp = dish !== undefined && needsDish(day, stop, hit) ? dish.minutes : 0;
  return park + (stop.stop.setUpMinutes ?? setUp) + dishUp + lineCheck + inPosition;
}

/** When a visit is packed, were a hit its last. */
function packedAfter(day: Day, { times, hit }: Attended): Instant {
  const { clear, strike } = day.plan.rules;
  return after(times.end, (hit.clearMinutes ?? clear) + strike);
}

/** What is done at one stop after an activity and, where one is named, before another. */
function doneAt(day: Day, stop: StopTimes, after: Id, before: Id | null): readonly ActivityTimes[] {
  const ids = stop.activities;
  const last = before === null ? ids.length : ids.indexOf(before);
  const between = new Set(ids.slice(ids.indexOf(after) + 1, last < 0 ? ids.length : last));
  return day.activities.filter(({ id, activity }) => between.has(id) && activity.kind !== "hit");
}

/** The minutes that whoever has most to do of these needs. */
function longest(activities: readonly ActivityTimes[]): number {
  const minutes = new Map<Id, number>();
  for (const { who, start, end } of activities) {
    if (start === null || end === null) continue;
    for (const id of who) minutes.set(id, (minutes.get(id) ?? 0) + end - start);
  }
  return Math.max(0, ...minutes.values());
}

/** Between two hits of one visit: everything is struck and set up again. */
function gapInVisit(day: Day, vehicle: Id, before: Attended, next: Attended): Omit<Gap, "back"> & { back: number } {
  const place = before.stop.place;
  const planned = doneAt(day, before.stop, before.times.id, next.times.id);
  return {
    ...{ vehicle, from: before.times.id, to: next.times.id, fromPlace: place, toPlace: place, into: next.hit },
    free: packedAfter(day, before),
    back: next.times.start - preparationOf(day, next.stop, next.times.id),
    planned: planned.map(({ id }) => id),
    plannedMinutes: longest(planned),
  };
}

/** From one visit to the vehicle's next stop, which is the next hit's or one on the way to it. */
function gapToNextStop(day: Day, vehicle: Id, before: Attended, next: Attended): Gap | null {
  const stops = day.stops.filter((stop) => stop.vehicle === vehicle);
  const to = stops[stops.indexOf(before.stop) + 1];
  const move = day.moves.find((own) => own.id === before.stop.stop.id);
  if (to === undefined) return null;
  const planned = doneAt(day, before.stop, before.times.id, null);
  const onTheWay = stops.slice(stops.indexOf(to), Math.max(stops.indexOf(to), stops.indexOf(next.stop)));
  const direct = next.times.start - preparationOf(day, next.stop, next.times.id);
  const latest = move === undefined || move.leaveBy === null ? null : move.leaveBy + (move.arrive - move.leave);
  if (latest === null && to !== next.stop) return null;
  return {
    ...{ vehicle, from: before.times.id, to: next.times.id, fromPlace: before.stop.place, toPlace: to.place },
    free: packedAfter(day, before),
    back: instant(latest ?? direct),
    into: next.hit,
    planned: [...planned.map(({ id }) => id), ...onTheWay.flatMap((stop) => stop.activities)],
    plannedMinutes: longest(planned),
  };
}

function gapBetween(day: Day, vehicle: Id, before: Attended, next: Attended): Gap | null {
  const gap =
    before.stop === next.stop ? gapInVisit(day, vehicle, before, next) : gapToNextStop(day, vehicle, before, next);
  return gap === null || gap.back <= gap.free ? null : { ...gap, back: instant(gap.back) };
}

function gapsOfVehicle(day: Day, vehicle: Id): readonly Gap[] {
  const hits = attendedBy(day, vehicle);
  return hits.slice(1).flatMap((next, index) => {
    const before = hits[index];
    return before === undefined ? [] : (gapBetween(day, vehicle, before, next) ?? []);
  });
}

function minutesOn(day: Day, gap: Gap, leg: Leg, at: "bad" | "drive"): number {
  const slower = day.plan.vehicles.get(gap.vehicle)?.slower ?? 1;
  const weather = weatherOn(day.plan.weather, { from: gap.free, to: gap.back }, [leg.from, leg.to]);
  return plannedMinutes(leg, { slower, weather, at });
}

const WORST_BASIS: readonly LegBasis[] = ["estimated", "routed", "stated"];

const worstBasis = (a: Leg, b: Leg): LegBasis =>
  WORST_BASIS.find((basis) => a.basis === basis || b.basis === basis) ?? "stated";

function placeIn(day: Day, sources: LegSources, gap: Gap, place: Id): GapPlace {
  const { vehicle, from, to, planned, plannedMinutes } = gap;
  const common = { vehicle, from, to, place, planned, plannedMinutes, farthest: false };
  const [out, back] = [legBetween(sources, gap.fromPlace, place), legBetween(sources, place, gap.toPlace)];
  if (out === null || back === null) {
    return { ...common, outMinutes: null, backMinutes: null, stayMinutes: null, turnBack: null, km: null, basis: null };
  }
  const { planDrivesAt, park } = day.plan.rules;
  // Both ways lead to that hit, and are planned as the Day plans such drives.
  const at = planDrivesAt === "bad" || (planDrivesAt === "bad-into-firm" && gap.into.firm) ? "bad" : "drive";
  const [outMinutes, backMinutes] = [minutesOn(day, gap, out, at), minutesOn(day, gap, back, at)];
  const turnBack = after(gap.back, -backMinutes);
  const stayMinutes = turnBack - gap.free - outMinutes - park - plannedMinutes;
  return { ...common, outMinutes, backMinutes, stayMinutes, turnBack, km: out.km, basis: worstBasis(out, back) };
}

/** Marks the place with the longest way out among those that fit. */
function withFarthest(places: readonly GapPlace[]): readonly GapPlace[] {
  const fitting = places.filter(({ stayMinutes }) => stayMinutes !== null && stayMinutes >= 0);
  const far = fitting.reduce<GapPlace | null>(
    (best, own) => ((own.outMinutes ?? 0) > (best?.outMinutes ?? 0) ? own : best),
    null,
  );
  return places.map((place) => (place === far ? { ...place, farthest: true } : place));
}

/**
 * Every gap between hits × every known place but the one where both hits are, in time order, then plan order.
 * Waits only where a road has to be estimated.
 */
export async function gapsOf(day: Day, routed: RoutedAnswers = NO_ANSWERS): Promise<readonly GapPlace[]> {
  const gaps = [...day.plan.runs.keys()]
    .flatMap((vehicle) => gapsOfVehicle(day, vehicle))
    .sort((a, b) => a.free - b.free);
  const places = [...day.plan.places.keys()];
  const pairs = gaps.flatMap((gap) =>
    places.flatMap((place) => [
      { from: gap.fromPlace, to: place },
      { from: place, to: gap.toPlace },
    ]),
  );
  const sources = await withEstimates(sourcesOf(day.plan, routed), pairs);
  return gaps.flatMap((gap) => {
    const away = places.filter((place) => place !== gap.fromPlace || place !== gap.toPlace);
    return withFarthest(away.map((place) => placeIn(day, sources, gap, place)));
  });
}
