/** `data` of `power`: the model that was solved, the rotation, the steps, the proof; any program can judge it. */
import type { Id } from "../../plan/plan.ts";
import type { DayModel, Missing, PowerResult } from "../../power/index.ts";
import {
  bayAt,
  type Demand,
  type Model,
  type ModelCharger,
  type ModelLoad,
  type ModelPack,
} from "../../power/model.ts";
import type { ReplayStep } from "../../power/replay.ts";
import type { HandTask, PackStep } from "../../power/todo.ts";
import { cureText } from "../../power/words.ts";
import { type Instant, instant as instantOf } from "../../time/index.ts";
import { either, kept, object, same } from "../shared/columns.ts";
import type { DayView } from "../shared/dayView.ts";
import {
  flag,
  instant,
  type Kind,
  key,
  list,
  type Moment,
  mapOf,
  number,
  orNull,
  text,
  whole,
  word,
} from "../shared/kinds.ts";

export interface PowerView extends DayView {
  readonly result: PowerResult;
  /** What is shown: all, or what concerns one person. */
  readonly demands: readonly Demand[];
  readonly packs: readonly ModelPack[];
}

/** Six digits: what the model itself holds. */
const digits: Kind<number, unknown> = { ...number, json: (value) => Math.round(value * 1e6) / 1e6 };
/** A bound is never printed tighter than it is. */
const upper: Kind<number, unknown> = { ...number, json: (value) => Math.ceil(value * 1e6) / 1e6 };

/** The place where the bay stands then; on the road the place it left, or none. */
function atBay({ around }: DayModel, at: Instant, bay: Id | null): Moment {
  const place = bay === null ? null : (around.placeOf(bay, at) ?? around.placeOf(bay, instantOf(at - 1)));
  return { at, place: place ?? null };
}

/** A moment of the model at a bay. */
interface Bayed {
  readonly at: Instant;
  readonly bay: Id | null;
}

const bayed: Kind<Bayed, PowerView> = {
  ...instant,
  json: ({ at, bay }, view) => instant.json(atBay(view.result.built, at, bay), view),
  cell: ({ at, bay }, view) => instant.cell(atBay(view.result.built, at, bay), view),
};

const vehicleOf = ({ handBays }: DayModel, bay: Id): Id => handBays.find((one) => one.id === bay)?.within ?? bay;

type Touch = DayModel["touches"][number];
const touch = object<Touch, PowerView>({
  id: kept(text, (one) => one.id),
  at: kept(bayed, (one) => ({ at: one.at, bay: one.where })),
  reach: kept(list(text), (one) => one.reach),
  warm: kept(orNull(bayed), (one, { result }) => {
    const at = result.built.model.touches.find(({ id }) => id === one.id)?.warm;
    return at === undefined ? null : { at, bay: one.where };
  }),
});

const charger = object<ModelCharger, PowerView>({
  ...same<ModelCharger, PowerView>()({
    id: key,
    mount: text,
    bay: text,
    slots: whole,
    watts: number,
    taper: number,
    totalWatts: orNull(number),
  }),
  on: kept(list(list(bayed)), ({ on, bay }, { result }) => {
    const vehicle = vehicleOf(result.built, bay);
    return on.map(({ from, to }) => [
      { at: from, bay: vehicle },
      { at: to, bay: vehicle },
    ]);
  }),
});

/** Where a load is: one bay, or a bay from each moment on. */
type Bays = string | readonly (readonly string[])[];
const load = object<ModelLoad, PowerView>({
  ...same<ModelLoad, PowerView>()({ id: key, mount: text }),
  bay: kept(
    either((value: Bays): value is string => typeof value === "string", text, list(list(text))),
    ({ bay }, view) =>
      bay.length === 1
        ? (bay[0]?.bay ?? "")
        : bay.map((stage) => [String(bayed.json({ at: stage.from, bay: stage.bay }, view)), stage.bay]),
  ),
});

type DayDemand = DayModel["demands"][number];
const placeOfDemand = ({ activity }: DayDemand, { day }: PowerView): Id | null =>
  day.activities.find((one) => one.id === activity)?.place ?? null;
