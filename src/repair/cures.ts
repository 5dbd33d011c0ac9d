/**
 * What a finding suggests, tried before it is printed: a suggestion that names an edit stands only where the edit, made and
 * judged by every engine, clears the finding and brings no error. Trials have a counted budget, the worst finding first.
 */
import type { Finding } from "../findings/finding.ts";
import type { Edit } from "../plan/edit/splice.ts";
import { enginesFor, kindsFor } from "./codes.ts";
import { differenceOf, findingKey, isHarm } from "./likeness.ts";
import type { JudgedPlan, JudgeEdits, Scope } from "./outcome.ts";
import { leavesSomeoneOut } from "./standing.ts";
import { suggestedEdits } from "./suggested.ts";
import { repairCommandText } from "./writing.ts";

/** What trials may cost together: a quarter of all engines is one; the packs alone are two. */
const MOST_WORK = 18;

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
  const trials = new Trials(now, judge, isWhole);
  const told: Finding[] = [];
  for (const finding of now.findings) {
    const tried = finding.accepted === null ? suggestedEdits(now, text, finding) : null;
    told.push(
      tried === null || (await trials.allCure(finding, tried)) ? finding : withoutHint(finding, now.day.plan.file),
    );
  }
  return told;
}

/** Edited plans that were judged, each once by each scope, within a counted budget. */
class Trials {
  private readonly judged = new Map<string, JudgedPlan | null>();
  private work = 0;
  private readonly now: JudgedPlan;
  private readonly judge: JudgeEdits;
  private readonly isWhole: boolean;

  constructor(now: JudgedPlan, judge: JudgeEdits, isWhole: boolean) {
    this.now = now;
    this.judge = judge;
    this.isWhole = isWhole;
  }

  /** Whether each of several ways to follow a suggestion clears the finding and brings no error. */
  async allCure(finding: Finding, ways: readonly (readonly Edit[])[]): Promise<boolean> {
    for (const edits of ways) if (edits.length === 0 || !(await this.cures(finding, edits))) return false;
    return ways.length > 0;
  }

  private async cures(finding: Finding, edits: readonly Edit[]): Promise<boolean> {
    // What its own engine still finds, all together find: that engine alone is quick.
    const [engine] = enginesFor([finding.code]);
    const alone = engine === undefined || engine === "power" ? null : this.tried(edits, { ...PART, topics: [engine] });
    if (alone !== null && stands(await alone, finding)) return false;
    const whole: Scope = edits.every(isBooking) ? { ...PART, topics: ["signal", "bookings"] } : { brief: true };
    const before = this.isWhole && whole.topics === undefined ? this.now : await this.tried([], whole);
    const after = await this.tried(edits, whole);
    if (before === null || after === null || stands(after, finding)) return false;
    if (leavesSomeoneOut(before.day, after.day)) return false;
    return !differenceOf(before.findings, after.findings).brought.some(isHarm);
  }

  /** Null if the edited text is no plan, or the budget is spent. */
  private async tried(edits: readonly Edit[], scope: Scope): Promise<JudgedPlan | null> {
    const name = `${JSON.stringify(scope)} ${JSON.stringify(edits)}`;
    const known = this.judged.get(name);
    if (known !== undefined) return known;
    const packs = scope.chores === false || this.now.day.plan.packs.size === 0 ? 0 : 2;
    const work = (scope.topics === undefined ? 2 : 1) + packs;
    const outcome = this.work + work > MOST_WORK ? null : await this.judge(edits, scope);
    this.work += work;
    this.judged.set(name, outcome);
    return outcome;
  }
}

/** By some engines alone. */
const PART: Scope = { brief: true, chores: false };

/** Booked windows and reels on hand, which only signal and bookings read. */
const isBooking = ({ path }: Edit): boolean => path[0] === "paths" && (path[2] === "windows" || path[2] === "reels");

function stands(outcome: JudgedPlan | null, finding: Finding): boolean {
  const key = findingKey(finding);
  return outcome === null || outcome.findings.some((one) => one.accepted === null && findingKey(one) === key);
}

/** What was suggested does not help: `repair` looks for what does. */
const withoutHint = (finding: Finding, file: string | null): Finding => {
  const { shared, code } = finding;
  const hint = kindsFor(code).length === 0 ? null : `${repairCommandText(file, code)} looks for edits that help`;
  return {
    ...finding,
    hint: () => hint,
    shared: shared === null ? null : (who, say) => ({ ...shared(who, say), hint }),
  };
};
