/**
 * A leg with fuel stops on the road: where they must stand so that the reserve is kept before and after.
 *
 * A stop may stand as far on as the tank goes, and as near to the end as a full tank needs it. A stop whose time the plan
 * fixes stands where the driving puts it; of any other the place is open, and the worst that is allowed is taken.
 */
import type { Id } from "../plan/plan.ts";

/** A fuel stop on a leg. */
export interface RoadFill {
  readonly activity: Id;
  /** Share of the driving before it; null where it is not known. */
  readonly share: number | null;
  /** Whether the plan fixes its time, and with it its place. */
  readonly fixed: boolean;
}

/** Where a fuel stop must stand, km of road from the start of its leg. */
export interface OnRoad {
  readonly move: Id;
  readonly from: Id;
  readonly activity: Id;
  readonly fromKm: number;
  readonly toKm: number;
  /** Where its time puts it; null where the plan leaves that open. */
  readonly plannedKm: number | null;
}

interface Way {
  readonly km: number;
  /** Range that a kilometre takes. */
  readonly factor: number;
  readonly tankKm: number;
  readonly rangeKm: number;
  readonly reserveKm: number;
}

interface Filled {
  /** The least range on the leg: planned, or the best that an open place allows. */
  readonly leastKm: number;
  readonly endKm: number;
  /** Range burnt before the first fill, at the least. */
  readonly firstKm: number;
  /** Null where the stop may stand anywhere, or nowhere does it help. */
  readonly where: Omit<OnRoad, "move" | "from"> | null;
}

const between = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value));

/** The tank on a leg with one fuel stop or more. */
export function roadFill({ km, factor, tankKm, rangeKm, reserveKm }: Way, fills: readonly RoadFill[]): Filled {
  const [first] = fills;
  const last = fills.at(-1);
  const needKm = km * factor;
  const hop = rangeKm - reserveKm;
  // Range burnt at the first stop at the most, and at the last at the least.
  const [most, least] = [tankKm - reserveKm, Math.max(0, needKm - hop)];
  if (first === undefined || last === undefined || most < 0 || needKm > most + fills.length * hop) {
    // Not even the best places keep the reserve: every stretch between fills as long as the others.
    const best = (tankKm + fills.length * rangeKm - needKm) / (fills.length + 1);
    const leastKm = Math.min(tankKm, best);
    return { leastKm, endKm: leastKm, firstKm: tankKm - leastKm, where: null };
  }
  if (fills.length > 1)
    return { leastKm: reserveKm, endKm: Math.max(reserveKm, rangeKm - needKm), firstKm: 0, where: null };
  const [from, to] = [least, Math.min(needKm, most)];
  const planned = first.fixed && first.share !== null ? first.share * needKm : null;
  const at = between(planned ?? from, from, to);
  const isFree = from <= 0 && to >= needKm;
  const fits = planned === null || (planned >= from - 1e-6 && planned <= to + 1e-6);
  const where = {
    activity: first.activity,
    fromKm: from / factor,
    toKm: to / factor,
    plannedKm: fits ? null : (planned ?? 0) / factor,
  };
  return {
    leastKm: Math.min(tankKm - (planned === null ? from : at), rangeKm - (needKm - at)),
    endKm: rangeKm - (needKm - at),
    firstKm: from,
    where: isFree ? null : where,
  };
}
