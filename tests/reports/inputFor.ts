/** A day as a report is given it when nothing is asked for: everyone, with every word, nothing found. */
import type { Day } from "../../src/day/day.ts";
import type { ReportInput } from "../../src/reports/shared/dayView.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";

/** The usual input of a day's reports. */
export const inputFor = (day: Day): ReportInput => ({
  day,
  findings: [],
  say: wordingOf(day.plan),
  clock: null,
  person: null,
  redact: false,
  now: null,
});
