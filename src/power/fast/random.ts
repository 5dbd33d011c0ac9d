/** Random numbers that are the same on every machine, for settling what is equal and for shaking a search. */
export interface Random {
  /** A number from 0 to below 1. */
  next(): number;
  /** A whole number from 0 to below `count`. */
  below(count: number): number;
  /** The items in a random order. */
  shuffle<T>(items: readonly T[]): T[];
}

/** A generator of the Weyl-sequence kind with a 32-bit mixing step, from a fixed seed. */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 4294967296;
  };
  const below = (count: number): number => Math.floor(next() * count);
  const shuffle = <T>(items: readonly T[]): T[] => {
    const left = [...items];
    return items.flatMap(() => left.splice(below(left.length), 1));
  };
  return { next, below, shuffle };
}
