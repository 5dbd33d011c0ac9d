/** `sheet PLAN…`: the call sheet, in the forms that people read it in. */
import type { Judged } from "../../reports/shared/judge.ts";
import { TOPICS } from "../../reports/shared/topics.ts";
import type { Sheet } from "../../reports/sheet/view.ts";
import { type Invocation, ownFlag, ownText } from "../command.ts";
import { notEmpty, wholeNumber } from "../options.ts";
import { type Asked, planCommand } from "../plan/planCommand.ts";
import { changesSince } from "../plan/since.ts";

export const sheet = planCommand({
  name: "sheet",
  summary: "print the call sheet, for a phone, for paper, for the calendar or the chat",
  more: "Forms: text, list, markdown, html, ics, chat, csv, json.",
  topics: TOPICS,
  configure: (command) => {
    command
      .option("--since <plan>", "mark what changed against this plan, or against this one at a Git revision", notEmpty)
      .option("--alarm <minutes>", "let the calendar ring this long before the call", wholeNumber)
      .option("--code-block", "put the chat message into a code block");
  },
  async report(asked) {
    const { sheetReport } = await import("../../reports/sheet/index.ts");
    return sheetReport(await sheetFor(asked));
  },
  forms: {
    html: async (asked) => (await import("../../render/html.ts")).renderHtml(await sheetFor(asked)),
    chat: async (asked) =>
      (await import("../../render/chat.ts")).renderChat(await sheetFor(asked), {
        codeBlock: ownFlag(asked.invocation, "codeBlock"),
      }),
    ics: async (asked) => {
      const alarm = asked.invocation.own["alarm"];
      const { renderIcs } = await import("../../render/ics.ts");
      return renderIcs(await sheetFor(asked), {
        alarmMinutes: typeof alarm === "number" ? alarm : null,
        now: asked.opened.now,
      });
    },
  },
});

async function sheetFor({ opened, judged, invocation }: Asked): Promise<Sheet> {
  const [{ sheetOf }, { sheetFacts }] = await Promise.all([
    import("../../reports/sheet/index.ts"),
    import("../../reports/sheet/facts.ts"),
  ]);
  const { person, redact } = invocation.options;
  return sheetOf({
    day: opened.day,
    facts: sheetFacts(await withRotation(judged, invocation)),
    findings: judged.findings,
    say: opened.say,
    desk: opened.clock,
    person,
    redact,
    changes: ownText(invocation, "since") === null ? null : await changesSince(opened, invocation),
  });
}

/** The hand moves on a sheet are those that `power` prints: of the rotation proved as far as it goes. */
async function withRotation(judged: Judged, { options }: Invocation): Promise<Judged> {
  const { power } = judged.results;
  if (power === undefined) return judged;
  const { proved } = await import("../../power/index.ts");
  return { ...judged, results: { ...judged.results, power: await proved(power, options.patience) } };
}
