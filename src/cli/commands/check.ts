/** `check PLAN…`: all findings, worst first; many files and folders at once. */
import type { Sink } from "../check-sinks.ts";
import type { CommandFile, Invocation } from "../command.ts";
import { EXIT, type ExitCode, worst } from "../exit.ts";
import { type Opened, openPlan, openSource, type Refused } from "../open.ts";
import { chooseForm, note, sinkOf } from "../output.ts";
import { exitOf, judgeOpened } from "../plan-command.ts";
import { readSource } from "../source.ts";
import { isDayPlan, type Target, targetsOf } from "../targets.ts";

export const check: CommandFile = {
  name: "check",
  summary: "print all findings, worst first",
  more: "Forms: text, list, json, markdown, csv, ndjson, sarif, unix. Folders and patterns are searched for plans of days.",
  build: (command) => {
    command.argument("<plan...>", "plan files, folders or patterns; - reads one from standard input");
  },
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { io, options, args } = invocation;
  const { CHECK_FORMS, sinkFor } = await import("../check-sinks.ts");
  const form = chooseForm("check", options, CHECK_FORMS);
  const targets = targetsOf(io, args);
  const sink = await sinkFor(form, invocation, targets.length > 1);
  const out = sinkOf(
    io,
    options,
    targets.map((target) => target.name),
  );
  let exit: ExitCode | null = null;
  for (const target of targets) {
    const one = await checkOne(invocation, target, sink, out.write);
    if (one !== null) exit = worst(exit ?? EXIT.done, one);
  }
  if (exit === null) note(io, options, "no plan of a day was found");
  out.write(await sink.end());
  out.close();
  return exit ?? EXIT.input;
}

/** Checks one plan, hands over its text and keeps nothing of it. Null for a file in a folder that is no day's plan. */
async function checkOne(invocation: Invocation, target: Target, sink: Sink, write: (text: string) => void) {
  const told = await openTarget(invocation, target);
  if (told === null) return null;
  const { checkReport } = await import("../../reports/check.ts");
  if (!told.ok) {
    const { findings, say } = told;
    const report = { ...checkReport({ findings, notJudged: [], say }), data: null };
    write(await sink.add({ told, findings, report, exit: EXIT.input, notJudged: [] }));
    return EXIT.input;
  }
  const { findings, notJudged } = await judgeOpened(told, invocation);
  const report = checkReport({ findings, notJudged, say: told.say });
  const exit = await exitOf(findings, invocation);
  write(await sink.add({ told, findings, report, exit, notJudged }));
  return exit;
}

async function openTarget(invocation: Invocation, target: Target): Promise<Opened | Refused | null> {
  if (!target.found) return openPlan(invocation, target.name);
  const source = await readSource(invocation.io, target.name, null);
  if (!source.ok || isDayPlan(source.text)) return openSource(invocation, source);
  note(invocation.io, invocation.options, `passed over ${target.name}: not the plan of a day`);
  return null;
}
