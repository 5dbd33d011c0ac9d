/**
 * Searches the smallest way out: candidates alone, in pairs and in threes, each judged by the whole engine.
 *
 * With few candidates every one and every pair is judged, which proves the first in the ranking; else those come first
 * that together promise to clear most. The budget counts judgements, never time.
 */
import type { Finding } from "../findings/finding.ts";
import type { Edit } from "../plan/edit/request.ts";
import { differenceOf, findingKeys, isOpenError } from "./likeness.ts";
import type { Candidate, JudgedPlan, JudgeEdits } from "./outcome.ts";
import { byRank, lawMinutes, type Standing, standingOf } from "./standing.ts";

/** Up to this many candidates every pair is judged. */
export const FEW = 12;
/** Pairs and threes are made of this many at most, where there are more. */
const PROMISING = 10;

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

/** How many candidates there were, how many were judged, and to which depth all of them. */
export interface RepairProof {
  readonly candidates: number;
  readonly judged: number;
  /** How many steps deep every combination was judged; 0 where the budget ended before. */
  readonly completeTo: number;
}

/** How many candidates may be judged, and how deep. */
export interface SearchOptions {
  /** Judgements at most. */
  readonly budget: number;
  /** Steps of one repair at most. */
  readonly deepest: number;
  progress?(judged: number): void;
}

interface Tried {
  readonly steps: readonly number[];
  readonly edits: readonly Edit[];
  readonly outcome: JudgedPlan;
  /** Keys of what was to be repaired and is gone. */
  readonly cleared: ReadonlySet<string>;
  /** Minutes short in all that was to be repaired. */
  readonly short: number;
  readonly brings: readonly Finding[];
}

/** Repairs, best first: those that leave least, then by the one ranking. */
export async function search(
  now: JudgedPlan,
  targets: readonly Finding[],
  candidates: readonly Candidate[],
  judge: JudgeEdits,
  options: SearchOptions,
): Promise<{ readonly repairs: readonly Repair[]; readonly proof: RepairProof }> {
  const keys = [...new Set(targets.flatMap(findingKeys))];
  const tried = new Map<string, Tried | null>();
  const attempt = async (steps: readonly number[]): Promise<Tried | null> => {
    const name = steps.join(" ");
    const edits = steps.flatMap((step) => candidates[step]?.edits ?? []);
    const outcome = await judge(edits);
    const one = outcome === null ? null : triedOf(now, keys, steps, edits, outcome);
    tried.set(name, one);
    options.progress?.(tried.size);
    return one;
  };
  const complete = await tryAll(candidates, keys, now, tried, attempt, options);
  const sound = [...tried.values()].filter((one) => one !== null && isSound(now, one)) as readonly Tried[];
  const all = sound.map((one) => ({ one, repair: repairOf(now, targets, one), cleared: one.cleared }));
  const repairs = all
    .filter((own) => !all.some((part) => makesNeedless(part.one, own.one) && byValue(part.repair, own.repair) <= 0))
    .sort((a, b) => byValue(a.repair, b.repair));
  // What another also clears, with no more edits and a better rank, is no choice of its own.
  const choices = repairs.filter(
    (one, at) =>
      !repairs
        .slice(0, at)
        .some(
          (better) =>
            better.repair.edits.length <= one.repair.edits.length &&
            [...one.cleared].every((key) => better.cleared.has(key)),
        ),
  );
  return {
    repairs: choices.map(({ repair }) => repair),
    proof: { candidates: candidates.length, judged: tried.size, completeTo: complete },
  };
}

/** What is left first, then the one ranking. */
const byValue = (a: Repair, b: Repair): number => a.open - b.open || byRank(ranked(a), ranked(b));

const ranked = ({ standing, edits }: Repair) => ({ standing, edits: edits.length });

type Attempt = (steps: readonly number[]) => Promise<Tried | null>;

/** Level by level until the budget ends; gives how deep every combination was judged. */
async function tryAll(
  candidates: readonly Candidate[],
  keys: readonly string[],
  now: JudgedPlan,
  tried: ReadonlyMap<string, Tried | null>,
  attempt: Attempt,
  { budget, deepest }: SearchOptions,
): Promise<number> {
  const room = (): boolean => tried.size < budget;
  const singles: Tried[] = [];
  for (const step of candidates.keys()) {
    if (!room()) return 0;
    const one = await attempt([step]);
    if (one !== null) singles.push(one);
  }
  if (deepest < 2) return 1;
  const few = candidates.length <= FEW;
  const start = shortOf(now, keys);
  const promising = few
    ? singles
    : singles
        .filter((one) => promises(one, start))
        .sort(byPromise)
        .slice(0, PROMISING);
  const all = few ? [...candidates.keys()] : promising.map(({ steps }) => steps[0] ?? 0).sort((a, b) => a - b);
  const pairs: Tried[] = [];
  for (const steps of inPromisedOrder(pairsOf(all), tried, keys)) {
    if (!room()) return 1;
    if (!stepsFit(candidates, steps)) continue;
    const one = await attempt(steps);
    if (one !== null) pairs.push(one);
  }
  const complete = few ? 2 : 1;
  if (deepest < 3 || pairs.some((one) => one.cleared.size === keys.length && isSound(now, one))) return complete;
  if (singles.some((one) => one.cleared.size === keys.length && isSound(now, one))) return complete;
  const best = pairs
    .filter((one) => isSound(now, one))
    .sort(byPromise)
    .slice(0, PROMISING);
  const threes = best.flatMap((pair) =>
    all.filter((step) => !pair.steps.includes(step)).map((step) => [...pair.steps, step].sort((a, b) => a - b)),
  );
  const once = [...new Map(threes.map((steps) => [steps.join(" "), steps])).values()];
  for (const steps of inPromisedOrder(once, tried, keys)) {
    if (!room()) return complete;
    if (stepsFit(candidates, steps)) await attempt(steps);
  }
  return complete;
}

