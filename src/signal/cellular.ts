/** A cellular path or bonding backpack against the signal that the plan notes. */
import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import { cellularSignalNone, cellularSignalUnknown, cellularSignalWeak } from "./findings.ts";
import { activityIdsOf, circumstance, type PathUse, type PathUses } from "./use.ts";

/** Kinds that live on mobile networks. */
export const isCellular = (kind: PathUse["path"]["kind"]): boolean => kind === "cellular" || kind === "backpack";

/** Whether a hit or feed on the road lies on one of which the plan says that it has no signal. */
function onSilentRoad(day: Day, { times }: PathUse): boolean {
  const { location } = times.activity;
  if (location.kind !== "onRoad") return false;
  return day.moves.some((move) => move.from === location.from && move.to === location.to && move.leg.noSignal);
}

/** Judges a cellular path at one place, once for all that use it there. */
export function cellularFindings(day: Day, uses: PathUses): readonly Finding[] {
  const [{ place, path }] = uses;
  const facts = { activities: activityIdsOf(uses), path: path.id };
  const where = circumstance(uses[0]);
  if (place === null) {
    return uses
      .filter((use) => onSilentRoad(day, use))
      .map((use) =>
        cellularSignalNone.raise({ ...facts, activities: [use.activity.id], where: "on that road" }, circumstance(use)),
      );
  }
  if (place.signal === "none") {
    return [cellularSignalNone.raise({ ...facts, where: `at ${place.name ?? place.id}` }, where)];
  }
  if (place.signal === "weak") return [cellularSignalWeak.raise({ ...facts, place: place.id }, where)];
  return place.signal === null ? [cellularSignalUnknown.raise({ ...facts, place: place.id }, where)] : [];
}
