/**
 * A second simulator for the tests, written apart from the one in the product: minute by minute, the charging law taken as a
 * differential equation (midpoint rule) instead of its closed form.
 */
import type { Model, Rotation } from "../../src/power/model.ts";

export interface MinuteReplay {
  readonly faults: readonly string[];
  readonly leastMarginWh: number | null;
  readonly finalWh: ReadonlyMap<string, number>;
}

export function replayByMinute(model: Model, rotation: Rotation): MinuteReplay {
  const faults: string[] = [];
  const place = new Map(model.packs.map((pack) => [pack.id, pack.at]));
  const wh = new Map(model.packs.map((pack) => [pack.id, pack.startWh]));
  const on = model.demands.filter((one) => rotation.covered.includes(one.id));
  let least = Infinity;
  const touches = [...model.touches];
  for (let at = model.from as number; at < model.to; at++) {
    while (touches[0] !== undefined && touches[0].at <= at) {
      const touch = touches.shift();
      if (touch !== undefined) swap(model, rotation, touch, on, place, faults);
    }
    for (const charger of model.chargers) {
      const inside = model.packs.filter((pack) => place.get(pack.id) === charger.id);
      if (!charger.on.some((span) => span.from <= at && at < span.to)) continue;
      const p =
        charger.totalWatts === null ? charger.watts : Math.min(charger.watts, charger.totalWatts / inside.length);
      for (const pack of inside)
        if (!inHand(model, rotation, pack.id, at))
          wh.set(pack.id, minuteOfCharge(wh.get(pack.id) ?? 0, pack.wh, charger.taper, p));
    }
    for (const demand of on) {
      if (at < demand.from || at >= demand.to) continue;
      for (const [load, watts] of demand.watts) {
        const pack = model.packs.find((one) => place.get(one.id) === load);
        if (pack === undefined) {
          faults.push(`${load} is empty at ${at}`);
          continue;
        }
        wh.set(pack.id, (wh.get(pack.id) ?? 0) - watts / 60);
        const margin = (wh.get(pack.id) ?? 0) - pack.reserveWh;
        least = Math.min(least, margin);
        if (margin < -0.05) faults.push(`${pack.id} under its reserve at ${at}`);
      }
    }
  }
  return { faults, leastMarginWh: Number.isFinite(least) ? least : null, finalWh: wh };
}

/** On its way out of a charger once the chore has begun, or into one until it ends. */
const inHand = (model: Model, { moves, chores }: Rotation, pack: string, at: number): boolean =>
  chores.some((chore) => {
    const touch = model.touches.find((one) => one.id === chore.touch);
    const isCharger = (place: string): boolean => model.chargers.some((one) => one.id === place);
    return moves.some(
      (move) =>
        move.touch === chore.touch &&
        move.pack === pack &&
        touch !== undefined &&
        ((isCharger(move.from) && chore.begins <= at && at < touch.at) ||
          (isCharger(move.to) && touch.at <= at && at < Math.max(chore.ends, touch.warm ?? 0))),
    );
  });

function swap(
  model: Model,
  rotation: Rotation,
  touch: Model["touches"][number],
  on: Model["demands"],
  place: Map<string, string>,
  faults: string[],
): void {
  const moves = rotation.moves.filter((move) => move.touch === touch.id);
  for (const move of moves) {
    if (place.get(move.pack) !== move.from) faults.push(`${move.pack} is not at ${move.from}`);
    for (const id of [move.from, move.to]) {
      const charger = model.chargers.find((one) => one.id === id);
      const load = model.loads.find((one) => one.id === id);
      const stage = load?.bay.findLast((one, n) => one.from <= touch.at || n === 0);
      if (!touch.reach.includes(charger?.bay ?? stage?.bay ?? id)) faults.push(`${id} is out of reach of ${touch.id}`);
      const mount = charger?.mount ?? load?.mount;
      if (mount !== undefined && mount !== model.packs.find((one) => one.id === move.pack)?.mount)
        faults.push(`${move.pack} does not fit ${id}`);
      if (on.some((one) => one.kind !== "standby" && one.from < touch.at && touch.at < one.to && one.watts.has(id)))
        faults.push(`${id} is on air at ${touch.id}`);
    }
  }
  for (const move of moves) place.set(move.pack, move.to);
  for (const one of [...model.chargers, ...model.loads]) {
    const heads = [...place.values()].filter((id) => id === one.id).length;
    if (heads > ("slots" in one ? one.slots : 1)) faults.push(`${one.id} holds ${heads}`);
  }
}

/** dE/dt = p below the knee, p (C - E) / (C - knee) above it, by small midpoint steps. */
function minuteOfCharge(held: number, full: number, taper: number, p: number): number {
  if (held >= full) return held;
  const knee = taper * full;
  const slope = (e: number): number => (e <= knee ? p : e >= full ? 0 : (p * (full - e)) / (full - knee));
  const h = 1 / 600;
  let e = held;
  for (let n = 0; n < 10; n++) e += h * slope(e + (h / 2) * slope(e));
  return Math.min(e, full);
}
