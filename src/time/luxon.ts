/**
 * The bridge to luxon for what is handed to a library that speaks it (the calendar file). Loaded late: the engines compute
 * with plain instants, and luxon on the usual path would cost every start of the program.
 */
import { DateTime, Zone } from "luxon";
import { two } from "./civil.ts";
import { cityText } from "./format.ts";
import { type Instant, instant, type ZoneId } from "./units.ts";
import { inTable, offsetMinutes, offsetStretches } from "./zone.ts";

/** A luxon zone over our table. Its type is not `iana`, so luxon never asks the machine about the name. */
export class TableZone extends Zone {
  readonly id: ZoneId;

  constructor(id: ZoneId) {
    super();
    this.id = id;
  }

  override get type(): string {
    return "table";
  }

  override get name(): string {
    return this.id;
  }

  override get isUniversal(): boolean {
    return offsetStretches(this.id).length === 1;
  }

  override get isValid(): boolean {
    return true;
  }

  override equals(other: Zone): boolean {
    return other instanceof TableZone && other.id === this.id;
  }

  /** Minutes east of UTC at milliseconds since the epoch. */
  override offset(ts: number): number {
    return Number.isNaN(ts) ? Number.NaN : offsetMinutes(this.id, instant(Math.floor(ts / 60_000)));
  }

  /** The city: the database's letters mislead. */
  override offsetName(): string {
    return cityText(this.id);
  }

  override formatOffset(ts: number, format: string): string {
    const offset = this.offset(ts);
    const size = Math.abs(offset);
    const [hours, rest] = [Math.floor(size / 60), two(size % 60)];
    const sign = offset < 0 ? "-" : "+";
    if (format === "narrow") return `${sign}${hours}${rest === "00" ? "" : `:${rest}`}`;
    return `${sign}${two(hours)}${format === "techie" ? "" : ":"}${rest}`;
  }
}

/** The instant as a luxon value on the zone's clock, in the `en-US` locale. Throws a RangeError outside the zone table. */
export function dateTimeOf(at: Instant, zone: ZoneId): DateTime {
  if (!inTable(at)) throw new RangeError(`minute ${at} is outside the zone table`);
  return DateTime.fromMillis(at * 60_000, { zone: new TableZone(zone), locale: "en-US" });
}
