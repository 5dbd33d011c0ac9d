/**
 * Searches the smallest way out: candidates alone, in pairs and in threes.
 *
 * With few candidates every one and every pair is judged by all engines, which proves the first in the ranking. With more,
 * each is first judged by the engines alone that find what it may help against; those that get somewhere are judged by all,
 * and then together, those first that promise to clear most. What is printed has been judged as `check` judges it. The budget
 * counts judgements and what they cost, never time: where nothing is gained for long, no further version is tried.
 */
import type { Finding, PlanPath } from "../findings/finding.ts";
import type { Edit } from "../plan/edit/splice.ts";
import { dotted } from "../plan/text/pathtext.ts";
import { Calm, workOf } from "./calm.ts";
import { byValue, choicesOf, isWayOut, type Repair, repairOf, type Sound, type Tried } from "./choices.ts";
import { type Engine, enginesFor } from "./codes.ts";
import { differenceOf, findingKeys, isHarm, openKeys } from "./likeness.ts";
import type { AimedCandidate, JudgedPlan, JudgeEdits, NearestWay, RepairProof, Scope } from "./outcome.ts";
import {
  type Effect,
  type Goal,
  gains,
  inPromisedOrder,
  leastCut,
  lengthsAtRoadEnds,
  promisingSteps,
  savedOf,
  shortOf,
  stepPairs,
  stepsFit,
  stepThrees,
} from "./promise.ts";
import { isOfTheHouse } from "./standing.ts";

/** Up to this many candidates every pair is judged. */
export const FEW = 12;
/** Pairs and threes are made of this many at most, if there are more. */
const PROMISING = 16;
/** Threes that are judged at most besides every pair. */
const MOST_TOGETHER = 24;
/** Lengths at which a bad road ends that are tried at most for each length. */
const MOST_TURNS = 6;

/** Versions that are no repair once they are judged as `check` does, after which no further one is looked for. */
const MOST_REFUSED = 12;

/** How many candidates may be judged, how deep, and how many repairs are wanted. */
export interface SearchOptions {
  /** Judgements at most. */
  readonly budget: number;
  /** Work without a gain after which no further version is tried, as `workOf` counts it; no end where it is left out. */
  readonly calm?: number;
  /** Steps of one repair at most. */
  readonly deepest: number;
  /** Combinations judged at most, if there are more candidates than few. */
  readonly together: number;
  /** Repairs that are wanted; each of them is judged as `check` does. */
  readonly most: number;
  progress?(judged: number, best: Repair | null): void;
}

/** Repairs, best first: those that leave least, then by the one ranking. */
export async function search(
  now: JudgedPlan,
  targets: readonly Finding[],
  candidates: readonly AimedCandidate[],
  judge: JudgeEdits,
  options: SearchOptions,
): Promise<{ readonly repairs: readonly Repair[]; readonly proof: RepairProof }> {
  const run = new Search(now, targets, candidates, judge, options);
  const completeTo = await run.tryAll();
  await run.turn();
  const [first] = choicesOf(run.sound());
  if (first !== undefined) await run.trim(first);
  const repairs = await run.confirmed();
  const never = targets.filter((one) => !findingKeys(one).some((key) => run.clearedOnce.has(key)));
  return {
    repairs,
    proof: {
      candidates: candidates.length,
      judged: run.judged,
      completeTo,
      never,
      nearest: repairs.length > 0 ? null : run.nearest(),
    },
  };
}

/** With the first rotation that covers, and no explanations. */
const BRIEF: Scope = { brief: true };
/** By some engines alone. */
const PART: Scope = { brief: true, chores: false };

class Search {
  readonly tried = new Map<string, Tried | null>();
  judged = 0;
  private readonly calm: Calm;
  private best: Repair | null = null;
  /** Keys of what some version clears, be it judged by some engines alone. */
  readonly clearedOnce = new Set<string>();
  /** Lengths in place of those of the candidate, by its step. */
  private readonly turned = new Map<string, number>();
  private readonly keys: readonly string[];
  private readonly bases = new Map<string, Promise<JudgedPlan | null>>();
  private readonly now: JudgedPlan;
  private readonly targets: readonly Finding[];
  private readonly candidates: readonly AimedCandidate[];
  private readonly judge: JudgeEdits;
  private readonly options: SearchOptions;

