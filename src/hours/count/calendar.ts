/** Days of the record on one clock: 395.8 keeps the home terminal's, SOR/2005-313 s. 1 the hour that the carrier names. */
import { dateOfDay, type Instant, localDay, startOnClock, type ZoneId } from "../../time/index.ts";
import type { Calendar } from "./spans.ts";

/** The calendar of a zone whose days begin at `dayStarts` minutes after midnight. */
export function calendarOf(zone: ZoneId, dayStarts: number): Calendar {
  const starts = new Map<number, Instant>();
  const startOf = (day: number): Instant => {
    const known = starts.get(day);
    if (known !== undefined) return known;
    const at = startOnClock(dateOfDay(day), dayStarts, zone);
    starts.set(day, at);
    return at;
  };
  const dayOf = (at: Instant): number => {
    const local = localDay(at, zone);
    // The day is the one whose start lies at or before the instant, also where the clock changes at the cut itself.
    if (startOf(local) > at) return local - 1;
    return startOf(local + 1) <= at ? local + 1 : local;
  };
  return { dayOf, startOf };
}

/** The calendars of one zone, by the minute at which their days begin. */
export type Calendars = (dayStarts: number) => Calendar;

/** The calendars of a log's zone, by the hour at which a day begins. */
export function calendarsOf(zone: ZoneId): Calendars {
  const made = new Map<number, Calendar>();
  return (dayStarts) => {
    const calendar = made.get(dayStarts) ?? calendarOf(zone, dayStarts);
    made.set(dayStarts, calendar);
    return calendar;
  };
}
