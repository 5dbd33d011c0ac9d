/** Which of the versions that were tried are shown: what a repair is worth, and which of several say the same. */
import type { Finding } from "../findings/finding.ts";
import type { Edit } from "../plan/edit/splice.ts";
import { differenceOf, findingKeys, isOpen } from "./likeness.ts";
import type { JudgedPlan } from "./outcome.ts";
import type { Effect } from "./promise.ts";
import { byRank, lawMinutes, leavesSomeoneOut, type Standing, standingOf } from "./standing.ts";

/** Edits that help, and the plan with them. */
export interface Repair {
  readonly edits: readonly Edit[];
  readonly outcome: JudgedPlan;
  /** Findings of the plan as it is that the repair clears; every one was to be repaired, or goes with it. */
  readonly clears: readonly Finding[];
  /** Findings to be repaired of which it clears a part: it loses less with what is out of service. */
  readonly eases: readonly Finding[];
  /** Warnings and notes that it brings; never an error. */
  readonly brings: readonly Finding[];
  readonly standing: Standing;
  /** How many of the findings to be repaired remain. */
  readonly left: number;
  /** How much of them remains: of what is out of service, each hit, task and person that is lost. */
  readonly open: number;
}

/** A version that was judged. */
export interface Tried extends Effect {
  readonly edits: readonly Edit[];
  readonly outcome: JudgedPlan;
  readonly brings: readonly Finding[];
}

/** Whether a version is a way out of the plan as it is, but for the errors that it brings: nobody loses a hit, no more law is broken. */
export const isWayOut = (now: JudgedPlan, { cleared, outcome }: Tried): boolean =>
  cleared.size > 0 &&
  !leavesSomeoneOut(now.day, outcome.day) &&
  lawMinutes(outcome.findings) <= lawMinutes(now.findings);

/** What was to be repaired, in the plan as it is. */
interface ToRepair {
  readonly now: JudgedPlan;
  readonly targets: readonly Finding[];
  readonly keys: readonly string[];
}

/** A version as a repair of the plan as it is. */
export function repairOf({ now, targets, keys }: ToRepair, { edits, outcome, cleared, brings }: Tried): Repair {
  const { gone } = differenceOf(now.findings, outcome.findings);
  const remains = (one: Finding): boolean => findingKeys(one).some((key) => !cleared.has(key));
  // What is out of service stays so: a note without a loss.
  const harmless = targets.filter((one) => !gone.includes(one) && !remains(one));
  return {
    edits,
    outcome,
    clears: [...gone.filter((one) => isOpen(one) && one.level !== "note"), ...harmless],
    eases: targets.filter((one) => remains(one) && findingKeys(one).some((key) => cleared.has(key))),
    brings: brings.filter(isOpen),
    standing: standingOf(now, outcome),
    left: targets.filter(remains).length,
    open: keys.length - cleared.size,
  };
}

/** What is left first, then the one ranking. */
export const byValue = (a: Repair, b: Repair): number => a.open - b.open || byRank(ranked(a), ranked(b));

const ranked = ({ standing, edits }: Repair) => ({ standing, edits: edits.length });

/** A version that is a repair: it clears something and brings no error. */
export interface Sound {
  readonly one: Tried;
  readonly repair: Repair;
}

/** Best first; without what needs only a part of its steps, and what another also clears, with no more edits and a better rank. */
export function choicesOf(all: readonly Sound[]): readonly Sound[] {
  const needed = all
    .filter((own) => !all.some((part) => makesNeedless(part.one, own.one)))
    .sort((a, b) => byValue(a.repair, b.repair));
  return needed.filter(
    (own, at) =>
      !needed
        .slice(0, at)
        .some(
          (better) =>
            better.repair.edits.length <= own.repair.edits.length &&
            [...own.one.cleared].every((key) => better.one.cleared.has(key)),
        ),
  );
}

/** Whether a part of `one` clears as much as all of it. */
const makesNeedless = (part: Tried, one: Tried): boolean =>
  part.steps.length < one.steps.length &&
  part.steps.every((step) => one.steps.includes(step)) &&
  [...one.cleared].every((key) => part.cleared.has(key));
