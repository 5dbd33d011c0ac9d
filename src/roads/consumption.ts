/**
 * How much more of the tank a road takes in the cold and in snow than the stated range says.
 *
 * Cold: 15 % fewer miles a gallon at 20 °F (−6.7 °C) than at 77 °F (25 °C) in town, and 24 % fewer on trips of 3 to 4 miles
 * (US Department of Energy, Fuel Economy in Cold Weather). The line through the first two goes on to the third, which
 * it reaches at −34 °C, and stays there. Snow and ice: 10 %, heavy snow 20 % more (common practice, no source).
 */
import { coldestOn, weatherOn } from "../legs/weather.ts";
import type { Id, RoadState, Weather } from "../plan/plan.ts";
import type { Interval } from "../time/units.ts";

const WARM = 25;
const COLD = (20 - 32) / 1.8;
const AT_COLD = 1 / 0.85;
const MOST = 1 / 0.76;

/** Times the fuel of a warm day at a temperature in °C; never less in colder air. */
export const coldFuelFactor = (celsius: number): number =>
  Math.min(MOST, Math.max(1, 1 + ((AT_COLD - 1) * (WARM - celsius)) / (WARM - COLD)));

const SURFACE: Readonly<Record<RoadState, number>> = {
  dry: 1,
  wet: 1,
  "heavy-rain": 1,
  snow: 1.1,
  "heavy-snow": 1.2,
  ice: 1.1,
  fog: 1,
};

/** Kilometres of range that one kilometre of a drive takes, by the worst of the weather on the way. */
export function rangeAKilometre(rows: readonly Weather[], during: Interval, ends: readonly Id[]): number {
  const celsius = coldestOn(rows, during, ends);
  const { state } = weatherOn(rows, during, ends);
  return (celsius === null ? 1 : coldFuelFactor(celsius)) * (state === null ? 1 : SURFACE[state]);
}
