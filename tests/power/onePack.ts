/**
 * One pack on its way through a day, the slow way: every sequence of places, the charge minute by minute of the model alone.
 * Shares nothing with the search but the model's types; spots are named by their place and watts.
 */
import type { Demand, Model, ModelPack, Touch } from "../../src/power/model.ts";

/** Somewhere to stand: a place and what a pack gets there. */
export interface Stand {
  readonly place: string;
  readonly watts: number;
}

/** What a use asks at a place in an interval. */
export interface Use {
  readonly needed: boolean;
  readonly wh: number;
}

/** Start and end of the interval before touch `k`, the first one from the start of the day. */
export const spanOf = ({ touches, from, to }: Model, k: number): readonly [number, number] => [
  touches[k - 1]?.at ?? from,
  touches[k]?.at ?? to,
];

/** From when to when the moves that a search counts on at this touch are made. */
function handsAt({ swapMinutes }: Model, { at, free, moves = 1 }: Touch): readonly [number, number] {
  const needed = swapMinutes * moves;
  const begin = free === undefined ? at - needed : Math.max(free.from, at - needed);
  const late = free === undefined ? at : Math.min(begin + needed, free.to);
  return [begin, Math.max(at, late)];
}

/** What these demands ask at a place in interval k. */
export function useAt(model: Model, demands: readonly Demand[], place: string, k: number): Use {
  const [from, to] = spanOf(model, k);
  let [needed, wh] = [false, 0];
  for (const demand of demands)
    for (let minute = from; minute < to; minute++) {
      const watts = demand.watts.get(place);
      if (watts === undefined || minute < demand.from || minute >= demand.to) continue;
      needed = true;
      wh += watts / 60;
    }
  return { needed, wh };
}

/** Whether the hands of the touch before interval k come to the place, and may move there for these demands. */
export function canTouch(model: Model, demands: readonly Demand[], place: string, k: number): boolean {
  const touch = model.touches[k - 1];
  if (touch === undefined) return false;
  const load = model.loads.find(({ id }) => id === place);
  const stages = load?.bay.filter((stage, n) => n === 0 || stage.from <= touch.at);
  const bay = stages?.at(-1)?.bay ?? model.chargers.find(({ id }) => id === place)?.bay ?? place;
  return touch.reach.includes(bay) && !isKept(model, demands, place, k);
}

/** Whether a use of the load goes on over the touch before interval k and keeps its pack. */
export function isKept(model: Model, demands: readonly Demand[], place: string, k: number): boolean {
  const at = model.touches[k - 1]?.at ?? model.from;
  return demands.some((one) => one.kind !== "standby" && one.watts.has(place) && one.from < at && at < one.to);
}

export const fits = ({ chargers, loads }: Model, pack: ModelPack, place: string): boolean => {
  const mount = [...chargers, ...loads].find(({ id }) => id === place)?.mount;
  return mount === undefined || mount === pack.mount;
};

/** After one minute in a charger: constant power to the knee, from there on what is missing shrinks by the same share. */
function fill(held: number, full: number, taper: number, watts: number, hours: number): number {
  if (held >= full) return held;
  const knee = taper * full;
  const toKnee = held < knee ? Math.min(hours, (knee - held) / watts) : 0;
  const reached = held + watts * toKnee;
  const left = hours - toKnee;
  if (left <= 0) return reached;
  if (taper >= 1) return Math.min(full, reached + watts * left);
  return full - (full - reached) * Math.exp((-watts * left) / (full - knee));
}

/** What a pack holds at the end of interval k on a stand, before a use draws; it enters and leaves at the ends or stays. */
export function charged(
  model: Model,
  pack: ModelPack,
  stand: Stand,
  k: number,
  held: number,
  moves: readonly [boolean, boolean],
): number {
  const charger = model.chargers.find(({ id }) => id === stand.place);
  if (charger === undefined) return held;
  const [from, to] = spanOf(model, k);
  const [before, after] = [model.touches[k - 1], model.touches[k]];
  const enters = moves[0] && before !== undefined ? Math.max(handsAt(model, before)[1], before.warm ?? 0) : from;
  const leaves = moves[1] && after !== undefined ? handsAt(model, after)[0] : to;
  let minutes = 0;
  for (let minute = Math.max(from, enters); minute < Math.min(to, leaves); minute++)
    if (charger.on.some((on) => on.from <= minute && minute < on.to)) minutes++;
  return minutes === 0 ? held : fill(held, pack.wh, charger.taper, stand.watts, minutes / 60);
}

/** What a pack is found to hold at the start of interval k, else what it held. */
export function foundAt(model: Model, pack: ModelPack, k: number, held: number): number {
  const [from, to] = spanOf(model, k);
  const isLast = k === model.touches.length;
  const facts = (pack.found ?? []).filter(({ at }) => from <= at && (at < to || isLast));
  return facts.at(-1)?.wh ?? held;
}

/** Whether it is out of service in any part of interval k. */
export function isBroken(model: Model, pack: ModelPack, k: number): boolean {
  const [from, to] = spanOf(model, k);
  return (pack.broken ?? []).some((one) => one.from < to && from < one.to);
}
