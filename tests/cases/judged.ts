/** A plan as a file or as text, read, solved and judged whole, for what a case should say. */
import { existsSync, readFileSync } from "node:fs";
import { dirname, resolve } from "node:path";
import type { Finding } from "../../src/findings/finding.ts";
import { judge, readPlan, solveDay } from "../../src/index.ts";
import type { PlanFiles } from "../../src/plan/text/files.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";

type Judged = Awaited<ReturnType<typeof judge>>;

export interface Case extends Judged {
  /** Sentences of the findings with this code. */
  readonly said: (code: string) => readonly string[];
  readonly found: (code: string) => readonly Finding[];
}

const fromDisk = (folder: string): PlanFiles => ({
  read(path) {
    const file = resolve(folder, path);
    return existsSync(file) ? { kind: "text", text: readFileSync(file, "utf8") } : { kind: "missing", near: [] };
  },
});

async function judgedWith(text: string, files: PlanFiles): Promise<Case> {
  const reading = await readPlan(text, { file: "day.yaml", files });
  const mistakes = (findings: readonly Finding[]) =>
    new Error(findings.map(({ code, facts }) => `${code} ${JSON.stringify(facts)}`).join("; "));
  if (!reading.ok) throw mistakes(reading.findings);
  const solved = await solveDay(reading);
  if (!solved.ok) throw mistakes(solved.findings);
  const judged = await judge(solved);
  const say = wordingOf(judged.day.plan);
  const found = (code: string) => judged.findings.filter((finding) => finding.code === code);
  return { ...judged, found, said: (code) => found(code).map((finding) => finding.sentence(say)) };
}

/** The plan in a file, with the files beside it. */
export const judgedFile = (path: string): Promise<Case> =>
  judgedWith(readFileSync(path, "utf8"), fromDisk(dirname(path)));

/** A plan as text, with the files that it names. */
export const judgedText = (text: string, others: Readonly<Record<string, string>> = {}): Promise<Case> =>
  judgedWith(text, {
    read: (path) => {
      const found = others[path];
      return found === undefined ? { kind: "missing", near: [] } : { kind: "text", text: found };
    },
  });
