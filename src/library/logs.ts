/** Log files (`log: 1`), which hold what people really did: read, judged by hours rules, paid. */
import type { Wording } from "../findings/finding.ts";
import { logCards } from "../hours/pay/logCard.ts";
import type { HoursLog } from "../plan/log/log.ts";
import { parseLogInstant } from "../plan/log/read.ts";
import { type Parsed, parsed } from "../plan/values/parsed.ts";
import type { Report } from "../reports/shared/view.ts";
import { timecardLogReport } from "../reports/timecard/index.ts";
import type { Instant, ZoneId } from "../time/index.ts";
import { machineInstant } from "./times.ts";

export { readLog } from "../plan/log/read.ts";
export { hoursLogReport, logFindingForm, logHead, sayOfLog } from "../reports/hours/log.ts";

/** A time with its date, on the log's clock or with its own offset; or as scripts write it: `now`, epoch seconds. */
export function readLogInstant(text: string, zone: ZoneId, milliseconds: number): Parsed<Instant> {
  const at = machineInstant(text, milliseconds);
  return at === null ? parseLogInstant(text, zone) : parsed(at);
}

/** The pay of a log, for one person or (null) for everyone. */
export const logTimecard = (log: HoursLog, say: Wording, person: string | null): Report =>
  timecardLogReport(log, logCards(log), [], say, person);
