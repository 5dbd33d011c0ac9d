/** Days of the record on one clock: 395.8 keeps the home terminal's, SOR/2005-313 s. 1 the hour that the carrier names. */
import { dateOfDay, type Instant, instant, localDay, resolveLocal, wallMinute, type ZoneId } from "../time/index.ts";
import type { Calendar } from "./spans.ts";

function startOnClock(day: number, minute: number, zone: ZoneId): Instant {
  const reading = resolveLocal(dateOfDay(day), minute, zone);
  switch (reading.kind) {
    case "once":
      return reading.at;
    case "twice":
      return reading.earlier;
    case "never":
      return reading.change;
    default:
      return outside(day, minute);
  }
}

/** Outside the zone table there are no clock changes to know of: the day is cut on UTC. */
const outside = (day: number, minute: number): Instant => instant(day * 1440 + minute);

/** The calendar of a zone whose days begin at `dayStarts` minutes after midnight. */
export function calendarOf(zone: ZoneId, dayStarts: number): Calendar {
  const starts = new Map<number, Instant>();
  const startOf = (day: number): Instant => {
    const known = starts.get(day);
    if (known !== undefined) return known;
    const at = startOnClock(day, dayStarts, zone);
    starts.set(day, at);
    return at;
  };
  const dayOf = (at: Instant): number => {
    const local = localDay(at, zone) - (wallMinute(at, zone) < dayStarts ? 1 : 0);
    // A clock change at the cut itself: the day is the one whose start lies at or before the instant.
    if (startOf(local) > at) return local - 1;
    return startOf(local + 1) <= at ? local + 1 : local;
  };
  return { dayOf, startOf };
}
