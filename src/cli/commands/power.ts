/** `power PLAN…`: pack by pack and hit by hit; with `--patience` margin and moves proved. */
import { ownFlag } from "../command.ts";
import { planCommand } from "../plan/planCommand.ts";

/** The command `power`. */
export const powerCommand = planCommand({
  name: "power",
  place: 30,
  summary: "print pack by pack and hit by hit what is used, charged and swapped, and a chart of the charge",
  configure: (command) => {
    command.option("--fly", "print which packs may fly, where and how many a person");
  },
  options: async ({ invocation }) => ({ fly: ownFlag(invocation, "fly") }),
});
