/**
 * How bright an open, level place is under the sun alone, and what that asks of a crew that lights a face.
 *
 * Lit streets stay at 5 to 100 lx whatever the sun does; city glow and moonlight are left out.
 */
import type { Weather } from "../plan/plan.ts";

/** How much light the cloud takes. */
export type Cloud = NonNullable<Weather["cloud"]>;

/** One stretch of the polynomial: from `above` degrees upwards. */
interface Stretch {
  readonly above: number;
  readonly l: readonly [number, number, number, number];
}

/**
 * Clear-sky illuminance, log10 lx = Σ lᵢ (altitude / 90)ⁱ. Explanatory Supplement to the Astronomical Almanac
 * (Seidelmann), also Vallado eq. 5-9. Vallado's listing sets results above 999.999 lx to zero; that line is dropped here.
 */
const STRETCHES: readonly Stretch[] = [
  { above: 20, l: [3.74, 3.97, -4.07, 1.47] },
  { above: 5, l: [3.05, 13.28, -45.98, 64.33] },
  { above: -0.8, l: [2.88, 22.26, -207.64, 1034.3] },
  { above: -5, l: [2.88, 21.81, -258.11, -858.36] },
  { above: -12, l: [2.7, 12.17, -431.69, -1899.83] },
  { above: -18, l: [13.84, 262.72, 1447.42, 2797.93] },
];

/** Starlight and airglow, all that is left below -18 degrees (Ofek's listing of the same polynomial), lx. */
const NIGHT_LUX = 0.002;

/** What a cover of cloud divides the light by; from memory, in the same table as the polynomial's. */
const CLOUD_DIVISOR: Readonly<Record<Cloud, number>> = { clear: 1, thin: 2, average: 3, dark: 10 };

/** The factor by which a cloud cover weakens daylight; 1 where the cover is not known. */
export const cloudDivisor = (cloud: Cloud | null): number => (cloud === null ? 1 : CLOUD_DIVISOR[cloud]);

/** Horizontal illuminance in lx under a clear sky for the sun's true altitude (no refraction) in degrees. */
export function clearSkyLux(altitude: number): number {
  const stretch = STRETCHES.find((s) => altitude >= s.above);
  if (stretch === undefined) return NIGHT_LUX;
  const x = altitude / 90;
  const [l0, l1, l2, l3] = stretch.l;
  return 10 ** (l0 + x * (l1 + x * (l2 + x * l3)));
}

/** Horizontal illuminance in lx under cloud. */
export const skyLux = (altitude: number, cloud: Cloud | null): number => clearSkyLux(altitude) / cloudDivisor(cloud);

/** How much a live shot must bring of its own, by what the sky gives. Our own planning rule, from memory of practice. */
export type LightClass = "day" | "soft" | "key-and-sky" | "last-sky" | "night";

const CLASSES: readonly { readonly from: number; readonly is: LightClass }[] = [
  { from: 2000, is: "day" },
  { from: 400, is: "soft" },
  { from: 100, is: "key-and-sky" },
  { from: 20, is: "last-sky" },
];

/** The class of a light level in lx; a level exactly at an edge has the brighter class. */
export const lightClass = (lux: number): LightClass => CLASSES.find((c) => lux >= c.from)?.is ?? "night";

/** Below this many lx a face needs a key light, and the plan's `dark` holds: pieces with `during: dark` are in use. */
export const DARK_BELOW_LUX = 400;

/** What to pack for a class of light, in words for the sheet. Our own planning rule. */
export const lampsFor: Readonly<Record<LightClass, readonly string[]>> = {
  day: [],
  soft: ["panel for the face"],
  "key-and-sky": ["key light"],
  "last-sky": ["key light", "fill light", "lit background"],
  night: ["key light", "fill light", "lit background", "more set-up time"],
};
