/** What a place itself gives reason to be careful of: lines, mast, ice, water, the edge of a road. */

import type { Day } from "../day/day.ts";
import type { Finding, PlanPath } from "../findings/finding.ts";
import { groupBy, mostOf } from "../lists.ts";
import type { Id, Place } from "../plan/plan.ts";
import { isDark, type SkyResult } from "../sky/index.ts";
import * as say from "./findings.ts";
import { type Hazard, type HazardKind, kindsIn, readHazards } from "./hazards.ts";
import { CLEAR_ICE_INCHES, clearInches, inUnit, neededIce, vehicleIceInches } from "./ice.ts";
import { keepOffFeet, transitFeet, UNKNOWN_LINE_FEET, visibilityClass } from "./structures.ts";
import { milesAnHour } from "./weather.ts";

interface PlaceHazard {
  readonly place: Place;
  readonly hazard: Hazard;
  readonly path: PlanPath;
}

/** The places at which people or vehicles of the day come to stand, in plan order. */
function placesInUse(day: Day): readonly Place[] {
  const used = new Set<Id | null>([
    ...day.activities.map((times) => times.place),
    ...day.stops.map((stop) => stop.place),
    ...day.people.flatMap(({ slept, sleeps }) => [slept, sleeps]),
  ]);
  return [...day.plan.places.values()].filter((place) => used.has(place.id));
}

/** Every hazard of a kind at each place in use, in the order of the plan. */
function hazardsOf(day: Day, kind: HazardKind): readonly (PlaceHazard & { readonly all: readonly Hazard[] })[] {
  return placesInUse(day).flatMap((place) => {
    const all = place.hazards.flatMap(readHazards).filter((hazard) => hazard.kind === kind && hazard.text !== "");
    const [hazard] = all;
    return hazard === undefined ? [] : [{ place, hazard, all, path: [...place.path, "hazards"] }];
  });
}

/** Groups what differs by nothing but its place into one line. */
function grouped<T extends PlaceHazard>(
  found: readonly T[],
  alike: (own: T) => string,
  raise: (places: readonly Id[], first: T) => Finding,
): readonly Finding[] {
  return [...groupBy(found, alike).values()].map((group) =>
    raise(
      group.map((own) => own.place.id),
      group[0],
    ),
  );
}

/** The highest voltage that is stated of a place's lines. */
const kilovoltsOf = ({ all }: { readonly all: readonly Hazard[] }): number | null =>
  mostOf(all.flatMap(({ kilovolts }) => kilovolts ?? []));

const lines = (day: Day): readonly Finding[] =>
  grouped(
    hazardsOf(day, "lines"),
    (own) => String(kilovoltsOf(own)),
    (places, own) => {
      const kilovolts = kilovoltsOf(own);
      // One of several lines without a voltage may be the worst of them.
      const unknown = own.all.some((hazard) => hazard.kilovolts === null);
      const known = kilovolts === null ? 0 : keepOffFeet(kilovolts);
      const feet = unknown ? Math.max(known, UNKNOWN_LINE_FEET) : known;
      const transit = kilovolts === null ? null : transitFeet(kilovolts);
      return say.powerLines.raise({ places, kilovolts, feet, transitFeet: transit }, { path: own.path });
    },
  );

/** Where a mast goes up: at places with that hazard, and at every hit where a piece of that name is in the kit. */
export function mastPlaces(day: Day): readonly Id[] {
  const stated = hazardsOf(day, "mast").map((own) => own.place.id);
  const carried = [...day.plan.kit.values()].some((piece) => kindsIn(`${piece.id} ${piece.name ?? ""}`).has("mast"));
  const hits = day.activities.filter((times) => times.activity.kind === "hit").flatMap((times) => times.place ?? []);
  return [...new Set([...stated, ...(carried ? hits : [])])];
}

function masts(day: Day): readonly Finding[] {
  const places = mastPlaces(day);
  const [first] = places;
  if (first === undefined) return [];
  return [say.mast.raise({ places }, { path: day.plan.places.get(first)?.path ?? ["places"] })];
}

/** A vehicle's weight as the plan words it; empty where it states none. */
function weightText({ plan }: Day, id: Id): string {
  const span = plan.vehicles.get(id)?.grossKg == null ? null : plan.source.locate(["vehicles", id, "gross"]);
  return span === null ? "" : span.text.slice(span.column - 1, span.column - 1 + span.length);
}

const METRIC = /\d\s?(?:cm|mm|m|kg|t)\b/i;

/** What stands on the ice of a place longer than this sinks in, minutes: Minnesota Department of Natural Resources. */
const LONG_STAND = 120;

/** Whether vehicles stand there at once, and whether one stands there for long; at a night's place both are assumed long. */
function standingAt(day: Day, place: Id): { readonly apart: boolean; readonly long: boolean } {
  const stops = day.stops.filter((stop) => stop.place === place);
  const stands = stops.map(({ vehicle, arrive, leave }) => ({
    vehicle,
    from: arrive ?? Number.NEGATIVE_INFINITY,
    to: leave ?? Number.POSITIVE_INFINITY,
  }));
  return {
    apart: stands.some((a) => stands.some((b) => a.vehicle !== b.vehicle && a.from < b.to && b.from < a.to)),
    long: stands.some(({ from, to }) => to - from > LONG_STAND),
  };
}

const THAW_MINUTES = 360;