const demand = object<DayDemand, PowerView>({
  id: kept(text, (one) => one.demand.id),
  kind: kept(text, (one) => one.demand.kind),
  from: kept(instant, (one, view) => ({ at: one.demand.from, place: placeOfDemand(one, view) })),
  to: kept(instant, (one, view) => ({ at: one.demand.to, place: placeOfDemand(one, view) })),
  watts: kept(mapOf(number), (one) => one.demand.watts),
});

type Found = NonNullable<ModelPack["found"]>[number];
const modelPack = object<ModelPack, PowerView>({
  ...same<ModelPack, PowerView>()({ id: key, mount: text, wh: number, startWh: number, reserveWh: number, at: text }),
  found: kept(
    list(
      object<Found, PowerView>({ at: kept(bayed, ({ at }) => ({ at, bay: null })), wh: kept(number, ({ wh }) => wh) }),
    ),
    ({ found }) => found ?? [],
  ),
  broken: kept(list(list(bayed)), ({ broken }) =>
    (broken ?? []).map(({ from, to }) => [
      { at: from, bay: null },
      { at: to, bay: null },
    ]),
  ),
});

const model = object<DayModel, PowerView>({
  from: kept(bayed, (day) => ({ at: day.model.from, bay: null })),
  to: kept(bayed, (day) => ({ at: day.model.to, bay: null })),
  bays: kept(list(text), (day) => day.model.bays),
  grainWh: kept(number, (day) => day.model.grainWh),
  enoughWh: kept(number, (day) => day.model.enoughWh),
  swapMinutes: kept(whole, (day) => day.model.swapMinutes),
  touches: kept(list(touch), (day) => day.touches),
  packs: kept(list(modelPack), (day) => day.model.packs),
  chargers: kept(list(charger), (day) => day.model.chargers),
  loads: kept(list(load), (day) => day.model.loads),
  demands: kept(list(demand), (day) => day.demands),
});

/** The bay a place of the model is in. */
function bayOf(own: Model, place: Id, at: Instant): Id {
  const found = own.loads.find((one) => one.id === place);
  return found === undefined ? (own.chargers.find((one) => one.id === place)?.bay ?? place) : bayAt(found, at);
}

interface Step {
  readonly pack: ModelPack;
  readonly step: ReplayStep;
}

const stepEnd = ({ step }: Step, { result }: PowerView, at: Instant): Bayed => ({
  at,
  bay: vehicleOf(result.built, bayOf(result.solution.model, step.at, at)),
});

const step = object<Step, PowerView>({
  from: kept(bayed, (one, view) => stepEnd(one, view, one.step.from)),
  to: kept(bayed, (one, view) => stepEnd(one, view, one.step.to)),
  at: kept(text, (one) => one.step.at),
  doing: kept(text, (one) => one.step.doing),
  chargeBefore: kept(digits, (one) => one.step.whBefore / one.pack.wh),
  chargeAfter: kept(digits, (one) => one.step.whAfter / one.pack.wh),
});

const pack = object<ModelPack, PowerView>({
  id: kept(key, (one) => one.id),
  steps: kept(list(step), (one, { result }) =>
    (result.solution.replay.steps.get(one.id) ?? []).map((own) => ({ pack: one, step: own })),
  ),
});

type Move = PowerResult["solution"]["rotation"]["moves"][number];
type Work = PowerResult["solution"]["rotation"]["chores"][number];
const whereOf = ({ touch }: Work, { result }: PowerView): Id | null =>
  result.built.touches.find(({ id }) => id === touch)?.where ?? null;
const chore = object<Work, PowerView>({
  ...same<Work, PowerView>()({ touch: text }),
  begins: kept(bayed, (one, view) => ({ at: one.begins, bay: whereOf(one, view) })),
  ends: kept(bayed, (one, view) => ({ at: one.ends, bay: whereOf(one, view) })),
  ...same<Work, PowerView>()({ who: list(key) }),
});
const rotation = object<PowerResult["solution"]["rotation"], PowerView>({
  covered: kept(list(text), (one) => one.covered),
  moves: kept(
    list(object<Move, unknown>(same<Move, unknown>()({ touch: text, pack: key, from: text, to: text }))),
    (one) => one.moves,
  ),
  chores: kept(list(chore), (one) => one.chores),
});