  constructor(
    now: JudgedPlan,
    targets: readonly Finding[],
    candidates: readonly AimedCandidate[],
    judge: JudgeEdits,
    options: SearchOptions,
  ) {
    this.now = now;
    this.targets = targets;
    this.candidates = candidates;
    this.judge = judge;
    this.options = options;
    this.calm = new Calm(options.calm ?? Number.POSITIVE_INFINITY);
    this.keys = [...new Set(targets.flatMap(findingKeys))];
  }

  /** Gives how many steps deep every combination was judged. */
  tryAll(): Promise<number> {
    return this.candidates.length <= FEW ? this.tryEvery() : this.tryPromising();
  }

  /** All alone, all in pairs, then the most promising threes if no pair clears everything. */
  private async tryEvery(): Promise<number> {
    const { deepest } = this.options;
    const steps = [...this.candidates.keys()];
    if (!(await this.attemptAll(steps.map((step) => [step])))) return 0;
    if (deepest < 2) return 1;
    const alone = new Map(steps.flatMap((step) => this.alone(step) ?? []).map((one) => [one.steps[0] ?? 0, one]));
    const pairs = stepPairs(steps).filter((pair) => stepsFit(this.candidates, pair));
    if (!this.calm.hasRoomFor(pairs.length)) {
      await this.attemptAll(inPromisedOrder(pairs, alone, this.goal()));
      return 1;
    }
    if (!(await this.attemptAll(pairs))) return 1;
    if (deepest < 3 || this.best?.left === 0) return 2;
    const threes = stepThrees(stepPairs(steps), steps);
    await this.attemptAll(inPromisedOrder(threes, alone, this.goal()).slice(0, MOST_TOGETHER));
    return 2;
  }

  /** Each alone by the engines that it is aimed at; what gets somewhere, alone and together, by all engines. */
  private async tryPromising(): Promise<number> {
    const { deepest, together } = this.options;
    const effects = new Map<number, Effect>();
    for (const step of this.candidates.keys()) {
      if (!this.goesOn()) return 0;
      const effect = await this.effectOf(step);
      if (effect === null) continue;
      effects.set(step, effect);
      // Somebody may be waiting: the first that clears something is judged at once.
      if (this.best === null && effect.cleared.size > 0 && !this.tried.has(String(step))) await this.attempt([step]);
    }
    const goal = this.goal();
    const used = promisingSteps(effects, goal, PROMISING);
    const pairs = deepest < 2 ? [] : stepPairs(used);
    const threes = deepest < 3 ? [] : stepThrees(pairs, used);
    await this.trySingles(effects);
    let left = together;
    for (const steps of inPromisedOrder([...pairs, ...threes], effects, goal)) {
      if (left <= 0 || !this.goesOn()) break;
      // What one step breaks, another seldom mends: each is judged alone before it is judged together.
      if (!stepsFit(this.candidates, steps) || !(await this.areHarmless(steps))) continue;
      await this.attempt(steps);
      left -= 1;
    }
    return 1;
  }

  /** Those that clear most, each by all engines; if none of them is sound, those that clear less. */
  private async trySingles(effects: ReadonlyMap<number, Effect>): Promise<void> {
    const sizes = new Set([...effects.values()].map(({ cleared }) => cleared.size).filter((size) => size > 0));
    for (const size of [...sizes].sort((a, b) => b - a)) {
      let isFound = false;
      for (const [step, { cleared }] of effects) {
        if (cleared.size !== size || !this.hasRoom()) continue;
        const one = this.tried.has(String(step)) ? this.alone(step) : await this.attempt([step]);
        isFound ||= one !== null && this.isSound(one);
      }
      if (isFound) return;
    }
  }

  /** The first repairs that shorten something, each also with lengths at which a bad road ends: a shorter one may be worse. */
  async turn(): Promise<void> {
    const seen = new Set<string>();
    for (const sound of this.sound().toSorted((a, b) => byValue(a.repair, b.repair))) {
      const [step, ...others] = sound.one.steps;
      const { length, edits: [own] = [] } = this.candidates[step ?? 0] ?? {};
      if (length === undefined || own === undefined || others.length > 0 || seen.has(dotted(own.path))) continue;
      if (seen.size >= this.options.most) return;
      seen.add(dotted(own.path));
      const same = this.candidates.flatMap((one) => (one.edits[0]?.path === own.path ? (one.length ?? []) : []));
      const least = Math.min(...same.map(({ minutes }) => minutes));
      let kept = sound.repair;
      for (const minutes of lengthsAtRoadEnds(sound.one.outcome.day, own.path, length, least).slice(0, MOST_TURNS)) {
        const better = await this.withLength(sound.one.steps, kept, own.path, minutes);
        if (better === null) continue;
        kept = better;
        this.turned.set(sound.one.steps.join(" "), minutes);
      }
    }
  }

