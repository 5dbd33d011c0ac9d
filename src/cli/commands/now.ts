/** `now PLAN`: what everyone is at and what comes next, for whoever rides; `--watch` draws it again each minute. */
import { type Instant, times } from "../../index.ts";
import type { Invocation } from "../command.ts";
import { notEmpty } from "../options.ts";
import { beforeEdit } from "../plan/against.ts";
import type { LoadedPlan } from "../plan/load.ts";
import { partsOption, planCommand } from "../plan/planCommand.ts";

/** The command `now`. */
export const nowCommand = planCommand({
  name: "now",
  place: 180,
  summary: "print what everyone is at, what comes next and when to leave, the next hit and pack change",
  more: "It is about the moment at which it runs, or of --now. It is for whoever rides, never for the driver.",
  everyMinute: true,
  printsFindings: false,
  configure: (command) => {
    partsOption(command)
      .option(
        "--since <plan>",
        "say whom to tell of what changed against this plan, or this one at a Git revision",
        notEmpty,
      )
      .option("--plain", "with --watch: append lines instead of drawing the screen again");
  },
  options: async ({ loaded, invocation }) => ({
    now: loaded.now ?? (await clockNow(loaded, invocation)),
    against: loaded.file === null ? null : await beforeEdit(loaded, invocation),
  }),
});

/** The clock's minute, but never outside the day. */
async function clockNow({ day }: LoadedPlan, { io }: Invocation): Promise<Instant> {
  const { instant } = await times();
  return instant(Math.min(Math.max(Math.floor(io.now() / 60_000), day.span.from), day.span.to));
}
