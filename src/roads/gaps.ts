/**
 * The gaps between hits: to which known place one could go, how long one could stay, and when to turn back.
 *
 * A gap of a vehicle opens when it is free of a hit and closes when it must be back for the next. Between two hits of one
 * visit going away means striking, and parking and setting up again; between visits the day's own times say when the
 * vehicle could leave and must be there. Out one drives at the likely time, back at the time the plan takes into that hit.
 */
import type { ActivityTimes, Day, StopTimes } from "../day/day.ts";
import type { Leg, LegBasis } from "../legs/leg.ts";
import { type LegSources, legBetween, NO_ANSWERS, type RoutedAnswers, sourcesOf, withEstimates } from "../legs/legs.ts";
import { plannedMinutes } from "../legs/times.ts";
import { weatherOn } from "../legs/weather.ts";
import type { Hit, Id } from "../plan/plan.ts";
import { after, type Instant, instant } from "../time/units.ts";

export interface GapPlace {
  readonly vehicle: Id;
  /** The hits before and after. */
  readonly from: Id;
  readonly to: Id;
  readonly place: Id;
  readonly outMinutes: number | null;
  readonly backMinutes: number | null;
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
  readonly back: Instant;
  readonly into: Hit;
}

interface Attended {
  readonly times: ActivityTimes & { readonly start: Instant; readonly inPosition: Instant; readonly clearEnd: Instant };
  readonly hit: Hit;
  readonly stop: StopTimes;
}

/** The hits a vehicle stands at, in time order. */
function attendedBy(day: Day, vehicle: Id): readonly Attended[] {
  const stops = day.stops.filter((stop) => stop.vehicle === vehicle);
  return day.activities.flatMap((times): Attended[] => {
    const stop = stops.find((own) => times.stops.includes(own.stop.id));
    const { activity, start, inPosition, clearEnd } = times;
    if (stop === undefined || activity.kind !== "hit" || start === null || inPosition === null || clearEnd === null)
      return [];
    return [{ times: { ...times, start, inPosition, clearEnd }, hit: activity, stop }];
  });
}

/** Minutes from arrival to in position where everything is set up anew. */
function preparationOf(day: Day, stop: StopTimes): number {
  const { park, lineCheck } = day.plan.rules;
  const setUp = stop.stop.setUpMinutes ?? day.plan.rules.setUp;
  const planned = stop.terms.filter(({ name }) => name === "set-up" || name === "dish-up");
  const from = Math.min(...planned.map((term) => term.from));
  const to = Math.max(...planned.map((term) => term.to));
  return park + (planned.length === 0 ? setUp : to - from) + lineCheck;
}

function gapBetween(day: Day, vehicle: Id, before: Attended, next: Attended): Gap | null {
  const strike = before.stop.terms.find((term) => term.name === "strike");
  const sameVisit = before.stop === next.stop;
  const freeBySameVisit = after(before.times.clearEnd, day.plan.rules.strike);
  const free = sameVisit ? freeBySameVisit : (strike?.to ?? freeBySameVisit);
  const back = instant(next.times.inPosition - preparationOf(day, next.stop));
  if (back <= free) return null;
  const [fromPlace, toPlace] = [before.stop.place, next.stop.place];
  return { vehicle, from: before.times.id, to: next.times.id, fromPlace, toPlace, free, back, into: next.hit };
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
  const common = { vehicle: gap.vehicle, from: gap.from, to: gap.to, place, farthest: false };
  const [out, back] = [legBetween(sources, gap.fromPlace, place), legBetween(sources, place, gap.toPlace)];
  if (out === null || back === null) {
    return { ...common, outMinutes: null, backMinutes: null, stayMinutes: null, turnBack: null, km: null, basis: null };
  }
  const { planDrivesAt } = day.plan.rules;
  const backAt = planDrivesAt === "bad" || (planDrivesAt === "bad-into-firm" && gap.into.firm) ? "bad" : "drive";
  const outMinutes = minutesOn(day, gap, out, planDrivesAt === "bad" ? "bad" : "drive");
  const backMinutes = minutesOn(day, gap, back, backAt);
  const turnBack = after(gap.back, -backMinutes);
  const stayMinutes = turnBack - gap.free - outMinutes;
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
