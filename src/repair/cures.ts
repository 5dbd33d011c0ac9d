/**
 * What a finding suggests, tried before it is printed: a suggestion that names an edit stands only where the edit, made and
 * judged by every engine, clears the finding and brings no error. At most 24 trials a run, the worst finding first.
 */
import type { Finding } from "../findings/finding.ts";
import type { Edit } from "../plan/edit/request.ts";
import { enginesFor, kindsFor } from "./codes.ts";
import { differenceOf, findingKey, isHarm } from "./likeness.ts";
import type { JudgedPlan, JudgeEdits } from "./outcome.ts";
import { suggestedEdits } from "./suggested.ts";

/** Trials at most. */
const MOST_TRIALS = 24;

/**
 * The findings, each with its suggestion as it is if that is sound, and without it if it names an edit that is not. `isWhole`:
 * `now` has the findings of every engine about everybody.
 */
export async function withSoundHints(
  now: JudgedPlan,
  text: string,
  judge: JudgeEdits,
  isWhole: boolean,
): Promise<readonly Finding[]> {
  const known = new Map<string, boolean>();
  const bases = new Map<string, Promise<JudgedPlan | null>>();
  let whole: Promise<JudgedPlan | null> | null = null;
  let trials = 0;
  /** Judged by the engine alone that found it, which is quick: false where it stands there as before. */
  const mayCure = async (finding: Finding, edits: readonly Edit[]): Promise<boolean> => {
    const [engine] = enginesFor([finding.code]);
    if (engine === undefined || engine === "power") return true;
    const scope = { brief: true, chores: false, topics: [engine] } as const;
    const base = bases.get(engine) ?? judge([], scope);
    bases.set(engine, base);
    if (!stands(await base, finding)) return true;
    return !stands(await judge(edits, scope), finding);
  };
  const sound = async (finding: Finding, edits: readonly Edit[]): Promise<boolean> => {
    const name = `${finding.code} ${JSON.stringify(edits)}`;
    const answer = known.get(name);
    if (answer !== undefined) return answer;
    if (trials >= MOST_TRIALS) return false;
    trials += 1;
    whole ??= isWhole ? Promise.resolve(now) : judge([], { brief: true });
    const before = await whole;
    const cured =
      before !== null && (await mayCure(finding, edits)) && cures(before, await judge(edits, { brief: true }), finding);
    known.set(name, cured);
    return cured;
  };
  const told: Finding[] = [];
  for (const finding of now.findings) {
    const tried = finding.accepted === null ? suggestedEdits(now, text, finding) : null;
    if (tried === null) told.push(finding);
    else {
      const results: boolean[] = [];
      for (const edits of tried) results.push(edits.length > 0 && (await sound(finding, edits)));
      told.push(results.length > 0 && results.every(Boolean) ? finding : withoutHint(finding));
    }
  }
  return told;
}

const cures = (before: JudgedPlan, after: JudgedPlan | null, finding: Finding): boolean =>
  after !== null && !stands(after, finding) && !differenceOf(before.findings, after.findings).brought.some(isHarm);

function stands(outcome: JudgedPlan | null, finding: Finding): boolean {
  const key = findingKey(finding);
  return outcome === null || outcome.findings.some((one) => one.accepted === null && findingKey(one) === key);
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
