/** Overhead lines and clothing at the roadside: published distances and limits. */

/** Minimum distance in feet for work with a raised structure: 10 ft to 50 kV, 4 in more for each 10 kV above. 29 CFR 1910.333(c)(3). */
export const workClearanceFeet = (kilovolts: number): number => 10 + extraFeet(kilovolts);

/** The same for a vehicle in transit with its structure lowered: 4 ft, and the same extra. */
export const transitClearanceFeet = (kilovolts: number): number => 4 + extraFeet(kilovolts);

const extraFeet = (kilovolts: number): number => (Math.max(0, kilovolts - 50) / 10) * (4 / 12);

/** 29 CFR 1926.1408 Table A: feet from a line of at most so many kV; above 1000 kV its owner says. */
const TABLE_A: readonly (readonly [number, number])[] = [
  [50, 10],
  [200, 15],
  [350, 20],
  [500, 25],
  [750, 35],
  [Number.POSITIVE_INFINITY, 45],
];

/** 29 CFR 1926.1411 Table T, in transit without load, from memory. */
const TABLE_T: readonly (readonly [number, number])[] = [
  [0.75, 4],
  [50, 6],
  [345, 10],
  [750, 16],
  [Number.POSITIVE_INFINITY, 20],
];

const inTable = (table: readonly (readonly [number, number])[], kilovolts: number): number =>
  table.find(([most]) => kilovolts <= most)?.[1] ?? 0;

/** Feet to keep a raised structure from a line: the larger of both rules, rounded up. */
export const keepOffFeet = (kilovolts: number): number =>
  Math.ceil(Math.max(workClearanceFeet(kilovolts), inTable(TABLE_A, kilovolts)));

/** Feet to keep in transit with the structure lowered: the larger of both rules, rounded up. */
export const transitFeet = (kilovolts: number): number =>
  Math.ceil(Math.max(transitClearanceFeet(kilovolts), inTable(TABLE_T, kilovolts)));

/** A line whose voltage is not known is kept at least this far off, feet; from memory of 29 CFR 1926.1408. */
export const UNKNOWN_LINE_FEET = 20;

/**
 * Class of high-visibility clothing on foot in the right-of-way of a road, by its speed in mph. 23 CFR 634 asks for class
 * 2 or 3 (so never 1 there); by ISEA's guidance class 3 above 50 mph, and at night (from memory).
 */
export const visibilityClass = (mph: number, night: boolean): 2 | 3 => (mph > 50 || night ? 3 : 2);
