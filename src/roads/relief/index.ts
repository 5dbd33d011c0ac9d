/** Who drives which stretch, who sleeps, who relieves whom? Loaded only where it is asked. */
export { textEdits } from "./edits.ts";
export { hoursJudge } from "./hours.ts";
export { proposeRelief, RELIEF_EVERY_MINUTES } from "./propose.ts";
