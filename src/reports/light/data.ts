/** `data` of `light`: the light of every hit, and the sun's and moon's day at every place. */
import type { ActivityTimes } from "../../day/day.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { type Crossing, type SunTimes, toMinute } from "../../sky/almanac.ts";
import { exposureOfLux } from "../../sky/exposure.ts";
import type { ActivityLight, MoonSky } from "../../sky/index.ts";
import type { Instant } from "../../time/index.ts";
import { isoAt } from "../shared/stamps.ts";
import type { Json } from "../shared/view.ts";

export interface LightHit {
  readonly times: ActivityTimes;
  /** When it is, or was meant to be. */
  readonly at: Instant;
  /** Null where the place has no coordinates. */
  readonly light: ActivityLight | null;
}

export interface LightPlace {
  readonly id: Id;
  readonly sun: SunTimes | null;
  readonly moon: MoonSky | null;
  /** The instant that the moon is told for: the first hit there, else noon. */
  readonly moonAt: Instant;
}

/** Degrees to a thousandth, which is the ephemeris's own accuracy. */
export const degrees = (value: number): number => Math.round(value * 1000) / 1000;

/** Four significant digits: the polynomial itself is good to some per cent. */
const figures = (value: number): number => Number(value.toPrecision(4));

export const lightData = (plan: Plan, hits: readonly LightHit[], places: readonly LightPlace[]): Json => ({
  hits: hits.map((hit) => hitJson(plan, hit)),
  places: places.map((place) => placeJson(plan, place)),
});

function hitJson(plan: Plan, { times, at, light }: LightHit): Json {
  return {
    id: times.id,
    at: isoAt(plan, at, times.place),
    sunAltitudeDegrees: light === null ? null : degrees(light.sun.altitude),
    sunAzimuthDegrees: light === null ? null : degrees(light.sun.azimuth),
    sky: light?.sky ?? null,
    sunSide: light?.side ?? null,
    lux: light === null ? null : figures(light.lux),
    needs: light?.needs ?? [],
    place: times.place,
    leastLux: light === null ? null : figures(light.leastLux),
    exposureValue: light === null ? null : figures(exposureOfLux(light.lux)),
    light: light?.light ?? null,
    dark: light?.dark ?? null,
    stopsOverWindow: light === null ? null : figures(light.stops),
    windowTo: light === null ? null : isoAt(plan, light.to, times.place),
  };
}

const crossing = (plan: Plan, place: Id, event: Crossing | undefined): string | null => {
  if (event === undefined) return null;
  const at = toMinute(event);
  return typeof at === "string" ? at : isoAt(plan, at, place);
};

function placeJson(plan: Plan, { id, sun, moon, moonAt }: LightPlace): Json {
  const of = (event: Crossing | undefined): string | null => crossing(plan, id, event);
  return {
    id,
    rise: of(sun?.rise),
    set: of(sun?.set),
    civilDawn: of(sun?.civilDawn),
    civilDusk: of(sun?.civilDusk),
    nauticalDawn: of(sun?.nauticalDawn),
    nauticalDusk: of(sun?.nauticalDusk),
    astronomicalDawn: of(sun?.astronomicalDawn),
    astronomicalDusk: of(sun?.astronomicalDusk),
    noon: of(sun?.noon),
    noonAltitudeDegrees: sun === null ? null : degrees(sun.noonAltitude),
    moonPhase: moon?.phase ?? null,
    moonLit: moon === null ? null : figures(moon.litShare),
    moonAltitudeDegrees: moon === null ? null : degrees(moon.altitude),
    moonAt: moon === null ? null : isoAt(plan, moonAt, id),
  };
}
