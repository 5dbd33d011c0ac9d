/** A log file where a command takes one instead of a plan: read, checked, then answered by the command. */
import { type Finding, type HoursLog, isLog, type LogClock, logs, type Report, type Wording } from "../../index.ts";
import type { Invocation } from "../command.ts";
import { EXIT, usage } from "../exit.ts";
import { refusedLoad } from "./load.ts";
import { exitOf, type PlanOutcome } from "./planCommand.ts";

/** A log and how its times are said. */
export interface LoadedLog {
  readonly log: HoursLog;
  readonly say: Wording;
  readonly shown: LogClock;
  /** What reading it found. */
  readonly findings: readonly Finding[];
}

/** What a command makes of a log: a report whose own findings come behind those of the reading. */
export type LogReport = (loaded: LoadedLog, invocation: Invocation) => Promise<Report>;

/** Null for what is no log. */
export async function answerLog(
  report: LogReport,
  invocation: Invocation,
  file: string | null,
  text: string,
): Promise<PlanOutcome | null> {
  if (!(await isLog(text))) return null;
  const { logFindingForm: logForm, logHead, readLog, sayOfLog } = await logs();
  const { log, findings } = await readLog(text, file);
  if (log === null) {
    const context = await refusedLoad(file, findings);
    return { context, findings: context.findings, report: null, exit: EXIT.input };
  }
  const { clockFlag, personFlag } = await import("./planFlags.ts");
  const { options } = invocation;
  if (options.set.length > 0) throw usage("--set is for a plan", "change the log itself");
  if (options.now !== null) throw usage("--now is for a plan", "`hours LOG --at TIME` judges a log up to a moment");
  personFlag(
    options.person,
    log.people.map(({ id }) => id),
    "this log",
  );
  const shown = await clockFlag(options.clock, new Map());
  const say = sayOfLog(log, shown);
  const answered = await report({ log, say, shown, findings }, invocation);
  const all = [...findings, ...answered.findings];
  const context = { file, head: logHead(log), say, form: logForm(log, say) };
  return { context, findings: all, report: answered, exit: await exitOf(all, invocation), notes: true };
}
