/** `endurance PLAN…`: how long the crew can go on. */
import { planCommand } from "../plan/planCommand.ts";

/** The command `endurance`. */
export const enduranceCommand = planCommand({
  name: "endurance",
  place: 130,
  summary: "print how long and how far the crew can go on from a moment, by law, house, fuel and packs",
  more: [
    "  daywright endurance day.yaml --now 14:00          from where everybody is at 14:00",
    "  daywright endurance day.yaml --now 14:00 --for wren",
  ].join("\n"),
  options: async ({ loaded, invocation }) => ({
    now: loaded.now,
    routed: loaded.routed,
    patience: invocation.options.patience,
  }),
});