function triedOf(
  now: JudgedPlan,
  keys: readonly string[],
  steps: readonly number[],
  edits: readonly Edit[],
  outcome: JudgedPlan,
): Tried {
  const open = new Set(outcome.findings.filter(({ accepted }) => accepted === null).flatMap(findingKeys));
  return {
    steps,
    edits,
    outcome,
    cleared: new Set(keys.filter((key) => !open.has(key))),
    short: shortOf(outcome, keys),
    brings: differenceOf(now.findings, outcome.findings).brought,
  };
}

const shortOf = ({ findings }: JudgedPlan, keys: readonly string[]): number =>
  findings.reduce(
    (sum, one) => sum + (findingKeys(one).some((key) => keys.includes(key)) ? (one.shortMinutes ?? 0) : 0),
    0,
  );

const promises = (one: Tried, start: number): boolean => one.cleared.size > 0 || one.short < start;

const byPromise = (a: Tried, b: Tried): number =>
  b.cleared.size - a.cleared.size ||
  a.short - b.short ||
  a.edits.length - b.edits.length ||
  (a.steps[0] ?? 0) - (b.steps[0] ?? 0);

/** Whether a candidate clears something, brings no error and breaks no more law than the plan as it is. */
const isSound = (now: JudgedPlan, one: Tried): boolean =>
  one.cleared.size > 0 && !one.brings.some(isOpenError) && lawMinutes(one.outcome.findings) <= lawMinutes(now.findings);

/** Whether a part of `one` clears as much as all of it. */
const makesNeedless = (part: Tried, one: Tried): boolean =>
  part.steps.length < one.steps.length &&
  part.steps.every((step) => one.steps.includes(step)) &&
  [...one.cleared].every((key) => part.cleared.has(key));

function pairsOf(steps: readonly number[]): readonly (readonly number[])[] {
  return steps.flatMap((first, at) => steps.slice(at + 1).map((second) => [first, second]));
}

/** Those first whose steps together clear most, by what each clears alone; stable. */
function inPromisedOrder(
  all: readonly (readonly number[])[],
  tried: ReadonlyMap<string, Tried | null>,
  keys: readonly string[],
): readonly (readonly number[])[] {
  const promised = (steps: readonly number[]): number => {
    const each = steps.flatMap((step) => [...(tried.get(String(step))?.cleared ?? [])]);
    return new Set(each).size;
  };
  const rank = new Map(all.map((steps) => [steps, keys.length - promised(steps)]));
  return all.toSorted((a, b) => (rank.get(a) ?? 0) - (rank.get(b) ?? 0));
}

/** Two steps that write one value, or one inside the other, exclude each other. */
export function stepsFit(candidates: readonly Candidate[], steps: readonly number[]): boolean {
  const paths = steps.map((step) => (candidates[step]?.edits ?? []).map(({ path }) => path.join("\u0000")));
  const clash = (a: string, b: string): boolean => a === b || a.startsWith(`${b}\u0000`) || b.startsWith(`${a}\u0000`);
  return paths.every((own, at) =>
    paths.slice(at + 1).every((others) => !own.some((a) => others.some((b) => clash(a, b)))),
  );
}

function repairOf(now: JudgedPlan, targets: readonly Finding[], { edits, outcome, cleared, brings }: Tried): Repair {
  const keys = new Set(targets.flatMap(findingKeys));
  const { gone } = differenceOf(now.findings, outcome.findings);
  const remains = (one: Finding): boolean => findingKeys(one).some((key) => !cleared.has(key));
  // What is out of service stays so: a note without a loss.
  const harmless = targets.filter((one) => !gone.includes(one) && !remains(one));
  return {
    edits,
    outcome,
    clears: [...gone.filter(({ accepted, level }) => accepted === null && level !== "note"), ...harmless],
    eases: targets.filter((one) => remains(one) && findingKeys(one).some((key) => cleared.has(key))),
    brings: brings.filter(({ accepted }) => accepted === null),
    standing: standingOf(now, outcome),
    left: targets.filter(remains).length,
    open: keys.size - cleared.size,
  };
}
