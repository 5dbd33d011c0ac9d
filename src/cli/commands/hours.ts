/** `hours PLAN…`: of plans with the days behind them, or of a log file. */
import { logs, type Report, times } from "../../index.ts";
import { type Invocation, ownText } from "../command.ts";
import { usage } from "../exit.ts";
import { notEmpty } from "../options.ts";
import { answerLog, type LoadedLog } from "../plan/logFile.ts";
import { planCommand } from "../plan/planCommand.ts";

/** The command `hours`. */
export const hoursCommand = planCommand({
  name: "hours",
  place: 20,
  summary: "print rest, duty, driving, each limit with its clause and what is left, earliest next call",
  folders: true,
  more: "Also takes log files (log: 1); --at judges a log up to a moment.",
  configure: (command) => {
    command.option("--at <time>", "judge a log up to this moment; the end of the log otherwise", notEmpty);
  },
  async options({ invocation }) {
    if (ownText(invocation, "at") !== null)
      throw usage("--at is for a log file", "--now keeps everything before a time in a plan");
    return {};
  },
  instead: (invocation, file, text) => answerLog(ofLog, invocation, file, text),
});

async function ofLog({ log, say, shown }: LoadedLog, invocation: Invocation): Promise<Report> {
  const [{ hoursLogReport, readLogInstant }, { instant, isoLocal }] = await Promise.all([logs(), times()]);
  const asked = ownText(invocation, "at");
  const at = asked === null ? null : readLogInstant(asked, log.zone, invocation.io.now());
  if (at !== null && !at.ok) {
    const mistake = at.mistake({});
    throw usage(`--at: ${mistake.sentence(say)}`, mistake.hint(say));
  }
  const { person } = invocation.options;
  const starts = log.people
    .filter(({ id }) => person === null || id === person)
    .flatMap(({ spans }) => spans[0]?.from ?? []);
  const first = starts.length === 0 ? null : instant(Math.min(...starts));
  if (at?.ok === true && first !== null && at.value <= first)
    throw usage(
      `--at: the log begins at ${say.time(first)}, so nothing can be judged at ${say.time(at.value)}`,
      `--at with a time after ${isoLocal(first, log.zone)}`,
    );
  return hoursLogReport(log, { at: at === null ? null : at.value, person, shown });
}
