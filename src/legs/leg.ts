/** A drive between two stops as the Day plans it, before weather by clock: made by `roads/legs`, judged by `roads/assess`. */
import type { PlanPath } from "../findings/finding.ts";
import type { Ferry, Id, Stop } from "../plan/plan.ts";

/** Where a leg's times come from. An estimate is labelled wherever its figure is shown. */
export type LegBasis = "stated" | "routed" | "estimated";

/** A drive between two places: minutes, kilometres and where they are from. */
export interface Leg {
  readonly from: Id;
  readonly to: Id;
  /** Median minutes in the dry, unrounded, without `slower` and weather. */
  readonly likelyMinutes: number;
  /** The 95 % point in the dry; null where not stated, then derived from the buffer index of the road's state. */
  readonly badMinutes: number | null;
  readonly km: number | null;
  /** Low and high end of an estimate, minutes. */
  readonly range: { readonly lowMinutes: number; readonly highMinutes: number } | null;
  readonly basis: LegBasis;
  readonly noSignal: boolean;
  /** The plan line that states the road; null for an estimate. */
  readonly path: PlanPath | null;
  /** The ferry that carries the vehicle: no one drives, and neither the vehicle nor the weather changes the time. */
  readonly ferry?: Ferry;
}

/** All legs that the runs of a plan need, keyed by `legKey`. */
export type Legs = ReadonlyMap<string, Leg>;

/** The leg from a stop with a ferry: from its sailing to its landing exactly, with no kilometre driven. */
export const crossing = ({ place: from, path }: Stop, to: Id, ferry: Ferry): Leg => ({
  from,
  to,
  likelyMinutes: ferry.land - ferry.sail,
  badMinutes: ferry.land - ferry.sail,
  km: 0,
  range: null,
  basis: "stated",
  noSignal: false,
  path: [...path, "ferry"],
  ferry,
});

/** The key of a pair of places. */
export const legKey = (from: Id, to: Id): string => `${from} ${to}`;
