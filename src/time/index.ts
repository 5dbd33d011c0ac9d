/** Time as the rest of the program sees it: instants, zones and clocks; nothing here depends on machine, locale or today. */
export {
  civilOfDay,
  dateOfDay,
  dayNumber,
  dayOfDate,
  longDateOf,
  MINUTES_A_DAY,
  shortDateOf,
  weekdayOf,
} from "./civil.ts";
export {
  type ClockStyle,
  cityText,
  clockText,
  dateText,
  isoLocal,
  isoUtc,
  lengthText,
  localDay,
  minutesOnClock,
  minuteText,
  offsetText,
  wallMinute,
} from "./format.ts";
export { isWinterAlone, zonesLike } from "./suggest.ts";
export type { Instant, Interval, ZoneId } from "./units.ts";
export { after, between, instant } from "./units.ts";
export { type LocalReading, resolveLocal, startOnClock } from "./wall.ts";
export { inTable, offsetMinutes, tableSpan, zone, zoneNames, zoneTableVersion } from "./zone.ts";
