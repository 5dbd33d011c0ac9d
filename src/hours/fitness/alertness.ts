/**
 * The three-process model's S + C as an index: 14 is high, 7 the threshold of sleepiness, 3 extreme.
 *
 * Parameters as printed for Ingre and others, PLoS ONE 9:e108679, 2014 (in Bowden and Ragsdale). Two doubts stand: the
 * level `bl` is 12.5 in the table read and 12.2 from memory; the sign of the U term's offset. So U and the sleepiness
 * scale made from it are left out. A group average, no test of a person.
 */
const LOWER = 2.4;
const UPPER = 14.3;
const WAKE_RATE = -0.0353;
const SLEEP_RATE = -0.38135645;
const LINEAR_BELOW = 12.5;
const SWING = 2.5;
const PEAK_HOUR = 16.8;

/** S after `hours` awake, from `atWaking`. */
export const awakeS = (atWaking: number, hours: number): number =>
  LOWER + (atWaking - LOWER) * Math.exp(WAKE_RATE * hours);

/** S after `hours` of sleep, from `atBed`: linear while low, then ever slower towards the ceiling. */
export function asleepS(atBed: number, hours: number): number {
  const rate = -SLEEP_RATE * (UPPER - LINEAR_BELOW);
  const linear = atBed >= LINEAR_BELOW ? 0 : Math.min(hours, (LINEAR_BELOW - atBed) / rate);
  const from = atBed >= LINEAR_BELOW ? atBed : atBed + rate * linear;
  return UPPER - (UPPER - from) * Math.exp(SLEEP_RATE * (hours - linear));
}

/** C on a clock, `hour` 0 to 24. */
export const circadian = (hour: number): number => SWING * Math.cos((2 * Math.PI * (hour - PEAK_HOUR)) / 24);

/** S in the evening of a usual day: 16 hours after waking at 14. */
const USUAL_BEDTIME_S = awakeS(14, 16);

/** S + C that long after waking from that much sleep before a usual evening; `minuteOfDay` on the local clock. */
export const alertness = (sleepMinutes: number, awakeMinutes: number, minuteOfDay: number): number =>
  awakeS(asleepS(USUAL_BEDTIME_S, sleepMinutes / 60), awakeMinutes / 60) + circadian(minuteOfDay / 60);
