/** Times as people write them, and clocks by zone or by a plan's label. */
import type { Plan } from "../plan/plan.ts";
import { parseInstant } from "../plan/read/clock.ts";

export { parseLength } from "../plan/values/length.ts";
export {
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

/** A time as this plan writes times: `06:30`, `06:30 CT`, `21:00 -1d`. */
export const readInstant = (
  text: string,
  { date, clock, labels, untilDays, zone }: Plan,
): ReturnType<typeof parseInstant> => parseInstant(text, { date, desk: clock, labels, untilDays }, zone);
