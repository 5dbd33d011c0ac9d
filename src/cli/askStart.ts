/** Asks for a first plan at a terminal: what is not clear is asked for again, and no other answer is lost. */
import { resolve } from "node:path";
import { authoring, type Finding, type FirstPlan, times } from "../index.ts";
import { printable } from "../render/text/printable.ts";
import type { Invocation } from "./command.ts";
import { usage } from "./exit.ts";
import { note } from "./output.ts";
import { loadText } from "./plan/load.ts";
import {
  type Asking,
  askEach,
  DRIVE,
  HIT,
  missingDrives,
  oneValue,
  type Question,
  severalValues,
  WAY_BACK,
} from "./questions.ts";

type Ask = Question<FirstPlan>;

/** Asks in the order in which an evening goes. `file` is where the plan of a date would be written. */
export async function interviewForPlan(invocation: Invocation, file: (date: string) => string): Promise<FirstPlan> {
  const parts = await authoring();
  const { output } = invocation.options;
  if (output !== null && isThere(invocation, output))
    throw usage(`there is already a file \`${output}\``, "--force replaces it");
  const asking: Asking<FirstPlan> = { invocation, mistakeOf: parts.mistakeOf };
  const known = (answer: string): string | null => (answer === "" ? null : answer);
  note(invocation.io, invocation.options, WAY_BACK);
  return askEach<FirstPlan>(
    invocation,
    [
      oneValue(asking, {
        text: "What is the assignment called?",
        example: "Ore freighter in the ice",
        empty: "no title",
        put: (start, title) => ({ ...start, title: known(title) }),
      }),
      oneValue(asking, {
        text: "Which zone is the control room in?",
        example: "America/New_York",
        empty: "the one shown",
        preset: () => "America/New_York",
        put: (start, clock) => ({ ...start, clock }),
      }),
      oneValue(asking, {
        text: "Which zone are you in?",
        example: "America/Chicago",
        empty: "the one shown",
        preset: ({ clock }) => clock,
        put: (start, zone) => ({ ...start, zone }),
      }),
      await dayQuestion(asking, file),
      severalValues(asking, {
        text: "A vehicle, with weight and rules if it is a truck",
        example: "truck 16000 lb us-property",
        empty: "no more",
        read: parts.vehicleAnswer,
        add: (start, vehicle) => ({ ...start, vehicles: [...start.vehicles, vehicle] }),
      }),
      severalValues(asking, {
        text: "A person, what they do, what they drive",
        example: "wren camera drives wagon",
        empty: "no more",
        read: parts.personAnswer,
        add: (start, person) => ({ ...start, people: [...start.people, person] }),
        none: ({ people }) => (people.length === 0 ? "a plan needs at least one person" : null),
      }),
      oneValue(asking, {
        text: "Where do you sleep?",
        example: "lodge",
        empty: "the one shown",
        preset: () => "lodge",
        put: (start, bed) => ({ ...start, bed }),
      }),
      oneValue(asking, {
        text: "When was everyone released last?",
        example: "18:00 -1d",
        empty: "not known",
        read: parts.readReleased,
        put: (start, released) => ({ ...start, released: known(released) }),
      }),
      severalValues(asking, {
        ...HIT,
        read: parts.readHit,
        add: (start, hit) => ({ ...start, hits: [...start.hits, hit] }),
      }),
      ...(await driveQuestions(asking)),
    ],
    parts.UNANSWERED,
  );
}

/** The drives one knows, then each that the stops lack. */
async function driveQuestions(asking: Asking<FirstPlan>): Promise<readonly Ask[]> {
  const { firstPlan, readDrive } = await authoring();
  const add = (start: FirstPlan, drive: FirstPlan["drives"][number]): FirstPlan => ({
    ...start,
    drives: [...start.drives, drive],
  });
  const missing = async (start: FirstPlan): Promise<Finding | null> => {
    const checked = await loadText(asking.invocation, "new.yaml", firstPlan(start), null);
    return checked.ok ? null : (checked.findings.find(({ code }) => code === "road-missing") ?? null);
  };
  const drive = { read: readDrive, add };
  return [severalValues(asking, { ...DRIVE, ...drive }), missingDrives(asking, missing, drive)];
}

/** The day, tomorrow if nothing is answered; a day whose file is there is refused before all else is asked for. */
async function dayQuestion(asking: Asking<FirstPlan>, file: (date: string) => string): Promise<Ask> {
  const { invocation } = asking;
  const { dateOfDay, localDay, machineInstant, zone } = await times();
  const now = machineInstant("now", invocation.io.now());
  // Empty where no clock can say it.
  const tomorrow = ({ clock }: FirstPlan): string => {
    const on = zone(clock);
    return now === null || on === null ? "" : dateOfDay(localDay(now, on) + 1);
  };
  const question = oneValue<FirstPlan>(asking, {
    text: "Which day, on the control room's clock?",
    example: "2027-01-20",
    empty: now === null ? "not taken" : "tomorrow",
    preset: tomorrow,
    put: (start, date) => ({ ...start, date }),
  });
  return {
    ...question,
    async read(answer, start) {
      const reply = await question.read(answer, start);
      return reply.is !== "unclear" && isTaken(invocation, file(reply.state.date))
        ? { is: "unclear", near: null }
        : reply;
    },
  };
}

const isThere = ({ io, options }: Invocation, file: string): boolean =>
  file !== "-" && !options.force && io.realpath(resolve(io.cwd, file)) !== null;

/** Said before all else is asked for, not when it is to be written. */
function isTaken(invocation: Invocation, file: string): boolean {
  if (!isThere(invocation, file)) return false;
  invocation.io.stderr.write(`error: there is already a file \`${printable(file)}\`\ntry: another day, or --force\n`);
  return true;
}
