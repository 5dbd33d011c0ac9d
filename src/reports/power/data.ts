/** `data` of `power`: the model that was solved, the rotation, the steps, the proof; any program can judge it. */
import type { Id } from "../../plan/plan.ts";
import type { DayModel, PowerResult, ShortageCause } from "../../power/index.ts";
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
import { type Instant, type Interval, instant as instantOf } from "../../time/index.ts";
import { eitherKind, kept, object } from "../shared/columns.ts";
import type { DayView } from "../shared/dayView.ts";
import {
  flagKind,
  instantKind,
  type Kind,
  keyKind,
  listKind,
  type Moment,
  mapKind,
  numberKind,
  orNull,
  textKind,
  wholeKind,
  wordKind,
} from "../shared/kinds.ts";

/** What the cells of `power` need. */
export interface PowerView extends DayView {
  readonly result: PowerResult;
  /** What is shown: all, or what concerns one person. */
  readonly demands: readonly Demand[];
  readonly packs: readonly ModelPack[];
}

/** Six digits: what the model itself holds. */
const digits: Kind<number, unknown> = { ...numberKind, json: (value) => Math.round(value * 1e6) / 1e6 };
/** A bound is never printed tighter than it is. */
const upper: Kind<number, unknown> = { ...numberKind, json: (value) => Math.ceil(value * 1e6) / 1e6 };

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
  ...instantKind,
  json: ({ at, bay }, view) => instantKind.json(atBay(view.result.built, at, bay), view),
  cell: ({ at, bay }, view) => instantKind.cell(atBay(view.result.built, at, bay), view),
};

const vehicleOf = ({ handBays }: DayModel, bay: Id): Id => handBays.find((one) => one.id === bay)?.within ?? bay;

const touch = object<DayModel["touches"][number], PowerView>()({
  id: textKind,
  at: kept(bayed, (one) => ({ at: one.at, bay: one.where })),
  reach: listKind(textKind),
  warm: kept(orNull(bayed), (one, { result }) => {
    const at = result.built.model.touches.find(({ id }) => id === one.id)?.warm;
    return at === undefined ? null : { at, bay: one.where };
  }),
});

const charger = object<ModelCharger, PowerView>()({
  id: keyKind,
  mount: textKind,
  bay: textKind,
  slots: wholeKind,
  watts: numberKind,
  taper: numberKind,
  totalWatts: orNull(numberKind),
  on: kept(listKind(listKind(bayed)), ({ on, bay }, { result }) => {
    const vehicle = vehicleOf(result.built, bay);
    return on.map(({ from, to }) => [
      { at: from, bay: vehicle },
      { at: to, bay: vehicle },
    ]);
  }),
});

/** Where a load is: one bay, or a bay from each moment on. */
type Bays = string | readonly (readonly string[])[];
const load = object<ModelLoad, PowerView>()({
  id: keyKind,
  mount: textKind,
  bay: kept(
    eitherKind((value: Bays): value is string => typeof value === "string", textKind, listKind(listKind(textKind))),
    ({ bay }, view) =>
      bay.length === 1
        ? (bay[0]?.bay ?? "")
        : bay.map((stage) => [String(bayed.json({ at: stage.from, bay: stage.bay }, view)), stage.bay]),
  ),
});

type DayDemand = DayModel["demands"][number];
const placeOfDemand = ({ activity }: DayDemand, { day }: PowerView): Id | null =>
  day.activities.find((one) => one.id === activity)?.place ?? null;
const demand = object<DayDemand, PowerView>()({
  id: kept(textKind, (one) => one.demand.id),
  kind: kept(textKind, (one) => one.demand.kind),
  from: kept(instantKind, (one, view) => ({ at: one.demand.from, place: placeOfDemand(one, view) })),
  to: kept(instantKind, (one, view) => ({ at: one.demand.to, place: placeOfDemand(one, view) })),
  watts: kept(mapKind(numberKind), (one) => one.demand.watts),
});

const anywhere = (at: Instant): Bayed => ({ at, bay: null });
const stretch = ({ from, to }: Interval): readonly Bayed[] => [anywhere(from), anywhere(to)];
const found = object<NonNullable<ModelPack["found"]>[number], PowerView>()({
  at: kept(bayed, ({ at }) => anywhere(at)),
  wh: numberKind,
});
const seen = object<NonNullable<ModelPack["seen"]>[number], PowerView>()({
  at: kept(bayed, ({ at }) => anywhere(at)),
  place: textKind,
});
const modelPack = object<ModelPack, PowerView>()({
  id: keyKind,
  mount: textKind,
  wh: numberKind,
  startWh: numberKind,
  reserveWh: numberKind,
  at: textKind,
  found: kept(listKind(found), (own) => own.found ?? []),
  seen: kept(listKind(seen), (own) => own.seen ?? []),
  broken: kept(listKind(listKind(bayed)), ({ broken }) => (broken ?? []).map(stretch)),
});

