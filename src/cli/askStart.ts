/** Asks for a first plan at a terminal: what is not clear is asked for again, and no other answer is lost. */
import { resolve } from "node:path";
import { authoring, type Finding, type FirstPlan, type Said, times } from "../index.ts";
import { printable } from "../render/text/printable.ts";
import type { Invocation } from "./command.ts";
import { usage } from "./exit.ts";
import { printUnclear } from "./plan/writePlan.ts";

/** Asks in the order in which an evening goes. `file` is where the plan of a date would be written. */
export async function interviewForPlan(invocation: Invocation, file: (date: string) => string): Promise<Interview> {
  const { readHit, readReleased, personAnswer: readPerson, vehicleAnswer: readVehicle, UNANSWERED } = await authoring();
  const { output } = invocation.options;
  if (output !== null && isThere(invocation, output))
    throw usage(`there is already a file \`${output}\``, "--force replaces it");
  const asked = new Interview(invocation, UNANSWERED);
  const known = (answer: string): string | null => (answer === "" ? null : answer);
  await asked.one("What is the assignment called? (Ore freighter in the ice; empty: no title)", "", (start, title) => ({
    ...start,
    title: known(title),
  }));
  await asked.one(
    "Which zone is the control room in? (America/New_York; empty: the one shown)",
    "America/New_York",
    (start, clock) => ({ ...start, clock, zone: clock }),
  );
  await asked.one(
    "Which zone are you in? (America/Chicago; empty: the one shown)",
    asked.start.clock,
    (start, zone) => ({
      ...start,
      zone,
    }),
  );
  const tomorrow = await dateOfTomorrow(invocation, asked.start.clock);
  const meaning = tomorrow === "" ? "" : "; empty: tomorrow";
  do
    await asked.one(`Which day, on the control room's clock? (2027-01-20${meaning})`, tomorrow, (start, date) => ({
      ...start,
      date,
    }));
  while (isTaken(invocation, file(asked.start.date)));
  await asked.list(
    "A vehicle, with weight and rules if it is a truck (truck 16000 lb us-property; empty: no more)",
    readVehicle,
    (start, vehicle) => ({ ...start, vehicles: [...start.vehicles, vehicle] }),
  );
  await asked.list(
    "A person, what they do, what they drive (wren camera drives wagon; empty: no more)",
    readPerson,
    (start, person) => ({ ...start, people: [...start.people, person] }),
    "a plan needs at least one person",
  );
  await asked.one("Where do you sleep? (lodge; empty: the one shown)", "lodge", (start, bed) => ({ ...start, bed }));
  await asked.one(
    "When was everyone released last? (18:00 -1d; empty: not known)",
    "",
    (start, released) => ({ ...start, released: known(released) }),
    readReleased,
  );
  await asked.list("A hit, when, where, how long (dawn 07:00 pier 3 min; empty: no more)", readHit, (start, hit) => ({
    ...start,
    hits: [...start.hits, hit],
  }));
  await askForDrives(asked);
  return asked;
}

/** Asks for the drives between the places that were named. */
export async function askForDrives(asked: Interview): Promise<void> {
  const { readDrive } = await authoring();
  await asked.list(
    "A drive, likely and bad time (lodge pier 35 min 50 min; empty: no more)",
    readDrive,
    (start, drive) => ({ ...start, drives: [...start.drives, drive] }),
  );
}

/** The day after the one on the control room's clock; empty where no clock can say it. */
async function dateOfTomorrow({ io }: Invocation, clock: string): Promise<string> {
  const { dateOfDay, localDay, machineInstant, zone } = await times();
  const [now, on] = [machineInstant("now", io.now()), zone(clock)];
  return now === null || on === null ? "" : dateOfDay(localDay(now, on) + 1);
}

const isThere = ({ io, options }: Invocation, file: string): boolean =>
  file !== "-" && !options.force && io.realpath(resolve(io.cwd, file)) !== null;

/** Said before all else is asked for, not when it is to be written. */
function isTaken(invocation: Invocation, file: string): boolean {
  if (!isThere(invocation, file)) return false;
  invocation.io.stderr.write(`error: there is already a file \`${printable(file)}\`\ntry: another day, or --force\n`);
  return true;
}

/** The answers so far, each taken only where it leaves the plan as sound as before. */
export class Interview {
  readonly #invocation: Invocation;
  #start: FirstPlan;

  constructor(invocation: Invocation, blank: FirstPlan) {
    this.#invocation = invocation;
    this.#start = blank;
  }

  get start(): FirstPlan {
    return this.#start;
  }

  /** One value; asked for again with what was probably meant as what return takes. */
  async one(
    question: string,
    preset: string,
    put: (start: FirstPlan, answer: string) => FirstPlan,
    read: (text: string) => Said<string> = (value) => ({ ok: true, value }),
  ): Promise<void> {
    let offered = preset;
    for (;;) {
      const answer = (await this.#invocation.io.ask(question, offered)).trim();
      const said = read(answer);
      const taken = said.ok ? await this.#take(put(this.#start, said.value)) : await this.#refuse(said.finding);
      if (taken.ok) return;
      offered = taken.near ?? preset;
    }
  }

  /** Values one by one, until an empty answer; `none` says why at least one is needed. */
  async list<T>(
    question: string,
    read: (text: string) => Said<T>,
    add: (start: FirstPlan, value: T) => FirstPlan,
    none: string | null = null,
  ): Promise<void> {
    const { io } = this.#invocation;
    let taken = 0;
    for (;;) {
      const answer = (await io.ask(question, "")).trim();
      if (answer === "" && (none === null || taken > 0)) return;
      const said = answer === "" ? null : read(answer);
      if (said === null) io.stderr.write(`error: ${none}\n`);
      else if (said.ok) taken += (await this.#take(add(this.#start, said.value))).ok ? 1 : 0;
      else await printUnclear(this.#invocation, said.finding);
    }
  }

  /** Takes the plan with the answer, or says what is wrong with it. */
  async #take(after: FirstPlan): Promise<Taken> {
    const { mistakeOf } = await authoring();
    const mistake = await mistakeOf(this.#start, after);
    if (mistake !== null) return this.#refuse(mistake);
    this.#start = after;
    return { ok: true };
  }

  async #refuse(mistake: Finding): Promise<Taken> {
    await printUnclear(this.#invocation, mistake);
    return { ok: false, near: meantBy(mistake) };
  }
}

/** Whether an answer was taken; `near` is what was probably meant, null where nothing is. */
type Taken = { readonly ok: true } | { readonly ok: false; readonly near: string | null };

/** The one value that a finding says is probably meant, ready to be typed; null where it names none or several. */
function meantBy({ facts }: Finding): string | null {
  const { near, like, fix, example } = facts;
  const only = Array.isArray(like) && like.length === 1 ? like[0] : null;
  return [near, only, fix, example].find((one): one is string => typeof one === "string" && one !== "") ?? null;
}
