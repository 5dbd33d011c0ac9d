/** Asks for tomorrow at a terminal: bed, hits and the drives they need; each answer is tried at once, and none is lost. */
import { authoring, type Finding, type StartDrive, type StartHit } from "../index.ts";
import type { Invocation } from "./command.ts";
import { note } from "./output.ts";
import { type LoadedPlan, loadText } from "./plan/load.ts";
import { printUnclear } from "./plan/writePlan.ts";
import { type Asking, askEach, HIT, missingDrives, oneValue, severalValues, WAY_BACK } from "./questions.ts";

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
  { file, name, ends }: { readonly file: string; readonly name: string; readonly ends: ReadonlyMap<string, string> },
): Promise<NextPlan | null> {
  const { readDrive, readHit, tomorrow } = await authoring();
  const made = (answers: NextAnswers) => tomorrow(today.day, text, { name, ends, ...answers });
  const mistakes = async (answers: NextAnswers): Promise<readonly Finding[]> => {
    const { text: written, findings } = made(answers);
    if (written === null) return findings;
    const checked = await loadText(invocation, file, written, null);
    return checked.ok ? [] : checked.findings.filter(({ level }) => level === "error");
  };
  const asking: Asking<NextAnswers> = {
    invocation,
    mistakeOf: async (_, after) => (await mistakes(after)).find((one) => !isOpen(one)) ?? null,
  };
  note(invocation.io, invocation.options, WAY_BACK);
  const answers = await askEach<NextAnswers>(
    invocation,
    [
      oneValue(asking, {
        text: "Where does the day end?",
        example: "inn",
        empty: "where today ends",
        put: (before, bed) => ({ ...before, bed: bed === "" ? null : bed }),
      }),
      severalValues(asking, {
        ...HIT,
        read: readHit,
        add: (before, hit) => ({ ...before, hits: [...before.hits, hit] }),
      }),
      missingDrives(
        asking,
        async (before) => (await mistakes(before)).find(({ code }) => code === "road-missing") ?? null,
        { read: readDrive, add: (before, drive) => ({ ...before, drives: [...before.drives, drive] }) },
      ),
    ],
    { hits: [], drives: [], bed: null },
  );
  const [mistake] = await mistakes(answers);
  if (mistake === undefined) {
    const { text: whole } = made(answers);
    return whole === null ? null : { text: whole, pending: [] };
  }
  await printUnclear(invocation, mistake);
  const { text: without } = made({ ...answers, hits: [] });
  const pending = answers.hits.map(({ id, at, place, length }) => `${id} ${at} ${place} ${length}`);
  return without === null
    ? null
    : { text: `${without}${pending.map((hit) => `# to plan: ${hit}\n`).join("")}`, pending };
}
