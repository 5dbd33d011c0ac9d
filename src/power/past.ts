/**
 * An edit of a day that is under way: what was swapped before now, or is being swapped, is what the plan before the edit had,
 * move for move; only what comes later is searched again.
 */
import { type Instant, instant } from "../time/units.ts";
import type { DayModel } from "./day/build.ts";
import type { HandMoment } from "./day/touches.ts";
import type { Effort } from "./fast/effort.ts";
import type { Demand, Model, ModelPack, Rotation } from "./model.ts";
import type { Solution } from "./proof/solve.ts";
import { replay } from "./replay.ts";
import { crewed } from "./rested.ts";

/** A day's model with the touches that the past needs, and its rotation. */
export interface Resumed {
  readonly built: DayModel;
  readonly solution: Solution;
}

/** Solves `built` from `now` on; before it stands `earlier`, the day as the plan before the edit has it. Null where that cannot be. */
export async function resumed(
  built: DayModel,
  earlier: { readonly built: DayModel; readonly solution: Solution },
  now: Instant,
  effort: Effort,
): Promise<Resumed | null> {
  const begun = earlier.solution.rotation.chores.filter(({ begins }) => begins < now);
  const from = instant(Math.min(built.model.to, Math.max(now, built.model.from, ...begun.map(({ ends }) => ends))));
  const past = movesUntil(earlier, begun);
  const whole = withPast(built, earlier.built, from);
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
  return { built: whole, solution };
}

type Past = Pick<Rotation, "moves" | "chores">;

function movesUntil({ solution }: { readonly solution: Solution }, chores: Rotation["chores"]): Past {
  const touches = new Set(chores.map(({ touch }) => touch));
  return { chores, moves: solution.rotation.moves.filter(({ touch }) => touches.has(touch)) };
}

/** The touches of the past as they were, those after it as they are now, numbered on. */
function withPast(built: DayModel, earlier: DayModel, from: Instant): DayModel {
  const before = earlier.touches.filter(({ at }) => at <= from);
  const later = built.touches.filter(({ at }) => at > from);
  const number = (n: number): string => `touch.${before.length + n + 1}`;
  const touches: HandMoment[] = [...before, ...later.map((touch, n) => ({ ...touch, id: number(n) }))];
  const modelTouches = [
    ...earlier.model.touches.filter(({ at }) => at <= from),
    ...built.model.touches.filter(({ at }) => at > from).map((touch, n) => ({ ...touch, id: number(n) })),
  ];
  return { ...built, touches, model: { ...built.model, touches: modelTouches } };
}

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
    packs: earlier.built.model.packs.map((pack) => {
      const { found, seen } = known.find(({ id }) => id === pack.id) ?? pack;
      const { found: _, seen: __, ...same } = pack;
      return { ...same, ...(found === undefined ? {} : { found }), ...(seen === undefined ? {} : { seen }) };
    }),
    to: from,
  };
  const { steps } = replay(until, { covered: earlier.solution.rotation.covered, ...past });
  const packs = whole.model.packs.map((pack): ModelPack => {
    const last = steps.get(pack.id)?.at(-1);
    const { found = [], seen = [], ...same } = pack;
    const later = found.filter(({ at }) => at > from);
    const start = {
      ...same,
      startWh: found.find(({ at }) => at === from)?.wh ?? last?.whAfter ?? pack.startWh,
      at: seen.find(({ at }) => at === from)?.place ?? last?.at ?? pack.at,
    };
    return later.length === 0 ? start : { ...start, found: later };
  });
  const demands = whole.model.demands
    .filter(({ to }) => to > from)
    .map((demand): Demand => (demand.from < from ? { ...demand, from } : demand));
  const touches = whole.model.touches.filter(({ at }) => at > from);
  return {
    ...whole,
    model: { ...whole.model, from, packs, demands, touches },
    touches: whole.touches.filter(({ at }) => at > from),
  };
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
