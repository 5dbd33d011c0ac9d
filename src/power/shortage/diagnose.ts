/** Why not everything is covered: the first demand that is not, what it lacks, what blocks it, what would cure it. */
import type { Id } from "../../plan/plan.ts";
import type { DayModel } from "../day/build.ts";
import { diagnosisQuestions, diagnosisWork, type Effort } from "../fast/effort.ts";
import { marginOf } from "../fast/seats.ts";
import type { Demand, Model } from "../model.ts";
import type { Solution } from "../proof/solve.ts";
import { ask, caseOf } from "../question.ts";
import {
  allTouches,
  type Cure,
  gearOffers,
  type Offer,
  packGroups,
  packOffer,
  sleepersAboard,
  touchOffers,
} from "./cures.ts";
import { type Shortage, shortageOf } from "./shortage.ts";

/** The first thing that is short, why, and what would end it. */
export interface ShortageCause {
  readonly first: Id;
  readonly short: Shortage;
  /** A smallest set of demands, with the first, that cannot go together. */
  readonly blocking: readonly Id[];
  /** Each proved by the same engine, the least asked first. */
  readonly cures: readonly Cure[];
}

/** The missing Wh are rounded up to this. */
const PRECISION_WH = 0.1;

/** Looks into a demand that is left out, as far as `built` has it and what goes before it. */
export async function diagnose(
  built: DayModel,
  { demand, before }: Solution["dropped"][number],
  asked: Effort,
): Promise<ShortageCause> {
  const inModel = (one: Demand): readonly Demand[] => built.model.demands.filter(({ id }) => id === one.id);
  const out = { demand: inModel(demand)[0] ?? demand, before: before.flatMap(inModel) };
  const effort = { ...asked, left: diagnosisWork(asked) };
  const left = { questions: diagnosisQuestions(effort) };
  const question: Question = { effort, left };
  const wanted = [...out.before, out.demand];
  const forRest = built.restful.length > 0 && (await can(question, withRestful(built), wanted)) === true;
  const aboard = forRest ? [] : sleepersAboard(built, out.demand);
  const forSleep =
    aboard.length > 0 && (await can(question, withRestful({ ...built, restful: aboard }), wanted)) === true;
  const asleep = forSleep ? [...new Set(aboard.flatMap(({ hands }) => hands.map(({ who }) => who)))] : [];
  const short = shortageOf(built, out.demand, wanted, await missingWh(built.model, wanted, effort), {
    forRest,
    asleep,
  });
  return {
    first: out.demand.id,
    short,
    blocking: (await blockingSet(question, built.model, out.before, out.demand)).map((demand) => demand.id),
    cures: await cures(question, built, wanted, out.demand, short),
  };
}

/** The model as it would be if no one's rest bound them. */
const withRestful = ({ model, restful }: DayModel): Model => ({
  ...model,
  touches: [
    ...model.touches,
    ...restful.map(({ at, where, reach }) => ({ id: `rest.${where}.${at}`, at, reach })),
  ].sort((a, b) => a.at - b.at),
});

interface Question {
  readonly effort: Effort;
  readonly left: { questions: number };
}

/** Whether these demands can be covered together; false where it is not proved, or the budget is gone. */
async function can({ effort, left }: Question, model: Model, demands: readonly Demand[]): Promise<boolean | null> {
  if (left.questions-- <= 0) return null;
  const verdict = await ask(caseOf(model, demands), 0, effort);
  return verdict.kind === "unknown" ? null : verdict.kind === "yes";
}

/** Lowers every reserve together until it goes; null where it never does. */
async function missingWh(model: Model, demands: readonly Demand[], effort: Effort): Promise<number | null> {
  const one = caseOf(model, demands);
  const any = await ask(one, Number.NEGATIVE_INFINITY, effort);
  if (any.kind !== "yes") return null;
  let low = marginOf(any.paths);
  let high = Math.min(0, one.ceilingWh);
  const atCeiling = await ask(one, high, effort);
  if (atCeiling.kind === "yes") low = Math.max(low, marginOf(atCeiling.paths));
  for (let n = 0; n < 24 && high - low > PRECISION_WH; n++) {
    const middle = (low + high) / 2;
    const verdict = await ask(one, middle, effort);
    if (verdict.kind === "yes") low = Math.max(middle, marginOf(verdict.paths));
    else high = middle;
  }
  return Math.max(0, -low);
}

/** Leaves out one after the other what is not needed for the refusal, then looks for something smaller among pairs. */
async function blockingSet(
  question: Question,
  model: Model,
  before: readonly Demand[],
  first: Demand,
): Promise<readonly Demand[]> {
  if ((await can(question, model, [first])) === false) return [first];
  let blocking = before;
  for (const demand of before) {
    const rest = blocking.filter((one) => one !== demand);
    if ((await can(question, model, [...rest, first])) === false) blocking = rest;
  }
  if (blocking.length > 1)
    for (const demand of before) if ((await can(question, model, [demand, first])) === false) return [demand, first];
  return [...blocking, first];
}

async function cures(
  question: Question,
  built: DayModel,
  wanted: readonly Demand[],
  first: Demand,
  { packs, forRest }: Shortage,
): Promise<Cure[]> {
  const found: Cure[] = [];
  const works = async ({ cure, model }: Offer): Promise<boolean> =>
    cure.kind === "standby" || (await can(question, model, wanted)) === true;
  const touches = touchOffers(built, first);
  if (touches.length > 0 && (await can(question, allTouches(built, touches), wanted)) === true) {
    for (const offer of touches) {
      if (!(await works(offer))) continue;
      found.push(offer.cure);
      break;
    }
  }
  for (const offer of gearOffers(built, first)) {
    if (found.some((cure) => cure.kind === offer.cure.kind)) continue;
    if (await works(offer)) found.push(offer.cure);
  }
  const more = await fewestPercent(built, packs === null ? 1 : packs.needed - packs.there, works);
  if (more !== null) found.push(more);
  // A shorter rest is asked of people last of all, unless it is rest alone that stands in the way.
  const shorter = found.filter(({ restMinutes }) => restMinutes !== null);
  const other = found.filter(({ restMinutes }) => restMinutes === null);
  return forRest ? [...shorter, ...other] : [...other, ...shorter];
}

/** So many packs more at the smallest charge that does, in steps of a tenth: more charge is never worse. */
async function fewestPercent(
  built: DayModel,
  count: number,
  works: (offer: Offer) => Promise<boolean>,
): Promise<Cure | null> {
  for (const group of packGroups(built)) {
    const at = (tenths: number): Offer | null => packOffer(built, group, count, tenths / 10);
    const full = at(10);
    if (full === null || !(await works(full))) continue;
    let [low, high] = [0, 10];
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      const offer = at(middle);
      if (offer !== null && (await works(offer))) high = middle;
      else low = middle;
    }
    return at(high)?.cure ?? null;
  }
  return null;
}
