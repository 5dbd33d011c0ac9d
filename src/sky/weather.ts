/** The rows of a plan's weather that hold at a place for a stretch of time, and the worst of them. */
import type { Id, Weather } from "../plan/plan.ts";
import type { Instant } from "../time/units.ts";
import { type Cloud, cloudDivisor } from "./light.ts";

/** A stretch that may be a single moment: both ends count. */
export interface ClosedStretch {
  readonly from: Instant;
  readonly to: Instant;
}

/** Rows that name the place or no place and whose time [from, to) meets the stretch, in plan order. */
export const rowsAt = (rows: readonly Weather[], place: Id | null, during: ClosedStretch): readonly Weather[] =>
  rowsAtAny(rows, place === null ? [] : [place], during);

/** Rows that name one of the places or no place and whose time [from, to) meets the stretch, in plan order. */
export const rowsAtAny = (rows: readonly Weather[], places: readonly Id[], during: ClosedStretch): readonly Weather[] =>
  rows.filter(
    (row) =>
      (row.from === null || row.from <= during.to) &&
      (row.to === null || row.to > during.from) &&
      (row.places.length === 0 || row.places.some((place) => places.includes(place))),
  );

/** The thickest cloud of these rows, or null where none states any. */
export function thickestCloud(rows: readonly Weather[]): Cloud | null {
  let thickest: Cloud | null = null;
  for (const { cloud } of rows) {
    if (cloud !== null && (thickest === null || cloudDivisor(cloud) > cloudDivisor(thickest))) thickest = cloud;
  }
  return thickest;
}
