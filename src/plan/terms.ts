/** Words that every part of a checked plan is made of. */
import type { PlanPath } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";

export type Id = string;

export interface Entity {
  readonly id: Id;
  readonly path: PlanPath;
}

export interface Coordinates {
  /** Degrees, north and east positive. */
  readonly latitude: number;
  readonly longitude: number;
}

/** From a moment on, until another or, where `to` is null, for good. */
export interface OpenInterval {
  readonly from: Instant;
  readonly to: Instant | null;
}
