/** Candidates that `repair` judges on a small day, by all engines and by one alone, and how long the first answer takes. */
import { judge, readPlan, solveDay, tryEdits } from "../../src/index.ts";
import { candidatesFor } from "../../src/repair/candidates.ts";
import { repairable } from "../../src/repair/codes.ts";
import { type JudgeEdits, repairsOf } from "../../src/repair/index.ts";
import { isOpenError } from "../../src/repair/likeness.ts";
import { brokenDay } from "../repair/brokenDays.ts";
import type { Bench } from "./bench.ts";

/** Random days that an edit helps. */
async function posed(most: number) {
  const all = [];
  for (let seed = 1; all.length < most; seed++) {
    const text = brokenDay(seed)?.broken.text ?? "";
    const reading = await readPlan(text, { file: null });
    const solved = reading.ok ? await solveDay(reading) : null;
    if (solved === null || !solved.ok) continue;
    const now = await judge(solved);
    const targets = repairable(now.findings.filter(isOpenError));
    const candidates = candidatesFor({ now, text, targets });
    if (candidates.length === 0) continue;
    // A list of its own each time: nothing is known from the round before.
    const judgeEdits: JudgeEdits = (edits, scope) =>
      tryEdits({ ...solved }, edits, { text, file: null, brief: false, ...scope });
    all.push({ now, text, targets, candidates, judgeEdits });
  }
  return all;
}

const days = await posed(5);
const candidates = days.flatMap((day) => day.candidates.map(({ edits }) => ({ edits, judge: day.judgeEdits })));

/** What `npm run bench` measures of `repair`. */
export const benches: readonly Bench[] = [
  {
    name: "candidates of a day of one to three vehicles judged by all engines, a candidate",
    units: candidates.length,
    rate: true,
    run: async () => {
      for (const { edits, judge: judged } of candidates) await judged(edits, { brief: true });
    },
  },
  {
    name: "the same by the engine of hours alone, a candidate",
    units: candidates.length,
    rate: true,
    run: async () => {
      for (const { edits, judge: judged } of candidates)
        await judged(edits, { brief: true, chores: false, topics: ["hours"] });
    },
  },
  {
    name: "all repairs of such a day, a day",
    units: days.length,
    run: async () => {
      for (const { now, text, targets, judgeEdits } of days)
        await repairsOf({ now, text, targets }, judgeEdits, { patience: 1, most: 3 });
    },
  },
];
