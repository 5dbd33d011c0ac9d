/**
 * An edit of a day that is under way: what was swapped before now, or is being swapped, is what the plan before the edit had,
 * move for move; only what comes later is searched again.
 */
import type { Id } from "../plan/plan.ts";
import { type Instant, type Interval, instant } from "../time/units.ts";
import type { DayModel } from "./day/build.ts";
import type { Effort } from "./fast/effort.ts";
import type { Demand, Model, ModelPack, Rotation, Touch } from "./model.ts";
import type { Solution } from "./proof/solve.ts";
import { replay } from "./replay.ts";
import { crewed } from "./rested.ts";

/** A day's model with the touches that the past needs, and its rotation. */
export interface Resumed {
  readonly built: DayModel;
  readonly solution: Solution;
  /** What was still open when it was searched: the day after what stands, the packs as that leaves them; else the whole day. */
  readonly left: DayModel;
}

/** A day of which the whole was searched. */
export const whollyOpen = (built: DayModel, solution: Solution): Resumed => ({ built, solution, left: built });

/** Solves `built` from `now` on; before it stands `earlier`, the day as the plan before the edit has it. Null where that cannot be. */
export async function resumed(
  built: DayModel,
  earlier: { readonly built: DayModel; readonly solution: Solution },
  now: Instant,
  effort: Effort,
): Promise<Resumed | null> {
  const begun = earlier.solution.rotation.chores.filter(({ begins }) => begins < now);
  const from = instant(Math.min(built.model.to, Math.max(now, built.model.from, ...begun.map(({ ends }) => ends))));
  const { whole, numbers } = withPast(built, earlier.built, from);
  const past = movesUntil(earlier, begun, numbers);
  const rest = restOf(whole, earlier, past, from);
  const solved = await crewed(rest, effort);
  const rotation: Rotation = {
    covered: coveredBy(whole.model, earlier.solution, solved, from),
    moves: [...past.moves, ...solved.rotation.moves],
    chores: [...past.chores, ...solved.rotation.chores],
  };
  const played = replay(whole.model, rotation);
  if (played.faults.length > 0) return null;
  const known = new Set(rotation.covered);
  const dropped = whole.model.demands
    .filter(({ id }) => !known.has(id))
    .map((demand) => {
      const late = solved.dropped.find((one) => one.demand.id === demand.id);
      const before = whole.model.demands.filter(({ id }) => known.has(id));
      return { demand, before, proved: late?.proved ?? true };
    });
  const solution: Solution = {
    ...solved,
    ...{ model: whole.model, rotation, replay: played, dropped },
    moveCount: rotation.moves.length,
  };
  return { built: whole, solution, left: rest };
}

type Past = Pick<Rotation, "moves" | "chores">;

/** `numbers`: the touches' ids of now by those of then. */
function movesUntil(
  { solution }: { readonly solution: Solution },
  chores: Rotation["chores"],
  numbers: ReadonlyMap<Id, Id>,
): Past {
  const now = <T extends { readonly touch: Id }>(one: T): T => ({ ...one, touch: numbers.get(one.touch) ?? one.touch });
  const touches = new Set(chores.map(({ touch }) => touch));
  return {
    chores: chores.map(now),
    moves: solution.rotation.moves.filter(({ touch }) => touches.has(touch)).map(now),
  };
}

interface WithPast {
  readonly whole: DayModel;
  /** By a touch's id of then: its id of now. */
  readonly numbers: ReadonlyMap<Id, Id>;
}

/** The touches of the past as they were, cut where a charge was found since, those after it as they are now; numbered anew. */
function withPast(built: DayModel, earlier: DayModel, from: Instant): WithPast {
  const before = touchesOf(earlier).filter(({ touch }) => touch.at <= from);
  const cuts = touchesOf(built).filter(
    ({ touch: { at, reach } }) =>
      at <= from && reach.length === 0 && before.every(({ touch }) => touch.at !== at || touch.reach.length > 0),
  );
  const later = touchesOf(built).filter(({ touch }) => touch.at > from);
  const cutFirst = ({ touch }: MomentOfBoth): number => Math.min(1, touch.reach.length);
  const past = [...before, ...cuts].toSorted((a, b) => a.touch.at - b.touch.at || cutFirst(a) - cutFirst(b));
  const all = [...past, ...later];
  const number = (n: number): string => `touch.${n + 1}`;
  const touches = all.map(({ hands }, n) => ({ ...hands, id: number(n) }));
  const modelTouches = all.map(({ touch }, n) => ({ ...touch, id: number(n) }));
  const numbers = new Map(before.map((one): [Id, Id] => [one.touch.id, number(past.indexOf(one))]));
  return { whole: { ...built, touches, model: { ...built.model, touches: modelTouches } }, numbers };
}

