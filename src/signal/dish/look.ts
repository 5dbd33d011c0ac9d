/**
 * Where a geostationary satellite stands for a dish on the ground: azimuth, elevation, range and polarisation skew.
 *
 * WGS84 and the real slant, not the textbook sphere, which is off by up to 0.029 degrees of azimuth, 0.024 of elevation,
 * 15 km and 0.32 degrees of skew. Azimuth is true; a compass shows it less the declination that the
 * plan states for the place, and no model of that is at hand.
 */
import type { Coordinates } from "../../plan/plan.ts";
import { bearing, toDegrees, toRadians } from "../../sky/angles.ts";

/** A figure of the earth: equatorial radius in km (6378137 m; a copy that says 6378137.06 is wrong) and flattening. */
export interface Earth {
  readonly radiusKm: number;
  readonly flattening: number;
}

/** The ellipsoid of the World Geodetic System 1984. */
export const WGS84: Earth = { radiusKm: 6378.137, flattening: 1 / 298.257223563 };

/** Radius of the geostationary orbit, km. */
export const ORBIT_KM = 42164.17;

type Vector = readonly [number, number, number];

const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const times = (a: Vector, k: number): Vector => [a[0] * k, a[1] * k, a[2] * k];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Earth-fixed position of a site at sea level, km: x to 0 degrees east, z to the north pole. */
export function siteVector(at: Coordinates, earth: Earth = WGS84): Vector {
  const [l, lon] = [toRadians(at.latitude), toRadians(at.longitude)];
  const squared = earth.flattening * (2 - earth.flattening);
  const normal = earth.radiusKm / Math.sqrt(1 - squared * Math.sin(l) ** 2);
  return [
    normal * Math.cos(l) * Math.cos(lon),
    normal * Math.cos(l) * Math.sin(lon),
    normal * (1 - squared) * Math.sin(l),
  ];
}

/** The bearing that a compass shows, by a declination in degrees east: east is least. */
export const magnetic = (azimuth: number, declinationEast: number): number => bearing(azimuth - declinationEast);

/** Where a satellite stands: true azimuth and elevation in degrees. */
export interface Look {
  /** Degrees true, clockwise from north. */
  readonly azimuth: number;
  /** Degrees above the horizon, without refraction. */
  readonly elevation: number;
  readonly rangeKm: number;
  /** Degrees the feed is turned, for a satellite with vertical polarisation; clockwise positive, looking at the satellite. */
  readonly skew: number;
}

/** Folds a turn of the feed to (-90, 90]: half a turn changes nothing. */
function fold(degrees: number): number {
  const turned = ((degrees % 180) + 180) % 180;
  return turned > 90 ? turned - 180 : turned;
}

/**
 * The look angle from a site to the slot at `slotEast` degrees east. The skew is the angle between the satellite's
 * north-south field and the site's vertical, both seen across the line of sight: a slot east of a northern site turns
 * the feed anticlockwise, west clockwise, and the other way round south of the equator.
 */
export function lookAngle(from: Coordinates, slotEast: number, earth: Earth = WGS84, orbitKm: number = ORBIT_KM): Look {
  const [l, lon, slot] = [toRadians(from.latitude), toRadians(from.longitude), toRadians(slotEast)];
  const satellite: Vector = [orbitKm * Math.cos(slot), orbitKm * Math.sin(slot), 0];
  const line = minus(satellite, siteVector(from, earth));
  const rangeKm = Math.sqrt(dot(line, line));
  const sight = times(line, 1 / rangeKm);
  const up: Vector = [Math.cos(l) * Math.cos(lon), Math.cos(l) * Math.sin(lon), Math.sin(l)];
  const east: Vector = [-Math.sin(lon), Math.cos(lon), 0];
  const north = cross(up, east);
  const across = (v: Vector): Vector => minus(v, times(sight, dot(v, sight)));
  const [field, vertical] = [across([0, 0, 1]), across(up)];
  const right = cross(sight, vertical);
  return {
    azimuth: bearing(toDegrees(Math.atan2(dot(sight, east), dot(sight, north)))),
    elevation: toDegrees(Math.asin(dot(sight, up))),
    rangeKm,
    skew: fold(toDegrees(Math.atan2(dot(field, right), dot(field, vertical)))),
  };
}

/** Speed of light, km/s. */
const LIGHT_KM_S = 299_792.458;

/** Wavelength in metres of a frequency in GHz. */
export const wavelengthMeters = (gigahertz: number): number => 0.299792458 / gigahertz;

/** Half-power beam width in degrees, the usual 70 λ / D for a uniform dish; from memory. */
export const beamWidth = (gigahertz: number, dishMeters: number): number =>
  (70 * wavelengthMeters(gigahertz)) / dishMeters;

/** Loss in dB of a dish that points `offDegrees` beside the satellite, 12 (θ / θ₃)²; from memory. */
export const pointingLoss = (offDegrees: number, beamDegrees: number): number => 12 * (offDegrees / beamDegrees) ** 2;

/** One way up and down over the same slant range, in milliseconds; codecs come on top. */
export const pathDelayMs = (rangeKm: number): number => ((2 * rangeKm) / LIGHT_KM_S) * 1000;

/** The distance in metres from something `obstacleMeters` high at which a dish `dishMeters` up looks over it. */
export const standOffMeters = (elevation: number, obstacleMeters: number, dishMeters: number): number =>
  (obstacleMeters - dishMeters) / Math.tan(toRadians(elevation));
