/** Shares as they are shown: cut, never rounded up to a better chance than there is or to a certainty. */

/** A share of 0 to 1 with so many decimals. */
export function cutShare(share: number, decimals: number): number {
  if (share >= 1) return 1;
  const scale = 10 ** decimals;
  // What a sum of floats lacks of a whole step is not cut off.
  return Math.min(Math.floor(share * scale + 1e-9), scale - 1) / scale;
}

const whole = (share: number): number => Math.round(cutShare(share, 2) * 100);

/** `86 %`. */
export const percent = (share: number): string => `${whole(share)} %`;

/** `86 to 92 %` between two bounds, `99 %` where both read the same, `at least 86 %` where there is no upper one. */
export function percentRange(least: number, most: number | null): string {
  if (most === null) return `at least ${percent(least)}`;
  return whole(least) === whole(most) ? percent(least) : `${whole(least)} to ${percent(most)}`;
}
