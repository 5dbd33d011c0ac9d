/**
 * How far the tank goes: range left after every leg, engine idling for the inverter, and where the last fuel stop must stand.
 *
 * The tank is told in km of range. A leg without a length is taken at 70 km/h. Idling burns what 12 km of road do in an
 * hour (from memory: the US DOE's 0.3 gal/h of a car at 25 mpg and 0.8 gal/h of a truck at 8 mpg come to 7.5 and 6.4
 * miles). The engine idles at every stop on the way without mains, in a vehicle with an inverter. The reserve is 15 % of
 * a full tank (common practice, no source).
 */
import type { Day, Move, StopTimes } from "../day/day.ts";
import type { Id, Vehicle } from "../plan/plan.ts";
import type { Instant } from "../time/units.ts";

export const FUEL_RESERVE_SHARE = 0.15;
export const IDLE_KM_PER_HOUR = 12;
const UNSTATED_KM_PER_HOUR = 70;

/** The tank at the end of a leg, km of range. */
export interface FuelStep {
  readonly move: Id;
  readonly to: Id;
  readonly at: Instant;
  /** Range left on arrival, negative where the tank runs dry before. */
  readonly leftKm: number;
}

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
  readonly steps: readonly FuelStep[];
  /** The first leg that eats into the reserve; the last fuel stop must stand before it or within `withinKm` of its start. */
  readonly fuelBy: { readonly move: Id; readonly stop: Id; readonly place: Id; readonly withinKm: number } | null;
  /** The least range on any arrival. */
  readonly leastKm: number;
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
  drivenKm: number;
  idleMinutes: number;
  fuelBy: FuelState["fuelBy"];
}

function stepOf(day: Day, move: Move, tank: Tank, rangeKm: number, reserveKm: number): FuelStep {
  const km = kmOf(move);
  const fills = move.halts.some((halt) => takesFuel(day, halt.activity));
  if (tank.km - km < reserveKm && !fills && tank.fuelBy === null) {
    const withinKm = Math.max(0, tank.km - reserveKm);
    tank.fuelBy = { move: move.id, stop: move.id, place: move.from, withinKm };
  }
  tank.drivenKm += km;
  // Where on the road a fuel task stands is not known: at worst the whole leg is still to come.
  tank.km = fills ? rangeKm - km : tank.km - km;
  return { move: move.id, to: move.to, at: move.arrive, leftKm: tank.km };
}

/** The level read off at a known instant on the way, km; it replaces what was reckoned up to then. */
function readingOf(day: Day, vehicle: Vehicle, rangeKm: number): { readonly at: Instant; readonly km: number } | null {
  const actual = day.plan.actual.vehicles.get(vehicle.id);
  if (actual === undefined || actual.fuel === null || actual.since === null) return null;
  return { at: actual.since, km: actual.fuel * rangeKm };
}

function fuelOf(day: Day, vehicle: Vehicle, rangeKm: number, startKm: number): FuelState {
  const reserveKm = rangeKm * FUEL_RESERVE_SHARE;
  const tank: Tank = { km: startKm, drivenKm: 0, idleMinutes: 0, fuelBy: null };
  const moves = day.moves.filter((move) => move.vehicle === vehicle.id);
  const stops = day.stops.filter((stop) => stop.vehicle === vehicle.id);
  const steps: FuelStep[] = [];
  let reading = readingOf(day, vehicle, rangeKm);
  for (const stop of stops) {
    if (reading !== null && (stop.leave === null || stop.leave >= reading.at)) {
      tank.km = reading.km;
      reading = null;
    }
    const idle = idleMinutesAt(day, vehicle, stop);
    tank.idleMinutes += idle;
    tank.km -= (idle / 60) * IDLE_KM_PER_HOUR;
    if (fillsAt(day, stop)) tank.km = rangeKm;
    const move = moves.find((own) => own.id === stop.stop.id);
    if (move !== undefined) steps.push(stepOf(day, move, tank, rangeKm, reserveKm));
  }
  return {
    vehicle: vehicle.id,
    rangeKm,
    reserveKm,
    startKm,
    endKm: tank.km,
    drivenKm: tank.drivenKm,
    idleKm: (tank.idleMinutes / 60) * IDLE_KM_PER_HOUR,
    idleMinutes: tank.idleMinutes,
    estimated: moves.some((move) => move.leg.km === null || move.leg.basis === "estimated"),
    steps,
    fuelBy: tank.fuelBy,
    leastKm: Math.min(startKm, ...steps.map(({ leftKm }) => leftKm)),
  };
}

/** What the tank held at night: as read where the log says so without a time, else as reckoned. */
function eveningKm(day: Day, { vehicle, rangeKm, endKm }: FuelState): number {
  const actual = day.plan.actual.vehicles.get(vehicle);
  return actual === undefined || actual.fuel === null || actual.since !== null ? endKm : actual.fuel * rangeKm;
}

/** The fuel of every vehicle whose range and level (stated, else as the day before left it) are known, on the last day. */
export function fuelStates(days: readonly Day[]): readonly FuelState[] {
  let carried: ReadonlyMap<Id, number> = new Map();
  let states: readonly FuelState[] = [];
  for (const day of days) {
    states = [...day.plan.vehicles.values()].flatMap((vehicle) => {
      if (vehicle.rangeKm === null) return [];
      const startKm = vehicle.fuel === null ? carried.get(vehicle.id) : vehicle.fuel * vehicle.rangeKm;
      return startKm === undefined ? [] : [fuelOf(day, vehicle, vehicle.rangeKm, startKm)];
    });
    carried = new Map(states.map((state) => [state.vehicle, eveningKm(day, state)]));
  }
  return states;
}
