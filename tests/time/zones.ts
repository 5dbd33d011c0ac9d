/** What several tests of time share: a zone that must exist, an instant from ISO text, and an offset from the machine's Intl. */
import { DateTime } from "luxon";
import { type Instant, instant, type ZoneId, zone } from "../../src/time/index.ts";
import { offsetStretches } from "../../src/time/zone.ts";

/** The zone of this name; throws where the table has none. */
export function zoneOf(name: string): ZoneId {
  const found = zone(name);
  if (found === null) throw new Error(`no zone ${name}`);
  return found;
}

/** The instant of an ISO text, as luxon reads it; throws where it is none. */
export function at(iso: string): Instant {
  const read = DateTime.fromISO(iso, { setZone: true });
  if (!read.isValid) throw new Error(`no instant ${iso}`);
  return instant(read.toMillis() / 60_000);
}

/** The instants in (`from`, `to`] at which the zone's clocks change. */
export const changesBetween = (id: ZoneId, from: Instant, to: Instant): readonly Instant[] =>
  offsetStretches(id).flatMap((part) => (part.from > from && part.from <= to ? [instant(part.from)] : []));

const formats = new Map<string, Intl.DateTimeFormat>();

/** Minutes east of UTC by the machine's own tz data, as a reference beside ours. */
export function intlOffset(name: string, moment: number): number {
  const options = {
    timeZone: name,
    hourCycle: "h23",
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
  } as const;
  const format = formats.get(name) ?? new Intl.DateTimeFormat("en-US", { ...options, minute: "numeric" });
  formats.set(name, format);
  const parts = new Map(format.formatToParts(moment * 60_000).map((part) => [part.type, Number(part.value)]));
  const part = (type: Intl.DateTimeFormatPartTypes): number => parts.get(type) ?? Number.NaN;
  const shown = Date.UTC(part("year"), part("month") - 1, part("day"), part("hour"), part("minute"));
  return shown / 60_000 - moment;
}
