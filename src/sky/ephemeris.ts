/**
 * Where sun and moon stand. The only importer of the ephemeris package, loaded when first asked for: reading it costs
 * a start about 6 ms, and a plan without coordinates never needs it.
 *
 * A day asks for hundreds of moments at a few places, so the package is asked as an almanac is printed, at even steps, and what
 * lies between them is interpolated from the four nearest, within 0.000001 degrees of the package itself (`tests/sky`).
 *
 * Accuracy goal: sun within 0.001 degrees, rise and set within a minute (tests/world, against published tables).
 */
import type { Coordinates } from "../plan/plan.ts";
import { bearing, type Horizontal, toDegrees, toRadians } from "./angles.ts";

/** `at` is in minutes since 1970-01-01T00:00Z and may have a fraction. Observers stand at sea level. */
export interface Ephemeris {
  sun(at: number, from: Coordinates): Horizontal;
  moon(at: number, from: Coordinates): Horizontal;
  /** The moon's elongation, degrees: 0 new, 90 first quarter, 180 full, 270 last quarter. */
  moonPhase(at: number): number;
}

/** Minutes from 1970-01-01T00:00Z to the package's own zero, 2000-01-01T12:00Z. */
const J2000_MINUTES = 15_778_800;

const toDays = (at: number): number => (at - J2000_MINUTES) / 1440;

/** How far the earth turns in a day, degrees (IERS Conventions 2003, the earth rotation angle). */
const TURN = 360 * 1.002_737_811_911_354_6;

/** The equatorial radius, astronomical units, and the flattening of the earth (IERS Conventions 2003). */
const EARTH_RADIUS = 6378.1366 / 149_597_870.691;
const FLATTENING = 1 / 298.25642;

/** Where a body stands as seen from the earth's centre: equator and equinox of that moment, astronomical units. */
interface Centred {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Greenwich apparent sidereal time less what the even turn of the earth gives, degrees. */
  readonly lead: number;
}

/** Minutes between the moments that the package is asked for, and how many of them are kept. */
const STEPS = { sun: 720, moon: 60 } as const;
const KEPT = 500;

async function load(): Promise<Ephemeris> {
  const { Body, GeoVector, MakeTime, MoonPhase, RotateVector, Rotation_EQJ_EQD, SiderealTime } = await import(
    "astronomy-engine"
  );
  const centred = (body: typeof Body.Sun | typeof Body.Moon, at: number): Centred => {
    const time = MakeTime(toDays(at));
    const { x, y, z } = RotateVector(Rotation_EQJ_EQD(time), GeoVector(body, time, true));
    const lead = 15 * SiderealTime(time) - TURN * toDays(at);
    return { x, y, z, lead: lead - 360 * Math.round(lead / 360) };
  };
  const sun = interpolated(STEPS.sun, (at) => centred(Body.Sun, at));
  const moon = interpolated(STEPS.moon, (at) => centred(Body.Moon, at));
  return {
    sun: (at, from) => seenFrom(sun(at), at, from),
    moon: (at, from) => seenFrom(moon(at), at, from),
    moonPhase: (at) => MoonPhase(MakeTime(toDays(at))),
  };
}

/** The same between moments `step` minutes apart, by the third-degree polynomial through the four nearest of them. */
function interpolated(step: number, exact: (at: number) => Centred): (at: number) => Centred {
  const known = new Map<number, Centred>();
  const node = (n: number): Centred => {
    const found = known.get(n);
    if (found !== undefined) return found;
    if (known.size >= KEPT) known.clear();
    const made = exact(n * step);
    known.set(n, made);
    return made;
  };
  return (at) => {
    const n = Math.floor(at / step);
    const t = at / step - n;
    const [a, b, c, d] = [node(n - 1), node(n), node(n + 1), node(n + 2)];
    const wa = (-t * (t - 1) * (t - 2)) / 6;
    const wb = ((t + 1) * (t - 1) * (t - 2)) / 2;
    const wc = (-(t + 1) * t * (t - 2)) / 2;
    const wd = ((t + 1) * t * (t - 1)) / 6;
    // A lead near half a turn may be on either side of it.
    const near = (lead: number): number => lead - 360 * Math.round((lead - b.lead) / 360);
    return {
      x: wa * a.x + wb * b.x + wc * c.x + wd * d.x,
      y: wa * a.y + wb * b.y + wc * c.y + wd * d.y,
      z: wa * a.z + wb * b.z + wc * c.z + wd * d.z,
      lead: wa * near(a.lead) + wb * b.lead + wc * near(c.lead) + wd * near(d.lead),
    };
  };
}

/** As seen from sea level, not from the earth's centre. */
function seenFrom({ x, y, z, lead }: Centred, at: number, from: Coordinates): Horizontal {
  const latitude = toRadians(from.latitude);
  const [sin, cos] = [Math.sin(latitude), Math.cos(latitude)];
  const meridian = toRadians(TURN * toDays(at) + lead + from.longitude);
  const polar = 1 - FLATTENING;
  const normal = EARTH_RADIUS / Math.hypot(cos, polar * sin);
  const out = x * Math.cos(meridian) + y * Math.sin(meridian) - normal * cos;
  const east = y * Math.cos(meridian) - x * Math.sin(meridian);
  const along = z - polar * polar * normal * sin;
  const up = out * cos + along * sin;
  const north = along * cos - out * sin;
  return {
    altitude: toDegrees(Math.atan2(up, Math.hypot(north, east))),
    azimuth: bearing(toDegrees(Math.atan2(east, north))),
  };
}

let loaded: Promise<Ephemeris> | null = null;

/** The ephemeris, read once. */
export function loadEphemeris(): Promise<Ephemeris> {
  loaded ??= load();
  return loaded;
}
