/** Straight-line distance: the geodesic on the WGS84 ellipsoid, by Karney's routines. The package is loaded on first use. */
import type { Coordinates } from "../plan/plan.ts";

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
