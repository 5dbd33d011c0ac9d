/**
 * The oracle: every joint state of all packs, forward over the touches, with dominance on charges. Exact, slow, written
 * from the semantics alone; it shares nothing with the search but the model's types.
 */
import type { Demand, Model } from "../../src/power/model.ts";

interface State {
  readonly place: readonly string[];
  readonly wh: readonly number[];
  readonly moves: number;
  /** Smallest margin so far. */
  readonly margin: number;
}

export interface Truth {
  readonly covered: readonly string[];
  /** Largest smallest margin, not cut at `enough`; null where nothing is covered. */
  readonly margin: number | null;
  readonly moves: number;
}

/** What is best in the lexicographic order, or null where the states are too many. */
export function truth(model: Model, limit = 60_000): Truth | null {
  const rank = { firm: 0, hit: 1, standby: 2 };
  const order = [...model.demands].sort(
    (a, b) => rank[a.kind] - rank[b.kind] || a.from - b.from || (a.id < b.id ? -1 : 1),
  );
  let covered: Demand[] = [];
  for (const demand of order) {
    const found = search(model, [...covered, demand], 0, "charge", limit);
    if (found === null) return null;
    if (found.length > 0) covered = [...covered, demand];
  }
  const best = search(model, covered, 0, "margin", limit);
  if (best === null) return null;
  const margin = covered.length === 0 ? null : Math.max(...best.map((one) => one.margin));
  const floor = margin === null ? 0 : Math.max(0, Math.min(margin, model.enoughWh) - model.grainWh);
  const fewest = search(model, covered, floor, "moves", limit);
  if (fewest === null) return null;
  return { covered: covered.map((one) => one.id), margin, moves: Math.min(...fewest.map((one) => one.moves)) };
}

type Goal = "charge" | "margin" | "moves";

function search(model: Model, demands: readonly Demand[], floor: number, goal: Goal, limit: number): State[] | null {
  let states: State[] = [
    {
      place: model.packs.map((pack) => pack.at),
      wh: model.packs.map((pack) => pack.startWh),
      moves: 0,
      margin: Infinity,
    },
  ];
  let work = 0;
  for (let k = 0; k <= model.touches.length; k++) {
    const from = model.touches[k - 1]?.at ?? model.from;
    const to = model.touches[k]?.at ?? model.to;
    const next = new Map<string, State[]>();
    for (const state of states)
      for (const moved of k === 0 ? [state] : handle(model, demands, state, k - 1)) {
        if (++work > limit * 20) return null;
        const after = live(model, demands, moved, from, to, floor);
        if (after !== null) keep(next, after, goal);
      }
    states = [...next.values()].flat();
    if (states.length > limit) return null;
  }
  return states;
}

/** All ways to move packs at one touch. */
function handle(model: Model, demands: readonly Demand[], state: State, n: number): State[] {
  const touch = model.touches[n];
  if (touch === undefined) return [state];
  const frozen = new Set(
    demands
      .filter((one) => one.kind !== "standby" && one.from < touch.at && touch.at < one.to)
      .flatMap((one) => [...one.watts.keys()]),
  );
  const bayOf = (place: string): string => {
    const load = model.loads.find((one) => one.id === place);
    if (load !== undefined) return load.bay.filter((stage, i) => i === 0 || stage.from <= touch.at).at(-1)?.bay ?? "";
    return model.chargers.find((one) => one.id === place)?.bay ?? place;
  };
  const free = [...model.bays, ...model.chargers.map((one) => one.id), ...model.loads.map((one) => one.id)].filter(
    (place) => touch.reach.includes(bayOf(place)) && !frozen.has(place),
  );
  const mount = (place: string): string | undefined =>
    [...model.chargers, ...model.loads].find((one) => one.id === place)?.mount;
  let partial: { place: string[]; moves: number }[] = [{ place: [], moves: state.moves }];
  model.packs.forEach((pack, p) => {
    const here = state.place[p] ?? "";
    const targets = free.includes(here)
      ? free.filter((place) => place !== here && (mount(place) ?? pack.mount) === pack.mount)
      : [];
    partial = partial.flatMap((one) => [
      { place: [...one.place, here], moves: one.moves },
      ...targets.map((place) => ({ place: [...one.place, place], moves: one.moves + 1 })),
    ]);
  });
  const room = (place: string): number =>
    model.loads.some((one) => one.id === place)
      ? 1
      : (model.chargers.find((one) => one.id === place)?.slots ?? Infinity);
  return partial
    .filter((one) => one.place.every((place) => one.place.filter((other) => other === place).length <= room(place)))
    .map((one) => ({ ...state, place: one.place, moves: one.moves }));
}

/** Lets time pass between two touches; null where a use lacks its pack or falls under the floor. */
function live(
  model: Model,
  demands: readonly Demand[],
  state: State,
  from: number,
  to: number,
  floor: number,
): State | null {
  const times = [from, to];
  for (const one of demands) times.push(one.from, one.to);
  for (const one of model.chargers) for (const on of one.on) times.push(on.from, on.to);
  const cuts = [...new Set(times)].filter((at) => at >= from && at <= to).sort((a, b) => a - b);
  const wh = [...state.wh];
  let margin = state.margin;
  for (let i = 1; i < cuts.length; i++) {
    const [start, end] = [cuts[i - 1] ?? 0, cuts[i] ?? 0];
    for (const charger of model.chargers) {
      if (!charger.on.some((on) => on.from <= start && end <= on.to)) continue;
      const heads = state.place.filter((place) => place === charger.id).length;
      const power = Math.min(charger.watts, (charger.totalWatts ?? Infinity) / heads);
      state.place.forEach((place, p) => {
        if (place === charger.id)
          wh[p] = fill(wh[p] ?? 0, model.packs[p]?.wh ?? 0, charger.taper, power, (end - start) / 60);
      });
    }
    for (const demand of demands) {
      if (demand.from > start || end > demand.to) continue;
      for (const [load, watts] of demand.watts) {
        const p = state.place.indexOf(load);
        if (p < 0) return null;
        wh[p] = (wh[p] ?? 0) - (watts * (end - start)) / 60;
        const left = (wh[p] ?? 0) - (model.packs[p]?.reserveWh ?? 0);
        if (left < floor - 1e-7) return null;
        margin = Math.min(margin, left);
      }
    }
  }
  return { ...state, wh, margin };
}

function fill(held: number, full: number, taper: number, power: number, hours: number): number {
  const knee = full * taper;
  let charge = held;
  let left = hours;
  if (charge < knee) {
    const time = Math.min(left, (knee - charge) / power);
    charge += power * time;
    left -= time;
  }
  if (left <= 0) return charge;
  return taper >= 1 ? Math.min(full, charge) : full - (full - charge) * Math.exp((-power * left) / (full - knee));
}

function keep(next: Map<string, State[]>, state: State, goal: Goal): void {
  const key = state.place.join(" ");
  const rivals = next.get(key) ?? [];
  const beats = (a: State, b: State): boolean =>
    a.wh.every((wh, p) => wh >= (b.wh[p] ?? 0) - 1e-9) &&
    (goal !== "margin" || a.margin >= b.margin - 1e-9) &&
    (goal !== "moves" || a.moves <= b.moves);
  if (rivals.some((rival) => beats(rival, state))) return;
  next.set(key, [...rivals.filter((rival) => !beats(state, rival)), state]);
}
