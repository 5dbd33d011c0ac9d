/**
 * How far the tank goes: range left after every leg, engine idling for the inverter, and where fuel stops must stand.
 *
 * The tank is counted in km of range. A leg without a length is taken at 70 km/h; cold and snow take more of the range
 * (`consumption.ts`). Idling burns what 16 km of road do in an hour: 0.39 gal/h of a large sedan at 25 mpg and 0.84 gal/h
 * of a delivery truck at 8 mpg are 9.8 and 6.7 miles (US Department of Energy, Fact 861; the mileages from memory). The
 * engine idles at every stop on the way without mains, in a vehicle with an inverter. The reserve is 15 % of a full tank
 * (common practice, no source).
 */
import type { Day, Move, StopTimes } from "../day/day.ts";
import { isFirstDays } from "../plan/firstDay.ts";
import type { Id, Vehicle } from "../plan/plan.ts";
import type { Instant } from "../time/units.ts";
import { rangeAKilometre } from "./consumption.ts";
import { type OnRoad, type RoadFill, roadFill } from "./fuelOnRoad.ts";

/** The share of a tank that is kept: common practice, no source. */
export const FUEL_RESERVE_SHARE = 0.15;
/** The kilometres whose fuel an idling engine uses in an hour. */
export const IDLE_KM_PER_HOUR = 16;
const UNSTATED_KM_PER_HOUR = 70;

/** Where the last fuel stop must stand: at a stop, or on the road within so many km of it. */
interface FuelBy {
  readonly move: Id;
  readonly stop: Id;
  readonly place: Id;
  readonly withinKm: number;
  /** What the tank holds there. */
  readonly holdsKm: number;
  /** The longest way between two fills, where one fill is not enough for the leg. */
  readonly everyKm: number | null;
  /** Fuel stops planned on that leg. */
  readonly stops: number;
}

/** The tank at the end of a leg, km of range. */
export interface FuelStep {
  readonly move: Id;
  readonly to: Id;
  readonly at: Instant;
  /** Range left on arrival, negative where the tank runs dry before. */
  readonly leftKm: number;
}

/** A vehicle's fuel over the day, in kilometres of range. */
export interface FuelState {
  readonly vehicle: Id;
  readonly rangeKm: number;
  readonly reserveKm: number;
  /** Where the day starts, and how far from the last fuel stop it ends. */
  readonly startKm: number;
  readonly endKm: number;
  readonly drivenKm: number;
  /** Range burnt standing with the engine on. */
  readonly idleKm: number;
  readonly idleMinutes: number;
  /** True where a leg without a stated length was taken at a guess. */
  readonly estimated: boolean;
  /** True where no level is known at the start: a full tank is assumed, the best there can be. */
  readonly assumedFull: boolean;
  /** Whether the level at the end follows from a known one. */
  readonly endKnown: boolean;
  /** The share of a tank that the day must start with to keep the reserve until the first fuel stop; may exceed 1. */
  readonly neededShare: number;
  readonly steps: readonly FuelStep[];
  /** The first leg that eats into the reserve; the last fuel stop must stand before it or within `withinKm` of its start. */
  readonly fuelBy: FuelBy | null;
  /** Fuel stops on the road whose place matters. */
  readonly onRoad: readonly OnRoad[];
  /** The least range anywhere. */
  readonly leastKm: number;
  /** A level that the day's own file states against what the day before left, km; null where it states none. */
  readonly restated: { readonly beforeKm: number } | null;
}

const kmOf = (move: Move): number => move.leg.km ?? (move.leg.likelyMinutes / 60) * UNSTATED_KM_PER_HOUR;

const takesFuel = (day: Day, activity: Id): boolean => day.plan.tasks.get(activity)?.kind === "fuel";

const fillsAt = (day: Day, stop: StopTimes): boolean => stop.activities.some((id) => takesFuel(day, id));

/** Minutes that the engine idles at a stop on the way. */
function idleMinutesAt(day: Day, vehicle: Vehicle, stop: StopTimes): number {
  if (vehicle.inverterWatts === null || stop.arrive === null || stop.leave === null) return 0;
  return day.plan.places.get(stop.place)?.mains === true ? 0 : stop.leave - stop.arrive;
}

interface Tank {
  km: number;
  known: boolean;
  /** Burnt before the first fill. */
  firstKm: number;
  filled: boolean;
  drivenKm: number;
  idleMinutes: number;
  leastKm: number;
  fuelBy: FuelState["fuelBy"];
  readonly onRoad: OnRoad[];
}

function burn(tank: Tank, km: number): void {
  tank.km -= km;
  if (!tank.filled) tank.firstKm += km;
  tank.leastKm = Math.min(tank.leastKm, tank.km);
}

