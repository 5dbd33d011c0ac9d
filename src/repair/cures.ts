/**
 * What a finding suggests, tried before it is printed: a suggestion that names an edit stands only where the edit, made and
 * judged by every engine, clears the finding and brings no error. At most 24 trials a run, the worst finding first.
 */
import type { Finding } from "../findings/finding.ts";
import { parseEdit } from "../plan/edit/edit.ts";
import type { Edit } from "../plan/edit/request.ts";
import { kindsFor } from "./codes.ts";
import { instantsInFact, mealAt } from "./kinds/times.ts";
import { differenceOf, findingKey, isOpenError } from "./likeness.ts";
import type { JudgedPlan, JudgeEdits } from "./outcome.ts";
import { doEdit } from "./writing.ts";

/** Trials at most. */
const MOST_TRIALS = 24;

/** The findings, each with its suggestion as it is where that is sound, and without it where it names an edit that is not. */
export async function withSoundHints(now: JudgedPlan, text: string, judge: JudgeEdits): Promise<readonly Finding[]> {
  const known = new Map<string, boolean>();
  let trials = 0;
  const sound = async (finding: Finding, edits: readonly Edit[]): Promise<boolean> => {
    const name = `${finding.code} ${JSON.stringify(edits)}`;
    const before = known.get(name);
    if (before !== undefined) return before;
    if (trials >= MOST_TRIALS) return false;
    trials += 1;
    const after = await judge(edits);
    const cured = after !== null && cures(now, after, finding);
    known.set(name, cured);
    return cured;
  };
  const told: Finding[] = [];
  for (const finding of now.findings) {
    const tried = finding.accepted === null ? suggested(now, text, finding) : null;
    if (tried === null) told.push(finding);
    else {
      const results: boolean[] = [];
      for (const edits of tried) results.push(await sound(finding, edits));
      told.push(results.length > 0 && results.every(Boolean) ? finding : withoutHint(finding));
    }
  }
  return told;
}

function cures(now: JudgedPlan, after: JudgedPlan, finding: Finding): boolean {
  const key = findingKey(finding);
  const stands = after.findings.some((one) => one.accepted === null && findingKey(one) === key);
  return !stands && !differenceOf(now.findings, after.findings).brought.some(isOpenError);
}

/** What was suggested does not help: `repair` looks for what does. */
const withoutHint = (finding: Finding): Finding => {
  const { shared, code } = finding;
  const hint = kindsFor(code).length === 0 ? null : `daywright repair --code ${code} looks for edits that help`;
  return {
    ...finding,
    hint: () => hint,
    shared: shared === null ? null : (who, say) => ({ ...shared(who, say), hint }),
  };
};

/** The edits that a suggestion stands for, one list a version of it; null where it names none. */
function suggested(now: JudgedPlan, text: string, finding: Finding): readonly (readonly Edit[])[] | null {
  const { facts, code } = finding;
  const written = facts["edits"];
  if (Array.isArray(written) && written.length > 0) {
    const edits = written.flatMap((one) => parseEdit(String(one)).edit ?? []);
    return [edits];
  }
  if (code === "meal-late") return mealTrials(now, text, finding);
  const order = facts["byTime"];
  if (Array.isArray(order) && order.length > 0) return orderTrial(now, text, finding, order.map(String));
  return null;
}

/** The meal at the earliest and at the latest of what is suggested. */
function mealTrials(now: JudgedPlan, text: string, finding: Finding): readonly (readonly Edit[])[] | null {
  const moments = [finding.facts["wait"], finding.facts["waitTo"]].flatMap((fact) =>
    fact === undefined ? [] : instantsInFact(fact),
  );
  if (moments.length === 0) return null;
  return moments.flatMap((at) => {
    const edits = mealAt(now.day, text, finding, at);
    return edits === null ? [] : [edits];
  });
}

function orderTrial(
  now: JudgedPlan,
  text: string,
  finding: Finding,
  order: readonly string[],
): readonly (readonly Edit[])[] {
  const what = String(finding.facts["what"]);
  const activity = now.day.plan.tasks.get(what) ?? now.day.plan.hits.get(what);
  const place = activity?.location.kind === "place" ? activity.location.place : null;
  const stops = [...now.day.plan.runs.values()].flatMap(({ stops }) => stops).filter((stop) => stop.place === place);
  const own = stops.filter((stop) => stop.do === null || stop.do.includes(what));
  const known = new Set(own.flatMap((stop) => stop.do ?? order));
  return [
    own.map((stop) =>
      doEdit(
        now.day.plan,
        text,
        stop,
        order.filter((one) => known.has(one)),
      ),
    ),
  ];
}
