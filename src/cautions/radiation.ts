/** Power density before a transmitting dish, after FCC OET Bulletin 65. Densities in mW/cm², lengths in metres, power in W. */

/** Limits above 1.5 GHz: trained people who know (6 minutes), and the public (30 minutes). OET 65. */
export const EXPOSURE_LIMITS = { controlled: 5, public: 1 } as const;

/** How much of the aperture counts, where nothing better is known. */
const EFFICIENCY = 0.65;

/** 1 mW/cm² is 10 W/m². */
const W_PER_M2 = 10;

const area = (dishMeters: number): number => Math.PI * (dishMeters / 2) ** 2;

/** Directly at the reflector: 4 P / A. Two filed studies write 2 P / A, half the bulletin's figure. */
export const surfaceDensity = (watts: number, dishMeters: number): number => (4 * watts) / area(dishMeters) / W_PER_M2;

/** In the near field: 4 η P / A. */
export const nearDensity = (watts: number, dishMeters: number): number =>
  EFFICIENCY * surfaceDensity(watts, dishMeters);

/** The near field ends at D² / 4 λ. */
export const nearFieldEnd = (dishMeters: number, wavelength: number): number => dishMeters ** 2 / (4 * wavelength);

/** The far field begins at 0.6 D² / λ. A filing with the wavelength ten times too long found it ten times too near. */
export const farFieldStart = (dishMeters: number, wavelength: number): number => (0.6 * dishMeters ** 2) / wavelength;

/** Gain of a dish, η (π D / λ)². */
const dishGain = (dishMeters: number, wavelength: number): number =>
  EFFICIENCY * ((Math.PI * dishMeters) / wavelength) ** 2;

/** In the far field, on the axis, the distance at which P G / 4 π R² has fallen to a limit; gain as a factor. */
export const farDistance = (limit: number, watts: number, gain: number): number =>
  Math.sqrt((watts * gain) / (4 * Math.PI * limit * W_PER_M2));

/** A dish that sends: watts, diameter and wavelength in metres. */
export interface Transmitter {
  readonly watts: number;
  readonly dishMeters: number;
  readonly wavelength: number;
}

/**
 * How far down the beam the density is over a limit: 0 where it is so at the reflector only, null where it is nowhere. The
 * near field's density holds to its end, falls as 1 / R to the far field, and as 1 / R² from there.
 */
export function reachOver(limit: number, { watts, dishMeters, wavelength }: Transmitter): number | null {
  const near = nearDensity(watts, dishMeters);
  if (near <= limit) return surfaceDensity(watts, dishMeters) > limit ? 0 : null;
  const far = farDistance(limit, watts, dishGain(dishMeters, wavelength));
  return far >= farFieldStart(dishMeters, wavelength) ? far : (nearFieldEnd(dishMeters, wavelength) * near) / limit;
}

/** Downlink bands in GHz and a frequency that goes with each on the way up; common practice, no source. */
const UPLINKS: readonly { readonly from: number; readonly to: number; readonly up: number }[] = [
  { from: 3.4, to: 4.2, up: 6.2 },
  { from: 10.7, to: 12.75, up: 14.25 },
  { from: 17.7, to: 21.2, up: 29.5 },
];

/** The frequency the dish transmits on, for a band stated as the downlink; one outside these bands is taken as it stands. */
export const uplinkGigahertz = (band: number): number =>
  UPLINKS.find(({ from, to }) => band >= from && band <= to)?.up ?? band;
