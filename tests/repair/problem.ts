/** A day's text as a problem for `repair`: judged, with its open errors as targets and the judge of its edits; and its first repair. */

import { judge, readPlan, solveDay, tryEdits } from "../../src/index.ts";
import { dotted } from "../../src/plan/text/pathtext.ts";
import { repairable } from "../../src/repair/codes.ts";
import { type JudgeEdits, repairsOf } from "../../src/repair/index.ts";
import { isOpenError } from "../../src/repair/likeness.ts";

export async function problemOf(text: string) {
  const reading = await readPlan(text, { file: "day.yaml" });
  if (!reading.ok) throw new Error(reading.findings.map(({ code }) => code).join(" "));
  const solved = await solveDay(reading);
  if (!solved.ok) throw new Error(solved.findings.map(({ code }) => code).join(" "));
  const now = await judge(solved);
  const targets = repairable(now.findings.filter(isOpenError));
  const judgeEdits: JudgeEdits = (edits, scope) =>
    tryEdits(solved, edits, { text, file: "day.yaml", brief: false, ...scope });
  return { problem: { now, text, targets }, judgeEdits };
}

/** The first repair of a day, its edits as `path=value`, with what was wrong, each code once, and what is still wrong after it. */
export async function firstRepair(text: string) {
  const { problem, judgeEdits } = await problemOf(text);
  const codes = [...new Set(problem.targets.map(({ code }) => code))];
  const [first] = (await repairsOf(problem, judgeEdits, { patience: 1, most: 3 })).repairs;
  if (first === undefined) throw new Error(`no repair of ${codes.join(" ")}`);
  const after = (await judgeEdits(first.edits))?.findings.filter(isOpenError);
  return { codes, first, edits: first.edits.map(({ path, value }) => `${dotted(path)}=${value ?? ""}`), after };
}
