/**
 * What should people be careful of today? Published tables on what the plan gives reason for: one line each with its
 * source, the full text behind `explain`. A report that carries one ends with `DEFERRAL`.
 */
import type { Day, Move } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { JudgeInput, Judgement } from "../findings/judgement.ts";
import type { Id } from "../plan/plan.ts";
import { wavelengthMeters } from "../signal/dish.ts";
import type { SkyResult } from "../sky/index.ts";
import { after, type Interval, instant, wallMinute } from "../time/index.ts";
import { weatherCautions } from "./exposure.ts";
import { exhaust, fatigue, radiation } from "./findings.ts";
import { generatorPlaces, placeCautions } from "./places.ts";
import { dishGain, distanceFor, EXPOSURE_LIMITS, uplinkGigahertz } from "./radiation.ts";

export { DEFERRAL, isCaution } from "./deferral.ts";

export interface CautionsResult {
  /** In the order of the catalogue; the same findings as in the judgement. */
  readonly cautions: readonly Finding[];
}

/** The hours after midnight in which drowsy drivers crash most. */
const NIGHT_ENDS = 6 * 60;

/** The part of a stretch at the wheel between midnight and 06:00 on the clock of the place it leaves; null where none is. */
function nightPart(day: Day, move: Move, { from, to }: Interval): Interval | null {
  const zone = day.plan.places.get(move.from)?.zone ?? day.plan.zone;
  const clock = wallMinute(from, zone);
  const begin = clock < NIGHT_ENDS ? from : after(from, 1440 - clock);
  const end = Math.min(to, after(begin, NIGHT_ENDS - wallMinute(begin, zone)));
  return begin < end ? { from: begin, to: instant(end) } : null;
}

function fatigueCautions(day: Day): readonly Finding[] {
  const nights = new Map<Id, Interval & { readonly move: Move }>();
  for (const move of day.moves) {
    for (const { driver, ...wheel } of move.wheel) {
      const night = nightPart(day, move, wheel);
      const known = nights.get(driver);
      if (night !== null)
        nights.set(driver, { from: known?.from ?? night.from, to: night.to, move: known?.move ?? move });
    }
  }
  return [...nights].map(([who, { from, to, move }]) => {
    const facts = { who, from: { at: from }, to: { at: to }, place: move.from };
    return fatigue.raise(facts, { who, at: from, path: day.plan.crew.get(who)?.path ?? ["crew"] });
  });
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
      const known = watts !== null && dishMeters !== null && bandGigahertz !== null;
      const gain = known ? dishGain(dishMeters, wavelengthMeters(uplinkGigahertz(bandGigahertz))) : null;
      const far = (limit: number): number | null =>
        gain === null || watts === null ? null : distanceFor(limit, watts, gain);
      const facts = {
        path: path.id,
        places: [...new Set(uses.flatMap((times) => times.place ?? []))],
        meters: far(EXPOSURE_LIMITS.public),
        controlledMeters: far(EXPOSURE_LIMITS.controlled),
        watts: known ? watts : null,
      };
      return [radiation.raise(facts, { path: path.path })];
    });
}

const isGenerator = (text: string): boolean => /\bgenerator\b/i.test(text);

/** A generator in the plan, or a vehicle whose engine runs chargers while it stands. */
function exhaustCautions(day: Day): readonly Finding[] {
  const { plan } = day;
  const pieces = [...plan.kit.values()].filter((piece) => isGenerator(`${piece.id} ${piece.name ?? ""}`));
  const generators = [...pieces.map((piece) => piece.id), ...(pieces.length === 0 ? generatorPlaces(day) : [])];
  const charging = [...plan.vehicles.values()].filter(
    (vehicle) =>
      vehicle.inverterWatts !== null && [...plan.chargers.values()].some((charger) => charger.in === vehicle.id),
  );
  const rolling = charging.filter((vehicle) => plan.runs.has(vehicle.id)).map((vehicle) => vehicle.id);
  const [first] = [...pieces, ...charging];
  if (generators.length + rolling.length === 0) return [];
  const snow = plan.weather.some((row) => row.road === "snow" || row.road === "heavy-snow");
  return [exhaust.raise({ vehicles: rolling, generators, snow }, { path: first?.path ?? ["kit"] })];
}

/** Collects the cautions of the last day of the chain; what is dark comes from the sky. */
export function assess({ days }: JudgeInput, sky: SkyResult): Judgement<CautionsResult> {
  const day = days.at(-1);
  if (day === undefined) return { result: { cautions: [] }, findings: [] };
  const cautions = [
    ...fatigueCautions(day),
    ...placeCautions(day, sky),
    ...radiationCautions(day),
    ...exhaustCautions(day),
    ...weatherCautions(day),
  ];
  return { result: { cautions }, findings: cautions };
}
