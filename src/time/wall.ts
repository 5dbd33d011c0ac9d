/**
 * From a clock on the wall to the instant it shows: once, twice where the clocks were put back, never where they were
 * put forward or the calendar left a day out. The only way from local time to instants.
 */
import { dayOfDate, MINUTES_A_DAY } from "./civil.ts";
import { type Instant, instant, type ZoneId } from "./units.ts";
import { inTable, type OffsetStretch, offsetStretches, stretchAt } from "./zone.ts";

/** What a time on a local clock means: one instant, two, or none. */
export type LocalReading =
  | { readonly kind: "once"; readonly at: Instant }
  | { readonly kind: "twice"; readonly earlier: Instant; readonly later: Instant }
  /** Clocks jump over it at `change`. `earlier` and `later` are the readings by the offset after and before the jump. */
  | { readonly kind: "never"; readonly change: Instant; readonly earlier: Instant; readonly later: Instant }
  /** The zone table does not reach this date; `asUtc` reads the wall clock as one of UTC. */
  | { readonly kind: "outside"; readonly asUtc: Instant };

/** No zone is further than this from UTC, nor jumps further: what can show a wall time lies within it. */
const REACH_MINUTES = 26 * 60;

/**
 * When clocks in `zone` show `minuteOfDay` (whole; 1440 is the midnight that ends the day, below 0 and above it the
 * days before and after) on a date like `2027-01-20`. Throws a RangeError for a text that is no date: check it first.
 */
export function resolveLocal(date: string, minuteOfDay: number, zone: ZoneId): LocalReading {
  const day = dayOfDate(date);
  if (day === null || !Number.isInteger(minuteOfDay)) throw new RangeError(`not a local time: ${date} ${minuteOfDay}`);
  const wall = day * MINUTES_A_DAY + minuteOfDay;
  if (!inTable(wall)) return { kind: "outside", asUtc: instant(wall) };
  const all = offsetStretches(zone);
  const near = all.slice(stretchAt(all, wall - REACH_MINUTES), stretchAt(all, wall + REACH_MINUTES) + 1);
  const shown = near.flatMap((part) => {
    const at = wall - part.offset;
    return at >= part.from && at < part.to ? [instant(at)] : [];
  });
  const [earlier, later] = shown;
  if (earlier === undefined) return skipped(wall, near);
  return later === undefined ? { kind: "once", at: earlier } : { kind: "twice", earlier, later };
}

/** The jump over `wall`: at the first stretch that begins too late to show it. */
function skipped(wall: number, near: readonly OffsetStretch[]): LocalReading {
  const index = near.findIndex((part) => wall - part.offset < part.from);
  const [before, jump] = [near[index - 1], near[index]];
  if (before === undefined || jump === undefined) throw new RangeError(`no stretch shows minute ${wall}`);
  return {
    kind: "never",
    change: instant(jump.from),
    earlier: instant(wall - jump.offset),
    later: instant(wall - before.offset),
  };
}

/** When something begins that begins as clocks show `minuteOfDay`: the earlier of two, the jump where none show it. */
export function startOnClock(date: string, minuteOfDay: number, zone: ZoneId): Instant {
  const reading = resolveLocal(date, minuteOfDay, zone);
  switch (reading.kind) {
    case "once":
      return reading.at;
    case "twice":
      return reading.earlier;
    case "never":
      return reading.change;
    case "outside":
      // Outside the table there are no clock changes to know of: the day is cut on UTC.
      return reading.asUtc;
  }
}
