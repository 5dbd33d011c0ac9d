/** `hours PLAN…`: of plans with the days behind them, or of a log file. */
import { type Invocation, ownText } from "../command.ts";
import { EXIT, usage } from "../exit.ts";
import { refused } from "../open.ts";
import { notEmpty } from "../options.ts";
import { type Answered, exitOf, planCommand } from "../plan-command.ts";

export const hours = planCommand({
  name: "hours",
  summary: "print rest, duty, driving, each limit with its clause and what is left, earliest next call",
  more: "Takes log files (log: 1), too; --at judges a log up to a moment.",
  topics: ["hours"],
  configure: (command) => {
    command.option("--at <time>", "judge a log up to this moment; the end of the log otherwise", notEmpty);
  },
  async report({ opened, judged, invocation }) {
    const [{ hoursReport }, { had }] = await Promise.all([
      import("../../reports/hours.ts"),
      import("../../reports/judge.ts"),
    ]);
    if (ownText(invocation, "at") !== null)
      throw usage("--at is for a log file", "--now freezes what is earlier in a plan");
    const { person } = invocation.options;
    return hoursReport(opened.day, had(judged.results.hours), judged.findings, opened.say, {
      person,
      clock: opened.clock,
    });
  },
  instead: logAnswer,
});

/** Null for what is no log. */
async function logAnswer(invocation: Invocation, file: string | null, text: string): Promise<Answered | null> {
  const { looksLikeLog, parseLogInstant, readLog } = await import("../../plan/log/read.ts");
  if (!looksLikeLog(text)) return null;
  const { log, findings } = await readLog(text, file);
  if (log === null) {
    const told = await refused(file, findings);
    return { told, findings: told.findings, report: null, exit: EXIT.input };
  }
  const { hoursLogReport, logForm, logHead, sayOfLog } = await import("../../reports/hours-log.ts");
  const asked = ownText(invocation, "at");
  const at = asked === null ? null : parseLogInstant(asked, log.zone);
  const say = sayOfLog(log);
  if (at !== null && !at.ok) {
    const mistake = at.mistake({});
    throw usage(`--at: ${mistake.sentence(say)}`, mistake.hint(say));
  }
  const report = hoursLogReport(log, { at: at === null ? null : at.value, person: invocation.options.person });
  const all = [...findings, ...report.findings];
  const told = { file, head: logHead(log), say, form: logForm(log, say) };
  return { told, findings: all, report, exit: await exitOf(all, invocation) };
}
