/** `explain CODE`. */
import { nearest } from "../../findings/nearest.ts";
import type { FindingForm } from "../../reports/shared/envelope.ts";
import type { CommandFile, Invocation } from "../command.ts";
import { EXIT, type ExitCode, usage } from "../exit.ts";
import { chooseForm, deliver } from "../output.ts";
import { FORMS, printed } from "../print.ts";

export const explain: CommandFile = {
  name: "explain",
  summary: "tell what a finding means, the rule behind it with its source, an example and the cure",
  more: "Without a code it lists all codes.",
  build: (command) => {
    command.argument("[code]", "the code of a finding, as `check` prints it in parentheses");
  },
  run,
};

async function run({ io, options, args: [code] }: Invocation): Promise<ExitCode> {
  const form = chooseForm("explain", { io, options }, FORMS);
  const [{ catalogue }, { codesReport, explainReport }, { plainSay }, { envelope, NO_PLAN }] = await Promise.all([
    import("../../findings/catalogue.ts"),
    import("../../reports/explain/index.ts"),
    import("../../reports/shared/wording.ts"),
    import("../../reports/shared/envelope.ts"),
  ]);
  const entries = await catalogue();
  const entry = code === undefined ? null : entries.get(code);
  if (entry === undefined) {
    const near = nearest(code ?? "", entries.keys());
    throw usage(
      `there is no finding \`${code}\``,
      near === null ? "daywright explain lists all codes" : `daywright explain ${near}`,
    );
  }
  const report = entry === null ? codesReport([...entries.values()], plainSay) : explainReport(entry, plainSay);
  const telling: FindingForm = { say: plainSay, zoneAt: () => null, locate: () => null, file: null };
  const answer = { command: "explain", plan: NO_PLAN, ok: true, findings: [], data: report.data, form: telling };
  const shown = form === "json" ? { ...report, data: envelope(answer) } : report;
  deliver(io, options, await printed(io, options, form, shown));
  return EXIT.done;
}
