/**
 * Replays a rotation on its model, event by event, and says what is wrong with it. It knows nothing of how the rotation was
 * found and shares no code with the search: whatever is printed has passed through here.
 */
import { sumOf } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import { type Instant, type Interval, instant } from "../time/units.ts";
import type { Demand, Model, ModelCharger, ModelPack, PackMove, Rotation, Touch, TouchWork } from "./model.ts";

/** What a pack does in a step. */
export type Doing = "charge" | "power" | "rest";

/** A stretch of a pack's day; charges in Wh. */
export interface ReplayStep {
  readonly from: Instant;
  readonly to: Instant;
  readonly at: Id;
  readonly doing: Doing;
  readonly whBefore: number;
  readonly whAfter: number;
}

/** One load of one covered demand; `marginWh` is the smallest charge above the reserve among its packs' ends. */
export interface ReplayUse {
  readonly demand: Id;
  readonly load: Id;
  readonly packs: readonly Id[];
  readonly marginWh: number;
}

/** A rotation played minute by minute: charges and faults. */
export interface Replay {
  /** Empty where the rotation is valid. */
  readonly faults: readonly string[];
  readonly steps: ReadonlyMap<Id, readonly ReplayStep[]>;
  readonly uses: readonly ReplayUse[];
  /** Null where nothing is covered. */
  readonly leastMarginWh: number | null;
}

/** Rounding that the arithmetic itself brings in; far below what is printed. */
const EPSILON_WH = 1e-6;

interface World {
  readonly model: Model;
  readonly covered: readonly Demand[];
  readonly place: Map<Id, Id>;
  readonly wh: Map<Id, number>;
  readonly faults: string[];
  readonly steps: Map<Id, ReplayStep[]>;
  /** By pack: when it is in hand on its way out of a charger or into one, and does not charge. */
  readonly inHand: ReadonlyMap<Id, readonly Interval[]>;
  /** Key: demand and load; the packs in it and their ends' margins. */
  readonly uses: Map<string, { readonly demand: Demand; readonly load: Id; readonly packs: Id[]; margin: number }>;
}

/** Replays `rotation` from the model's first minute to its last. */
export function replay(model: Model, rotation: Rotation): Replay {
  const world = start(model, rotation);
  const moves = movesByTouch(world, rotation.moves);
  const times = eventTimes(model, rotation.chores);
  times.forEach((at, n) => {
    for (const touch of model.touches) if (touch.at === at) applyTouch(world, touch, moves.get(touch.id) ?? []);
    for (const { id, found = [], seen = [] } of model.packs) {
      for (const one of found) if (one.at === at) world.wh.set(id, one.wh);
      for (const one of seen) if (one.at === at) world.place.set(id, one.place);
    }
    const next = times[n + 1];
    if (next !== undefined) pass(world, at, next);
  });
  const uses = [...world.uses.values()].map(({ demand, load, packs, margin }) => ({
    demand: demand.id,
    load,
    packs,
    marginWh: margin,
  }));
  const least = uses.reduce((low, use) => Math.min(low, use.marginWh), Number.POSITIVE_INFINITY);
  return { faults: world.faults, steps: world.steps, uses, leastMarginWh: uses.length > 0 ? least : null };
}

function start(model: Model, rotation: Rotation): World {
  const wanted = new Set(rotation.covered);
  const covered = model.demands.filter((demand) => wanted.has(demand.id));
  const faults = rotation.covered
    .filter((id) => !model.demands.some((demand) => demand.id === id))
    .map((id) => `${id} is no demand`);
  const uses: World["uses"] = new Map();
  for (const demand of covered)
    for (const load of demand.watts.keys())
      uses.set(`${demand.id} ${load}`, { demand, load, packs: [], margin: Number.POSITIVE_INFINITY });
  return {
    model,
    covered,
    place: new Map(model.packs.map((pack) => [pack.id, pack.at])),
    wh: new Map(model.packs.map((pack) => [pack.id, pack.startWh])),
    faults,
    steps: new Map(model.packs.map((pack) => [pack.id, []])),
    inHand: handled(model, rotation, faults),
    uses,
  };
}

