/**
 * A road nobody has stated: straight line × circuity ÷ speed, with the range that the circuity leaves open.
 *
 * Circuity (road length over straight line) falls with distance (Giacomin & Levinson); the bands are ours, inside the
 * published means: Newell 1.2 and O'Sullivan & Morrall 1.21-1.23 in cities, Kim et al. 1.26 (1.218-1.435), Swiss
 * microcensus 1.47-1.54 with many short trips, Ballou et al. 1.20-1.30 for the United States and Canada.
 * The speeds are door to door on open roads: common practice, no source; a place's `roadSpeed` replaces them.
 */
interface Band {
  /** Straight-line km below which the band holds; the last one has no end. */
  readonly belowKm: number;
  readonly circuity: number;
  readonly low: number;
  readonly high: number;
  readonly speedKmh: number;
}

const FAR: Band = { belowKm: Number.POSITIVE_INFINITY, circuity: 1.2, low: 1.1, high: 1.35, speedKmh: 85 };

export const BANDS: readonly Band[] = [
  { belowKm: 10, circuity: 1.45, low: 1.2, high: 2.0, speedKmh: 40 },
  { belowKm: 50, circuity: 1.35, low: 1.15, high: 1.7, speedKmh: 60 },
  { belowKm: 300, circuity: 1.25, low: 1.12, high: 1.5, speedKmh: 75 },
  FAR,
];

export interface Estimate {
  readonly km: number;
  readonly likelyMinutes: number;
  readonly range: { readonly lowMinutes: number; readonly highMinutes: number };
}

const bandOf = (straightKm: number): Band => BANDS.find((band) => straightKm < band.belowKm) ?? FAR;

const minutesFor = (km: number, speedKmh: number): number => (km / speedKmh) * 60;

/** Estimates a road from the straight line between its ends, km; `speedKmh` null takes the band's speed. */
export function estimateFromStraight(straightKm: number, speedKmh: number | null): Estimate {
  const band = bandOf(straightKm);
  const speed = speedKmh ?? band.speedKmh;
  return {
    km: straightKm * band.circuity,
    likelyMinutes: minutesFor(straightKm * band.circuity, speed),
    range: {
      lowMinutes: minutesFor(straightKm * band.low, speed),
      highMinutes: minutesFor(straightKm * band.high, speed),
    },
  };
}

/** Share by which a time from a stated length may be off either way: the rural buffer index. */
const SPEED_SPREAD = 0.15;

/** Estimates the time of a road whose length is stated, km; only the speed is then open. */
export function estimateFromRoad(km: number, speedKmh: number | null): Estimate {
  const likelyMinutes = minutesFor(km, speedKmh ?? bandOf(km / bandOf(km).circuity).speedKmh);
  const range = { lowMinutes: likelyMinutes / (1 + SPEED_SPREAD), highMinutes: likelyMinutes * (1 + SPEED_SPREAD) };
  return { km, likelyMinutes, range };
}
