/** Log files (`log: 1`), which hold what people really did: read, judged by hours rules, paid. */

import type { Say } from "../findings/finding.ts";
import { logCards } from "../hours/pay/logCard.ts";
import type { HoursLog } from "../plan/log/log.ts";
import type { Report } from "../reports/shared/view.ts";
import { timecardLogReport } from "../reports/timecard/index.ts";

export { parseLogInstant, readLog } from "../plan/log/read.ts";
export { hoursLogReport, logForm, logHead, sayOfLog } from "../reports/hours/log.ts";

/** The pay of a log, for one person or (null) for everyone. */
export const logTimecard = (log: HoursLog, say: Say, person: string | null): Report =>
  timecardLogReport(log, logCards(log), [], say, person);
