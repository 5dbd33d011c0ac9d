/** What many folders do with a list: groups, sums, the least and the most of it; and a value that is made when it is first needed. */

/** A list that holds something. */
export type Some<T> = readonly [T, ...T[]];

/** Items with the same key together, groups and items in the order of the list. */
export function groupBy<T, K>(items: Iterable<T>, keyOf: (item: T) => K): ReadonlyMap<K, Some<T>> {
  const groups = new Map<K, [T, ...T[]]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return groups;
}

/** The sum of a number of each item. */
export function sumOf<T>(items: Iterable<T>, of: (item: T) => number): number {
  let sum = 0;
  for (const item of items) sum += of(item);
  return sum;
}

/** The smallest of some numbers; null of none. */
export const leastOf = <N extends number>(values: readonly N[]): N | null =>
  values.reduce<N | null>((least, one) => (least === null || one < least ? one : least), null);

/** The largest of some numbers; null of none. */
export const mostOf = <N extends number>(values: readonly N[]): N | null =>
  values.reduce<N | null>((most, one) => (most === null || one > most ? one : most), null);

/** Gives a value that is made at the first call: a pattern of any script's letters takes as long to make as ten keys to be read. */
export function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
