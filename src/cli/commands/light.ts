/** `light PLAN…`. */
import { planCommand } from "../plan/planCommand.ts";

export const light = planCommand({
  name: "light",
  place: 50,
  summary: "print sun and sky at each hit, rise and set, what to pack",
});
