/** The edits that may help: for each kind that a finding's code names, those that this plan allows, each once. */
import { EDIT_KINDS, type EditKind, kindsFor } from "./codes.ts";
import { outageCandidates } from "./kinds/outage.ts";
import { driverCandidates, fetchCandidates, handCandidates, standInCandidates } from "./kinds/people.ts";
import {
  dropTaskCandidates,
  fuelCandidates,
  giveUpCandidates,
  kitCandidates,
  lodgingCandidates,
  packCandidates,
  pathCandidates,
  placeCandidates,
  slotCandidates,
} from "./kinds/things.ts";
import { leaveCandidates, mealCandidates, orderCandidates, stayCandidates, taskTimeCandidates } from "./kinds/times.ts";
import type { AimedCandidate, Candidate, RepairProblem } from "./outcome.ts";
import { suggestedEdits } from "./suggested.ts";

const MAKERS: Readonly<Record<EditKind, (problem: RepairProblem) => readonly Candidate[]>> = {
  outage: outageCandidates,
  leave: leaveCandidates,
  order: orderCandidates,
  taskTime: taskTimeCandidates,
  meal: mealCandidates,
  stay: stayCandidates,
  driver: driverCandidates,
  standIn: standInCandidates,
  hand: handCandidates,
  kit: kitCandidates,
  pack: packCandidates,
  slot: slotCandidates,
  mount: suggestedCandidates,
  fuel: fuelCandidates,
  path: pathCandidates,
  place: placeCandidates,
  lodging: lodgingCandidates,
  fetch: fetchCandidates,
  dropTask: dropTaskCandidates,
  giveUp: giveUpCandidates,
};

/** What the findings themselves suggest. */
function suggestedCandidates({ now, text, targets }: RepairProblem): readonly Candidate[] {
  return targets.flatMap((finding) => suggestedEdits(now, text, finding) ?? []).map((edits) => ({ edits }));
}

/** In the order of the kinds, then of the plan. Each kind sees only the findings whose code names it. */
export function candidatesFor(problem: RepairProblem): readonly AimedCandidate[] {
  const found = new Map<string, AimedCandidate>();
  for (const kind of EDIT_KINDS) {
    const targets = problem.targets.filter(({ code }) => kindsFor(code).includes(kind));
    if (targets.length === 0) continue;
    const codes = targets.map(({ code }) => code);
    for (const made of MAKERS[kind]({ ...problem, targets })) {
      const key = JSON.stringify(made.edits);
      found.set(key, { ...made, codes: [...new Set([...(found.get(key)?.codes ?? []), ...codes])] });
    }
  }
  return [...found.values()];
}
