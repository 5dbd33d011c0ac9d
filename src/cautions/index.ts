/**
 * What should people be careful of today? Published tables on what the plan gives reason for: one line each with its
 * source, the full text behind `explain`. Fatigue at the wheel is found by `hours`, whose findings of it count as
 * cautions. A report that carries one ends with `DEFERRAL`.
 */
import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { JudgeInput, Judgement } from "../findings/judgement.ts";
import { wavelengthMeters } from "../signal/dish/look.ts";
import type { SkyResult } from "../sky/index.ts";
import { aloneCautions } from "./alone.ts";
import { drivingCautions } from "./driving.ts";
import { exhaustCautions } from "./exhaust.ts";
import { weatherCautions } from "./exposure.ts";
import { radiation } from "./findings.ts";
import { placeCautions } from "./places.ts";
import { EXPOSURE_LIMITS, reachOver, uplinkGigahertz } from "./radiation.ts";

export { DEFERRAL, isCaution } from "./deferral.ts";

/** The cautions of a day, as findings. */
export interface CautionsResult {
  /** In the order of the catalogue; the same findings as in the judgement. */
  readonly cautions: readonly Finding[];
}

/** Satellite paths that a hit or feed of the day uses, with where. */
function radiationCautions(day: Day): readonly Finding[] {
  return [...day.plan.paths.values()]
    .filter((path) => path.kind === "satellite")
    .flatMap((path) => {
      const uses = day.activities.filter(({ activity }) =>
        [activity.signalPath, activity.kind === "hit" ? activity.spare : null].includes(path.id),
      );
      if (uses.length === 0) return [];
      const { uplinkWatts: watts, dishMeters, bandGigahertz } = path;
      const sender =
        watts === null || dishMeters === null || bandGigahertz === null
          ? null
          : { watts, dishMeters, wavelength: wavelengthMeters(uplinkGigahertz(bandGigahertz)) };
      const facts = {
        path: path.id,
        places: [...new Set(uses.flatMap((times) => times.place ?? []))],
        meters: sender && reachOver(EXPOSURE_LIMITS.public, sender),
        controlledMeters: sender && reachOver(EXPOSURE_LIMITS.controlled, sender),
        watts: sender?.watts ?? null,
      };
      return [radiation.raise(facts, { path: path.path })];
    });
}

/** Collects the cautions of the last day of the chain; what is dark comes from the sky. */
export function assess({ days }: JudgeInput, sky: SkyResult): Judgement<CautionsResult> {
  const day = days.at(-1);
  if (day === undefined) return { result: { cautions: [] }, findings: [] };
  const cautions = [
    ...placeCautions(day, sky),
    ...radiationCautions(day),
    ...exhaustCautions(day),
    ...weatherCautions(day),
    ...drivingCautions(day),
    ...aloneCautions(day),
  ];
  return { result: { cautions }, findings: cautions };
}
