/** `data` of `power --json`: the model that was solved, the rotation, the steps, the proof; anybody's program can judge it. */

import type { Say } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { HandTask } from "../../power/fast/todo.ts";
import type { DayModel, Missing, PowerResult } from "../../power/index.ts";
import { bayAt, type Model } from "../../power/model.ts";
import { cureText } from "../../power/words.ts";
import { type Instant, instant, isoLocal } from "../../time/index.ts";
import type { Json } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";

/** Six digits: what the model itself holds. */
const digits = (value: number): number => Math.round(value * 1e6) / 1e6;
/** A bound is never printed tighter than it is. */
const upper = (value: number): number => Math.ceil(value * 1e6) / 1e6;

type Iso = (at: Instant, bay: Id | null) => string;

/** All of `data`, keys in documented order. */
export function powerData(result: PowerResult, tasks: readonly HandTask[], say: Say): Json {
  const { built, solution, missing } = result;
  const { proof, replay } = solution;
  const iso = isoOf(built);
  return {
    model: modelData(built, iso),
    rotation: {
      covered: solution.rotation.covered,
      moves: solution.rotation.moves.map(({ touch, pack, from, to }) => ({ touch, pack, from, to })),
    },
    packs: packsData(result, iso),
    hands: tasks.map(({ from, to, where, who, others, steps }) => ({
      from: iso(from, where),
      to: iso(to, where),
      where,
      who,
      others,
      moves: steps.map((step) => ({
        pack: step.pack,
        from: step.from,
        fromSlot: step.fromSlot,
        to: step.to,
        toSlot: step.toSlot,
      })),
    })),
    covered: coveredData(result),
    leastMarginWh: replay.leastMarginWh === null ? null : digits(replay.leastMarginWh),
    moveCount: solution.moveCount,
    proof: {
      coverage: proof.coverage,
      margin: proof.margin,
      moves: proof.moves,
      marginBoundWh:
        proof.marginBoundWh === null || !Number.isFinite(proof.marginBoundWh) ? null : upper(proof.marginBoundWh),
      movesBound: proof.movesBound,
    },
    missing: missing === null ? null : missingData(missing, say),
  };
}

const missingData = ({ first, short, blocking, cures }: Missing, say: Say): Json => ({
  first,
  packsNeeded: short.packs?.needed ?? null,
  packsThere: short.packs?.there ?? null,
  missingWh: short.missingWh === null ? null : digits(short.missingWh),
  slots: short.charging?.slots ?? null,
  chargeMinutes: short.charging?.minutes ?? null,
  moments: short.moments,
  blocking,
  cures: cures.map((cure) => ({ what: cureText(cure, say), edits: cure.edits })),
});

/** An instant on the clock of the place where the bay stands then; on the road of the place it left or the plan's. */
function isoOf({ around }: DayModel): Iso {
  const { plan } = around.day;
  return (at, bay) => {
    const place = bay === null ? null : (around.placeOf(bay, at) ?? around.placeOf(bay, instant(at - 1)));
    return isoLocal(at, zoneOfPlace(plan, place));
  };
}

function modelData(day: DayModel, iso: Iso): Json {
  const { model, touches, demands, handBays } = day;
  const within = (bay: Id): Id => handBays.find((one) => one.id === bay)?.within ?? bay;
  return {
    from: iso(model.from, null),
    to: iso(model.to, null),
    bays: model.bays,
    grainWh: model.grainWh,
    enoughWh: model.enoughWh,
    touches: touches.map(({ id, at, where, reach }) => ({ id, at: iso(at, where), reach })),
    packs: model.packs.map(({ id, mount, wh, startWh, reserveWh, at }) => ({ id, mount, wh, startWh, reserveWh, at })),
    chargers: model.chargers.map(({ id, mount, bay, slots, watts, taper, totalWatts, on }) => ({
      id,
      mount,
      bay,
      slots,
      watts,
      taper,
      totalWatts,
      on: on.map((one) => [iso(one.from, within(bay)), iso(one.to, within(bay))]),
    })),
    loads: model.loads.map(({ id, mount, bay }) => ({
      id,
      mount,
      bay: bay.length === 1 ? (bay[0]?.bay ?? "") : bay.map((stage) => [iso(stage.from, stage.bay), stage.bay]),
    })),
    demands: demands.map(({ demand, activity }) => {
      const place = day.around.day.activities.find((one) => one.id === activity)?.place ?? null;
      const watts = Object.fromEntries(demand.watts);
      return { id: demand.id, kind: demand.kind, from: iso(demand.from, place), to: iso(demand.to, place), watts };
    }),
  };
}

/** The bay a place of the model is in. */
function bayOf(model: Model, place: Id, at: Instant): Id {
  const load = model.loads.find((one) => one.id === place);
  return load === undefined ? (model.chargers.find((one) => one.id === place)?.bay ?? place) : bayAt(load, at);
}

function packsData({ built: day, solution }: PowerResult, iso: Iso): Json {
  const { model, replay } = solution;
  const vehicle = (bay: Id): Id => day.handBays.find((one) => one.id === bay)?.within ?? bay;
  return model.packs.map((pack) => ({
    id: pack.id,
    steps: (replay.steps.get(pack.id) ?? []).map((step) => ({
      from: iso(step.from, vehicle(bayOf(model, step.at, step.from))),
      to: iso(step.to, vehicle(bayOf(model, step.at, step.to))),
      at: step.at,
      doing: step.doing,
      chargeBefore: digits(step.whBefore / pack.wh),
      chargeAfter: digits(step.whAfter / pack.wh),
    })),
  }));
}

/** Every load of every demand, in time order, then plan order. */
function coveredData({ solution }: PowerResult): Json {
  const { model, replay } = solution;
  return model.demands.flatMap((demand) =>
    [...demand.watts.keys()].map((load) => {
      const use = replay.uses.find((one) => one.demand === demand.id && one.load === load);
      return {
        activity: demand.id,
        load,
        packs: use?.packs ?? [],
        marginWh: use === undefined ? null : digits(use.marginWh),
        ok: use !== undefined,
      };
    }),
  );
}
