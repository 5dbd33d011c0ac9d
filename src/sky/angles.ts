/** Degrees, and the triangle between horizon, pole and a direction in the sky. */
import type { Coordinates } from "../plan/plan.ts";

/** A direction in the sky: degrees above the true horizon without refraction, and degrees true, clockwise from north. */
export interface Horizontal {
  readonly altitude: number;
  readonly azimuth: number;
}

/** Radians of degrees. */
export const toRadians = (degrees: number): number => (degrees * Math.PI) / 180;
/** Degrees of radians. */
export const toDegrees = (radians: number): number => (radians * 180) / Math.PI;

/** An angle folded to [0, 360). */
export function bearing(degrees: number): number {
  const folded = degrees % 360;
  return folded < 0 ? folded + 360 : folded;
}

/** The turn from one bearing to another, degrees in (-180, 180], positive clockwise. */
export function turn(from: number, to: number): number {
  const clockwise = bearing(to - from);
  return clockwise > 180 ? clockwise - 360 : clockwise;
}

/** The angle between two directions, degrees; the haversine form keeps small angles exact. */
export function separation(a: Horizontal, b: Horizontal): number {
  const [ha, hb] = [toRadians(a.altitude), toRadians(b.altitude)];
  const dh = Math.sin((hb - ha) / 2) ** 2;
  const da = Math.cos(ha) * Math.cos(hb) * Math.sin(toRadians(b.azimuth - a.azimuth) / 2) ** 2;
  return toDegrees(2 * Math.asin(Math.sqrt(Math.min(1, dh + da))));
}

/** Declination and hour angle (west positive, (-180, 180]) of a direction seen from a place, degrees. */
export function equatorial(
  seen: Horizontal,
  from: Coordinates,
): { readonly declination: number; readonly hourAngle: number } {
  const [l, h, a] = [toRadians(from.latitude), toRadians(seen.altitude), toRadians(seen.azimuth)];
  const declination = Math.asin(Math.sin(l) * Math.sin(h) + Math.cos(l) * Math.cos(h) * Math.cos(a));
  const west = -Math.sin(a) * Math.cos(h);
  const up = Math.sin(h) * Math.cos(l) - Math.cos(h) * Math.cos(a) * Math.sin(l);
  return { declination: toDegrees(declination), hourAngle: toDegrees(Math.atan2(west, up)) };
}
