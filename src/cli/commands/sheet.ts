/** `sheet PLAN…`: the call sheet, in the forms that people read it in. */
import { type Sheet, sheetView } from "../../index.ts";
import { ownFlag } from "../command.ts";
import { notEmpty, wholeNumber } from "../options.ts";
import { planCommand, type ReportRequest } from "../plan/planCommand.ts";
import { olderDay } from "../plan/since.ts";

export const sheet = planCommand({
  name: "sheet",
  summary: "print the call sheet, for a phone, for paper, for the calendar or the chat",
  more: "Forms: text, list, markdown, html, ics, chat, csv, json.",
  configure: (command) => {
    command
      .option("--since <plan>", "mark what changed against this plan, or against this one at a Git revision", notEmpty)
      .option("--alarm <minutes>", "let the calendar ring this long before the call", wholeNumber)
      .option("--code-block", "put the chat message into a code block");
  },
  options: async ({ loaded, invocation }) => ({ older: await olderDay(loaded, invocation) }),
  forms: {
    html: async (asked) => (await import("../../render/html.ts")).renderHtml(await sheetOf(asked)),
    chat: async (asked) =>
      (await import("../../render/chat.ts")).renderChat(await sheetOf(asked), {
        codeBlock: ownFlag(asked.invocation, "codeBlock"),
      }),
    ics: async (asked) => {
      const alarm = asked.invocation.own["alarm"];
      const { renderIcs } = await import("../../render/ics.ts");
      return renderIcs(await sheetOf(asked), {
        alarmMinutes: typeof alarm === "number" ? alarm : null,
        now: asked.loaded.now,
      });
    },
  },
});

const sheetOf = ({ judged, options }: ReportRequest): Promise<Sheet> => sheetView(judged, options);
