/** The sky in words, and where the sun stands for a camera. */
import { SUN_LIMITS } from "./almanac.ts";
import type { Horizontal } from "./angles.ts";
import { turn } from "./angles.ts";

/** The light in one word. */
export type SkyWord = "day" | "low sun" | "civil twilight" | "nautical twilight" | "night";

/** Below this altitude, degrees, daylight is warm and shadows are long; common practice, no source. */
const LOW_SUN = 6;

/** The sky for the sun's true altitude in degrees; an altitude exactly at a limit belongs to the brighter word. */
export function skyWord(altitude: number): SkyWord {
  if (altitude >= LOW_SUN) return "day";
  if (altitude >= SUN_LIMITS.rise) return "low sun";
  if (altitude >= SUN_LIMITS.civil) return "civil twilight";
  return altitude >= SUN_LIMITS.nautical ? "nautical twilight" : "night";
}

/** Where the sun stands as the camera looks. */
export type SunSide =
  | "in the lens"
  | "behind the subject"
  | "from the side"
  | "on the face"
  | "overhead"
  | "below the horizon";

/**
 * Half the width and the height, degrees, within which a low sun shines into a wide live lens or flares it; and how far
 * from the lens's axis light still counts as coming from behind, or from the front. Common practice, no source.
 */
const LENS = { aside: 30, up: 20 } as const;
const BEHIND_WITHIN = 45;
const FACE_BEYOND = 135;
/** From here up, degrees, the light falls from above whichever way the camera looks: shadows under brow and nose. Common practice, no source. */
const OVERHEAD = 75;

/** Where the sun stands for a camera that looks along the true bearing `facing`, degrees. */
export function sunSide(sun: Horizontal, facing: number): SunSide {
  if (sun.altitude < SUN_LIMITS.rise) return "below the horizon";
  if (sun.altitude >= OVERHEAD) return "overhead";
  const aside = Math.abs(turn(facing, sun.azimuth));
  if (aside <= LENS.aside && sun.altitude <= LENS.up) return "in the lens";
  if (aside <= BEHIND_WITHIN) return "behind the subject";
  return aside < FACE_BEYOND ? "from the side" : "on the face";
}
