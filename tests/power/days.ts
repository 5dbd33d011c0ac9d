/** Random power models for the tests: their own generator, whole minutes, every feature of the model now and then. */
import type { Demand, Model, ModelCharger, ModelLoad, ModelPack, Touch } from "../../src/power/model.ts";
import { type Instant, instant } from "../../src/time/units.ts";

export interface Shape {
  readonly packs: readonly [number, number];
  readonly touches: readonly [number, number];
  readonly demands: readonly [number, number];
  readonly loads: readonly [number, number];
  readonly minutes: number;
  /** One bay, one mount, packs at least half full: most of such days can be covered. */
  readonly easy?: boolean;
}

export const TINY: Shape = { packs: [1, 3], touches: [1, 5], demands: [1, 5], loads: [1, 2], minutes: 360 };
export const DAY: Shape = { packs: [3, 8], touches: [8, 24], demands: [4, 16], loads: [1, 4], minutes: 1200 };

/** A multiplicative generator of the test's own. */
export function dice(seed: number): (low: number, high: number) => number {
  let state = (seed * 2654435761 + 12345) % 2147483647 || 1;
  return (low, high) => {
    state = (state * 48271) % 2147483647;
    return low + Math.floor((state / 2147483647) * (high - low + 1));
  };
}

type Dice = ReturnType<typeof dice>;

const minute = (n: number): Instant => instant(30_000_000 + n);

export function randomModel(seed: number, shape: Shape): Model {
  const roll = dice(seed);
  const easy = shape.easy === true;
  const bays = !easy && roll(0, 2) === 0 ? ["truck", "wagon"] : ["truck"];
  const bay = (): string => bays[roll(0, bays.length - 1)] ?? "truck";
  const mount = (): string => (!easy && roll(0, 7) === 0 ? "plate" : "wedge");
  const end = shape.minutes;
  const loads = Array.from(
    { length: roll(...shape.loads) },
    (_, n): ModelLoad => loadOf(`load${n + 1}`, mount(), bay, roll, end),
  );
  const chargers = Array.from({ length: roll(0, 5) === 0 ? 2 : 1 }, (_, n) =>
    chargerOf(`bench${n + 1}`, mount(), bay(), roll, end),
  );
  const touches = touchesOf(bays, roll, shape, end);
  const demands = demandsOf(loads, touches, roll, shape, end);
  const packs = packsOf(bays, chargers, loads, roll, shape);
  return {
    from: minute(0),
    to: minute(end),
    bays,
    grainWh: 1,
    swapMinutes: 0,
    enoughWh: roll(0, 1) === 0 ? 15 : 1000,
    touches,
    packs,
    chargers,
    loads,
    demands,
  };
}

function loadOf(id: string, mount: string, bay: () => string, roll: Dice, end: number): ModelLoad {
  const stages = [{ from: minute(0), bay: bay() }];
  if (roll(0, 5) === 0) stages.push({ from: minute(roll(1, end - 1)), bay: bay() });
  return { id, mount, bay: stages };
}

function chargerOf(id: string, mount: string, bay: string, roll: Dice, end: number): ModelCharger {
  const from = roll(0, end / 2);
  const on = [{ from: minute(from), to: minute(roll(from + 1, end)) }];
  const watts = roll(20, 90);
  const slots = roll(1, 3);
  const totalWatts = roll(0, 2) === 0 ? roll(watts, watts * slots) : null;
  return { id, mount, bay, slots, watts, taper: roll(0, 3) === 0 ? 1 : 0.8, totalWatts, on };
}

function touchesOf(bays: readonly string[], roll: Dice, shape: Shape, end: number): Touch[] {
  const at = Array.from({ length: roll(...shape.touches) }, () => 10 * roll(1, end / 10 - 1)).sort((a, b) => a - b);
  return at.map((n, i) => ({
    id: `touch${i + 1}`,
    at: minute(n),
    reach: roll(0, 2) === 0 ? [bays[roll(0, bays.length - 1)] ?? ""] : [...bays],
  }));
}

function demandsOf(
  loads: readonly ModelLoad[],
  touches: readonly Touch[],
  roll: Dice,
  shape: Shape,
  end: number,
): Demand[] {
  const wanted = roll(...shape.demands);
  const demands: Demand[] = [];
  const free = (load: string, from: number, to: number): boolean =>
    demands.every((one) => !one.watts.has(load) || one.to <= minute(from) || minute(to) <= one.from);
  for (let n = 0; n < wanted; n++) {
    const near = touches[roll(0, touches.length - 1)];
    const from = roll(0, 1) === 0 && near !== undefined ? near.at - minute(0) : roll(0, end - 20);
    const to = Math.min(end, from + 10 * roll(1, 6));
    const kind = (["firm", "firm", "hit", "standby"] as const)[roll(0, 3)] ?? "firm";
    const using = loads.filter((_, i) => i === n % loads.length || (kind !== "standby" && roll(0, 2) === 0));
    const one = kind === "standby" ? using.slice(0, 1) : using;
    if (from >= to || !one.every((load) => free(load.id, from, to))) continue;
    const watts = new Map(one.map((load) => [load.id, roll(10, 90)]));
    demands.push({ id: `hit${n + 1}`, kind, from: minute(from), to: minute(to), watts });
  }
  return demands;
}

function packsOf(
  bays: readonly string[],
  chargers: readonly ModelCharger[],
  loads: readonly ModelLoad[],
  roll: Dice,
  shape: Shape,
): ModelPack[] {
  const room = new Map<string, number>([
    ...chargers.map((one): [string, number] => [one.id, one.slots]),
    ...loads.map((one): [string, number] => [one.id, 1]),
  ]);
  return Array.from({ length: roll(...shape.packs) }, (_, n): ModelPack => {
    const wh = roll(50, 98);
    const mount = shape.easy !== true && roll(0, 9) === 0 ? "plate" : "wedge";
    const spots = [...chargers, ...loads].filter((one) => one.mount === mount && (room.get(one.id) ?? 0) > 0);
    const choice = roll(0, 2) === 0 ? spots[roll(0, Math.max(0, spots.length - 1))] : undefined;
    if (choice !== undefined) room.set(choice.id, (room.get(choice.id) ?? 0) - 1);
    const at = choice?.id ?? bays[roll(0, bays.length - 1)] ?? "truck";
    return {
      id: `pack${n + 1}`,
      mount,
      wh,
      startWh: (wh * roll(shape.easy === true ? 10 : 1, 20)) / 20,
      reserveWh: wh * 0.15,
      at,
    };
  });
}