/** Fuel stops on a leg, in the order of the road, with the share of the driving before each. */
function fillsOn(day: Day, move: Move): readonly RoadFill[] {
  return move.halts.flatMap(({ activity }): readonly RoadFill[] => {
    if (!takesFuel(day, activity)) return [];
    const times = day.activities.find((own) => own.id === activity);
    return [{ activity, share: times?.roadShare ?? null, fixed: times?.state === "fixed" }];
  });
}

/** What a tank may hold and must keep, km. */
interface Size {
  readonly rangeKm: number;
  readonly reserveKm: number;
}

function stepOf(day: Day, move: Move, tank: Tank, { rangeKm, reserveKm }: Size): FuelStep {
  const factor = rangeAKilometre(day.plan.weather, { from: move.leave, to: move.arrive }, [move.from, move.to]);
  const km = kmOf(move);
  const fills = fillsOn(day, move);
  tank.drivenKm += km;
  const by = (): FuelBy => {
    const [withinKm, everyKm] = [Math.max(0, (tank.km - reserveKm) / factor), (rangeKm - reserveKm) / factor];
    const stop = { move: move.id, stop: move.id, place: move.from, withinKm, holdsKm: Math.max(0, tank.km / factor) };
    return { ...stop, everyKm: km > withinKm + everyKm ? everyKm : null, stops: fills.length };
  };
  if (fills.length === 0) {
    if (tank.km - km * factor < reserveKm) tank.fuelBy ??= by();
    burn(tank, km * factor);
  } else {
    const way = roadFill({ km, factor, tankKm: tank.km, rangeKm, reserveKm }, fills);
    if (way.leastKm < reserveKm) tank.fuelBy ??= by();
    if (way.where !== null) tank.onRoad.push({ move: move.id, from: move.from, ...way.where });
    tank.leastKm = Math.min(tank.leastKm, way.leastKm);
    tank.firstKm += tank.filled ? 0 : way.firstKm;
    tank.km = way.endKm;
    [tank.filled, tank.known] = [true, true];
  }
  return { move: move.id, to: move.to, at: move.arrive, leftKm: tank.km };
}

/** The level read off at a known instant on the way, km; it replaces what was reckoned up to then. */
interface Reading {
  readonly at: Instant;
  readonly km: number;
}

function readingOf(day: Day, vehicle: Vehicle, rangeKm: number): Reading | null {
  const actual = day.plan.actual.vehicles.get(vehicle.id);
  const at = actual?.fuelAt ?? actual?.since ?? null;
  return actual === undefined || actual.fuel === null || at === null ? null : { at, km: actual.fuel * rangeKm };
}

const isReadAt = (stop: StopTimes, reading: Reading | null): reading is Reading =>
  reading !== null && (stop.leave === null || stop.leave >= reading.at);

/** The part of a stop after a reading. */
const sinceRead = (stop: StopTimes, { at }: Reading): StopTimes =>
  stop.arrive !== null && stop.arrive < at ? { ...stop, arrive: at } : stop;

const isReadOn = (move: Move, reading: Reading | null): reading is Reading =>
  reading !== null && move.leave < reading.at && reading.at < move.arrive;

/** What is left at the end of a drive that takes `usedKm` of range after a reading on the way. */
const leftAfter = ({ at, km }: Reading, { leave, arrive }: Move, usedKm: number): number =>
  km - (usedKm * (arrive - at)) / (arrive - leave);

/** What a vehicle starts a day with. */
interface Start {
  readonly km: number;
  readonly known: boolean;
  readonly restated: FuelState["restated"];
}

function fuelOf(day: Day, vehicle: Vehicle, rangeKm: number, start: Start): FuelState {
  const reserveKm = rangeKm * FUEL_RESERVE_SHARE;
  const tank: Tank = {
    km: start.km,
    known: start.known,
    firstKm: 0,
    filled: false,
    drivenKm: 0,
    idleMinutes: 0,
    leastKm: start.km,
    fuelBy: null,
    onRoad: [],
  };
  const moves = day.moves.filter((move) => move.vehicle === vehicle.id);
  const stops = day.stops.filter((stop) => stop.vehicle === vehicle.id);
  const steps: FuelStep[] = [];
  let reading = readingOf(day, vehicle, rangeKm);
  for (const stop of stops) {
    let idle = idleMinutesAt(day, vehicle, stop);
    tank.idleMinutes += idle;
    if (isReadAt(stop, reading)) {
      [tank.km, tank.known, tank.filled] = [reading.km, true, true];
      idle = idleMinutesAt(day, vehicle, sinceRead(stop, reading));
      reading = null;
    }
    burn(tank, (idle / 60) * IDLE_KM_PER_HOUR);
    if (fillsAt(day, stop)) [tank.km, tank.known, tank.filled] = [rangeKm, true, true];
    const move = moves.find((own) => own.id === stop.stop.id);
    if (move === undefined) continue;
    const before = tank.km;
    const step = stepOf(day, move, tank, { rangeKm, reserveKm });
    if (isReadOn(move, reading)) {
      [tank.km, tank.known, tank.filled] = [leftAfter(reading, move, Math.max(0, before - tank.km)), true, true];
      reading = null;
    }
    steps.push({ ...step, leftKm: tank.km });
  }
  return {
    vehicle: vehicle.id,
    rangeKm,
    reserveKm,
    startKm: start.km,
    endKm: tank.km,
    drivenKm: tank.drivenKm,
    idleKm: (tank.idleMinutes / 60) * IDLE_KM_PER_HOUR,
    idleMinutes: tank.idleMinutes,
    estimated: moves.some((move) => move.leg.km === null || move.leg.basis === "estimated"),
    assumedFull: !start.known && moves.length > 0,
    endKnown: tank.known,
    neededShare: (tank.firstKm + reserveKm) / rangeKm,
    steps,
    fuelBy: tank.fuelBy,
    onRoad: tank.onRoad,
    leastKm: tank.leastKm,
    restated: start.restated,
  };
}

