/**
 * A road no one has stated: straight line × circuity ÷ speed, with the range that the circuity leaves open.
 *
 * Circuity (road length over straight line) falls with distance (Giacomin & Levinson); the bands are ours, inside the
 * published means: Newell 1.2 and O'Sullivan & Morrall 1.21-1.23 in cities, Kim et al. 1.26 (1.218-1.435), Swiss
 * microcensus 1.47-1.54 with many short trips, Ballou et al. 1.20-1.30 for the United States and Canada.
 * The speeds are door to door on open roads: common practice, no source; a place's `roadSpeed` replaces them.
 */
interface Band {
  /** Straight-line km at which the band ends; the last one has no end. */
  readonly belowKm: number;
  readonly circuity: number;
  readonly low: number;
  readonly high: number;
  readonly speedKmh: number;
}

/** How much longer than a straight line roads are, and how fast, by distance (km, km/h). */
export const BANDS: readonly Band[] = [
  { belowKm: 10, circuity: 1.45, low: 1.2, high: 2.0, speedKmh: 40 },
  { belowKm: 50, circuity: 1.35, low: 1.15, high: 1.7, speedKmh: 60 },
  { belowKm: 300, circuity: 1.25, low: 1.12, high: 1.5, speedKmh: 75 },
  { belowKm: Number.POSITIVE_INFINITY, circuity: 1.2, low: 1.1, high: 1.35, speedKmh: 85 },
];

/** An estimated drive: kilometres, likely minutes and their range. */
export interface Estimate {
  readonly km: number;
  readonly likelyMinutes: number;
  readonly range: { readonly lowMinutes: number; readonly highMinutes: number };
}

/** The part of a straight line that lies in each band, km. */
function partsOf(straightKm: number): readonly (readonly [Band, number])[] {
  let from = 0;
  return BANDS.map((band) => {
    const km = Math.max(0, Math.min(straightKm, band.belowKm) - from);
    from = Math.min(straightKm, band.belowKm);
    return [band, km] as const;
  });
}

/** Road km and minutes over the parts of a straight line, with one of the bands' circuities. */
function over(straightKm: number, circuityOf: (band: Band) => number, speedKmh: number | null) {
  let [km, minutes] = [0, 0];
  for (const [band, part] of partsOf(straightKm)) {
    km += part * circuityOf(band);
    minutes += ((part * circuityOf(band)) / (speedKmh ?? band.speedKmh)) * 60;
  }
  return { km, minutes };
}

/**
 * Estimates a road from the straight line between its ends, km; `speedKmh` null takes the bands' speeds. Each band's
 * circuity and speed hold for the kilometres inside it, so that a longer way never takes less.
 */
export function estimateFromStraight(straightKm: number, speedKmh: number | null): Estimate {
  const likely = over(straightKm, ({ circuity }) => circuity, speedKmh);
  return {
    km: likely.km,
    likelyMinutes: likely.minutes,
    range: {
      lowMinutes: over(straightKm, ({ low }) => low, speedKmh).minutes,
      highMinutes: over(straightKm, ({ high }) => high, speedKmh).minutes,
    },
  };
}

/** Share by which a time from a stated length may be off either way: the rural buffer index. */
const SPEED_SPREAD = 0.15;

/** The straight line whose road is so long, km: the bands one after another. */
function straightOf(roadKm: number): number {
  let [left, straight, from] = [roadKm, 0, 0];
  for (const { belowKm, circuity } of BANDS) {
    const part = Math.min(left / circuity, belowKm - from);
    straight += part;
    left -= part * circuity;
    from = belowKm;
    if (left <= 0) break;
  }
  return straight;
}

/** Estimates the time of a road whose length is stated, km; only the speed is then open. */
export function estimateFromRoad(km: number, speedKmh: number | null): Estimate {
  const likelyMinutes = over(straightOf(km), ({ circuity }) => circuity, speedKmh).minutes;
  const range = { lowMinutes: likelyMinutes / (1 + SPEED_SPREAD), highMinutes: likelyMinutes * (1 + SPEED_SPREAD) };
  return { km, likelyMinutes, range };
}
