/** `light PLAN…`. */
import { planCommand } from "../plan/planCommand.ts";

/** The command `light`. */
export const lightCommand = planCommand({
  name: "light",
  place: 50,
  summary: "print sun and sky at each hit, rise and set, what to pack",
});
