/** Arithmetic of a dish and its path: beam, pointing, delay, and how far to stand from what is in the way. */
import { toRadians } from "../../sky/angles.ts";

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
