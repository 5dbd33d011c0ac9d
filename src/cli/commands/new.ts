/** `new`: a first plan, from flags, or asked for at a terminal. */
import { authoring, type FirstPlan } from "../../index.ts";
import { type CommandFile, type Invocation, ownText } from "../command.ts";
import { EXIT, type ExitCode, usage } from "../exit.ts";
import { collect, notEmpty } from "../options.ts";
import { note, refuseOtherForm } from "../output.ts";
import { printRefusal } from "../plan/planCommand.ts";
import { readAll, writeAnswers, writePlan } from "../plan/writePlan.ts";

/** The command `new`. */
export const newCommand: CommandFile = {
  name: "new",
  place: 150,
  summary: "write a first plan; asks at a terminal",
  more: [
    "Example:",
    "  daywright new --date 2027-01-20 --desk America/New_York --zone America/Chicago --bed lodge \\",
    '    --released "18:00 -1d" \\',
    '    --person "wren camera drives wagon" --person "ilse reporter" --vehicle wagon \\',
    '    --drive "lodge pier 35 min 50 min" --hit "dawn 07:00 pier 3 min"',
  ].join("\n"),
  build(command) {
    command
      .option("--date <date>", "the day on the desk's clock", notEmpty)
      .option("--desk <zone>", "the control room's zone: America/New_York", notEmpty)
      .option("--zone <zone>", "the zone of the places; the desk's where left out", notEmpty)
      .option("--title <title>", "what the assignment is called", notEmpty)
      .option("--bed <place>", "where everyone sleeps", notEmpty)
      .option("--released <time>", 'when everyone was released last: "18:00 -1d"', notEmpty)
      .option("--person <words>", 'who: "wren camera drives wagon" (repeatable)', collect)
      .option("--vehicle <words>", 'a vehicle: "truck 16000 lb us-property" (repeatable)', collect)
      .option("--drive <words>", 'a drive: "lodge pier 35 min 50 min" (repeatable)', collect)
      .option("--hit <words>", 'a hit: "dawn 07:00 pier 3 min" (repeatable)', collect);
  },
  prints: "text",
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { io, options } = invocation;
  refuseOtherForm(options.output);
  if (Object.keys(invocation.own).length === 0 && io.stdin.isTty) return atTerminal(invocation);
  const asked = await fromFlags(invocation);
  if (asked === null) return EXIT.usage;
  const { firstPlan } = await authoring();
  return writePlan(invocation, options.output ?? `${asked.date}.yaml`, firstPlan(asked));
}

async function fromFlags(invocation: Invocation): Promise<FirstPlan | null> {
  const { readDrive, readHit, readReleased, personAnswer: readPerson, vehicleAnswer: readVehicle } = await authoring();
  const needed = (flag: string, example: string): string => {
    const value = ownText(invocation, flag);
    if (value === null) throw usage(`a new plan needs --${flag}`, `--${flag} ${example}`);
    return value;
  };
  const date = needed("date", "2027-01-20");
  const clock = needed("desk", "America/New_York");
  const bed = needed("bed", "lodge");
  const people = await readAll(invocation, "person", readPerson);
  const vehicles = await readAll(invocation, "vehicle", readVehicle);
  const drives = await readAll(invocation, "drive", readDrive);
  const hits = await readAll(invocation, "hit", readHit);
  const released = await readAll(invocation, "released", readReleased);
  if (people === null || vehicles === null || drives === null || hits === null || released === null) return null;
  if (people.length === 0) throw usage("a new plan needs at least one --person", '--person "wren camera drives wagon"');
  const zone = ownText(invocation, "zone") ?? clock;
  const title = ownText(invocation, "title");
  return { date, clock, zone, title, bed, released: released[0] ?? null, people, vehicles, drives, hits };
}

/**
 * Ends with a file that `check` reads. A road that is missing is asked for; where one stays missing, or anything else is
 * wrong with hits and stops, these are written as comments, so that no answer is lost.
 */
async function atTerminal(invocation: Invocation): Promise<ExitCode> {
  const { io, options } = invocation;
  const [{ interviewForPlan }, { firstPlan }, { loadText }] = await Promise.all([
    import("../askStart.ts"),
    authoring(),
    import("../plan/load.ts"),
  ]);
  const fileOf = (date: string): string => options.output ?? `${date}.yaml`;
  const start = await interviewForPlan(invocation, fileOf);
  const file = fileOf(start.date);
  const text = firstPlan(start);
  const checked = await loadText(invocation, file, text, null);
  if (checked.ok) return writeAnswers(invocation, file, text);
  await printRefusal(invocation, checked, checked.findings);
  note(io, options, "the hits and the stops of the vehicles are written as comments until that is settled");
  return writeAnswers(invocation, file, firstPlan(start, true));
}
