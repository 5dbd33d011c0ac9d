/** Times as people and as scripts write them, and clocks by zone or by a plan's label. */
import type { Plan } from "../plan/plan.ts";
import { parseInstant } from "../plan/read/clock.ts";
import { type Parsed, parsed } from "../plan/values/parsed.ts";
import { type Instant, instant, inTable } from "../time/index.ts";

export { parseLength } from "../plan/values/length.ts";
export {
  dateOfDay,
  dayNumber,
  instant,
  inTable,
  isoLocal,
  isWinterAlone,
  localDay,
  shortDateOf,
  zone,
  zonesLike,
  zoneTableVersion,
} from "../time/index.ts";

/**
 * A time as this plan writes times: `06:30`, `06:30 CT`, `21:00 -1d`; or as scripts do: `now`, epoch seconds.
 * `milliseconds` is the moment of the call.
 */
export function readInstant(
  text: string,
  { date, clock, labels, untilDays, zone }: Plan,
  milliseconds: number,
): Parsed<Instant> {
  const at = machineInstant(text, milliseconds);
  return at === null ? parseInstant(text, { date, desk: clock, labels, untilDays }, zone) : parsed(at);
}

/** Ten digits, with a fraction or not, are seconds (from 2001 on), thirteen are milliseconds. */
const EPOCH = /^(\d{10})(?:[.,]\d{1,9})?$|^(\d{13})$/;

/** The instant of `text`, cut to whole minutes; null where it is neither. `milliseconds` is the moment of the call. */
export function machineInstant(text: string, milliseconds: number): Instant | null {
  const [, seconds, thousandths] = EPOCH.exec(text.trim()) ?? [];
  const at =
    text.trim().toLowerCase() === "now"
      ? milliseconds
      : seconds !== undefined
        ? Number(seconds) * 1000
        : Number(thousandths ?? Number.NaN);
  const found = Number.isFinite(at) ? instant(Math.floor(at / 60_000)) : null;
  return found !== null && inTable(found) ? found : null;
}
