/** `changes PLAN`: what an edit, a newer version or a commit in the making changes, for whom and by when they must know. */
import type { Judged } from "../../index.ts";
import { type Invocation, ownFlag, ownText } from "../command.ts";
import { usage } from "../exit.ts";
import { notEmpty } from "../options.ts";
import { beforeEdit } from "../plan/against.ts";
import type { LoadedPlan } from "../plan/load.ts";
import { ioStaged } from "../plan/older.ts";
import { judgeLoaded, partsOption, planCommand } from "../plan/planCommand.ts";
import { planAt } from "../plan/since.ts";

/** The command `changes`. */
export const changesCommand = planCommand({
  name: "changes",
  place: 100,
  summary: "print what changed, whom to tell by when, who can sleep on, and what is newly wrong",
  more: [
    "  daywright changes day.yaml --set hits.noon.at=12:45      before the edit is made",
    "  daywright changes day.yaml --since HEAD                  against a Git revision or another file",
    "  daywright changes day.yaml --staged                      what is about to be committed",
  ].join("\n"),
  printsFindings: false,
  configure: (command) => {
    partsOption(command)
      .option("--since <plan>", "compare with this plan, or with this one at a Git revision", notEmpty)
      .option("--staged", "compare what is about to be committed with the last commit");
  },
  async seen(invocation, argument) {
    if (!ownFlag(invocation, "staged")) return invocation;
    if (ownText(invocation, "since") !== null) throw usage("--staged and --since exclude each other");
    if (argument === "-") throw usage("--staged needs a plan that is a file", "name the plan's file");
    return { ...invocation, io: await ioStaged(invocation.io, argument) };
  },
  options: async ({ loaded, invocation }) => ({ against: await against(loaded, invocation), now: loaded.now }),
});

/** The older version, judged: that of the last commit with `--staged`. */
async function against(loaded: LoadedPlan, invocation: Invocation): Promise<Judged | null> {
  if (ownFlag(invocation, "staged")) return judgeLoaded(await planAt(loaded, invocation, "HEAD"), invocation);
  return beforeEdit(loaded, invocation);
}