  /** One with each length that it shortens cut by no more than it must be. */
  async trim({ one, repair }: Sound): Promise<void> {
    let kept = repair;
    for (const step of one.steps) {
      const { length, edits: [own] = [] } = this.candidates[step] ?? {};
      if (length === undefined || own === undefined) continue;
      const minutes = this.turned.get(one.steps.join(" ")) ?? length.minutes;
      await leastCut({ was: length.was, minutes }, async (longer) => {
        const better = await this.withLength(one.steps, kept, own.path, longer);
        kept = better ?? kept;
        return better !== null;
      });
    }
  }

  /** `kept` with another length at `path`, which then stands for its steps; null if that is worse or the budget is spent. */
  private async withLength(
    steps: readonly number[],
    kept: Repair,
    path: PlanPath,
    minutes: number,
  ): Promise<Repair | null> {
    if (!this.hasRoom()) return null;
    const edits = kept.edits.map((edit) => (edit.path === path ? { ...edit, value: `${minutes} min` } : edit));
    const cut = await this.judgedAs(steps, edits);
    const better = cut !== null && this.isSound(cut) ? this.repairOf(cut) : null;
    // What is as good and shortens less is better.
    if (cut === null || better === null || byValue(better, kept) > 0) return null;
    this.tried.set(steps.join(" "), cut);
    return better;
  }

  private goal = (): Goal => ({ keys: this.keys, start: shortOf(this.now, this.keys) });

  private alone = (step: number): Tried | null => this.tried.get(String(step)) ?? null;

  private async areHarmless(steps: readonly number[]): Promise<boolean> {
    for (const step of steps) {
      const one = this.tried.has(String(step)) ? this.alone(step) : await this.attempt([step]);
      if (one === null || one.brings.some(isHarm)) return false;
    }
    return true;
  }

  /** What clears something, brings no error, takes no one from a hit and breaks no more law than the plan as it is. */
  sound(): readonly Sound[] {
    return [...this.tried.values()].flatMap((one) =>
      one !== null && this.isSound(one) ? [{ one, repair: this.repairOf(one) }] : [],
    );
  }

  /** What no repair is, as it breaks a rule of the house, which the house may accept; the law it leaves as it is. */
  nearest(): NearestWay | null {
    const [best] = [...this.tried.values()]
      .flatMap((one) => (one === null ? [] : [{ one, harms: one.brings.filter(isHarm) }]))
      .filter(({ one, harms }) => isWayOut(this.now, one) && harms.every(isOfTheHouse))
      .map(({ one, harms }) => ({ harms, repair: this.repairOf(one) }))
      .sort((a, b) => byValue(a.repair, b.repair));
    return best === undefined ? null : { edits: best.repair.edits, brings: best.harms };
  }

  /**
   * The best that are as good when they are judged as `check` does. What is not then gives way to what it had kept from being
   * a choice: packs may refuse one way out and allow another that clears as much.
   */
  async confirmed(): Promise<readonly Repair[]> {
    const repairs = new Map<Tried, Repair>();
    const refused = new Set<Tried>();
    const all = this.sound();
    while (repairs.size < this.options.most && refused.size < MOST_REFUSED) {
      const choices = choicesOf(all.filter(({ one }) => !refused.has(one)));
      const next = choices.find(({ one }) => !repairs.has(one));
      if (next === undefined) break;
      const repair = await this.wholly(next);
      if (repair === null) refused.add(next.one);
      else repairs.set(next.one, repair);
      this.options.progress?.(this.judged, [...repairs.values()][0] ?? null);
    }
    return [...repairs.values()].sort(byValue);
  }

  /** A repair judged as `check` does; null if it is none then. */
  private async wholly({ one, repair }: Sound): Promise<Repair | null> {
    // Without packs nothing differs.
    if (this.now.day.plan.packs.size === 0 && one.outcome.day.plan.packs.size === 0) return repair;
    this.judged += 1;
    const outcome = await this.judge(one.edits);
    const whole = outcome === null ? null : this.triedOf(one.steps, one.edits, outcome);
    return whole !== null && this.isSound(whole) ? this.repairOf(whole) : null;
  }