/** Above freezing for six hours or more, by the rows of the weather one after another; a row without an end counts as long. */
function thaws({ plan }: Day, place: Id): boolean {
  const warm = plan.weather
    .filter(({ places, celsius }) => celsius !== null && celsius > 0 && (places.length === 0 || places.includes(place)))
    .map(({ from, to }) => ({ from: from ?? Number.NEGATIVE_INFINITY, to: to ?? Number.POSITIVE_INFINITY }))
    .toSorted((a, b) => a.from - b.from);
  let since = Number.NEGATIVE_INFINITY;
  let until = Number.NEGATIVE_INFINITY;
  return warm.some(({ from, to }) => {
    if (from > until) since = from;
    until = Math.max(until, to);
    return until - since >= THAW_MINUTES;
  });
}

/** The vehicles that stop at a place, by the ice that each needs, in inches of clear ice. */
function vehiclesOnIce(day: Day, place: Id) {
  const ids = new Set(day.stops.filter((stop) => stop.place === place).map(({ vehicle }) => vehicle));
  return [...day.plan.vehicles.values()]
    .filter(({ id }) => ids.has(id))
    .map(({ id, grossKg }) => ({ id, weight: weightText(day, id), inches: vehicleIceInches(grossKg) }));
}

/** One for each place: the ice there, the least of what is stated, against people on foot and every vehicle that stops. */
const ices = (day: Day): readonly Finding[] =>
  grouped(
    hazardsOf(day, "ice"),
    ({ place, all }) =>
      JSON.stringify([clearInches(all), vehiclesOnIce(day, place.id), standingAt(day, place.id), thaws(day, place.id)]),
    (places, { place, all, path }) => {
      const inches = clearInches(all);
      const vehicles = vehiclesOnIce(day, place.id);
      const thaw = thaws(day, place.id);
      // In the units in which the plan speaks of this ice, else of these vehicles.
      const figures = all.filter((hazard) => hazard.inches !== null).map(({ text }) => text);
      const others = [...all.map(({ text }) => text), ...vehicles.map(({ weight }) => weight)];
      const metric = (figures.length > 0 ? figures : others).some((text) => METRIC.test(text));
      const bears = inches === null ? Number.POSITIVE_INFINITY : inUnit(inches, metric) + 1e-6;
      const isTooThin = (needs: number): boolean => bears < neededIce(needs, { metric, thaw });
      const onFoot = isTooThin(CLEAR_ICE_INCHES.foot);
      const tooThin = vehicles.filter((own) => isTooThin(own.inches)).map(({ id }) => id);
      const facts = {
        places,
        inches,
        onFoot,
        tooThin,
        vehicles: vehicles.map(({ id }) => id),
        needs: vehicles.map((own) => String(own.inches)),
        weights: vehicles.map(({ weight }) => weight),
        metric,
        ...standingAt(day, place.id),
        thaw,
      };
      return say.ice.raise(facts, { path, otherwise: onFoot || tooThin.length > 0 });
    },
  );

const waters = (day: Day): readonly Finding[] =>
  grouped(
    hazardsOf(day, "water"),
    () => "",
    (places, { path }) => say.water.raise({ places }, { path }),
  );

/** The edge of a road: a stated hazard, or a hit or task on the road between two stops. */
function roadsides(day: Day, sky: SkyResult): readonly Finding[] {
  const darkAt = (place: Id): boolean => day.activities.some((times) => times.place === place && isDark(sky, times.id));
  const worn = ({ place, all }: PlaceHazard & { readonly all: readonly Hazard[] }) => {
    const mph =
      mostOf(all.flatMap((hazard) => hazard.mph ?? [])) ??
      (place.roadSpeedKmh === null ? null : milesAnHour(place.roadSpeedKmh));
    const night = darkAt(place.id);
    // A speed that no one states is taken as that of a country road, over 50 mph.
    return { wears: visibilityClass(mph ?? 55, night), because: because(mph, night) };
  };
  const stated = grouped(
    hazardsOf(day, "roadside"),
    (own) => JSON.stringify(worn(own)),
    (places, first) => say.roadside.raise({ places, ...worn(first) }, { path: first.path }),
  );
  const onRoad = day.activities.find((times) => times.activity.location.kind === "onRoad");
  if (onRoad === undefined) return stated;
  const facts = { places: [], wears: 3, because: `${onRoad.id} stops on the road` };
  return [...stated, say.roadside.raise(facts, { path: onRoad.activity.path })];
}

function because(mph: number | null, night: boolean): string {
  const speed = mph === null ? "speed not stated" : `${Math.round(mph)} mph`;
  return night ? `${speed}, in the dark` : speed;
}

/** What somebody wrote and no table knows: printed as it stands. */
const others = (day: Day): readonly Finding[] =>
  grouped(
    hazardsOf(day, "other"),
    ({ all }) => JSON.stringify(all.map(({ text }) => text)),
    (places, { all, path }) => say.otherHazard.raise({ places, hazards: all.map(({ text }) => text) }, { path }),
  );

/** Cautions that follow from places alone. */
export const placeCautions = (day: Day, sky: SkyResult): readonly Finding[] => [
  ...lines(day),
  ...masts(day),
  ...ices(day),
  ...waters(day),
  ...roadsides(day, sky),
  ...others(day),
];

/** Places where a generator stands. */
export const generatorPlaces = (day: Day): readonly Id[] => hazardsOf(day, "generator").map((own) => own.place.id);
