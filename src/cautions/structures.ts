/** Overhead lines, ice, clothing at the roadside: published distances and limits. */

/** Minimum distance in feet for work with a raised structure: 10 ft to 50 kV, 4 in more for each 10 kV above. 29 CFR 1910.333(c)(3). */
export const workClearanceFeet = (kilovolts: number): number => 10 + extraFeet(kilovolts);

/** The same for a vehicle in transit with its structure lowered: 4 ft, and the same extra. */
export const transitClearanceFeet = (kilovolts: number): number => 4 + extraFeet(kilovolts);

const extraFeet = (kilovolts: number): number => (Math.max(0, kilovolts - 50) / 10) * (4 / 12);

/** A line whose voltage nobody knows is kept at least this far off, feet; from memory of 29 CFR 1926.1408. */
export const UNKNOWN_LINE_FEET = 20;

/**
 * Class of high-visibility clothing on foot in the right-of-way of a road, by its speed in mph. 23 CFR 634 asks for class
 * 2 or 3 (so never 1 there); by ISEA's guidance class 3 above 50 mph, and at night (from memory).
 */
export const visibilityClass = (mph: number, night: boolean): 2 | 3 => (mph > 50 || night ? 3 : 2);

export type IceLoad = "foot" | "snowmobile" | "side-by-side" | "car" | "truck";

/**
 * New clear ice, inches, below which a load has no business on it: Minnesota Department of Natural Resources, the newer
 * and thicker edition; an older one with 8 in for a car and 12 for a truck is still quoted widely. No ice is safe.
 */
export const CLEAR_ICE_INCHES: Readonly<Record<IceLoad, number>> = {
  foot: 4,
  snowmobile: 5,
  "side-by-side": 7,
  car: 9,
  truck: 13,
};

/** Thickness in inches that the table asks for; white ice counts half. */
export const iceInches = (load: IceLoad, white: boolean): number => CLEAR_ICE_INCHES[load] * (white ? 2 : 1);

/** Loads that ice of a thickness is too thin for, by the table. */
export const tooThinFor = (inches: number, white: boolean): readonly IceLoad[] =>
  (["foot", "snowmobile", "side-by-side", "car", "truck"] as const).filter((load) => inches < iceInches(load, white));

/** Load in kg that ice of a thickness in cm carries at low risk, Gold's A h² with A = 3.5 (from memory); unsafe for heavy plant. */
export const goldKg = (centimeters: number, a = 3.5): number => a * centimeters ** 2;
