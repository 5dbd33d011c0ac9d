/** How thick ice has to be for people and for each vehicle: the larger of a table and a formula, and no ice is safe. */
import { mostOf } from "../lists.ts";

/** What goes on the ice, from the lightest to the heaviest. */
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

/** Where the table gives a range, its thicker end, inches: what a vehicle is held to. */
const THICKER_END = { car: 12, truck: 17 } as const;

/** What the table's car weighs at the most, kg; its truck is a pickup. Common practice, no source. */
const HEAVIEST_CAR_KG = 2500;

/** Thickness in inches that the table asks for; white ice counts half. */
export const iceInches = (load: IceLoad, white: boolean): number => CLEAR_ICE_INCHES[load] * (white ? 2 : 1);

/** Load in kg that ice of a thickness in cm carries at low risk, Gold's A h² with A = 3.5 (from memory); unsafe for heavy plant. */
export const goldKg = (centimeters: number, a = 3.5): number => a * centimeters ** 2;

/** Thickness in cm at which Gold's formula carries a load in kg. */
const goldCentimeters = (kg: number, a = 3.5): number => Math.sqrt(kg / a);

/** Clear ice in whole inches below which a vehicle stays off: the larger of table and formula; by the table alone without its weight. */
export function vehicleIceInches(grossKg: number | null): number {
  if (grossKg === null) return THICKER_END.truck;
  const table = grossKg <= HEAVIEST_CAR_KG ? THICKER_END.car : THICKER_END.truck;
  // The last bits of a product are no inch more.
  return Math.ceil(Math.max(table, goldCentimeters(grossKg) / 2.54) - 1e-6);
}

/** The least clear ice that several figures come to, inches: white ice counts half. Null where none is stated. */
export function clearInches(
  stated: readonly { readonly inches: number | null; readonly white: boolean }[],
): number | null {
  const clear = stated.flatMap(({ inches, white }) => (inches === null ? [] : [white ? inches / 2 : inches]));
  const least = mostOf(clear.map((inches) => -inches));
  return least === null ? null : -least;
}

/** Centimetres or inches: the unit in which a plan speaks of its ice, and in which it is compared and printed. */
export const inUnit = (inches: number, metric: boolean): number => (metric ? inches * 2.54 : inches);

/** Clear ice that a load needs, whole centimetres or inches, rounded up; twice as much in a thaw. */
export const neededIce = (
  inches: number,
  { metric, thaw }: { readonly metric: boolean; readonly thaw: boolean },
): number =>
  // The last bits of a product are no unit more.
  Math.ceil(inUnit(thaw ? 2 * inches : inches, metric) - 1e-6);
