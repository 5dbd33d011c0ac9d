/**
 * What light is there at each hit and task? The sun's place, the sky in words, illuminance less cloud, the side the light
 * comes from, what to pack, and which activities are dark. Rise, set and twilights are computed when asked for.
 */

import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { JudgeInput, Judgement } from "../findings/judgement.ts";
import { groupBy } from "../lists.ts";
import type { Id, Place } from "../plan/plan.ts";
import { after, type Instant } from "../time/units.ts";
import { type MoonTimes, moonLitShare, moonTimes, phaseWord, type SunTimes, sunTimes } from "./almanac.ts";
import type { Horizontal } from "./angles.ts";
import { type Ephemeris, loadEphemeris } from "./ephemeris.ts";
import { darkWithoutLamp, lightChangesFast, lightUnknown, sunInLens } from "./findings.ts";
import { type ActivityLight, lightOf } from "./moments.ts";

export type { ActivityLight } from "./moments.ts";

/** Moon over a place at one instant. */
export interface MoonSky extends Horizontal {
  readonly phase: string;
  /** 0 new to 1 full. */
  readonly litShare: number;
}

/** The light of a day. */
export interface SkyResult {
  /** Hits and tasks whose spot and time are known, in the Day's order. */
  readonly activities: ReadonlyMap<Id, ActivityLight>;
  /** The sun's times at a place for the day whose local 12:00 is `clockNoon`; null where the place has no coordinates. */
  sunTimes(place: Id, clockNoon: Instant): SunTimes | null;
  /** Null where the place has no coordinates. */
  moon(place: Id, at: Instant): MoonSky | null;
  /** The moon's rise and set in the place's local day with that noon; null where the place has no coordinates. */
  moonTimes(place: Id, clockNoon: Instant): MoonTimes | null;
  /** The sun's altitude over a place, degrees; null where the place has no coordinates. */
  sunAltitude(place: Id, at: Instant): number | null;
}

/** True where lamps are needed; also where that is not known, since a lamp carried in vain costs less than a dark face. */
export const isDark = (sky: SkyResult, activity: Id): boolean => sky.activities.get(activity)?.dark ?? true;

/** A stop of light or more over the live window is worth a word. */
const FAST_STOPS = 1;

function hitFindings(day: Day, light: ActivityLight): readonly Finding[] {
  const hit = day.plan.hits.get(light.id);
  if (hit === undefined) return [];
  const findings: Finding[] = [];
  const where = { at: light.from, path: hit.path };
  if (light.side === "in the lens" && hit.facing !== null) {
    const { altitude, azimuth } = light.sun;
    findings.push(
      sunInLens.raise(
        { hit: hit.id, altitude, azimuth, facing: hit.facing },
        { ...where, path: [...hit.path, "facing"] },
      ),
    );
  }
  if (Math.abs(light.stops) >= FAST_STOPS) {
    findings.push(lightChangesFast.raise({ hit: hit.id, stops: light.stops, minutes: light.to - light.from }, where));
  }
  return findings;
}

/** Places without coordinates at which there are hits, with those, in the Day's order. */
function withoutCoordinates(day: Day): ReadonlyMap<Place, readonly { readonly id: Id }[]> {
  const unknown = day.activities.flatMap(({ place: at, id, activity }) => {
    const place = day.plan.places.get(at ?? "");
    return activity.kind !== "hit" || place === undefined || place.at !== null ? [] : [{ place, id }];
  });
  return groupBy(unknown, ({ place }) => place);
}

function dayFindings(day: Day, lights: ReadonlyMap<Id, ActivityLight>): readonly Finding[] {
  const findings: Finding[] = [...lights.values()].flatMap((light) => hitFindings(day, light));
  const dark = [...lights.values()]
    .filter((light) => light.dark && day.plan.hits.has(light.id))
    .map((light) => light.id);
  const first = dark[0];
  const pieces = [...day.plan.kit.values()];
  if (first !== undefined && pieces.length > 0 && !pieces.some((piece) => piece.during.includes("dark"))) {
    findings.push(darkWithoutLamp.raise({ hits: dark }, { path: day.plan.hits.get(first)?.path ?? ["hits"] }));
  }
  for (const [place, hits] of withoutCoordinates(day)) {
    findings.push(lightUnknown.raise({ place: place.id, activities: hits.map(({ id }) => id) }, { path: place.path }));
  }
  return findings;
}

function moonOver(sky: Ephemeris, day: Day, place: Id, at: Instant): MoonSky | null {
  const from = day.plan.places.get(place)?.at ?? null;
  if (from === null) return null;
  const elongation = sky.moonPhase(at);
  return { ...sky.moon(at, from), phase: phaseWord(elongation), litShare: moonLitShare(elongation) };
}

/** A plan without coordinates: nothing is known, and the ephemeris is not loaded. */
const NOTHING: SkyResult = {
  activities: new Map(),
  sunTimes: () => null,
  moon: () => null,
  moonTimes: () => null,
  sunAltitude: () => null,
};

/** Judges the light of the last day of the chain. */
export async function assess({ days }: JudgeInput): Promise<Judgement<SkyResult>> {
  const day = days.at(-1);
  if (day === undefined) return { result: NOTHING, findings: [] };
  if (![...day.plan.places.values()].some((place) => place.at !== null)) {
    return { result: NOTHING, findings: dayFindings(day, NOTHING.activities) };
  }
  const sky = await loadEphemeris();
  const activities = new Map<Id, ActivityLight>();
  for (const times of day.activities) {
    const light = lightOf(day, times, sky);
    if (light !== null) activities.set(times.id, light);
  }
  const spot = (place: Id) => day.plan.places.get(place)?.at ?? null;
  const result: SkyResult = {
    activities,
    sunTimes(place, clockNoon) {
      const from = spot(place);
      return from === null ? null : sunTimes(sky, from, clockNoon);
    },
    moon: (place, at) => moonOver(sky, day, place, at),
    moonTimes(place, clockNoon) {
      const from = spot(place);
      return from === null ? null : moonTimes(sky, from, after(clockNoon, -720), after(clockNoon, 720));
    },
    sunAltitude(place, at) {
      const from = spot(place);
      return from === null ? null : sky.sun(at, from).altitude;
    },
  };
  return { result, findings: dayFindings(day, activities) };
}