const hands = object<HandTask, PowerView>({
  from: kept(bayed, (task) => ({ at: task.from, bay: task.where })),
  to: kept(bayed, (task) => ({ at: task.to, bay: task.where })),
  ...same<HandTask, PowerView>()({ where: key, who: list(key), others: list(key) }),
  moves: kept(
    list(
      object<PackStep, unknown>(
        same<PackStep, unknown>()({
          pack: key,
          from: text,
          fromSlot: orNull(whole),
          to: text,
          toSlot: orNull(whole),
        }),
      ),
    ),
    (task) => task.steps,
  ),
});

/** A load of a demand. */
interface Covered {
  readonly demand: Id;
  readonly load: Id;
}

const useOf = ({ demand, load }: Covered, { result }: PowerView) =>
  result.solution.replay.uses.find((one) => one.demand === demand && one.load === load);

const covered = object<Covered, PowerView>({
  activity: kept(text, (one) => one.demand),
  load: kept(key, (one) => one.load),
  packs: kept(list(key), (one, view) => useOf(one, view)?.packs ?? []),
  marginWh: kept(orNull(digits), (one, view) => useOf(one, view)?.marginWh ?? null),
  ok: kept(flag, (one, view) => useOf(one, view) !== undefined),
});

/** Every load of every demand, in time order, then plan order. */
const coveredOf = ({ solution }: PowerResult): readonly Covered[] =>
  solution.model.demands.flatMap((own) => [...own.watts.keys()].map((load) => ({ demand: own.id, load })));

type Proof = PowerResult["solution"]["proof"];
const proved = orNull(word("exhausted", "simulated", "impossible"));
const proof = object<Proof, unknown>({
  ...same<Proof, unknown>()({ coverage: proved, margin: proved, moves: proved }),
  marginBoundWh: kept(orNull(upper), ({ marginBoundWh: bound }) =>
    bound === null || !Number.isFinite(bound) ? null : bound,
  ),
  movesBound: kept(orNull(number), (one) => one.movesBound),
});

type Cure = Missing["cures"][number];
const missing = object<Missing, PowerView>({
  first: kept(orNull(text), (one) => one.first),
  packsNeeded: kept(orNull(whole), ({ short }) => short.packs?.needed ?? null),
  packsThere: kept(orNull(whole), ({ short }) => short.packs?.there ?? null),
  missingWh: kept(orNull(digits), ({ short }) => short.missingWh),
  slots: kept(orNull(whole), ({ short }) => short.charging?.slots ?? null),
  chargeMinutes: kept(orNull(whole), ({ short }) => short.charging?.minutes ?? null),
  moments: kept(whole, ({ short }) => short.moments),
  blocking: kept(list(text), (one) => one.blocking),
  cures: kept(
    list(
      object<Cure, PowerView>({
        what: kept(text, (cure, { say }) => cureText(cure, say)),
        edits: kept(list(text), (cure) => cure.edits),
      }),
    ),
    (one) => one.cures,
  ),
});

/** `data` of `power`. */
export const ROTATION_DATA = object<readonly HandTask[], PowerView>({
  model: kept(model, (_, { result }) => result.built),
  rotation: kept(rotation, (_, { result }) => result.solution.rotation),
  packs: kept(list(pack), (_, { result }) => result.solution.model.packs),
  hands: kept(list(hands), (tasks) => tasks),
  covered: kept(list(covered), (_, { result }) => coveredOf(result)),
  leastMarginWh: kept(orNull(digits), (_, { result }) => result.solution.replay.leastMarginWh),
  moveCount: kept(whole, (_, { result }) => result.solution.moveCount),
  spareMoves: kept(whole, (_, { result }) => result.solution.spareMoves),
  proof: kept(proof, (_, { result }) => result.solution.proof),
  missing: kept(orNull(missing), (_, { result }) => result.missing),
});
