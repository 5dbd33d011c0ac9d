/**
 * Instants and lengths of time as types of their own.
 *
 * An `Instant` is a count of whole minutes since 1970-01-01T00:00Z; `Minutes` is an elapsed length. Both are plain
 * integers at run time, so the engines compute with them directly; the brand keeps one from standing in for the other.
 */
declare const unit: unique symbol;

/** A whole minute on the time line, counted from 1970-01-01T00:00Z. */
export type Instant = number & { readonly [unit]: "instant" };

/** An elapsed length in whole minutes; never a difference of wall clocks. */
export type Minutes = number & { readonly [unit]: "minutes" };

/** A named time zone of the tz database that the zone table knows. */
export type ZoneId = string & { readonly [unit]: "zone" };

/** Brands a whole number of minutes since the epoch. Throws a RangeError for anything but an integer: a bug, not input. */
export function instant(minutesSinceEpoch: number): Instant {
  if (!Number.isSafeInteger(minutesSinceEpoch)) throw new RangeError(`not a whole minute: ${minutesSinceEpoch}`);
  return minutesSinceEpoch as Instant;
}

/** Brands a whole number of minutes as a length. Throws a RangeError for anything but an integer: a bug, not input. */
export function minutes(length: number): Minutes {
  if (!Number.isSafeInteger(length)) throw new RangeError(`not a whole number of minutes: ${length}`);
  return length as Minutes;
}

/** The instant `length` minutes after `at` (before it where negative). */
export const after = (at: Instant, length: number): Instant => instant(at + length);

/** The minutes from `from` to `to`; negative where `to` is earlier. */
export const between = (from: Instant, to: Instant): Minutes => minutes(to - from);

/** A half-open stretch of time, `from` inside, `to` outside. */
export interface Interval {
  readonly from: Instant;
  readonly to: Instant;
}

/** The minutes that two half-open intervals share, 0 where they do not meet. */
export const overlap = (a: Interval, b: Interval): Minutes =>
  minutes(Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from)));

/** Neighbours that touch or overlap as one, in the order of their beginnings; with `alike` only those that are. */
export function joined<T extends Interval>(stretches: Iterable<T>, alike: (a: T, b: T) => boolean = () => true): T[] {
  const row: T[] = [];
  for (const next of stretches) {
    const last = row.at(-1);
    if (last === undefined || next.from > last.to || !alike(last, next)) row.push(next);
    else if (next.to > last.to) row[row.length - 1] = { ...last, to: next.to };
  }
  return row;
}

/** The minutes of a half-open interval. */
export const lengthOf = ({ from, to }: Interval): number => to - from;
