/** The way of one pack through the day. */

/** Where one pack is in each interval. */
export interface PackPath {
  readonly pack: number;
  readonly spots: Int16Array;
  readonly moves: number;
  /** Smallest charge above the reserve after a use; Infinity where it powers nothing. */
  readonly marginWh: number;
}

/** A path and its value. */
export interface BestPath extends PackPath {
  readonly value: number;
}
