/** From written times to instants: on the control room's clock, a place's, a label's or a zone's. */
import type { Facts } from "../../findings/finding.ts";
import { nearest } from "../../findings/nearest.ts";
import { dateOfDay, dayNumber, dayOfDate, weekdayOf } from "../../time/civil.ts";
import { isoLocal } from "../../time/format.ts";
import { isWinterAlone, spokenZone, zonesLike } from "../../time/suggest.ts";
import { type Instant, instant, type ZoneId } from "../../time/units.ts";
import { resolveLocal } from "../../time/wall.ts";
import { inTable, zone } from "../../time/zone.ts";
import { localNowhere, timeBad, timeFar, timeOutside, timeSkipped, timeTwice, zoneUnknown } from "../findings.ts";
import { mistaken, type Parsed, parsed } from "../values/parsed.ts";
import { weekdayApart } from "../values/signs.ts";
import { parseTime, type WrittenTime } from "../values/time.ts";

/** What a written time is read against. */
export interface Clocks {
  /** The plan's `date`. */
  readonly date: string;
  readonly desk: ZoneId;
  readonly labels: ReadonlyMap<string, ZoneId>;
  /** Days that the plan runs on after its date. */
  readonly untilDays: number;
}

/** How many days before a plan begins, and after it ends, a time in it may lie. */
export interface DayReach {
  readonly before: number;
  readonly after: number;
}

/** A plan is of a day: a week on either side is more than anything in it takes. */
export const OF_THE_DAY: DayReach = { before: 7, after: 7 };

/** What went before: as far back as a chain of days may go. */
export const BEFORE_THE_DAY: DayReach = { before: 45, after: 7 };

const KNOWN_YEARS = "2000 to 2037";

/** The instant a text names. `local` is the zone of the place where it happens, null where there is no place. */
export function parseInstant(
  text: string,
  clocks: Clocks,
  local: ZoneId | null,
  reach: DayReach = OF_THE_DAY,
): Parsed<Instant> {
  const fix = onWeekday(text, clocks);
  if (fix !== null) return mistaken((c) => timeBad.raise({ text, fix }, c));
  const time = parseTime(text);
  if (!time.ok) return time;
  const found = resolve(time.value, clocks, local);
  return found.ok ? (farFrom(time.value, clocks, reach) ?? found) : found;
}

/** `"07:00 +1d"` for `07:00 Thu` in a plan of a Wednesday, whose day before is `-1d`; null for a time without a weekday. */
function onWeekday(text: string, { date, labels }: Clocks): string | null {
  const apart = weekdayApart(text.trim());
  if (apart === null || [...labels.keys()].some((label) => text.trim().endsWith(label))) return null;
  const first = dayNumber(date);
  const days =
    [0, 1, 2, 3, 4, 5, -1].find(
      (n) =>
        weekdayOf(first + n)
          .slice(0, 3)
          .toLowerCase() === apart.weekday,
    ) ?? 0;
  const made = `${apart.rest}${days === 0 ? "" : ` ${days < 0 ? "-" : "+"}${Math.abs(days)}d`}`;
  return parseTime(made).ok ? `"${made}"` : null;
}

/** The mistake of a time that lies too far from the plan's days; null for one that does not. */
function farFrom(time: WrittenTime, { date, untilDays }: Clocks, reach: DayReach): Parsed<never> | null {
  const first = dayNumber(date);
  const inReach = (day: number): boolean => day >= first - reach.before && day <= first + untilDays + reach.after;
  const day = dayNumber(time.date ?? date) + time.days;
  if (inReach(day)) return null;
  const facts = { text: time.text, days: day - first, date, near: nearDate(time, date, inReach) };
  return mistaken((c) => timeFar.raise(facts, c));
}

/** The written time in the year of the plan, or the one beside it, where that is in reach; else on the plan's date. */
function nearDate({ text, date }: WrittenTime, plan: string, inReach: (day: number) => boolean): string | null {
  if (date === null) return null;
  const year = Number(plan.slice(0, 4));
  const meant = [year, year - 1, year + 1]
    .map((one) => `${one}${date.slice(4)}`)
    .find((one) => {
      // 29 February is in one year of four.
      const day = dayOfDate(one);
      return day !== null && inReach(day);
    });
  return text.replace(date, meant ?? plan);
}

function resolve(time: WrittenTime, clocks: Clocks, local: ZoneId | null): Parsed<Instant> {
  const day = dayNumber(time.date ?? clocks.date) + time.days;
  if (time.clock.kind === "offset") {
    const at = day * 1440 + time.minute - time.clock.minutes;
    return inTable(at) ? parsed(instant(at)) : outside(time.text);
  }
  const on = clockZone(time, clocks, local);
  return on.ok ? onClock(time, day, on.value) : on;
}

const outside = (text: string): Parsed<never> => mistaken((c) => timeOutside.raise({ text, years: KNOWN_YEARS }, c));

function clockZone({ text, clock }: WrittenTime, clocks: Clocks, local: ZoneId | null): Parsed<ZoneId> {
  switch (clock.kind) {
    case "desk":
    case "offset":
      return parsed(clocks.desk);
    case "local":
      return local === null ? mistaken((c) => localNowhere.raise({ text }, c)) : parsed(local);
    case "named": {
      const label = clocks.labels.get(clock.name);
      if (label !== undefined) return parsed(label);
      const words = new Map<string, ZoneId | null>(clocks.labels);
      if (local !== null) words.set("local", null);
      return parseZone(clock.name, words, (near) => text.replace(clock.name, near));
    }
  }
}

function onClock({ text, minute }: WrittenTime, day: number, on: ZoneId): Parsed<Instant> {
  const found = resolveLocal(dateOfDay(day), minute, on);
  switch (found.kind) {
    case "once":
      return parsed(found.at);
    case "twice": {
      const facts = { text, zone: on, earlier: isoLocal(found.earlier, on), later: isoLocal(found.later, on) };
      return mistaken((c) => timeTwice.raise(facts, c));
    }
    case "never": {
      const facts = { text, zone: on, before: isoLocal(found.earlier, on), after: isoLocal(found.later, on) };
      return mistaken((c) => timeSkipped.raise(facts, c));
    }
    case "outside":
      return outside(text);
  }
}

/**
 * A zone of the tz database. `labels` are offered where the name is near to one, but not for a spoken name of another zone:
 * `PT` is no slip of `ET`. `whole` puts a name where it would stand.
 */
export function parseZone(
  text: string,
  labels: ReadonlyMap<string, ZoneId | null> = new Map(),
  whole: (near: string) => string = (near) => near,
): Parsed<ZoneId> {
  const found = isWinterAlone(text) ? null : zone(text);
  if (found !== null) return parsed(found);
  const spoken = spokenZone(text);
  const same = [...labels].find(([, labelled]) => labelled === spoken)?.[0];
  const near = spoken === null ? nearest(text, labels.keys()) : (same ?? spoken);
  const meant = near ?? zonesLike(text)[0] ?? null;
  const facts = { text, near: meant === null ? null : whole(meant), labels: [...labels.keys()] } satisfies Facts;
  return mistaken((c) => zoneUnknown.raise(facts, c));
}
