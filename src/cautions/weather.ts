/** Heat and wind: published formulas on temperatures, humidity and wind. */

const KM_A_MILE = 1.609344;
/** Miles an hour of kilometres an hour. */
export const milesAnHour = (kmh: number): number => kmh / KM_A_MILE;

/**
 * Heat index in °F for a relative humidity in per cent (Rothfusz, with the National Weather Service's two adjustments and
 * its simple form where that stays below 80). The older chart leaves out the adjustment for damp air: 82 °F at 90 % is 92.
 */
export function heatIndex(t: number, humidity: number): number {
  const simple = 0.5 * (t + 61 + (t - 68) * 1.2 + humidity * 0.094);
  if ((simple + t) / 2 < 80) return (simple + t) / 2;
  const r = humidity;
  const full =
    -42.379 +
    2.04901523 * t +
    10.14333127 * r -
    0.22475541 * t * r -
    0.00683783 * t * t -
    0.05481717 * r * r +
    0.00122874 * t * t * r +
    0.00085282 * t * r * r -
    0.00000199 * t * t * r * r;
  if (r < 13 && t >= 80 && t <= 112) return full - ((13 - r) / 4) * Math.sqrt((17 - Math.abs(t - 95)) / 17);
  if (r > 85 && t >= 80 && t <= 87) return full + ((r - 85) / 10) * ((87 - t) / 5);
  return full;
}

/** The bands of the heat index, in the words of the weather service that publishes it. */
export type HeatBand = "caution" | "extreme caution" | "danger" | "extreme danger";

/** Bands of the heat index, °F. Two editions differ (103 and 125 against 105 and 130); the lower edges are taken. */
const HEAT_BANDS: readonly { readonly from: number; readonly is: HeatBand }[] = [
  { from: 125, is: "extreme danger" },
  { from: 103, is: "danger" },
  { from: 90, is: "extreme caution" },
  { from: 80, is: "caution" },
];

/** The band of a heat index in °F, null below the lowest. Full sun adds up to 15 °F, which is not in the index. */
export const heatBand = (index: number): HeatBand | null => HEAT_BANDS.find((band) => index >= band.from)?.is ?? null;

const METERS_A_SECOND_PER_MPH = 0.44704;
const AIR = 0.613;

/** Pressure of the wind in Pa, 0.613 v² with v in m/s; from memory. */
export const windPressure = (mph: number): number => AIR * (mph * METERS_A_SECOND_PER_MPH) ** 2;

/** Force in N on a solid dish that faces the wind, drag coefficient 1.4; from memory. */
export const windForce = (mph: number, dishMeters: number): number =>
  windPressure(mph) * 1.4 * Math.PI * (dishMeters / 2) ** 2;

/** The scale ends with the hurricane. */
const STRONGEST_BEAUFORT = 12;

/** The Beaufort number of a wind in km/h, to the nearest: B of 0.836 B^1.5 m/s; from memory. */
export const beaufortOf = (kmh: number): number =>
  Math.min(STRONGEST_BEAUFORT, Math.round((kmh / 3.6 / 0.836) ** (2 / 3)));

/**
 * Above these gusts no mast goes up and the dish is stowed, mph. The maker's limits come first; these are cautious
 * stand-ins, from memory of practice.
 */
export const GUST_LIMITS = { mast: 25, dish: 45 } as const;
