/** Asks for tomorrow at a terminal: bed, hits and the drives they need; each answer is tried at once, and none is lost. */
import { authoring, type Finding, type Said, type StartDrive, type StartHit } from "../index.ts";
import type { Invocation } from "./command.ts";
import { type LoadedPlan, loadText } from "./plan/load.ts";
import { printUnclear } from "./plan/writePlan.ts";

/** What tomorrow is made of, as far as it is known. */
export interface NextAnswers {
  readonly hits: readonly StartHit[];
  readonly drives: readonly StartDrive[];
  readonly bed: string | null;
}

/** The text of the next plan, and what was left open. */
export interface NextPlan {
  readonly text: string;
  /** Hits that could not be planned, as words; they stand in comments. */
  readonly pending: readonly string[];
}

/** Mistakes of what is not asked yet. */
const isOpen = ({ code, path }: Finding): boolean =>
  code === "road-missing" || code === "hit-unattended" || path?.[0] === "runs";

/** `file` is where tomorrow will stand, `name` how it calls today's file. Null where today cannot be carried on at all. */
export async function askForTomorrow(
  invocation: Invocation,
  today: LoadedPlan,
  text: string,
  { file, name }: { readonly file: string; readonly name: string },
): Promise<NextPlan | null> {
  const { io } = invocation;
  const { readDrive, readHit, tomorrow } = await authoring();
  const made = (answers: NextAnswers): string | null => tomorrow(today.day, text, { name, ...answers }).text;
  const mistakes = async (answers: NextAnswers): Promise<readonly Finding[]> => {
    const written = made(answers);
    const checked = written === null ? null : await loadText(invocation, file, written, null);
    return checked === null || checked.ok ? [] : checked.findings.filter(({ level }) => level === "error");
  };
  let answers: NextAnswers = { hits: [], drives: [], bed: null };
  /** Takes what leaves no mistake but those of what is still to be asked. */
  const taken = async (after: NextAnswers): Promise<boolean> => {
    const [mistake] = (await mistakes(after)).filter((one) => !isOpen(one));
    if (mistake === undefined) answers = after;
    else await printUnclear(invocation, mistake);
    return mistake === undefined;
  };
  const list = async <T>(question: string, read: (words: string) => Said<T>, add: (value: T) => NextAnswers) => {
    for (;;) {
      const words = (await io.ask(question, "")).trim();
      if (words === "") return;
      const said = read(words);
      if (said.ok) await taken(add(said.value));
      else await printUnclear(invocation, said.finding);
    }
  };
  for (;;) {
    const bed = (await io.ask("Where does the day end? (inn; empty: where today ends)", "")).trim();
    if (bed === "" || (await taken({ ...answers, bed }))) break;
  }
  await list("A hit, when, where, how long (dawn 07:00 pier 3 min; empty: no more)", readHit, (hit) => ({
    ...answers,
    hits: [...answers.hits, hit],
  }));
  for (let drives = -1; drives < answers.drives.length; ) {
    const missing = (await mistakes(answers)).find(({ code }) => code === "road-missing");
    if (missing === undefined) break;
    drives = answers.drives.length;
    await printUnclear(invocation, missing);
    await list("A drive, likely and bad time (lodge pier 35 min 50 min; empty: no more)", readDrive, (drive) => ({
      ...answers,
      drives: [...answers.drives, drive],
    }));
  }
  const [mistake] = await mistakes(answers);
  if (mistake === undefined) {
    const whole = made(answers);
    return whole === null ? null : { text: whole, pending: [] };
  }
  await printUnclear(invocation, mistake);
  const without = made({ ...answers, hits: [] });
  const pending = answers.hits.map(({ id, at, place, length }) => `${id} ${at} ${place} ${length}`);
  return without === null
    ? null
    : { text: `${without}${pending.map((hit) => `# to plan: ${hit}\n`).join("")}`, pending };
}
