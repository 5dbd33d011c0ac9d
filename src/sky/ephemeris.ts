/**
 * Where sun and moon stand. The only importer of the ephemeris package, loaded when first asked for: reading it costs
 * a start about 6 ms, and a plan without coordinates never needs it.
 *
 * Accuracy goal: sun within 0.001 degrees, rise and set within a minute (tests/world, against published tables).
 */
import type { Coordinates } from "../plan/plan.ts";

/** A direction in the sky: degrees above the true horizon without refraction, and degrees true, clockwise from north. */
export interface Horizontal {
  readonly altitude: number;
  readonly azimuth: number;
}

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

async function load(): Promise<Ephemeris> {
  const { Body, Equator, Horizon, MakeTime, MoonPhase, Observer } = await import("astronomy-engine");
  const look = (body: typeof Body.Sun | typeof Body.Moon, at: number, from: Coordinates): Horizontal => {
    const time = MakeTime(toDays(at));
    const observer = new Observer(from.latitude, from.longitude, 0);
    const { ra, dec } = Equator(body, time, observer, true, true);
    const { altitude, azimuth } = Horizon(time, observer, ra, dec);
    return { altitude, azimuth };
  };
  return {
    sun: (at, from) => look(Body.Sun, at, from),
    moon: (at, from) => look(Body.Moon, at, from),
    moonPhase: (at) => MoonPhase(MakeTime(toDays(at))),
  };
}

let loaded: Promise<Ephemeris> | null = null;

/** The ephemeris, read once. */
export function loadEphemeris(): Promise<Ephemeris> {
  loaded ??= load();
  return loaded;
}
