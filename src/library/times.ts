/** Times as people write them, and clocks by zone or by a plan's label. */
import type { Plan } from "../plan/plan.ts";
import { parseInstant } from "../plan/read/clock.ts";
import { type Parsed, parsed } from "../plan/values/parsed.ts";
import type { Instant } from "../time/index.ts";
import { machineInstant } from "./machineTime.ts";

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
export { machineInstant } from "./machineTime.ts";

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
