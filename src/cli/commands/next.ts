/** `next PLAN`: tomorrow's file from today's. */
import { dirname, join, resolve } from "node:path";
import { authoring } from "../../index.ts";
import { type CommandFile, type Invocation, ownText } from "../command.ts";
import { EXIT, type ExitCode, usage } from "../exit.ts";
import { nameFrom } from "../io/paths.ts";
import { readSource } from "../io/source.ts";
import { collect, notEmpty } from "../options.ts";
import { note, refuseInput, refuseOtherForm } from "../output.ts";
import { loadSource } from "../plan/load.ts";
import { judgeLoaded, printRefusal } from "../plan/planCommand.ts";
import { readAll, writeAnswers, writePlan } from "../plan/writePlan.ts";

/** The command `next`. */
export const nextCommand: CommandFile = {
  name: "next",
  place: 160,
  summary: "write tomorrow's plan from today's",
  more: [
    "People, vehicles, packs and gear begin where today leaves them.",
    "The file takes its name from its date, in today's folder.",
    "At a terminal it asks for the bed and the hits, unless they are given.",
    "Examples:",
    "  daywright next 2027-01-20.yaml",
    '  daywright next 2027-01-20.yaml --hit "dawn 08:00 pier 3 min" --hit "noon 12:00 pier 4 min"',
  ].join("\n"),
  build(command) {
    command
      .argument("<plan>", "today's plan file")
      .option("--hit <words>", "a hit: id, time, place, length (repeatable)", collect)
      .option("--drive <words>", "a drive: from, to, likely, bad (repeatable)", collect)
      .option("--bed <place>", "where the day ends; today's last place where left out", notEmpty);
  },
  prints: "text",
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { io, options, args } = invocation;
  const [argument = ""] = args;
  if (options.redact) throw usage("next writes a plan, and --redact is for what is printed", "leave out --redact");
  if (argument === "-")
    throw usage("tomorrow's plan names today's file, and standard input has none", "name the plan's file");
  refuseOtherForm(options.output);
  const source = await readSource(io, argument, null);
  const loaded = await loadSource(invocation, source);
  if (!loaded.ok) return printRefusal(invocation, loaded, loaded.findings);
  if (!source.ok) return EXIT.input;
  if (options.output !== null && options.output !== "-") refuseInput(io, options.output);
  const { results } = await judgeLoaded(loaded, invocation, { topics: ["power", "kit"], hints: false });
  const ends = results.kit?.track?.ends ?? new Map<string, string>();
  const { dateAfter, readDrive, readHit, tomorrow } = await authoring();
  const hits = await readAll(invocation, "hit", readHit);
  const drives = await readAll(invocation, "drive", readDrive);
  if (hits === null || drives === null) return EXIT.usage;
  const folder = dirname(argument);
  const beside = join(folder, `${dateAfter(loaded.plan)}.yaml`);
  const file = options.output ?? beside;
  const place = file === "-" ? beside : file;
  const called =
    file === "-" ? nameFrom(folder, argument) : nameFrom(dirname(resolve(io.cwd, file)), resolve(io.cwd, argument));
  if (Object.keys(invocation.own).length === 0 && io.stdin.isTty) {
    const { askForTomorrow } = await import("../askNext.ts");
    const asked = await askForTomorrow(invocation, loaded, source.text, { file: place, name: called, ends });
    if (asked !== null) {
      if (asked.pending.length > 0) note(io, options, "the hits are written as comments until that is settled");
      return writeAnswers(invocation, file, asked.text, place);
    }
  }
  const made = tomorrow(loaded.day, source.text, {
    name: called,
    hits,
    drives,
    bed: ownText(invocation, "bed"),
    ends,
  });
  if (made.text === null) return printRefusal(invocation, loaded, made.findings);
  return writePlan(invocation, file, made.text, place);
}
