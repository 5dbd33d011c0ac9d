/** `signal PLAN…`. */
import { planCommand } from "../plan/planCommand.ts";

/** The command `signal`. */
export const signalCommand = planCommand({
  name: "signal",
  place: 60,
  summary: "print look angles, windows, cable, path and spare of each hit, lines",
});
