/**
 * The legs of a plan, before any time is known: a road stated for exactly its two ends, else a routing server's answer
 * (data, fetched at the edge), else an estimate that says so.
 */
import { leastOf } from "../lists.ts";
import type { Coordinates, Id, Plan, Road } from "../plan/plan.ts";
import { type Estimate, estimateFromRoad, estimateFromStraight } from "./estimate.ts";
import { type Leg, type Legs, legKey } from "./leg.ts";

/** A routing server's figures for one leg. */
export interface RoutedAnswer {
  readonly minutes: number;
  readonly km: number | null;
  /** The road's shape, [longitude, latitude] each; null where the server was not asked for it. */
  readonly line: readonly (readonly [number, number])[] | null;
}

/** Answers by `legKey`. */
export type RoutedAnswers = ReadonlyMap<string, RoutedAnswer>;

/** No routing server was asked. */
export const NO_ANSWERS: RoutedAnswers = new Map();

/** What legs are made from. */
export interface LegSources {
  readonly plan: Plan;
  readonly roads: ReadonlyMap<string, Road>;
  readonly routed: RoutedAnswers;
  /** Null where the package is not loaded: legs that need it are then unknown. */
  readonly straightKm: StraightKm | null;
}

/** Roads by `legKey`: one stated in this direction before one stated the other way round, then the first in the file. */
export function roadsByEnds(roads: readonly Road[]): ReadonlyMap<string, Road> {
  const byEnds = new Map<string, Road>();
  const enter = (from: Id, to: Id, road: Road): void => {
    if (!byEnds.has(legKey(from, to))) byEnds.set(legKey(from, to), road);
  };
  for (const road of roads) enter(road.link[0], road.link[1], road);
  for (const road of roads) if (!road.oneWay) enter(road.link[1], road.link[0], road);
  return byEnds;
}

/** The sources of a plan's legs without estimates. */
export const sourcesOf = (plan: Plan, routed: RoutedAnswers = NO_ANSWERS): LegSources => ({
  plan,
  roads: roadsByEnds(plan.roads),
  routed,
  straightKm: null,
});

/** The pairs of places that the runs drive between, in plan order, each once. */
export function pairsOf(plan: Plan): readonly { readonly from: Id; readonly to: Id }[] {
  const pairs = new Map<string, { from: Id; to: Id }>();
  for (const run of plan.runs.values()) {
    for (const [index, stop] of run.stops.entries()) {
      const before = run.stops[index - 1];
      if (before === undefined || before.ferry !== null || pairs.has(legKey(before.place, stop.place))) continue;
      pairs.set(legKey(before.place, stop.place), { from: before.place, to: stop.place });
    }
  }
  return [...pairs.values()];
}

/** The speed to estimate with: the slower of the two ends' `roadSpeed`, null where neither has one. */
function statedSpeed(plan: Plan, from: Id, to: Id): number | null {
  const speeds = [from, to].flatMap((place) => plan.places.get(place)?.roadSpeedKmh ?? []);
  return leastOf(speeds);
}

function coordinatesOf(plan: Plan, from: Id, to: Id): readonly [Coordinates, Coordinates] | null {
  const [a, b] = [plan.places.get(from)?.at ?? null, plan.places.get(to)?.at ?? null];
  return a === null || b === null ? null : [a, b];
}

function estimateOf(sources: LegSources, from: Id, to: Id, km: number | null): Estimate | null {
  const speed = statedSpeed(sources.plan, from, to);
  if (km !== null) return estimateFromRoad(km, speed);
  const ends = coordinatesOf(sources.plan, from, to);
  return ends === null || sources.straightKm === null ? null : estimateFromStraight(sources.straightKm(...ends), speed);
}

/** True where a leg has to be estimated from the straight line between its ends, and can be. */
function needsStraightLine({ plan, roads, routed }: LegSources, from: Id, to: Id): boolean {
  if (from === to || routed.has(legKey(from, to))) return false;
  const road = roads.get(legKey(from, to));
  if (road !== undefined && (road.driveMinutes !== null || road.km !== null)) return false;
  return coordinatesOf(plan, from, to) !== null;
}

/** The same sources with the geodesic package loaded, where one of these pairs needs it. */
export async function withEstimates(
  sources: LegSources,
  pairs: Iterable<{ readonly from: Id; readonly to: Id }>,
): Promise<LegSources> {
  for (const { from, to } of pairs) {
    if (needsStraightLine(sources, from, to)) return { ...sources, straightKm: await loadGeodesic() };
  }
  return sources;
}

/** The leg between two places, null where nothing is known of it. From a place to itself it takes no time. */
export function legBetween(sources: LegSources, from: Id, to: Id): Leg | null {
  const road = sources.roads.get(legKey(from, to));
  const routed = sources.routed.get(legKey(from, to));
  const common = { from, to, noSignal: road?.noSignal ?? false, path: road?.path ?? null, range: null };
  const bad = road?.badMinutes ?? null;
  if (from === to && road === undefined) return { ...common, likelyMinutes: 0, badMinutes: 0, km: 0, basis: "stated" };
  if (road !== undefined && road.driveMinutes !== null) {
    const km = road.km ?? routed?.km ?? null;
    return { ...common, likelyMinutes: road.driveMinutes, badMinutes: bad, km, basis: "stated" };
  }
  const badOver = (likely: number): number | null => (bad !== null && bad > likely ? bad : null);
  if (routed !== undefined) {
    const km = road?.km ?? routed.km;
    return { ...common, likelyMinutes: routed.minutes, badMinutes: badOver(routed.minutes), km, basis: "routed" };
  }
  const estimate = estimateOf(sources, from, to, road?.km ?? null);
  if (estimate === null) return null;
  return { ...common, ...estimate, badMinutes: badOver(estimate.likelyMinutes), basis: "estimated" };
}

/** The legs of a plan's runs: stated, routed or estimated. Waits only where an estimate needs the geodesic package. */
export async function legsOf(plan: Plan, routed: RoutedAnswers = NO_ANSWERS): Promise<Legs> {
  const pairs = pairsOf(plan);
  const sources = await withEstimates(sourcesOf(plan, routed), pairs);
  return new Map(pairs.map(({ from, to }) => [legKey(from, to), knownLeg(sources, from, to)]));
}

/** A plan with a leg of which nothing is known was refused when it was read (`road-missing`). */
function knownLeg(sources: LegSources, from: Id, to: Id): Leg {
  const leg = legBetween(sources, from, to);
  if (leg === null) throw new Error(`nothing is known of the drive from ${from} to ${to}`);
  return leg;
}

/** The length of the geodesic between two places, km. */
export type StraightKm = (from: Coordinates, to: Coordinates) => number;

/** Loads the geodesic package; only a plan that needs an estimate or a gap pays for it. */
export async function loadGeodesic(): Promise<StraightKm> {
  const { default: geodesic } = await import("geographiclib-geodesic");
  const wgs84 = geodesic.Geodesic.WGS84;
  return (from, to) => {
    const { s12 } = wgs84.Inverse(from.latitude, from.longitude, to.latitude, to.longitude);
    if (s12 === undefined) throw new RangeError("the geodesic has no length");
    return s12 / 1000;
  };
}
