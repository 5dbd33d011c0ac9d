/**
 * Times of a leg: the log-normal through its likely and bad time, and the whole minutes it is planned at.
 *
 * A drive is log-normal (Arroyo & Kornhauser) with median `drive` and 95 % point `bad`. Where `bad` is missing it follows
 * from the buffer index BI = (95 % point − mean) / mean: 1 + BI = exp(1.645 s − s²/2), so s = 1.645 − √(1.645² − 2 ln(1 + BI)).
 */
import { type Minutes, minutes } from "../time/units.ts";
import type { Leg } from "./leg.ts";
import type { RoadWeather } from "./weather.ts";

/** The standard normal 95 % point, as the published formulas round it. */
export const Z95 = 1.645;

/** The spread s of a log-normal drive whose buffer index (relative to the mean) is `bufferIndex`, at most 2.87. */
export const spreadOfBuffer = (bufferIndex: number): number =>
  Z95 - Math.sqrt(Z95 * Z95 - 2 * Math.log(1 + bufferIndex));

/** What a plan does to the times of a leg. */
export interface Conditions {
  /** The vehicle's `slower`, 1 for none. */
  readonly slower: number;
  readonly weather: RoadWeather;
}

/** A log-normal drive, minutes. */
export interface DriveTime {
  readonly median: number;
  /** Standard deviation of the logarithm; 0 for a drive that always takes the same. */
  readonly spread: number;
}

/** The distribution of a leg under conditions; never a `bad` below the median. */
export function driveTime(leg: Leg, { slower, weather }: Conditions): DriveTime {
  if (leg.ferry !== undefined) return { median: leg.likelyMinutes, spread: 0 };
  const median = leg.likelyMinutes * slower * weather.factor;
  if (leg.badMinutes === null) return { median, spread: spreadOfBuffer(weather.bufferIndex) };
  if (leg.likelyMinutes <= 0) return { median, spread: 0 };
  return { median, spread: Math.max(0, Math.log(leg.badMinutes / leg.likelyMinutes) / Z95) };
}

/** The time that 19 of 20 drives beat, minutes, unrounded. */
export const badTime = ({ median, spread }: DriveTime): number => median * Math.exp(Z95 * spread);

/** Absorbs the last bits of a product such as 50 × 1.1 before rounding up. */
const DUST = 1e-9;

/** Rounds computed minutes up to whole ones. */
export const roundUp = (length: number): Minutes => minutes(Math.max(0, Math.ceil(length - DUST)));

/** The whole minutes a leg is planned at: its `bad` or its `drive`, × `slower`, × the weather factor, rounded up. */
export function plannedMinutes(leg: Leg, conditions: Conditions & { readonly at: "bad" | "drive" }): Minutes {
  const time = driveTime(leg, conditions);
  return roundUp(conditions.at === "bad" ? badTime(time) : time.median);
}
