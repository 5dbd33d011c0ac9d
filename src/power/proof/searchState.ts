/**
 * The model laid out for the search: time cut at the touches, places and their spots numbered, everything that does not
 * depend on which pack goes where worked out once.
 *
 * A spot is a way to stand at a place for one interval: a shelf and a load have one; a charger whose total is shared has
 * one for each head count that changes the power (`level` = at most that many packs), since more company means less power.
 */
import type { Interval } from "../../time/units.ts";
import { bayAt, type Demand, type Model, type ModelCharger, workSpan } from "../model.ts";

/** What a pack does at a place of the search. */
export type PlaceKind = "shelf" | "charger" | "load";

/** A shelf, a charger or a load, and how many packs it takes. */
export interface PackPlace {
  readonly id: string;
  readonly kind: PlaceKind;
  /** Packs it holds; Infinity for a shelf. */
  readonly room: number;
  readonly mount: string | null;
  /** Numbers of its spots. */
  readonly spots: readonly number[];
}

/** A place and the step of charge that a pack has there. */
export interface PackSpot {
  readonly place: number;
  /** The head count up to which its power holds. */
  readonly level: number;
  /** Charging power to one pack, 0 on a shelf and on a load. */
  readonly watts: number;
}

/** A model made ready for the search: intervals, places, steps of charge. */
export interface Board {
  readonly model: Model;
  /** Number of intervals: touches + 1. Interval k runs from touch k - 1 to touch k. */
  readonly spans: number;
  readonly places: readonly PackPlace[];
  readonly spots: readonly PackSpot[];
  /** By spot: its place, its charging power, its level. */
  readonly placeOf: Int16Array;
  readonly wattsOf: Float64Array;
  readonly levelOf: Float64Array;
  /** By place: packs it holds. */
  readonly roomOf: Float64Array;
  /** By place: its first spot; the others follow, up to the first one of the next place. */
  readonly firstSpot: Int16Array;
  /** By pack, by place: whether its mount fits. */
  readonly fits: readonly (readonly boolean[])[];
  /** Where each pack starts. */
  readonly startPlace: readonly number[];
  /** `[place * spans + k]`: 1 where the touch before interval k reaches the place. */
  readonly reach: Uint8Array;
  /** `[place * spans + k]`: hours a charger is on in interval k, for what stays in it. */
  readonly hours: Float64Array;
  /** The same for what leaves it at the interval's end, enters it at its start, and both. */
  readonly hoursOut: Float64Array;
  readonly hoursIn: Float64Array;
  readonly hoursBoth: Float64Array;
  /** By place: when it charges; empty but for chargers. */
  readonly on: readonly (readonly Interval[])[];
  readonly taper: readonly number[];
  /** By pack: what it was found to hold at the start of an interval. */
  readonly found: readonly ReadonlyMap<number, number>[];
  /** By pack, by interval: whether it is out of service in any part of it. */
  readonly broken: readonly (readonly boolean[])[];
}

/** What a set of covered demands asks of the board. Index `[place * spans + k]`; only loads have entries. */
export interface Wanted {
  readonly demands: readonly Demand[];
  /** 1 where the load must have a pack in the interval. */
  readonly need: Uint8Array;
  /** The indices at which `need` is 1. */
  readonly needs: Int32Array;
  /** Wh drawn in the interval. */
  readonly drain: Float64Array;
  /** 1 where the touch before the interval lies inside a use that keeps its pack. */
  readonly locked: Uint8Array;
}

/** Lays a model out for the search. */
export function layBoard(model: Model): Board {
  const spots: PackSpot[] = [];
  const places: PackPlace[] = [];
  const add = (
    id: string,
    kind: PlaceKind,
    room: number,
    mount: string | null,
    levels: readonly Omit<PackSpot, "place">[],
  ) => {
    const place = places.length;
    places.push({ id, kind, room, mount, spots: levels.map((level) => spots.push({ ...level, place }) - 1) });
  };
  for (const bay of model.bays)
    add(bay, "shelf", Number.POSITIVE_INFINITY, null, [{ level: Number.POSITIVE_INFINITY, watts: 0 }]);
  for (const one of model.chargers) add(one.id, "charger", one.slots, one.mount, levelsOf(one));
  for (const load of model.loads) add(load.id, "load", 1, load.mount, [{ level: 1, watts: 0 }]);
  const index = new Map(places.map((place, n) => [place.id, n]));
  const spans = model.touches.length + 1;
  return {
    model,
    spans,
    places,
    spots,
    placeOf: Int16Array.from(spots, ({ place }) => place),
    wattsOf: Float64Array.from(spots, ({ watts }) => watts),
    levelOf: Float64Array.from(spots, ({ level }) => level),
    roomOf: Float64Array.from(places, ({ room }) => room),
    firstSpot: Int16Array.from([...places.map((place) => place.spots[0] ?? 0), spots.length]),
    fits: model.packs.map((pack) => places.map((place) => place.mount === null || place.mount === pack.mount)),
    startPlace: model.packs.map((pack) => index.get(pack.at) ?? 0),
    reach: reachOf(model, places, spans),
    ...hoursOf(model, places, spans),
    on: places.map((place) => model.chargers.find((one) => one.id === place.id)?.on ?? []),
    found: model.packs.map(({ found = [] }) => new Map(found.map(({ at, wh }) => [intervalFrom(model, at), wh]))),
    broken: model.packs.map(({ broken = [] }) =>
      Array.from({ length: broken.length === 0 ? 0 : spans }, (_, k) => {
        const [from, to] = intervalMinutes(model, k);
        return broken.some((one) => one.from < to && from < one.to);
      }),
    ),
    taper: places.map((place) => model.chargers.find((one) => one.id === place.id)?.taper ?? 1),
  };
}

