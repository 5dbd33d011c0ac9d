/** Plans as `check` and `repair` see them, and as anyone sees them who has written an edit into the file. */
import { readdirSync, readFileSync } from "node:fs";
import { catalogue } from "../../src/findings/catalogue.ts";
import { type Finding, isLog, judge, readPlan, solveDay, tryEdits } from "../../src/index.ts";
import { applyEdits, type Edit, type FileReading } from "../../src/plan/index.ts";
import type { JudgeEdits } from "../../src/repair/index.ts";
import { findingKey, findingKeys, isHarm, isOpenError } from "../../src/repair/likeness.ts";
import type { JudgedPlan } from "../../src/repair/outcome.ts";
import { DAY, laid } from "../findings/lay.ts";

/** Every plan of the fixtures, of whatever kind. */
export const PLANS: readonly string[] = readdirSync("fixtures", { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".yaml"))
  .map((name) => `fixtures/${name.replaceAll("\\", "/")}`)
  .sort();

/** The example of every code, laid on a day that has nothing wrong. */
export async function examples(): Promise<readonly { readonly file: string; readonly text: string }[]> {
  return [...(await catalogue()).values()].flatMap(({ code, example }) => {
    try {
      return [{ file: `${code}.yaml`, text: laid(DAY, example, "keys") }];
    } catch {
      // A command, a log, or a text that cannot be read.
      return [];
    }
  });
}

const read = (path: string): FileReading => {
  try {
    return { kind: "text", text: readFileSync(path, "utf8") };
  } catch {
    return { kind: "missing", near: [] };
  }
};
const files = { read };

export interface Posed {
  readonly file: string;
  readonly text: string;
  readonly now: JudgedPlan;
  readonly judgeEdits: JudgeEdits;
}

/** A plan judged by every engine; null if it is refused or is no plan. */
export async function posed(file: string, text = readFileSync(file, "utf8")): Promise<Posed | null> {
  if (await isLog(text)) return null;
  const reading = await readPlan(text, { file, files });
  const solved = reading.ok ? await solveDay(reading) : null;
  if (solved === null || !solved.ok) return null;
  const judgeEdits: JudgeEdits = (edits, scope) =>
    tryEdits(solved, edits, { text, file, files, brief: false, ...scope });
  return { file, text, now: await judge(solved), judgeEdits };
}

/** What stands after edits were written into the file and everything was read again; null if that is refused. */
export async function written({ file, text }: Posed, edits: readonly Edit[]): Promise<JudgedPlan | null> {
  const made = applyEdits(text, edits, { file, create: true });
  return made.text === null ? null : ((await posed(file, made.text))?.now ?? null);
}

/** What of `promised` stands after the edits were written, and which errors are new. */
export async function failings(
  plan: Posed,
  edits: readonly Edit[],
  promised: readonly Finding[],
): Promise<readonly string[]> {
  const after = await written(plan, edits);
  if (after === null) return ["the edited plan is refused"];
  const open = new Set(after.findings.filter(({ accepted }) => accepted === null).flatMap(findingKeys));
  const before = new Set(plan.now.findings.filter(isOpenError).map(findingKey));
  const stands = promised.flatMap(findingKeys).filter((key) => open.has(key));
  const brought = after.findings.filter((one) => isHarm(one) && !before.has(findingKey(one))).map(findingKey);
  return [...stands.map((key) => `stands: ${key}`), ...brought.map((key) => `new: ${key}`)];
}

/** Edits as `--set` takes them. */
export const editText = (edits: readonly Edit[]): string =>
  edits.map(({ path, value }) => `${path.join(".")}=${value ?? ""}`).join("; ");
