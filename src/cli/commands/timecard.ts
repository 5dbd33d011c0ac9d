/** `timecard PLAN…`: pay by the hour over the days that the plan follows, itself the last. */
import { dirname, join, normalize } from "node:path";
import { logs, type Report, readPlan } from "../../index.ts";
import type { CommandFile, Invocation } from "../command.ts";
import { planFiles, readSource } from "../io/source.ts";
import { plansIn } from "../io/targets.ts";
import { answerLog, type LoadedLog } from "../plan/logFile.ts";
import { planCommand } from "../plan/planCommand.ts";

const card = planCommand({
  name: "timecard",
  place: 210,
  summary: "print straight time, overtime, meal and turnaround penalties per person over several days",
  folders: true,
  more: [
    "Names the last day, or a folder of days; the days it `follows` come with it. Contracts are the plan's `contracts`.",
    "Also takes log files (log: 1): paid by the labour law that they name, each shift on the day it began.",
    "Example:",
    "  daywright timecard 2027-01-22.yaml -o week.csv --bom",
  ].join("\n"),
  instead: (invocation, file, text) => answerLog(ofLog, invocation, file, text),
});

async function ofLog({ log, say }: LoadedLog, { options }: Invocation): Promise<Report> {
  return (await logs()).logTimecard(log, say, options.person);
}

/** Several days of one chain make one card: the last of them brings those it follows. */
export const timecardCommand: CommandFile = {
  ...card,
  run: async (invocation) => card.run({ ...invocation, args: await lastOnly(invocation) }),
};

async function lastOnly(invocation: Invocation): Promise<readonly string[]> {
  const { io, options } = invocation;
  const args = await plansIn(invocation);
  if (args.length < 2) return args;
  const followed = new Set<string>();
  for (const argument of args.filter((one) => one !== "-")) {
    const source = await readSource(io, argument, options.name);
    const { plan } = source.ok
      ? await readPlan(source.text, { file: source.file, files: planFiles(io) })
      : { plan: null };
    if (plan?.follows) followed.add(normalize(join(dirname(argument), plan.follows)));
  }
  const last = args.filter((argument) => !followed.has(normalize(argument)));
  return last.length === 0 ? args : last;
}
