/** Instants and lengths as people and programs read them: no locale, the same text on every machine. */
import { dateOfDay, MINUTES_A_DAY, two } from "./civil.ts";
import type { Instant, Interval, ZoneId } from "./units.ts";
import { isRepeated, offsetMinutes, offsetStretches } from "./zone.ts";

const local = (at: Instant, zone: ZoneId): number => at + offsetMinutes(zone, at);

/** Days since 1970-01-01 of the local date. */
export const localDay = (at: Instant, zone: ZoneId): number => Math.floor(local(at, zone) / MINUTES_A_DAY);

/** The minute that the clock on the wall shows, 0 to 1439. */
export const wallMinute = (at: Instant, zone: ZoneId): number => local(at, zone) - localDay(at, zone) * MINUTES_A_DAY;

/** Minutes of an interval at which the clock on the wall shows `first` to before `last`, both wall minutes of one day. */
export function minutesOnClock({ from, to }: Interval, zone: ZoneId, first: number, last: number): number {
  const until = (local: number): number => {
    const day = Math.floor(local / MINUTES_A_DAY);
    return day * (last - first) + Math.min(last, Math.max(first, local - day * MINUTES_A_DAY)) - first;
  };
  let minutes = 0;
  for (const one of offsetStretches(zone)) {
    const [begins, ends] = [Math.max(from, one.from), Math.min(to, one.to)];
    if (begins < ends) minutes += until(ends + one.offset) - until(begins + one.offset);
  }
  return minutes;
}

/** The local date, `2027-01-20`. */
export const dateText = (at: Instant, zone: ZoneId): string => dateOfDay(localDay(at, zone));

/** How times are written. */
export type ClockStyle = "24h" | "12h";

/** A minute of the day as a clock shows it: `04:00`, `23:05`; in the 12-hour style `4:00 am`, `12:00 pm` at noon. */
export function minuteText(minuteOfDay: number, style: ClockStyle = "24h"): string {
  const hour = Math.floor(minuteOfDay / 60);
  const minute = two(minuteOfDay % 60);
  if (style === "24h") return `${two(hour)}:${minute}`;
  return `${hour % 12 === 0 ? 12 : hour % 12}:${minute} ${hour < 12 ? "am" : "pm"}`;
}

/** An offset in minutes as `+01:00` or `−06:00`. */
export const signed = (offset: number): string => {
  const size = Math.abs(offset);
  return `${offset < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
};

/** The zone's offset at an instant, `UTC-05:00`; the letters of the tz database mislead and are never shown. */
export const offsetText = (zone: ZoneId, at: Instant): string => `UTC${signed(offsetMinutes(zone, at))}`;

/**
 * What the clock shows, `04:00` or `4:00 am`; with the offset where it shows that twice, `01:30 UTC-05:00`: between a clock
 * and a bare `-05:00` people would read a range.
 */
export function clockText(at: Instant, zone: ZoneId, style: ClockStyle = "24h"): string {
  const clock = minuteText(wallMinute(at, zone), style);
  return isRepeated(zone, at) ? `${clock} ${offsetText(zone, at)}` : clock;
}

/** ISO 8601 on the zone's clock with its offset, `2027-01-20T04:00-06:00`. */
export const isoLocal = (at: Instant, zone: ZoneId): string =>
  `${dateText(at, zone)}T${minuteText(wallMinute(at, zone))}${signed(offsetMinutes(zone, at))}`;

/** ISO 8601 in UTC, `2027-01-20T10:00Z`. */
export const isoUtc = (at: Instant): string => {
  const day = Math.floor(at / MINUTES_A_DAY);
  return `${dateOfDay(day)}T${minuteText(at - day * MINUTES_A_DAY)}Z`;
};

/** The zone's place as people say it: `New York` for `America/New_York`, `Knox` for `America/Indiana/Knox`. */
export const cityText = (zone: ZoneId): string => zone.slice(zone.lastIndexOf("/") + 1).replaceAll("_", " ");

/** A length of time, `8 h 15 min`, `2 h`, `0 min`; with a minus sign before a negative one. */
export function lengthText(length: number): string {
  const size = Math.abs(length);
  const [hours, rest] = [Math.floor(size / 60), size % 60];
  const parts = [...(hours > 0 ? [`${hours} h`] : []), ...(rest > 0 || hours === 0 ? [`${rest} min`] : [])];
  return `${length < 0 ? "−" : ""}${parts.join(" ")}`;
}
