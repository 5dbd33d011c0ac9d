/**
 * What cold does to packs: how much more a load draws from them, and when they may be charged.
 *
 * The discharge factors are a planning default for lithium-ion packs at camera loads (0.2-0.5 C), from memory of published
 * 18650 curves (Ji, Zhang & Wang 2013, J. Electrochem. Soc. 160 A636). The charging window is the makers' usual one (no
 * charge below 0 °C because of lithium plating, reduced to 5 °C, none above 45 °C).
 */

/** Share of its energy that a pack gives at a temperature, °C; straight lines between. */
const DERATE: readonly (readonly [number, number])[] = [
  [-20, 0.55],
  [-10, 0.75],
  [0, 0.87],
  [10, 0.95],
  [20, 1],
];

/** The share of warm energy that a pack gives at `celsius`, 0.55 to 1; held at the ends of the table. */
export function derate(celsius: number): number {
  const above = DERATE.findIndex(([limit]) => celsius <= limit);
  const [high, atHigh] = DERATE[above < 0 ? DERATE.length - 1 : above] ?? [20, 1];
  const [low, atLow] = DERATE[above <= 0 ? (above < 0 ? DERATE.length - 1 : 0) : above - 1] ?? [20, 1];
  return high === low ? atHigh : atLow + ((atHigh - atLow) * (celsius - low)) / (high - low);
}

/** Whether a pack may charge at a temperature, and how fast. */
export type ChargeWindow = "forbidden" | "reduced" | "normal";

/** Whether a pack may be charged at `celsius`. */
export function chargeWindow(celsius: number): ChargeWindow {
  if (celsius < 0 || celsius > HOTTEST_CELSIUS) return "forbidden";
  return celsius < 5 ? "reduced" : "normal";
}

/** Below this the cold reserve is kept, °C. */
export const COLD_CELSIUS = 0;
/** Indoors at a bed, °C. */
export const INDOORS_CELSIUS = 20;
/** Below this the table says nothing more, °C: its last factor holds. */
export const TABLE_ENDS_CELSIUS = -20;
/** Above this nothing is charged, °C. */
export const HOTTEST_CELSIUS = 45;
/** Frost that lasts this long goes through a pack, minutes (common practice, no source). */
export const FROZEN_MINUTES = 60;
/** A frozen pack begins to warm where it is at least this warm, °C (common practice, no source). */
export const WARM_CELSIUS = 10;
/** Time for which a charger in the reduced window counts: half the power all the time, counted as full power half the time. */
export const REDUCED_SHARE = 0.5;
