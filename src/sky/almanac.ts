/**
 * Rise, set and twilights of one day at one place, and the moon beside them.
 *
 * The day is the sun's own, from one low point to the next round local noon: sunrise is looked for before that noon,
 * sunset after it. Searching within a UT day instead is how a published test case came to print the sunset of 16 October
 * for the 17th (NREL SPA, 17:20:19 for 17:18:51).
 */
import type { Coordinates } from "../plan/plan.ts";
import { type Instant, instant } from "../time/units.ts";
import { equatorial } from "./angles.ts";
import type { Ephemeris } from "./ephemeris.ts";

/** Where the sun never crosses a limit there is a word for it, not a gap. */
export type NoCrossing = "polar day" | "polar night" | "light all night";

/** A moment in minutes since 1970-01-01T00:00Z, with a fraction. */
export type Crossing = number | NoCrossing;

/** Sunrise, sunset and twilights of a day. */
export interface SunTimes {
  readonly rise: Crossing;
  readonly set: Crossing;
  readonly civilDawn: Crossing;
  readonly civilDusk: Crossing;
  readonly nauticalDawn: Crossing;
  readonly nauticalDusk: Crossing;
  readonly astronomicalDawn: Crossing;
  readonly astronomicalDusk: Crossing;
  /** When the sun is highest, and how high. */
  readonly noon: number;
  readonly noonAltitude: number;
}

/** Altitudes of the sun's centre, degrees: upper limb with 34' of refraction and 16' of radius, then -6, -12, -18. */
export const SUN_LIMITS = { rise: -0.833, civil: -6, nautical: -12, astronomical: -18 } as const;

const MINUTES_PER_DEGREE = 4;

/** The moment near `guess` at which the sun stands in the meridian. */
function noonNear(guess: number, from: Coordinates, sky: Ephemeris): number {
  let at = guess;
  for (let round = 0; round < 2; round++) at -= equatorial(sky.sun(at, from), from).hourAngle * MINUTES_PER_DEGREE;
  return at;
}

/** How near a crossing is found, minutes: well under the sun's own scatter from weather and refraction. */
const GRAIN = 0.005;

interface Point {
  readonly at: number;
  /** Above zero where the sun is over the limit. */
  readonly over: number;
}

/** The moment between `low` and `high` at which `over` is zero (Illinois variant of the false position). */
function crossing(low: Point, high: Point, over: (at: number) => number): number {
  let [a, b] = [low, high];
  for (let round = 0; round < 60 && Math.abs(b.at - a.at) > GRAIN; round++) {
    const at = a.at - (a.over * (b.at - a.at)) / (b.over - a.over);
    const next = { at, over: over(at) };
    if (Math.abs(next.at - b.at) < GRAIN) return next.at;
    if (next.over * b.over <= 0) a = b;
    else a = { at: a.at, over: a.over / 2 };
    b = next;
  }
  return b.at;
}

/** What twilights are called where the sun never sinks to their limit. */
const neverBelow = (limit: number, lowest: number): NoCrossing =>
  limit === SUN_LIMITS.rise || lowest > SUN_LIMITS.rise ? "polar day" : "light all night";

/** The sun's times of the day whose solar noon lies nearest to `clockNoon`, the local clock's 12:00. */
export function sunTimes(sky: Ephemeris, from: Coordinates, clockNoon: Instant): SunTimes {
  const altitude = (at: number): number => sky.sun(at, from).altitude;
  const noon = noonNear(clockNoon, from, sky);
  const top = { at: noon, altitude: altitude(noon) };
  const side = (at: number): ((limit: number) => Crossing) => {
    const bottom = { at, altitude: altitude(at) };
    return (limit) => {
      if (top.altitude < limit) return "polar night";
      if (bottom.altitude >= limit) return neverBelow(limit, bottom.altitude);
      const over = (t: number): number => altitude(t) - limit;
      return crossing({ at, over: bottom.altitude - limit }, { at: noon, over: top.altitude - limit }, over);
    };
  };
  const [before, behind] = [side(noon - 720), side(noon + 720)];
  return {
    rise: before(SUN_LIMITS.rise),
    set: behind(SUN_LIMITS.rise),
    civilDawn: before(SUN_LIMITS.civil),
    civilDusk: behind(SUN_LIMITS.civil),
    nauticalDawn: before(SUN_LIMITS.nautical),
    nauticalDusk: behind(SUN_LIMITS.nautical),
    astronomicalDawn: before(SUN_LIMITS.astronomical),
    astronomicalDusk: behind(SUN_LIMITS.astronomical),
    noon,
    noonAltitude: top.altitude,
  };
}

/** The moon's rise and set within a day; a word where there is neither, null where the day has none of one. */
export interface MoonTimes {
  readonly rise: number | null;
  readonly set: number | null;
  /** Where it neither rises nor sets. */
  readonly all: "up all day" | "down all day" | null;
}

/** Altitude of the moon's centre as seen from the place at which its upper limb rises: 34' of refraction, 15.5' of radius. */
const MOON_LIMIT = -0.825;

/** Minutes between looks: the moon is up or down for hours, but for a few minutes near the poles. */
const MOON_STEP = 10;

/** The first rise and the first set of the moon in a stretch of time, as a rule a local day. */
export function moonTimes(sky: Ephemeris, from: Coordinates, start: Instant, end: Instant): MoonTimes {
  const over = (at: number): number => sky.moon(at, from).altitude - MOON_LIMIT;
  let rise: number | null = null;
  let set: number | null = null;
  let last: Point = { at: start, over: over(start) };
  for (let at = start + MOON_STEP; last.at < end; at += MOON_STEP) {
    const next = { at: Math.min(at, end), over: over(Math.min(at, end)) };
    if (last.over < 0 && next.over >= 0) rise ??= crossing(last, next, over);
    if (last.over >= 0 && next.over < 0) set ??= crossing(last, next, over);
    last = next;
  }
  const none = rise === null && set === null;
  return { rise, set, all: none ? (last.over >= 0 ? "up all day" : "down all day") : null };
}

/** The nearest whole minute of a crossing; a word stays a word. */
export const toMinute = (crossing: Crossing): Instant | NoCrossing =>
  typeof crossing === "number" ? instant(Math.round(crossing)) : crossing;

/** The moon's phase in a word, for its elongation in degrees; principal phases hold 22.5 degrees to either side. */
export function phaseWord(elongation: number): string {
  const words = [
    "new moon",
    "waxing crescent",
    "first quarter",
    "waxing gibbous",
    "full moon",
    "waning gibbous",
    "last quarter",
    "waning crescent",
  ];
  return words[Math.round(elongation / 45) % words.length] ?? "new moon";
}

/** The share of the moon's disc that is lit, 0 to 1, from its elongation (within 0.01 of the exact phase angle). */
export const moonLitShare = (elongation: number): number => (1 - Math.cos((elongation * Math.PI) / 180)) / 2;