/** How full a tank is at night; 0 to 1, less where it ran dry. */
interface Evening {
  readonly share: number;
  readonly known: boolean;
}

/** As read where the log says so without a time, else as reckoned. */
function eveningOf(day: Day, { vehicle, rangeKm, endKm, endKnown }: FuelState): Evening {
  const actual = day.plan.actual.vehicles.get(vehicle);
  if (actual === undefined || actual.fuel === null || (actual.fuelAt ?? actual.since) !== null)
    return { share: endKm / rangeKm, known: endKnown };
  return { share: actual.fuel, known: true };
}

function startOf({ plan }: Day, { id, fuel }: Vehicle, rangeKm: number, evening: Evening | undefined): Start {
  if (fuel !== null && (evening === undefined || !isFirstDays(plan, ["vehicles", id, "fuel"]))) {
    const restated = evening?.known === true ? { beforeKm: evening.share * rangeKm } : null;
    return { km: fuel * rangeKm, known: true, restated };
  }
  const { share, known } = evening ?? { share: 1, known: false };
  return { km: share * rangeKm, known, restated: null };
}

/**
 * The fuel of every vehicle whose range is known, on the last day. It starts as the day before left it, else as stated,
 * else with a full tank by assumption; a vehicle of which nothing but the range is known and that stands still has none.
 */
export function fuelStates(days: readonly Day[]): readonly FuelState[] {
  const evenings = new Map<Id, Evening>();
  let states: readonly FuelState[] = [];
  for (const day of days) {
    states = [...day.plan.vehicles.values()].flatMap((vehicle) => {
      const { id, rangeKm } = vehicle;
      if (rangeKm === null) return [];
      const start = startOf(day, vehicle, rangeKm, evenings.get(id));
      const isIdle = !start.known && day.moves.every((move) => move.vehicle !== id);
      return isIdle ? [] : [fuelOf(day, vehicle, rangeKm, start)];
    });
    for (const state of states) evenings.set(state.vehicle, eveningOf(day, state));
  }
  return states;
}

/** Range in the tank at a moment, km: as much of a drive as of its time, idling up to the moment, a fill once it is done. */
export function rangeAt(day: Day, { vehicle: id, rangeKm, startKm, steps }: FuelState, at: Instant): number {
  const vehicle = day.plan.vehicles.get(id);
  if (vehicle === undefined) return startKm;
  let reading = readingOf(day, vehicle, rangeKm);
  let left = startKm;
  for (const stop of day.stops.filter((own) => own.vehicle === id && (own.arrive ?? at) <= at)) {
    let stood = { ...stop, leave: stop.leave !== null && stop.leave > at ? at : stop.leave };
    if (isReadAt(stop, reading) && reading.at <= at) {
      left = reading.km;
      stood = { ...sinceRead(stop, reading), leave: stood.leave };
      reading = null;
    }
    left -= (idleMinutesAt(day, vehicle, stood) / 60) * IDLE_KM_PER_HOUR;
    const fills = stop.activities.filter((activity) => takesFuel(day, activity));
    const isFull = day.activities.some((one) => fills.includes(one.id) && one.end !== null && one.end <= at);
    if (isFull) left = rangeKm;
    const move = day.moves.find((own) => own.id === stop.stop.id);
    const step = steps.find((own) => own.move === stop.stop.id);
    if (move === undefined || step === undefined || move.leave >= at) continue;
    // A reading on the way gives the burn from there to the end, and the same is taken for the way up to it.
    const read = isReadOn(move, reading) ? reading : null;
    const perMinute =
      read === null ? (left - step.leftKm) / (step.at - move.leave) : (read.km - step.leftKm) / (step.at - read.at);
    const isBefore = read !== null && at < read.at;
    left = isBefore ? left - perMinute * (at - move.leave) : step.leftKm + perMinute * Math.max(0, step.at - at);
    if (read !== null) reading = null;
  }
  return left;
}
