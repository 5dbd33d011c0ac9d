/** `new`: a first plan, from flags, or asked for at a terminal. */

import type { Said, Start } from "../../tomorrow/start.ts";
import { type CommandFile, type Invocation, ownText } from "../command.ts";
import { EXIT, type ExitCode, usage } from "../exit.ts";
import { notEmpty } from "../options.ts";
import { saidAll, tellUnclear, writePlan } from "../write-plan.ts";
import { collect } from "./next.ts";

export const create: CommandFile = {
  name: "new",
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
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { io, options } = invocation;
  const asked =
    Object.keys(invocation.own).length === 0 && io.stdin.isTty ? await ask(invocation) : await fromFlags(invocation);
  if (asked === null) return EXIT.usage;
  const { firstPlan } = await import("../../tomorrow/first.ts");
  return writePlan(invocation, options.output ?? `${asked.date}.yaml`, firstPlan(asked));
}

async function fromFlags(invocation: Invocation): Promise<Start | null> {
  const { readDrive, readHit, readPerson, readVehicle } = await import("../../tomorrow/start.ts");
  const needed = (flag: string, example: string): string => {
    const value = ownText(invocation, flag);
    if (value === null) throw usage(`a new plan needs --${flag}`, `--${flag} ${example}`);
    return value;
  };
  const date = needed("date", "2027-01-20");
  const clock = needed("desk", "America/New_York");
  const bed = needed("bed", "lodge");
  const people = await saidAll(invocation, "person", readPerson);
  const vehicles = await saidAll(invocation, "vehicle", readVehicle);
  const drives = await saidAll(invocation, "drive", readDrive);
  const hits = await saidAll(invocation, "hit", readHit);
  if (people === null || vehicles === null || drives === null || hits === null) return null;
  if (people.length === 0) throw usage("a new plan needs at least one --person", '--person "wren camera drives wagon"');
  const zone = ownText(invocation, "zone") ?? clock;
  const [title, released] = [ownText(invocation, "title"), ownText(invocation, "released")];
  return { date, clock, zone, title, bed, released, people, vehicles, drives, hits };
}

/** Asks in the order in which an evening goes; an empty answer ends a list. */
async function ask(invocation: Invocation): Promise<Start> {
  const { io } = invocation;
  const { readDrive, readHit, readPerson, readVehicle } = await import("../../tomorrow/start.ts");
  const list = async <T>(question: string, read: (text: string) => Said<T>): Promise<readonly T[]> => {
    const values: T[] = [];
    for (;;) {
      const answer = (await io.ask(`${question} (nothing to go on)`, "")).trim();
      if (answer === "") return values;
      const one = read(answer);
      if (one.ok) values.push(one.value);
      else await tellUnclear(invocation, one.finding);
    }
  };
  const title = await io.ask("What is the assignment called?", "");
  const date = await io.ask("Which day, on the desk's clock? (2027-01-20)", "");
  const clock = await io.ask("The control room's zone?", "America/New_York");
  const zone = await io.ask("The zone where you are?", clock);
  const vehicles = await list(
    "A vehicle, with its weight and rules if it is a truck: truck 16000 lb us-property",
    readVehicle,
  );
  const people = await list("A person, what they do, what they drive: wren camera drives wagon", readPerson);
  const bed = await io.ask("Where do you sleep?", "lodge");
  const released = await io.ask("When was everyone released last? (18:00 -1d; nothing where it is not known)", "");
  const hits = await list("A hit, when, where, how long: dawn 07:00 pier 3 min", readHit);
  const drives = await list("A drive, likely and bad: lodge pier 35 min 50 min", readDrive);
  const known = (answer: string): string | null => (answer === "" ? null : answer);
  return { date, clock, zone, title: known(title), bed, released: known(released), people, vehicles, drives, hits };
}
