/** Who drives which stretch, who sleeps, who relieves whom? Loaded only where it is asked. */
export { textEdits } from "./edits.ts";
export { hoursJudge } from "./hours.ts";
export { EVERY_MINUTES, proposeRelief } from "./propose.ts";
