/**
 * Zones of the tz database, read from our own table so that nothing depends on the machine's tz data.
 *
 * Right from 2000 to 2037; outside these years the first and the last offset go on, so whatever reads an instant from a
 * person asks `inTable` first. Zones are unpacked on first use and remembered.
 */
import { dayOfCivil, MINUTES_A_DAY } from "./civil.ts";
import { FIRST_YEAR, LAST_YEAR, TABLE, zoneTableVersion } from "./table.ts";
import type { Instant, ZoneId } from "./units.ts";

export { zoneTableVersion };

/** A stretch of equal offset: `from` inside, `to` outside, in minutes since the epoch; `offset` in minutes east of UTC. */
export interface OffsetStretch {
  readonly from: number;
  readonly to: number;
  readonly offset: number;
}

/** Instants the table answers for in every zone, `from` inside, `to` outside. */
export const tableSpan = {
  from: dayOfCivil({ year: FIRST_YEAR, month: 1, day: 3 }) * MINUTES_A_DAY,
  to: dayOfCivil({ year: LAST_YEAR, month: 12, day: 30 }) * MINUTES_A_DAY,
};

/** Whether the table's answers hold at this minute since the epoch. */
export const inTable = (at: number): boolean => at >= tableSpan.from && at < tableSpan.to;

/** What follows `name` and the separator in the table; null where there is no such row. */
function row(name: string, separator: "|" | ">"): string | null {
  const start = TABLE.indexOf(`\n${name}${separator}`);
  if (start < 0) return null;
  return TABLE.slice(start + name.length + 2, TABLE.indexOf("\n", start + 1));
}

function unpack(packed: string): readonly OffsetStretch[] {
  const [kinds = "", order = "", gaps = ""] = packed.split("|");
  const offsets = kinds.split(" ").map(Number);
  const lengths = gaps === "" ? [] : gaps.split(" ");
  const stretches: OffsetStretch[] = [];
  let from = Number.NEGATIVE_INFINITY;
  let end = 0;
  for (const [i, kind] of [...order].entries()) {
    const length = lengths[i];
    if (length !== undefined) end += Number.parseInt(length, 36);
    const to = length === undefined ? Number.POSITIVE_INFINITY : end;
    stretches.push({ from, to, offset: offsets[Number.parseInt(kind, 36)] ?? 0 });
    from = to;
  }
  return stretches;
}

const unpacked = new Map<string, readonly OffsetStretch[]>();

function find(name: string): readonly OffsetStretch[] | null {
  const known = unpacked.get(name);
  if (known !== undefined) return known;
  // Only letters of names reach the search, so that no input can match across the table's own separators.
  if (!/^[\w+/-]+$/.test(name)) return null;
  const packed = row(name, "|") ?? row(row(name, ">") ?? "?", "|");
  if (packed === null) return null;
  const stretches = unpack(packed);
  unpacked.set(name, stretches);
  return stretches;
}

/** The zone of exactly this name (`America/Chicago`, a link such as `US/Central` too); null where the table has none. */
export const zone = (name: string): ZoneId | null => (find(name) === null ? null : (name as ZoneId));

/** The zone's stretches in order of time, from minus to plus infinity without gap. */
export function offsetStretches(id: ZoneId): readonly OffsetStretch[] {
  const stretches = find(id);
  if (stretches === null) throw new RangeError(`unknown time zone ${JSON.stringify(id)}`);
  return stretches;
}

/** Where in `stretches` the minute `at` lies. */
export function stretchAt(stretches: readonly OffsetStretch[], at: number): number {
  let low = 0;
  let high = stretches.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (at < (stretches[middle]?.to ?? 0)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Minutes east of UTC at an instant: -300 for New York in January. */
export function offsetMinutes(id: ZoneId, at: Instant): number {
  const stretches = offsetStretches(id);
  return stretches[stretchAt(stretches, at)]?.offset ?? 0;
}

/** Whether the zone's clocks show what they show at this instant a second time, before or after it: they were put back. */
export function isRepeated(id: ZoneId, at: Instant): boolean {
  const stretches = offsetStretches(id);
  const index = stretchAt(stretches, at);
  const [before, here, next] = [stretches[index - 1], stretches[index], stretches[index + 1]];
  if (here === undefined) return false;
  const again = before !== undefined && at < here.from + before.offset - here.offset;
  return again || (next !== undefined && at >= here.to - here.offset + next.offset);
}

/** Every name the table knows, links too, in byte order. */
export const zoneNames = (): readonly string[] =>
  TABLE.split("\n").flatMap((line) => (line === "" ? [] : [line.slice(0, line.search(/[|>]/))]));
