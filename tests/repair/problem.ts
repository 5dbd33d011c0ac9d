/** A day's text as a problem for `repair`: judged, with its open errors as targets and the judge of its edits. */
import { judge, readPlan, solveDay, tryEdits } from "../../src/index.ts";
import { repairable } from "../../src/repair/candidates.ts";
import type { JudgeEdits } from "../../src/repair/index.ts";
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