/** What leaves a charger stops when its chore begins, what enters one starts when its chore ends. */
function handled(model: Model, { moves, chores }: Rotation, faults: string[]): Map<Id, Interval[]> {
  const inHand = new Map<Id, Interval[]>(model.packs.map((pack) => [pack.id, []]));
  const isCharger = (place: Id): boolean => model.chargers.some((charger) => charger.id === place);
  for (const chore of chores) {
    const touch = model.touches.find((one) => one.id === chore.touch);
    if (touch === undefined || chore.begins > touch.at || chore.ends < touch.at) {
      faults.push(`the chore at ${chore.touch} does not hold its touch`);
      continue;
    }
    for (const { pack, from, to } of moves.filter((move) => move.touch === chore.touch)) {
      if (isCharger(from)) inHand.get(pack)?.push({ from: chore.begins, to: touch.at });
      const warm = instant(Math.max(chore.ends, touch.warm ?? chore.ends));
      if (isCharger(to)) inHand.get(pack)?.push({ from: touch.at, to: warm });
    }
  }
  return inHand;
}

function movesByTouch(world: World, moves: readonly PackMove[]): Map<Id, PackMove[]> {
  const byTouch = new Map<Id, PackMove[]>(world.model.touches.map((touch) => [touch.id, []]));
  for (const move of moves) {
    const list = byTouch.get(move.touch);
    if (list === undefined) world.faults.push(`${move.touch} is no touch`);
    else if (list.some((other) => other.pack === move.pack))
      world.faults.push(`${move.pack} moves twice at ${move.touch}`);
    else list.push(move);
  }
  return byTouch;
}

/** Every minute at which something may change, from the model's first to its last. */
function eventTimes(model: Model, chores: readonly TouchWork[]): Instant[] {
  const times = new Set<Instant>([model.from, model.to]);
  for (const touch of model.touches) times.add(touch.at);
  for (const chore of chores) times.add(chore.begins).add(chore.ends);
  for (const { warm } of model.touches) if (warm !== undefined) times.add(warm);
  for (const { found = [], seen = [], broken = [] } of model.packs) {
    for (const one of [...found, ...seen]) times.add(one.at);
    for (const one of broken) times.add(one.from).add(one.to);
  }
  for (const demand of model.demands) times.add(demand.from).add(demand.to);
  for (const charger of model.chargers) for (const on of charger.on) times.add(on.from).add(on.to);
  return [...times].filter((at) => at >= model.from && at <= model.to).sort((a, b) => a - b);
}

function applyTouch(world: World, touch: Touch, moves: readonly PackMove[]): void {
  for (const move of moves) checkMove(world, touch, move);
  for (const move of moves) world.place.set(move.pack, move.to);
  checkRoom(world, touch);
}

function checkMove(world: World, touch: Touch, move: PackMove): void {
  const { model, place, faults } = world;
  const pack = model.packs.find((one) => one.id === move.pack);
  const told = `${move.pack} from ${move.from} to ${move.to} at ${touch.id}`;
  if (pack === undefined) return void faults.push(`${told}: no such pack`);
  if (place.get(pack.id) !== move.from) faults.push(`${told}: it is at ${place.get(pack.id)}`);
  if (move.from === move.to) faults.push(`${told}: it does not move`);
  for (const id of [move.from, move.to]) {
    const bay = bayOf(model, id, touch.at);
    if (bay === null) faults.push(`${told}: ${id} is no place`);
    else if (!touch.reach.includes(bay)) faults.push(`${told}: ${id} is out of reach`);
  }
  const mount = mountOf(model, move.to);
  if (mount !== null && mount !== pack.mount) faults.push(`${told}: the mount does not fit`);
  for (const demand of world.covered) {
    const inside = demand.kind !== "standby" && demand.from < touch.at && touch.at < demand.to;
    if (inside && (demand.watts.has(move.from) || demand.watts.has(move.to)))
      faults.push(`${told}: during ${demand.id}`);
  }
}

function bayOf(model: Model, place: Id, at: number): Id | null {
  if (model.bays.includes(place)) return place;
  const charger = model.chargers.find((one) => one.id === place);
  if (charger !== undefined) return charger.bay;
  const load = model.loads.find((one) => one.id === place);
  if (load === undefined) return null;
  const stages = load.bay.filter((stage, n) => n === 0 || stage.from <= at);
  return stages.at(-1)?.bay ?? null;
}

function mountOf(model: Model, place: Id): string | null {
  return [...model.chargers, ...model.loads].find((one) => one.id === place)?.mount ?? null;
}

