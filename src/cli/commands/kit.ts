/** `kit PLAN…`. */
import { planCommand } from "../plan/planCommand.ts";

/** The command `kit`. */
export const kitCommand = planCommand({
  name: "kit",
  place: 70,
  summary: "print what is where, what is missing, tonight's loading list by vehicle",
});
