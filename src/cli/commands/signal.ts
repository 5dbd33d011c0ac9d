/** `signal PLAN…`. */
import { planCommand } from "../plan/planCommand.ts";

export const signal = planCommand({
  name: "signal",
  place: 60,
  summary: "print look angles, windows, cable, path and spare of each hit, lines",
});