/** The head counts at which a charger's power to one pack changes, fewest first. */
function levelsOf(charger: ModelCharger): Omit<PackSpot, "place">[] {
  const total = charger.totalWatts ?? Number.POSITIVE_INFINITY;
  const levels: Omit<PackSpot, "place">[] = [];
  for (let level = 1; level <= charger.slots; level++) {
    const watts = Math.min(charger.watts, total / level);
    if (levels.at(-1)?.watts === watts) levels.pop();
    levels.push({ level, watts });
  }
  return levels;
}

function reachOf(model: Model, places: readonly PackPlace[], spans: number): Uint8Array {
  const reach = new Uint8Array(places.length * spans);
  model.touches.forEach((touch, n) => {
    const bays = new Set(touch.reach);
    places.forEach((place, p) => {
      const charger = model.chargers.find((one) => one.id === place.id);
      const load = model.loads.find((one) => one.id === place.id);
      const bay = load !== undefined ? bayAt(load, touch.at) : (charger?.bay ?? place.id);
      if (bays.has(bay)) reach[p * spans + n + 1] = 1;
    });
  });
  return reach;
}

/** The interval that begins at a minute, or holds it. */
const intervalFrom = (model: Model, at: number): number => model.touches.filter((touch) => touch.at <= at).length;

/** Start and end minute of interval k. */
export function intervalMinutes(model: Model, k: number): readonly [number, number] {
  return [model.touches[k - 1]?.at ?? model.from, model.touches[k]?.at ?? model.to];
}

/** Leaving or entering a charger costs the minutes of the moves that are counted on at a touch, one at least: they do not charge. */
function hoursOf(model: Model, places: readonly PackPlace[], spans: number) {
  const made = () => new Float64Array(places.length * spans);
  const [hours, hoursOut, hoursIn, hoursBoth] = [made(), made(), made(), made()];
  const work = model.touches.map((touch) => workSpan(touch, model.swapMinutes * (touch.moves ?? 1)));
  places.forEach((place, p) => {
    const on = model.chargers.find((one) => one.id === place.id)?.on ?? [];
    if (on.length === 0) return;
    for (let k = 0; k < spans; k++) {
      const at = p * spans + k;
      const [from, to] = intervalMinutes(model, k);
      const warm = model.touches[k - 1]?.warm ?? from;
      const [enter, leave] = [Math.max(warm, work[k - 1]?.to ?? from), work[k]?.from ?? to];
      hours[at] = hoursOn(on, from, to);
      hoursOut[at] = hoursOn(on, from, leave);
      hoursIn[at] = hoursOn(on, enter, to);
      hoursBoth[at] = hoursOn(on, enter, leave);
    }
  });
  return { hours, hoursOut, hoursIn, hoursBoth };
}

/** Hours of `on` between two minutes. */
export function hoursOn(on: readonly Interval[], from: number, to: number): number {
  let minutes = 0;
  for (const stretch of on) minutes += Math.max(0, Math.min(to, stretch.to) - Math.max(from, stretch.from));
  return minutes / 60;
}

/** What covering exactly `demands` asks. */
export function wantedOf(board: Board, demands: readonly Demand[]): Wanted {
  const { model, places, spans } = board;
  const need = new Uint8Array(places.length * spans);
  const drain = new Float64Array(places.length * spans);
  const locked = new Uint8Array(places.length * spans);
  places.forEach((place, p) => {
    if (place.kind !== "load") return;
    for (const demand of demands) {
      const watts = demand.watts.get(place.id);
      if (watts === undefined) continue;
      for (let k = 0; k < spans; k++) {
        const [from, to] = intervalMinutes(model, k);
        const minutes = Math.min(to, demand.to) - Math.max(from, demand.from);
        if (minutes <= 0) continue;
        need[p * spans + k] = 1;
        drain[p * spans + k] = (drain[p * spans + k] ?? 0) + (watts * minutes) / 60;
      }
      if (demand.kind === "standby") continue;
      model.touches.forEach((touch, n) => {
        if (demand.from < touch.at && touch.at < demand.to) locked[p * spans + n + 1] = 1;
      });
    }
  });
  const needs = Int32Array.from([...need.keys()].filter((at) => need[at] === 1));
  return { demands, need, needs, drain, locked };
}

/** Charge after `hours` at `watts` in a charger, from `held` of `capacity` Wh; constant to the knee, then proportional. */
export function chargeAfter(held: number, capacity: number, taper: number, watts: number, hours: number): number {
  if (hours <= 0 || watts <= 0 || held >= capacity) return held;
  const knee = taper * capacity;
  const straight = Math.min(hours, Math.max(0, (knee - held) / watts));
  const reached = held + watts * straight;
  if (straight >= hours) return reached;
  if (taper >= 1) return Math.min(capacity, held + watts * hours);
  const rest = capacity - reached;
  return capacity - rest * Math.exp((-watts * (hours - straight)) / (capacity - knee));
}
