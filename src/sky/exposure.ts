/**
 * Exposure arithmetic: what a camera needs, and how far a background sits under the face.
 *
 * ISO 100 with the usual meter constants C = 250 for incident and K = 12.5 for reflected light.
 */

/** Exposure value of an aperture and a shutter time in seconds: log2(N² / t). */
export const exposureValue = (fNumber: number, seconds: number): number => Math.log2(fNumber ** 2 / seconds);

/** Illuminance in lx for an exposure value at ISO 100, C = 250. */
export const luxOfExposure = (ev: number): number => 2.5 * 2 ** ev;

/** Exposure value at ISO 100 for an illuminance in lx; the inverse of `luxOfExposure`. */
export const exposureOfLux = (lux: number): number => Math.log2(lux / 2.5);

/** Luminance of a scene in cd/m² for an exposure value at ISO 100, K = 12.5. */
export const luminanceOfExposure = (ev: number): number => 2 ** (ev - 3);

/** Illuminance in lx that an aperture, shutter time in seconds and ISO speed need: 250 N² / (t S). */
export const neededLux = (fNumber: number, seconds: number, iso: number): number =>
  (luxOfExposure(exposureValue(fNumber, seconds)) * 100) / iso;

/**
 * Illuminance in lx that a broadcast camera needs whose data sheet says "f/N0 at 2000 lx" (89.9 % white), at another
 * aperture and with gain in dB. From memory of data-sheet practice.
 */
export const cameraLux = (dataSheetFNumber: number, fNumber: number, gainDecibels: number): number =>
  2000 * (fNumber / dataSheetFNumber) ** 2 * 10 ** (-gainDecibels / 20);

/** Stops by which a background under `skyLux` is darker than a face under `keyLux`; negative where it is brighter. */
export const stopsUnderKey = (keyLux: number, skyLux: number): number => Math.log2(keyLux / skyLux);

/** Exposure values at ISO 100 of scenes that can stand behind a face at night; a published scene table. */
export const LIT_SCENES: readonly { readonly is: string; readonly lowEv: number; readonly highEv: number }[] = [
  { is: "bright street", lowEv: 8, highEv: 8 },
  { is: "night street, shop windows", lowEv: 7, highEv: 8 },
  { is: "night traffic", lowEv: 5, highEv: 5 },
  { is: "floodlit building", lowEv: 3, highEv: 5 },
  { is: "distant lit buildings", lowEv: 2, highEv: 2 },
  { is: "full moonlight", lowEv: -3, highEv: -2 },
];
