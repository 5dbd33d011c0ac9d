/** What writes plans: a first one, tomorrow's, and what really happened as edits. */
export { mistakeOf, UNANSWERED } from "../authoring/draft.ts";
export { firstPlan } from "../authoring/first.ts";
export { dateAfter, tomorrow } from "../authoring/next.ts";
export { loggedTime, record, recordable } from "../authoring/record.ts";
export { personAnswer, readDrive, readHit, readReleased, vehicleAnswer } from "../authoring/start.ts";
