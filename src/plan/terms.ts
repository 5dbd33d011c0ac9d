/** Words that every part of a checked plan is made of. */
import type { PlanPath } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";

/** The id of a thing in a plan, as its author wrote it. */
export type Id = string;

/** Something with an id, and where the plan states it. */
export interface Entity {
  readonly id: Id;
  readonly path: PlanPath;
}

/** Degrees, north and east positive. */
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
