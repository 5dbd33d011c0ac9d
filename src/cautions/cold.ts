/**
 * Wind chill and frostbite without a cliff: never milder with more wind or at a lower temperature.
 *
 * The index is the 2001 formula of Canada and the United States, in °C and km/h. Below 5 km/h Environment Canada's line
 * from the air's own temperature takes its place; without wind the air's temperature is the index.
 */
export const fahrenheit = (celsius: number): number => celsius * 1.8 + 32;
/** Degrees Celsius of degrees Fahrenheit. */
export const celsiusOfFahrenheit = (degreesFahrenheit: number): number => (degreesFahrenheit - 32) / 1.8;

/** The published tables end here, km/h: beyond it the index is at least as cold as printed. */
export const STRONGEST_IN_TABLE = 100;

/** From here on, °C, wind chill is not defined. */
const WARMEST = 10;

/**
 * Wind chill in °F (National Weather Service, 2001); null above 50 °F or below 3 mph, where it is not defined. A chart
 * copy in wide use labels its -15 °F row "-10"; the formula is what counts.
 */
export function windChill(degreesFahrenheit: number, mph: number): number | null {
  if (degreesFahrenheit > 50 || mph < 3) return null;
  const v = mph ** 0.16;
  return 35.74 + 0.6215 * degreesFahrenheit - 35.75 * v + 0.4275 * degreesFahrenheit * v;
}

/** How cold it feels, °C, by air temperature in °C and wind in km/h; the air's own where wind chill says nothing colder. */
export function coldIndex(air: number, kmh: number): number {
  if (air >= WARMEST || kmh <= 0) return air;
  if (kmh < 5) return Math.min(air, air + ((-1.59 + 0.1345 * air) / 5) * kmh);
  const v = Math.min(kmh, STRONGEST_IN_TABLE) ** 0.16;
  const lightest = air + (-1.59 + 0.1345 * air);
  return Math.min(air, lightest, 13.12 + 0.6215 * air - 11.37 * v + 0.3965 * air * v);
}

/**
 * Minutes until one person in twenty has frostbite (Ducharme and Brajkovic; from memory). Null outside its range: colder
 * than -15 °C, with 25 to 80 km/h of wind.
 */
export function frostbiteMinutes(degreesCelsius: number, kmh: number): number | null {
  if (degreesCelsius >= -15 || kmh < 25 || kmh > 80) return null;
  return (-24.5 * (0.667 * kmh + 4.8) + 2111) * (-4.8 - degreesCelsius) ** -1.668;
}

/**
 * Environment Canada's bands of the index, each with its shorter figure in minutes; 1 stands for "less than 2". The
 * bands are of whole degrees, so each begins half a degree before its number.
 */
const BANDS = [
  { from: -27.5, minutes: 10 },
  { from: -39.5, minutes: 5 },
  { from: -47.5, minutes: 2 },
  { from: -54.5, minutes: 1 },
] as const;

/** Sustained wind above which skin freezes as in the next colder band, km/h. */
const QUICKER_ABOVE = 50;

function bandMinutes(index: number, kmh: number): number | null {
  const band = BANDS.findLastIndex(({ from }) => index <= from);
  if (band < 0) return null;
  return BANDS[Math.min(BANDS.length - 1, kmh > QUICKER_ABOVE ? band + 1 : band)]?.minutes ?? null;
}

/** Frostbite later than this is not mentioned, minutes. */
const LATEST = 30;

/**
 * Minutes in which bare skin may freeze: the smaller of the formula (its last figure beyond 80 km/h) and the band's
 * shorter figure; 1 means less than two. Null above both.
 */
export function frostbiteWithin(air: number, kmh: number): number | null {
  const formula = frostbiteMinutes(air, Math.min(kmh, 80));
  const band = bandMinutes(coldIndex(air, kmh), kmh);
  const least = Math.min(formula ?? Number.POSITIVE_INFINITY, band ?? Number.POSITIVE_INFINITY);
  return least > LATEST ? null : Math.max(1, least);
}
