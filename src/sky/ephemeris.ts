/**
 * Where sun and moon stand. The only importer of the ephemeris package, loaded when first asked for: reading it costs
 * a start about 6 ms, and a plan without coordinates never needs it.
 *
 * A day asks for hundreds of moments at a few places, so the package is asked as an almanac is printed, at even steps, and what
 * lies between them is interpolated from the four nearest, within 0.000001 degrees of the package itself (`tests/sky`). From the
 * earth's centre to the place and to its horizon the package goes for each moment.
 *
 * Accuracy goal: sun within 0.001 degrees, rise and set within a minute (tests/world, against published tables).
 */
import type { Coordinates } from "../plan/plan.ts";
import type { Horizontal } from "./angles.ts";

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

/** Where a body stands as seen from the earth's centre: equator and equinox of that moment, astronomical units. */
interface Centred {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Minutes between the moments that the package is asked for, and how many of them are kept. */
const STEPS = { sun: 720, moon: 60 } as const;
const KEPT = 500;

async function load(): Promise<Ephemeris> {
  const astronomy = await import("astronomy-engine");
  const { Body, EquatorFromVector, GeoVector, Horizon, MakeTime, MoonPhase, Observer, ObserverVector } = astronomy;
  const { RotateVector, Rotation_EQJ_EQD, Vector } = astronomy;
  const centred = (body: typeof Body.Sun | typeof Body.Moon, at: number): Centred => {
    const time = MakeTime(toDays(at));
    return RotateVector(Rotation_EQJ_EQD(time), GeoVector(body, time, true));
  };
  const seenFrom = ({ x, y, z }: Centred, at: number, from: Coordinates): Horizontal => {
    const time = MakeTime(toDays(at));
    const observer = new Observer(from.latitude, from.longitude, 0);
    const own = ObserverVector(time, observer, true);
    const { ra, dec } = EquatorFromVector(new Vector(x - own.x, y - own.y, z - own.z, time));
    const { altitude, azimuth } = Horizon(time, observer, ra, dec);
    return { altitude, azimuth };
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
    return {
      x: wa * a.x + wb * b.x + wc * c.x + wd * d.x,
      y: wa * a.y + wb * b.y + wc * c.y + wd * d.y,
      z: wa * a.z + wb * b.z + wc * c.z + wd * d.z,
    };
  };
}

let loaded: Promise<Ephemeris> | null = null;

/** The ephemeris, read once. */
export function loadEphemeris(): Promise<Ephemeris> {
  loaded ??= load();
  return loaded;
}