function checkRoom(world: World, touch: Touch): void {
  const { model } = world;
  for (const charger of model.chargers)
    if (packsAt(world, charger.id).length > charger.slots)
      world.faults.push(`${charger.id} holds too many after ${touch.id}`);
  for (const load of model.loads)
    if (packsAt(world, load.id).length > 1) world.faults.push(`${load.id} holds too many after ${touch.id}`);
}

function packsAt(world: World, place: Id): ModelPack[] {
  return world.model.packs.filter((pack) => world.place.get(pack.id) === place);
}

/** Lets the time from `from` to `to` pass, in which nothing changes place, starts or ends. */
function pass(world: World, from: Instant, to: Instant): void {
  const hours = (to - from) / 60;
  const now = world.covered.filter((demand) => demand.from <= from && to <= demand.to);
  const before = new Map(world.wh);
  for (const pack of world.model.packs) {
    const at = world.place.get(pack.id) ?? pack.at;
    const doing = advance(world, pack, at, from, hours, now);
    note(world, pack, { from, to, at, doing, whBefore: before.get(pack.id) ?? 0, whAfter: world.wh.get(pack.id) ?? 0 });
  }
  for (const demand of now) for (const load of demand.watts.keys()) checkUse(world, demand, load, from, to);
}

function advance(world: World, pack: ModelPack, at: Id, from: Instant, hours: number, now: readonly Demand[]): Doing {
  const held = world.wh.get(pack.id) ?? 0;
  const charger = world.model.chargers.find((one) => one.id === at);
  if (charger !== undefined) {
    if (!charger.on.some((on) => on.from <= from && from < on.to)) return "rest";
    if (isBroken(pack, from)) return "rest";
    if (world.inHand.get(pack.id)?.some((held) => held.from <= from && from < held.to)) return "rest";
    const power = Math.min(charger.watts, (charger.totalWatts ?? Number.POSITIVE_INFINITY) / packsAt(world, at).length);
    world.wh.set(pack.id, charged(pack, charger, power, held, hours));
    return "charge";
  }
  const drawn = now.filter((demand) => demand.watts.has(at));
  if (drawn.length === 0) return "rest";
  const watts = sumOf(drawn, (demand) => demand.watts.get(at) ?? 0);
  world.wh.set(pack.id, held - watts * hours);
  return "power";
}

const isBroken = ({ broken = [] }: ModelPack, at: Instant): boolean =>
  broken.some((one) => one.from <= at && at < one.to);

/** Constant power below the knee, above it the part still missing shrinks by the same share in every equal time. */
function charged(pack: ModelPack, charger: ModelCharger, power: number, held: number, hours: number): number {
  const knee = charger.taper * pack.wh;
  const toKnee = held >= knee ? 0 : (knee - held) / power;
  if (hours <= toKnee) return held + power * hours;
  if (charger.taper >= 1) return Math.max(held, Math.min(pack.wh, held + power * hours));
  const missing = pack.wh - Math.max(held, knee);
  return pack.wh - missing * Math.exp((-power * (hours - toKnee)) / (pack.wh - knee));
}

function note(world: World, pack: ModelPack, step: ReplayStep): void {
  const steps = world.steps.get(pack.id) ?? [];
  const last = steps.at(-1);
  if (last !== undefined && last.at === step.at && last.doing === step.doing)
    steps[steps.length - 1] = { ...last, to: step.to, whAfter: step.whAfter };
  else steps.push(step);
}

/** Someone must be on the load all the time, and above the reserve at the end of their part. */
function checkUse(world: World, demand: Demand, load: Id, from: Instant, to: Instant): void {
  const use = world.uses.get(`${demand.id} ${load}`);
  const [pack] = packsAt(world, load);
  if (use === undefined) return;
  if (pack === undefined) return void world.faults.push(`${load} has no pack during ${demand.id} at minute ${from}`);
  if (isBroken(pack, from)) world.faults.push(`${pack.id} is out of service during ${demand.id} at minute ${from}`);
  if (!use.packs.includes(pack.id)) use.packs.push(pack.id);
  const margin = (world.wh.get(pack.id) ?? 0) - pack.reserveWh;
  use.margin = Math.min(use.margin, margin);
  if (margin < -EPSILON_WH)
    world.faults.push(`${pack.id} is ${(-margin).toFixed(3)} Wh below its reserve at minute ${to}, ${demand.id}`);
}