const model = object<DayModel, PowerView>()({
  from: kept(bayed, (day) => anywhere(day.model.from)),
  to: kept(bayed, (day) => anywhere(day.model.to)),
  bays: kept(listKind(textKind), (day) => day.model.bays),
  grainWh: kept(numberKind, (day) => day.model.grainWh),
  enoughWh: kept(numberKind, (day) => day.model.enoughWh),
  swapMinutes: kept(wholeKind, (day) => day.model.swapMinutes),
  touches: listKind(touch),
  packs: kept(listKind(modelPack), (day) => day.model.packs),
  chargers: kept(listKind(charger), (day) => day.model.chargers),
  loads: kept(listKind(load), (day) => day.model.loads),
  demands: listKind(demand),
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

const step = object<Step, PowerView>()({
  from: kept(bayed, (one, view) => stepEnd(one, view, one.step.from)),
  to: kept(bayed, (one, view) => stepEnd(one, view, one.step.to)),
  at: kept(textKind, (one) => one.step.at),
  doing: kept(textKind, (one) => one.step.doing),
  chargeBefore: kept(digits, (one) => one.step.whBefore / one.pack.wh),
  chargeAfter: kept(digits, (one) => one.step.whAfter / one.pack.wh),
});

const pack = object<ModelPack, PowerView>()({
  id: keyKind,
  steps: kept(listKind(step), (one, { result }) =>
    (result.solution.replay.steps.get(one.id) ?? []).map((own) => ({ pack: one, step: own })),
  ),
});

type Move = PowerResult["solution"]["rotation"]["moves"][number];
type Work = PowerResult["solution"]["rotation"]["chores"][number];
const whereOf = ({ touch }: Work, { result }: PowerView): Id | null =>
  result.built.touches.find(({ id }) => id === touch)?.where ?? null;
const chore = object<Work, PowerView>()({
  touch: textKind,
  begins: kept(bayed, (one, view) => ({ at: one.begins, bay: whereOf(one, view) })),
  ends: kept(bayed, (one, view) => ({ at: one.ends, bay: whereOf(one, view) })),
  who: listKind(keyKind),
});
const rotation = object<PowerResult["solution"]["rotation"], PowerView>()({
  covered: listKind(textKind),
  moves: listKind(object<Move, unknown>()({ touch: textKind, pack: keyKind, from: textKind, to: textKind })),
  chores: listKind(chore),
});

const hands = object<HandTask, PowerView>()({
  from: kept(bayed, (task) => ({ at: task.from, bay: task.where })),
  to: kept(bayed, (task) => ({ at: task.to, bay: task.where })),
  where: keyKind,
  who: listKind(keyKind),
  others: listKind(keyKind),
  moves: kept(
    listKind(
      object<PackStep, unknown>()({
        pack: keyKind,
        from: textKind,
        fromSlot: orNull(wholeKind),
        to: textKind,
        toSlot: orNull(wholeKind),
      }),
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

const covered = object<Covered, PowerView>()({
  activity: kept(textKind, (one) => one.demand),
  load: keyKind,
  packs: kept(listKind(keyKind), (one, view) => useOf(one, view)?.packs ?? []),
  marginWh: kept(orNull(digits), (one, view) => useOf(one, view)?.marginWh ?? null),
  ok: kept(flagKind, (one, view) => useOf(one, view) !== undefined),
});

/** Every load of every demand, in time order, then plan order. */
const coveredOf = ({ solution }: PowerResult): readonly Covered[] =>
  solution.model.demands.flatMap((own) => [...own.watts.keys()].map((load) => ({ demand: own.id, load })));

const proved = orNull(wordKind("exhausted", "simulated", "impossible"));
const proof = object<PowerResult["solution"]["proof"], unknown>()({
  coverage: proved,
  margin: proved,
  moves: proved,
  marginBoundWh: kept(orNull(upper), ({ marginBoundWh: bound }) =>
    bound === null || !Number.isFinite(bound) ? null : bound,
  ),
  movesBound: orNull(numberKind),
});

const missing = object<ShortageCause, PowerView>()({
  first: orNull(textKind),
  packsNeeded: kept(orNull(wholeKind), ({ short }) => short.packs?.needed ?? null),
  packsThere: kept(orNull(wholeKind), ({ short }) => short.packs?.there ?? null),
  missingWh: kept(orNull(digits), ({ short }) => short.missingWh),
  slots: kept(orNull(wholeKind), ({ short }) => short.charging?.slots ?? null),
  chargeMinutes: kept(orNull(wholeKind), ({ short }) => short.charging?.minutes ?? null),
  moments: kept(wholeKind, ({ short }) => short.moments),
  blocking: listKind(textKind),
  cures: listKind(
    object<ShortageCause["cures"][number], PowerView>()({
      what: kept(textKind, (cure, { say }) => cureText(cure, say)),
      edits: listKind(textKind),
    }),
  ),
});

/** `data` of `power`. */
export const ROTATION_DATA = object<readonly HandTask[], PowerView>()({
  model: kept(model, (_, { result }) => result.built),
  rotation: kept(rotation, (_, { result }) => result.solution.rotation),
  packs: kept(listKind(pack), (_, { result }) => result.solution.model.packs),
  hands: kept(listKind(hands), (tasks) => tasks),
  covered: kept(listKind(covered), (_, { result }) => coveredOf(result)),
  leastMarginWh: kept(orNull(digits), (_, { result }) => result.solution.replay.leastMarginWh),
  moveCount: kept(wholeKind, (_, { result }) => result.solution.moveCount),
  spareMoves: kept(wholeKind, (_, { result }) => result.solution.spareMoves),
  proof: kept(proof, (_, { result }) => result.solution.proof),
  missing: kept(orNull(missing), (_, { result }) => result.missing),
});
