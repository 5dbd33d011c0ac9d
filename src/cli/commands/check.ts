/** `check PLAN…`: all findings, worst first; many files and folders at once. */
import { CONTRACT } from "../../reports/contract.ts";
import type { CommandFile, Invocation } from "../command.ts";
import { EXIT, type ExitCode, worst } from "../exit.ts";
import { openPlan, openText } from "../open.ts";
import { chooseForm, deliver, note } from "../output.ts";
import { type Answered, exitOf, jsonOf, judgeOpened } from "../plan-command.ts";
import { FORMS, type Form, printed } from "../print.ts";
import { readSource } from "../source.ts";
import { isDayPlan, type Target, targetsOf } from "../targets.ts";
import { VERSION } from "../version.ts";

const CHECK_FORMS = [...FORMS, "ndjson", "sarif", "unix"] as const;
type CheckForm = (typeof CHECK_FORMS)[number];

export const check: CommandFile = {
  name: "check",
  summary: "print all findings, worst first",
  more: "Forms: text, list, json, markdown, csv, ndjson, sarif, unix. Folders and patterns are searched for plans of days.",
  build: (command) => {
    command.argument("<plan...>", "plan files, folders or patterns; - reads one from standard input");
  },
  run,
};

interface Checked extends Answered {
  readonly notJudged: readonly string[];
}

async function run(invocation: Invocation): Promise<ExitCode> {
  const { io, options, args } = invocation;
  const form = chooseForm("check", options, CHECK_FORMS);
  const targets = targetsOf(io, args);
  const checked: Checked[] = [];
  for (const target of targets) {
    const one = await checkOne(invocation, target);
    if (one !== null) checked.push(one);
  }
  if (checked.length === 0) note(io, options, "no plan of a day was found");
  const text = await textOf(invocation, form, checked);
  if (text !== "")
    deliver(
      io,
      options,
      text,
      targets.map((target) => target.name),
    );
  return checked.map((one) => one.exit).reduce(worst, checked.length === 0 ? EXIT.input : EXIT.done);
}

/** Null for a file in a folder that is no day's plan. */
async function checkOne(invocation: Invocation, target: Target): Promise<Checked | null> {
  const { io, options } = invocation;
  if (!target.found) return judged(invocation, await openPlan(invocation, target.name));
  const source = await readSource(io, target.name, null);
  if (source.ok && !isDayPlan(source.text)) {
    note(io, options, `passed over ${target.name}: not the plan of a day`);
    return null;
  }
  const told = source.ok
    ? await openText(invocation, source.file, source.text)
    : await openPlan(invocation, target.name);
  return judged(invocation, told);
}

async function judged(invocation: Invocation, told: Answered["told"]): Promise<Checked> {
  const { checkReport } = await import("../../reports/check.ts");
  if (!told.ok) {
    const { findings, say } = told;
    const { blocks } = checkReport({ findings, notJudged: [], say });
    const report = { command: "check", blocks, data: null, findings, say };
    return { told, findings, report, exit: EXIT.input, notJudged: [] };
  }
  const { findings, notJudged } = await judgeOpened(told, invocation);
  const report = checkReport({ findings, notJudged, say: told.say });
  return { told, findings, report, exit: await exitOf(findings, invocation), notJudged };
}

async function textOf({ io, options }: Invocation, form: CheckForm, checked: readonly Checked[]): Promise<string> {
  switch (form) {
    case "json":
      return (await import("../../render/json.ts")).toJson(await jsonOf("check", checked));
    case "ndjson":
      return (await import("../../render/check-forms.ts")).toNdjson(CONTRACT, await plansOf(checked));
    case "unix":
      return (await import("../../render/check-forms.ts")).toUnix(await plansOf(checked));
    case "sarif": {
      const [{ toSarif }, { catalogue }] = await Promise.all([
        import("../../render/check-forms.ts"),
        import("../../findings/catalogue.ts"),
      ]);
      const entries = await catalogue();
      return toSarif({ version: VERSION, title: (code) => entries.get(code)?.title ?? null }, await plansOf(checked));
    }
    default:
      return reportsText(io, options, form, checked);
  }
}

async function plansOf(checked: readonly Checked[]) {
  const { findingJson } = await import("../../reports/envelope.ts");
  return checked.map(({ told, findings, exit, notJudged }) => ({
    file: told.file,
    ok: exit === EXIT.done,
    findings,
    notJudged,
    say: told.say,
    json: (finding: Answered["findings"][number]) => findingJson(finding, told.form),
  }));
}

async function reportsText(
  io: Invocation["io"],
  options: Invocation["options"],
  form: Form,
  checked: readonly Checked[],
): Promise<string> {
  const texts: string[] = [];
  for (const { told, report } of checked) {
    if (report === null) continue;
    const heading = { kind: "heading", text: told.file ?? "standard input" } as const;
    const named = checked.length > 1 ? { ...report, blocks: [heading, ...report.blocks] } : report;
    texts.push(await printed(io, options, form, named));
  }
  return texts.join(form === "csv" ? "\r\n" : "\n");
}
