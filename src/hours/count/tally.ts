/** Running totals over a reading: how many minutes of something lie before an instant, and when a total is reached. */
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { Count, RuleSet } from "../rules/rule.ts";
import type { SpanReading, StatusStretch } from "./reading.ts";

/** Minutes counted up to an instant, and when a number of them is reached. */
export interface Tally {
  /** Minutes counted before `at`. */
  upTo(at: Instant): number;
  /** The first instant at or after `from` by which `minutes` more are counted; null where the record ends before. */
  reaches(from: Instant, minutes: number): Instant | null;
  /** The pieces of [from, to) in which the counted thing happens. */
  within(from: Instant, to: Instant): readonly Interval[];
}

/** The first index in `items` whose `to` lies after `at`; `items` are in order. */
export function indexAfter(items: readonly Interval[], at: Instant): number {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((items[middle]?.to ?? at) <= at) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Totals over intervals in order that do not overlap. */
export function tallyOf(items: readonly Interval[]): Tally {
  const sums = [0];
  for (const { from, to } of items) sums.push((sums.at(-1) ?? 0) + to - from);
  const upTo = (at: Instant): number => {
    const i = indexAfter(items, at);
    const item = items[i];
    return (sums[i] ?? 0) + (item === undefined ? 0 : Math.max(0, at - item.from));
  };
  return {
    upTo,
    reaches(from, minutes) {
      if (minutes <= 0) return from;
      let left = minutes;
      for (let i = indexAfter(items, from); i < items.length; i++) {
        const item = items[i];
        if (item === undefined) break;
        const start = Math.max(item.from, from);
        if (item.to - start >= left) return instant(start + left);
        left -= item.to - start;
      }
      return null;
    },
    within(from, to) {
      const found: Interval[] = [];
      for (let i = indexAfter(items, from); i < items.length; i++) {
        const item = items[i];
        if (item === undefined || item.from >= to) break;
        found.push({ from: instant(Math.max(item.from, from)), to: instant(Math.min(item.to, to)) });
      }
      return found;
    },
  };
}

/** Free stretches shorter than this are no free block of a day (SOR/2005-313 s. 14(2)). */
const BLOCK = 30;

function busyPieces(reading: SpanReading): Interval[] {
  const pieces: Interval[] = [];
  const last = reading.stretches.at(-1);
  let from = reading.stretches[0]?.from;
  if (from === undefined || last === undefined) return [];
  for (const rest of reading.rests) {
    // A block still running at the end of the record may yet become long enough.
    if (rest.to - rest.from < BLOCK && rest.to !== last.to) continue;
    if (rest.from > from) pieces.push({ from, to: rest.from });
    from = rest.to;
  }
  if (last.to > from) pieces.push({ from, to: last.to });
  return pieces;
}

/** What each count adds up, for one rule set. */
export function tallies(reading: SpanReading, rules: RuleSet): Record<Count, Tally> {
  const where = (joins: (stretch: StatusStretch) => boolean): Tally => tallyOf(reading.stretches.filter(joins));
  const first = reading.stretches[0];
  const last = reading.stretches.at(-1);
  const whole = first === undefined || last === undefined ? [] : [{ from: first.from, to: last.to }];
  return {
    elapsed: tallyOf(whole),
    duty: where(({ status }) => rules.duty.includes(status)),
    driving: where(({ status }) => status === "driving"),
    busy: tallyOf(busyPieces(reading)),
  };
}
