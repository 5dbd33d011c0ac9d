/**
 * What a measurement looks like: a file `tests/bench/<topic>.bench.ts` exports `benches`, and `npm run bench` runs each in turn
 * with the yardstick of the same run, so that figures of different machines and hours can be compared.
 */

export interface Bench {
  /** What is measured, in words. */
  readonly name: string;
  /** How many of its own units (plans, days, lookups) one `run` handles. */
  readonly units: number;
  /** Whether to print units a second as well. */
  readonly rate?: true;
  /** Does the work once; what it returns is kept, so that it cannot be optimised away. */
  run(): unknown;
}

/** A fixed amount of integer work in an array, about a millisecond: what every figure is a multiple of. */
export function yardstick(): number {
  const counts = new Uint32Array(4096);
  let seed = 1;
  for (let i = 0; i < 300_000; i++) {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    const at = seed & 4095;
    counts[at] = (counts[at] ?? 0) + 1;
  }
  return counts.reduce((most, count) => Math.max(most, count), 0);
}