  private hasRoom = (): boolean => this.judged < this.options.budget;

  /** Whether a further version is tried: there is room, and something was gained not long ago. */
  private goesOn = (): boolean => this.hasRoom() && this.calm.hasRoomFor(1);

  /** False where the budget ended before the last. */
  private async attemptAll(all: readonly (readonly number[])[]): Promise<boolean> {
    for (const steps of all) {
      if (!stepsFit(this.candidates, steps)) continue;
      if (!this.goesOn()) return false;
      await this.attempt(steps);
    }
    return true;
  }

  private async attempt(steps: readonly number[]): Promise<Tried | null> {
    const one = await this.judgedAs(
      steps,
      steps.flatMap((step) => this.candidates[step]?.edits ?? []),
    );
    this.tried.set(steps.join(" "), one);
    return one;
  }

  private async judgedAs(steps: readonly number[], edits: readonly Edit[]): Promise<Tried | null> {
    this.judged += 1;
    const outcome = await this.judge(edits, BRIEF);
    const one = outcome === null ? null : this.triedOf(steps, edits, outcome);
    this.calm.count(workOf(this.now, outcome));
    if (one !== null && one.cleared.size > 0) this.calm.gain();
    if (one !== null && this.isSound(one)) {
      const repair = this.repairOf(one);
      if (this.best === null || byValue(repair, this.best) < 0) this.best = repair;
    }
    this.options.progress?.(this.judged, this.best);
    return one;
  }

  /** What a candidate does alone, as the engines say that it is aimed at; null if they find as much as before. */
  private async effectOf(step: number): Promise<Effect | null> {
    const { edits = [], codes = [] } = this.candidates[step] ?? {};
    const topics = enginesFor(codes);
    const aimed = [...new Set(this.targets.filter(({ code }) => codes.includes(code)).flatMap(findingKeys))];
    const base = await this.baseFor(topics);
    const seen = base === null ? new Set<string>() : openKeys(base);
    // Some of it comes only from what all engines know together.
    if (base === null || aimed.some((key) => !seen.has(key))) {
      const one = await this.attempt([step]);
      return one === null || !gains(one) ? null : one;
    }
    this.judged += 1;
    const outcome = await this.judge(edits, { ...PART, topics });
    this.options.progress?.(this.judged, this.best);
    this.calm.count(workOf(this.now, outcome, topics));
    if (outcome === null) return null;
    const open = openKeys(outcome);
    const effect = {
      steps: [step],
      cleared: new Set(aimed.filter((key) => !open.has(key))),
      saved: savedOf(shortOf(base, aimed), shortOf(outcome, aimed)),
    };
    for (const key of effect.cleared) this.clearedOnce.add(key);
    if (effect.cleared.size > 0) this.calm.gain();
    return gains(effect) ? effect : null;
  }

  /** The plan as it is, by every engine that the targets ask for; with the chores of packs where `topics` has the packs. */
  private baseFor(topics: readonly Engine[]): Promise<JudgedPlan | null> {
    const withPacks = topics.includes("power");
    const all = enginesFor(this.targets.map(({ code }) => code)).filter((engine) => withPacks || engine !== "power");
    const name = all.join(" ");
    const base = this.bases.get(name) ?? this.judge([], { ...PART, topics: all });
    this.bases.set(name, base);
    return base;
  }

  private triedOf(steps: readonly number[], edits: readonly Edit[], outcome: JudgedPlan): Tried {
    const open = openKeys(outcome);
    const cleared = new Set(this.keys.filter((key) => !open.has(key)));
    for (const key of cleared) this.clearedOnce.add(key);
    return {
      steps,
      edits,
      outcome,
      cleared,
      saved: savedOf(shortOf(this.now, this.keys), shortOf(outcome, this.keys)),
      brings: differenceOf(this.now.findings, outcome.findings).brought,
    };
  }

  private isSound = (one: Tried): boolean => isWayOut(this.now, one) && !one.brings.some(isHarm);

  private repairOf = (one: Tried): Repair => repairOf({ now: this.now, targets: this.targets, keys: this.keys }, one);
}
