/** A hit on a cable: reels against the run, the reach of the picture at its rate, and what the cable must not cross. */

import type { Day } from "../../day/day.ts";
import type { Finding } from "../../findings/finding.ts";
import { leastOf, sumOf } from "../../lists.ts";
import type { Hit } from "../../plan/plan.ts";
import { rowsAt } from "../../sky/weather.ts";
import { circumstance, type PathUse } from "../use.ts";
import { type Lay, layReels, NEAR_SHARE, reachMeters } from "./coax.ts";
import {
  cableAcrossRoad,
  cableBeyondReach,
  cableNearReach,
  cableRateUnknown,
  cableRunMissing,
  cableTooShort,
  reelBeyondReach,
} from "./findingsCable.ts";

/** Where wheels run; a cable crosses none of these. */
const ROAD = /\b(?:road|street|highway|motorway|avenue|lane|drive|rails?|railway|railroad|tracks?)\b/i;

/** A run of cable in metres, and how it is laid. */
export interface CableRun {
  readonly runMeters: number;
  /** Null where all reels together are too short, or none is stated. */
  readonly lay: Lay | null;
  /** The reach with the joins of `lay`, whole metres; null where the rate is not known. */
  readonly reachMeters: number | null;
}

/** The coldest temperature that the plan states for the hit. */
function coldest(day: Day, { place, onAir }: PathUse): number | null {
  if (onAir === null) return null;
  const temperatures = rowsAt(day.plan.weather, place?.id ?? null, onAir).flatMap((row) => row.celsius ?? []);
  return leastOf(temperatures);
}

/** How a hit's run is laid; null where the hit states no run. */
export function cableRun(day: Day, use: PathUse): CableRun | null {
  const run = use.activity.kind === "hit" ? use.activity.run : null;
  if (run === null) return null;
  const lay = layReels(use.path.reelMeters, run.cableMeters);
  const { rateMegabits } = use.path;
  const reach = rateMegabits === null ? null : reachMeters(rateMegabits, lay?.joins ?? 0, coldest(day, use));
  return { runMeters: run.cableMeters, lay, reachMeters: reach === null ? null : Math.floor(reach) };
}

/** Judges one use of a cable path. */
export function cableFindings(day: Day, use: PathUse): readonly Finding[] {
  const { activity, path } = use;
  if (activity.kind !== "hit") return [];
  const facts = { activity: activity.id, path: path.id };
  const laid = cableRun(day, use);
  if (laid === null) return [cableRunMissing.raise(facts, circumstance(use))];
  return [...crossing(activity, use), ...reels(use, laid), ...reach(use, laid)];
}

function crossing(hit: Hit, use: PathUse): readonly Finding[] {
  const crosses = hit.run?.crosses ?? null;
  if (crosses === null || !ROAD.test(crosses)) return [];
  const where = { ...circumstance(use), path: [...hit.path, "run", "crosses"] };
  return [cableAcrossRoad.raise({ activity: hit.id, path: use.path.id, crosses }, where)];
}

const runPath = (use: PathUse) => ({ ...circumstance(use), path: [...use.activity.path, "run", "cable"] });

function reels(use: PathUse, { runMeters, lay }: CableRun): readonly Finding[] {
  const has = sumOf(use.path.reelMeters, (reel) => reel);
  if (lay !== null) return [];
  return [cableTooShort.raise({ activity: use.activity.id, path: use.path.id, needs: runMeters, has }, runPath(use))];
}

function reach(use: PathUse, { runMeters: run, lay, reachMeters: far }: CableRun): readonly Finding[] {
  const facts = { activity: use.activity.id, path: use.path.id };
  const { rateMegabits } = use.path;
  if (far === null || rateMegabits === null) return [cableRateUnknown.raise(facts, circumstance(use))];
  const where = runPath(use);
  if (run > far) {
    return [cableBeyondReach.raise({ ...facts, run, reach: far, joins: lay?.joins ?? 0, rate: rateMegabits }, where)];
  }
  if (lay !== null && lay.cableMeters > far) {
    return [reelBeyondReach.raise({ ...facts, cable: lay.cableMeters, run, reach: far }, where)];
  }
  return run > far * NEAR_SHARE ? [cableNearReach.raise({ ...facts, run, reach: far }, where)] : [];
}
