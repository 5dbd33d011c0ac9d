/** `sheet PLAN…`: the call sheet, in the forms that people read it in. */
import { sheetView } from "../../index.ts";
import { ownFlag } from "../command.ts";
import { notEmpty, wholeNumber } from "../options.ts";
import { note } from "../output.ts";
import { partsOption, planCommand } from "../plan/planCommand.ts";
import { olderDay } from "../plan/since.ts";

/** The command `sheet`. */
export const sheetCommand = planCommand({
  name: "sheet",
  place: 140,
  summary: "print the call sheet, for a phone, for paper, for the calendar or the chat",
  configure: (command) => {
    partsOption(command)
      .option("--since <plan>", "mark what changed against this plan, or against this one at a Git revision", notEmpty)
      .option("--alarm <minutes>", "let the calendar ring this long before the call", wholeNumber)
      .option("--code-block", "put the chat message into a code block");
  },
  options: async ({ loaded, invocation }) => ({ older: await olderDay(loaded, invocation), now: loaded.now }),
  async own(form, { judged, options, loaded, invocation }) {
    if (form.takes !== "sheet") return "";
    const { own } = invocation;
    const alarm = own["alarm"];
    const render = await form.load();
    const view = await sheetView(judged, options);
    if (form.name === "ics" && view.revisionForgotten)
      note(
        invocation.io,
        invocation.options,
        `revision not raised since the older plan: the calendar counts as revision ${view.sequence}`,
      );
    return render(view, {
      codeBlock: ownFlag(invocation, "codeBlock"),
      parts: ownFlag(invocation, "parts"),
      alarmMinutes: typeof alarm === "number" ? alarm : null,
      now: loaded.now,
    });
  },
});
