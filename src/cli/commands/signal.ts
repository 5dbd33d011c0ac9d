/** `signal PLAN…`. */
import { planCommand } from "../plan/planCommand.ts";

export const signal = planCommand({
  name: "signal",
  summary: "print look angles, windows, cable, path and spare of each hit, lines",
});