/** A moment of a day as hands and as the search see it. */
interface MomentOfBoth {
  readonly hands: DayModel["touches"][number];
  readonly touch: Model["touches"][number];
}

const touchesOf = ({ touches, model }: DayModel): readonly MomentOfBoth[] =>
  touches.flatMap((hands, n) => {
    const touch = model.touches[n];
    return touch === undefined ? [] : [{ hands, touch }];
  });

/** What is left of the day, the packs as the past leaves them. */
function restOf(
  whole: DayModel,
  earlier: { readonly built: DayModel; readonly solution: Solution },
  past: Past,
  from: Instant,
): DayModel {
  const { packs: known } = whole.model;
  const until: Model = {
    ...earlier.built.model,
    touches: whole.model.touches.filter(({ at }) => at <= from),
    packs: earlier.built.model.packs.map((pack) => {
      const { found, seen } = known.find(({ id }) => id === pack.id) ?? pack;
      const { found: _, seen: __, ...same } = pack;
      return { ...same, ...(found === undefined ? {} : { found }), ...(seen === undefined ? {} : { seen }) };
    }),
    to: from,
  };
  const { steps } = replay(until, { covered: earlier.solution.rotation.covered, ...past });
  // What is moved at the very end lasts no minute of the past.
  const atTheEnd = new Set(until.touches.flatMap(({ id, at }) => (at === from ? [id] : [])));
  const movedLast = new Map(past.moves.flatMap(({ touch, pack, to }) => (atTheEnd.has(touch) ? [[pack, to]] : [])));
  const starts = new Map(
    whole.model.packs.map((pack): [Id, Pick<ModelPack, "startWh" | "at">] => {
      const last = steps.get(pack.id)?.at(-1);
      const startWh = pack.found?.find(({ at }) => at === from)?.wh ?? last?.whAfter ?? pack.startWh;
      const seen = pack.seen?.find(({ at }) => at === from)?.place;
      return [pack.id, { startWh, at: seen ?? movedLast.get(pack.id) ?? last?.at ?? pack.at }];
    }),
  );
  const { swapMinutes } = whole.model;
  // No work begins before then.
  const isInTime = ({ at, reach }: Touch): boolean => at > from && (reach.length === 0 || at >= from + swapMinutes);
  const model = after(whole.model, from, starts, isInTime);
  return {
    ...whole,
    model,
    touches: whole.touches
      .filter(isInTime)
      .map((touch) => ({ ...touch, hands: touch.hands.map((one) => clipped(one, from)) })),
    restful: whole.restful.filter(isInTime),
    again: (other) => after(whole.again(other), from, starts, isInTime),
  };
}

const clipped = <T extends Interval>(free: T, from: Instant): T => ({
  ...free,
  from: instant(Math.max(free.from, from)),
});

/** A model from an instant on, its packs at `starts`. */
function after(
  whole: Model,
  from: Instant,
  starts: ReadonlyMap<Id, Pick<ModelPack, "startWh" | "at">>,
  isInTime: (touch: Touch) => boolean,
): Model {
  const packs = whole.packs.map((pack): ModelPack => {
    const { found = [], seen: _, ...same } = pack;
    const later = found.filter(({ at }) => at > from);
    const start = { ...same, ...starts.get(pack.id) };
    return later.length === 0 ? start : { ...start, found: later };
  });
  const demands = whole.demands
    .filter(({ to }) => to > from)
    .map((demand): Demand => (demand.from < from ? { ...demand, from } : demand));
  const touches = whole.touches
    .filter(isInTime)
    .map((touch) => (touch.free === undefined ? touch : { ...touch, free: clipped(touch.free, from) }));
  return { ...whole, from, packs, demands, touches };
}

/** Covered before as it was, after as it is found; a use under way must also have been covered so far. */
function coveredBy(model: Model, earlier: Solution, solved: Solution, from: Instant): readonly string[] {
  const then = new Set(earlier.rotation.covered);
  const later = new Set(solved.rotation.covered);
  const wasOn = (demand: Demand): boolean => demand.from >= from || then.has(demand.id);
  return model.demands
    .filter((demand) => wasOn(demand) && (demand.to <= from || later.has(demand.id)))
    .map(({ id }) => id);
}
