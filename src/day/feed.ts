/** How long a feed takes. */

const BITS_PER_BYTE = 8;
const SECONDS_PER_MINUTE = 60;
/** Digits that count: what binary fractions add behind them (16.000000000000004 is 16) would begin a minute of its own. */
const DIGITS = 12;

/** Whole minutes that a size in megabytes needs at a rate in Mbit/s, rounded up. */
export function feedMinutes(megabytes: number, megabits: number): number {
  const minutes = (megabytes * BITS_PER_BYTE) / megabits / SECONDS_PER_MINUTE;
  return Math.ceil(Number(minutes.toPrecision(DIGITS)));
}
