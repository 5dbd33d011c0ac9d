/**
 * How much longer a drive takes on a bad road surface or in bad sight, from published speed reductions.
 *
 * A plan's `road` is the state of the surface, and crews drive arterial roads, so FHWA's arterial figures are taken:
 * 10-25 % slower on wet, 30-40 % on snowy or slushy pavement (FHWA Road Weather Management). Ice takes the slower end of
 * the latter. Fog is FHWA's low visibility, 10-12 % (from memory). Time grows by 1 / (1 − reduction).
 */
import { leastOf } from "../lists.ts";
import type { Id, RoadState, Weather } from "../plan/plan.ts";
import type { Interval } from "../time/units.ts";

const SPEED_REDUCTION: Readonly<Record<RoadState, number>> = {
  dry: 0,
  wet: 0.1,
  "heavy-rain": 0.25,
  snow: 0.3,
  "heavy-snow": 0.4,
  ice: 0.4,
  fog: 0.12,
};

/** Published buffer indices of a rural road (ours within FHWA's range, from memory): how far the 95 % point is over the mean. */
const BUFFER_INDEX = { firm: 0.15, slippery: 0.25 } as const;

const SLIPPERY: ReadonlySet<RoadState> = new Set(["snow", "heavy-snow", "ice"]);

/** What the weather does to a leg. */
export interface RoadWeather {
  /** Null where no row says. */
  readonly state: RoadState | null;
  /** Multiplies likely and bad times, 1 in the dry. */
  readonly factor: number;
  /** The buffer index that stands in for a missing `bad`. */
  readonly bufferIndex: number;
}

/** No weather at all: the first timing of a day. */
export const DRY: RoadWeather = { state: null, factor: 1, bufferIndex: BUFFER_INDEX.firm };

/** The multiplier of drive times, 1 / (1 − speed reduction), on a road in this state. */
export const timeFactor = (state: RoadState): number => 1 / (1 - SPEED_REDUCTION[state]);

const holds = (row: Weather, during: Interval, ends: readonly Id[]): boolean =>
  (row.from === null || row.from < during.to) &&
  (row.to === null || row.to > during.from) &&
  (row.places.length === 0 || row.places.some((place) => ends.includes(place)));

const roadWeather = (state: RoadState): RoadWeather => ({
  state,
  factor: timeFactor(state),
  bufferIndex: SLIPPERY.has(state) ? BUFFER_INDEX.slippery : BUFFER_INDEX.firm,
});

const isWorse = (a: RoadWeather, b: RoadWeather): boolean =>
  a.factor > b.factor || (a.factor === b.factor && a.bufferIndex > b.bufferIndex);

/**
 * The worst row of the plan's weather that overlaps a leg.
 *
 * A row counts where its time meets `during` (half-open) and its places are empty or name an end of the leg.
 */
export function weatherOn(rows: readonly Weather[], during: Interval, ends: readonly Id[]): RoadWeather {
  let worst = DRY;
  for (const row of rows) {
    if (row.road === null || !holds(row, during, ends)) continue;
    const candidate = roadWeather(row.road);
    if (worst.state === null || isWorse(candidate, worst)) worst = candidate;
  }
  return worst;
}

/** The lowest stated temperature of the rows that overlap a leg, °C; null where none is stated. */
export const coldestOn = (rows: readonly Weather[], during: Interval, ends: readonly Id[]): number | null =>
  leastOf(rowsOn(rows, during, ends).flatMap(({ celsius }) => celsius ?? []));

/** The rows that overlap a leg and name an end of it or no place. */
export const rowsOn = (rows: readonly Weather[], during: Interval, ends: readonly Id[]): readonly Weather[] =>
  rows.filter((row) => holds(row, during, ends));
