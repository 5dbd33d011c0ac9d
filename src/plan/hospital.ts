/** The nearest hospital of a place in one text, as every view shows it: `County hospital, Sixth Street, 12 km, 555 0100`. */
import type { Hospital } from "./plan.ts";

/** A hospital in one line of words; null where none is stated. */
export function hospitalText(hospital: Hospital | null): string | null {
  if (hospital === null) return null;
  const { name, address, km, phone } = hospital;
  return [name, address, km === null ? null : `${km} km`, phone].filter((part) => part !== null).join(", ");
}
