/**
 * When the sun stands behind the satellite and its noise covers the downlink: minutes of a day, and the next season.
 *
 * Only the dish that receives is affected: the truck's return feed here; the station's own dish has other times.
 */
import type { Coordinates } from "../../plan/plan.ts";
import type { Horizontal } from "../../sky/angles.ts";
import { equatorial, separation, turn } from "../../sky/angles.ts";
import type { Ephemeris } from "../../sky/ephemeris.ts";
import { lowSun } from "../../sky/lowSun.ts";
import type { Look } from "./look.ts";
import { beamWidth } from "./look.ts";

/** Minutes since 1970-01-01T00:00Z, with fractions. */
export interface SunOutage {
  readonly from: number;
  readonly to: number;
  readonly peak: number;
  /** The least angle between sun and satellite, degrees. */
  readonly closest: number;
}

/** Radius of the sun's disc in degrees. 0.27 would be the radio sun; the optical one is what published tables agree with. */
const SUN_RADIUS = 0.25;

/** The angle between sun and satellite, degrees, within which the sun disturbs: half the beam and the sun's radius. */
export const outageAngle = (gigahertz: number, dishMeters: number): number =>
  beamWidth(gigahertz, dishMeters) / 2 + SUN_RADIUS;

/** The sun's hour angle grows by this many degrees a minute. */
const DEGREES_A_MINUTE = 0.25;
const DAY = 1440;

/** What an outage is asked of: a site, its satellite, and the angle that disturbs. */
export interface OutageQuery {
  readonly spot: Coordinates;
  readonly look: Look;
  readonly angle: number;
}

/** The sun's declination moves by up to 0.4 degrees a day, and the quick formula errs by 0.01. */
const WORTH_A_LOOK = 0.5;

/** The outage at the sun's passage nearest to `guess`, or null where the sun passes too far away or the satellite is not up. */
export function outageNear(sky: Ephemeris, { spot, look, angle }: OutageQuery, guess: number): SunOutage | null {
  if (look.elevation <= 0) return null;
  const satellite: Horizontal = { altitude: look.elevation, azimuth: look.azimuth };
  const { declination, hourAngle } = equatorial(satellite, spot);
  if (Math.abs(lowSun(guess).declination - declination) > angle + WORTH_A_LOOK) return null;
  const away = (at: number): number => separation(sky.sun(at, spot), satellite);
  let peak = guess;
  for (let round = 0; round < 3; round++) {
    peak += turn(equatorial(sky.sun(peak, spot), spot).hourAngle, hourAngle) / DEGREES_A_MINUTE;
  }
  const closest = away(peak);
  if (closest >= angle) return null;
  const reach = angle / DEGREES_A_MINUTE / Math.cos((declination * Math.PI) / 180) + 2;
  return { from: edge(away, angle, peak, -reach), to: edge(away, angle, peak, reach), peak, closest };
}

/** Where the angle is reached on one side of the peak, to a hundredth of a minute. */
function edge(away: (at: number) => number, angle: number, peak: number, reach: number): number {
  let [inside, outside] = [peak, peak + reach];
  while (Math.abs(outside - inside) > 0.01) {
    const middle = (inside + outside) / 2;
    if (away(middle) < angle) inside = middle;
    else outside = middle;
  }
  return outside;
}

/** The outages whose peak lies in [from, to), in time order. */
export function outagesBetween(sky: Ephemeris, target: OutageQuery, from: number, to: number): readonly SunOutage[] {
  const outages: SunOutage[] = [];
  for (let guess = from; guess < to + DAY; guess += DAY) {
    const outage = outageNear(sky, target, guess);
    const isNew = outage !== null && Math.abs(outage.peak - (outages.at(-1)?.peak ?? 0)) > DAY / 2;
    if (outage !== null && isNew && outage.peak >= from && outage.peak < to) outages.push(outage);
  }
  return outages;
}

/** The first run of days with an outage that begins at or after `from`, within a year; empty where there is none. */
export function nextSeason(sky: Ephemeris, target: OutageQuery, from: number): readonly SunOutage[] {
  const season: SunOutage[] = [];
  for (let day = 0; day < 370; day++) {
    const [outage] = outagesBetween(sky, target, from + day * DAY, from + (day + 1) * DAY);
    if (outage !== undefined) season.push(outage);
    else if (season.length > 0) break;
  }
  return season;
}
