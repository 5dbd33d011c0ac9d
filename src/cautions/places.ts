/** What a place itself gives reason to be careful of: lines, mast, ice, water, the edge of a road. */

import type { Day } from "../day/day.ts";
import type { Finding, PlanPath } from "../findings/finding.ts";
import { groupBy } from "../lists.ts";
import type { Id, Place } from "../plan/plan.ts";
import { isDark, type SkyResult } from "../sky/index.ts";
import * as say from "./findings.ts";
import { type Hazard, type HazardKind, readHazard } from "./hazards.ts";
import {
  goldKg,
  tooThinFor,
  transitClearanceFeet,
  UNKNOWN_LINE_FEET,
  visibilityClass,
  workClearanceFeet,
} from "./structures.ts";
import { milesAnHour } from "./weather.ts";

interface PlaceHazard {
  readonly place: Place;
  readonly hazard: Hazard;
  readonly path: PlanPath;
}

/** The places at which the day has something to do, in plan order. */
export function placesInUse(day: Day): readonly Place[] {
  const used = new Set<Id | null>(day.activities.map((times) => times.place));
  return [...day.plan.places.values()].filter((place) => used.has(place.id));
}

function hazardsOf(day: Day, kind: HazardKind): readonly PlaceHazard[] {
  return placesInUse(day).flatMap((place) => {
    const stated = place.hazards.map(readHazard);
    const at = stated.findIndex((hazard) => hazard?.kind === kind);
    const hazard = stated[at];
    return hazard === undefined || hazard === null ? [] : [{ place, hazard, path: [...place.path, "hazards"] }];
  });
}

/** Groups what differs by nothing but its place into one line. */
function grouped(
  found: readonly PlaceHazard[],
  alike: (own: PlaceHazard) => string,
  raise: (places: readonly Id[], first: PlaceHazard) => Finding,
): readonly Finding[] {
  return [...groupBy(found, alike).values()].map((group) =>
    raise(
      group.map((own) => own.place.id),
      group[0],
    ),
  );
}

const lines = (day: Day): readonly Finding[] =>
  grouped(
    hazardsOf(day, "lines"),
    ({ hazard }) => String(hazard.kilovolts),
    (places, { hazard: { kilovolts }, path }) => {
      const feet = kilovolts === null ? UNKNOWN_LINE_FEET : workClearanceFeet(kilovolts);
      const transitFeet = kilovolts === null ? null : transitClearanceFeet(kilovolts);
      return say.powerLines.raise({ places, kilovolts, feet, transitFeet }, { path });
    },
  );

/** Where a mast goes up: at places with that hazard, and at every hit where a piece of that name is in the kit. */
export function mastPlaces(day: Day): readonly Id[] {
  const stated = hazardsOf(day, "mast").map((own) => own.place.id);
  const carried = [...day.plan.kit.values()].some((piece) => /\bmast\b/i.test(`${piece.id} ${piece.name ?? ""}`));
  const hits = day.activities.filter((times) => times.activity.kind === "hit").flatMap((times) => times.place ?? []);
  return [...new Set([...stated, ...(carried ? hits : [])])];
}

function masts(day: Day): readonly Finding[] {
  const places = mastPlaces(day);
  const [first] = places;
  if (first === undefined) return [];
  return [say.mast.raise({ places }, { path: day.plan.places.get(first)?.path ?? ["places"] })];
}

const ices = (day: Day): readonly Finding[] =>
  grouped(
    hazardsOf(day, "ice"),
    ({ hazard }) => `${hazard.inches} ${hazard.white}`,
    (places, { hazard: { inches, white }, path }) => {
      const tooThin = inches === null ? [] : tooThinFor(inches, white);
      const gold = inches === null || white ? null : goldKg(inches * 2.54);
      return say.ice.raise({ places, inches, white, tooThin, goldKg: gold }, { path });
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
  const worn = ({ place, hazard }: PlaceHazard) => {
    const mph = hazard.mph ?? (place.roadSpeedKmh === null ? null : milesAnHour(place.roadSpeedKmh));
    const night = darkAt(place.id);
    // A speed that nobody states is taken as that of a country road, over 50 mph.
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

/** Cautions that follow from places alone. */
export const placeCautions = (day: Day, sky: SkyResult): readonly Finding[] => [
  ...lines(day),
  ...masts(day),
  ...ices(day),
  ...waters(day),
  ...roadsides(day, sky),
];

/** Places where a generator stands. */
export const generatorPlaces = (day: Day): readonly Id[] => hazardsOf(day, "generator").map((own) => own.place.id);
