/** Reads the ISO 8601 instants that plans and logs hold: a calendar date and a time of day with an offset. */
import { dayOfDate, MINUTES_A_DAY } from "./civil.ts";
import { type Instant, instant } from "./units.ts";
import { inTable } from "./zone.ts";

export interface IsoInstant {
  readonly at: Instant;
  /** Minutes east of UTC as written; 0 for `Z`. */
  readonly offset: number;
}

const FORM = /^(\d{4}-\d{2}-\d{2})[Tt ](\d{2}):(\d{2})(?::00(?:\.0+)?)?(?:([Zz])|([+-])(\d{2}):?(\d{2})?)$/;

/**
 * Reads `2027-01-20T04:00-06:00`, `2027-01-20T10:00Z`, `…:00:00+0530`; `24:00` is the midnight that ends the day. Null for
 * anything else: no offset, seconds other than zero, no date of the calendar, a date the zone table does not reach.
 */
export function readIso(text: string): IsoInstant | null {
  const [, date = "", hours = "", minute = "", , sign, ahead = "0", rest = "0"] = FORM.exec(text) ?? [];
  const day = dayOfDate(date);
  const [hour, past, east, part] = [Number(hours), Number(minute), Number(ahead), Number(rest)];
  if (day === null || past > 59 || hour > 24 || (hour === 24 && past > 0) || east > 15 || part > 59) return null;
  const offset = east === 0 && part === 0 ? 0 : (sign === "-" ? -1 : 1) * (east * 60 + part);
  const at = day * MINUTES_A_DAY + hour * 60 + past - offset;
  return inTable(at) ? { at: instant(at), offset } : null;
}
