/** `handover PLAN…`: one page for the crew that takes over. */
import { planCommand } from "../plan/planCommand.ts";

/** The command `handover`. */
export const handoverCommand = planCommand({
  name: "handover",
  place: 200,
  summary: "print one page for the crew that takes over: vehicles, packs, gear, next hits, rest, open points",
  more: "Without --now it is the end of the day.",
  printsFindings: false,
  options: async ({ loaded }) => ({ now: loaded.now }),
});
