/**
 * The sun's apparent place to 0.01 degrees in a few sines, for asking of many days which are worth the exact ephemeris.
 * Meeus, Astronomical Algorithms, chapter 25, low accuracy (from memory; held on his example 25.a in tests/world).
 */
import { bearing, toDegrees, toRadians } from "./angles.ts";

const J2000_MINUTES = 15_778_800;
const CENTURY_MINUTES = 36_525 * 1440;

/** Apparent right ascension and declination in degrees, `at` in minutes since 1970-01-01T00:00Z (UT for TD: 0.001 degrees). */
export function lowSun(at: number): { readonly rightAscension: number; readonly declination: number } {
  const t = (at - J2000_MINUTES) / CENTURY_MINUTES;
  const meanLongitude = 280.46646 + t * (36000.76983 + t * 0.0003032);
  const m = toRadians(357.52911 + t * (35999.05029 - t * 0.0001537));
  const centre =
    (1.914602 - t * (0.004817 + t * 0.000014)) * Math.sin(m) +
    (0.019993 - t * 0.000101) * Math.sin(2 * m) +
    0.000289 * Math.sin(3 * m);
  const node = toRadians(125.04 - 1934.136 * t);
  const longitude = toRadians(meanLongitude + centre - 0.00569 - 0.00478 * Math.sin(node));
  const obliquity = toRadians(23.43929111 - t * 0.013004167 + 0.00256 * Math.cos(node));
  return {
    rightAscension: bearing(toDegrees(Math.atan2(Math.cos(obliquity) * Math.sin(longitude), Math.cos(longitude)))),
    declination: toDegrees(Math.asin(Math.sin(obliquity) * Math.sin(longitude))),
  };
}
