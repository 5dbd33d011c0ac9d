/** `explain CODE`. */
import { answers, codes, nearest } from "../../index.ts";
import type { CommandFile, Invocation } from "../command.ts";
import { EXIT, type ExitCode, usage } from "../exit.ts";
import { chooseForm, deliver, printed } from "../output.ts";

/** The command `explain`. */
export const explainCommand: CommandFile = {
  name: "explain",
  place: 220,
  forms: true,
  summary: "explain what a finding means, the rule behind it with its source, an example and what to do",
  more: "Without a code it lists all codes.",
  build: (command) => {
    command.argument("[code]", "the code of a finding, as `check` prints it in parentheses");
  },
  run,
};

async function run({ io, options, args: [code] }: Invocation): Promise<ExitCode> {
  const form = chooseForm("explain", { options });
  const [{ catalogue, explanation }, { envelope, formOfText, headOfText, plainWording }] = await Promise.all([
    codes(),
    answers(),
  ]);
  const report = await explanation(code ?? null);
  if (report === undefined) {
    const near = nearest(code ?? "", (await catalogue()).keys());
    throw usage(
      `there is no finding \`${code}\``,
      near === null ? "daywright explain lists all codes" : `daywright explain ${near}`,
    );
  }
  const plan = headOfText(null);
  const telling = formOfText(plainWording, null);
  const answer = { command: "explain", plan, ok: true, findings: [], data: report.data, form: telling };
  const shown = form.name === "json" ? { ...report, data: envelope(answer) } : report;
  deliver(io, options, await printed(io, options, form, shown));
  return EXIT.done;
}
