/** Who sits in each leg of each run, who drives it, who sleeps: what the plan states, with its stated defaults and nothing guessed. */
import type { Finding } from "../findings/finding.ts";
import type { Id, Plan, Relief, Run, Stop, Vehicle } from "../plan/plan.ts";
import { type Leg, type Legs, legKey } from "../roads/leg.ts";
import * as say from "./findings.ts";
import type { OrderedLeg } from "./order.ts";

/** A leg before its activities are known, and who comes to each stop of the run. */
export interface Crewed {
  readonly legs: readonly Omit<OrderedLeg, "rolling" | "halts">[];
  /** By stop id: who arrives with the vehicle; at the first stop who sets off in it. */
  readonly parties: ReadonlyMap<Id, readonly Id[]>;
  readonly findings: readonly Finding[];
}

interface Manning {
  readonly aboard: readonly Id[];
  readonly statedDriver: Id | null;
  readonly asleep: readonly Id[];
  readonly relieve: readonly Relief[];
}

export function crew(plan: Plan, legs: Legs): Crewed {
  const made: Omit<OrderedLeg, "rolling" | "halts">[] = [];
  const parties = new Map<Id, readonly Id[]>();
  const findings: Finding[] = [];
  for (const run of plan.runs.values()) {
    let manning = startingManning(plan, run, findings);
    run.stops.forEach((stop, index) => {
      const arriving = manning.aboard;
      manning = manningFrom(plan, stop, manning, index === 0);
      parties.set(stop.id, index === 0 ? manning.aboard : arriving);
      const to = run.stops[index + 1];
      const leg = to && legs.get(legKey(stop.place, to.place));
      if (to === undefined || leg === undefined) return;
      const made1 = manLeg(plan, run, stop, to, index, leg, manning, findings);
      if (made1 !== null) made.push(made1);
    });
  }
  return { legs: made, parties, findings };
}

/** In plan order, each once. */
const inCrewOrder = (plan: Plan, ids: readonly Id[]): readonly Id[] => {
  const wanted = new Set(ids);
  return [...plan.crew.keys()].filter((id) => wanted.has(id));
};

const withDriver = (aboard: readonly Id[], driver: Id | null): readonly Id[] =>
  driver === null ? aboard : [...aboard, driver];

function startingManning(plan: Plan, run: Run, findings: Finding[]): Manning {
  const first = run.stops[0];
  const driver = first?.driver ?? run.driver;
  const stated = first?.aboard ?? run.aboard;
  const aboard = stated ?? (plan.runs.size === 1 ? [...plan.crew.keys()] : driver === null ? null : [driver]);
  if (aboard === null) findings.push(say.aboardMissing.raise({ vehicle: run.vehicle }, { path: run.path }));
  return { aboard: inCrewOrder(plan, withDriver(aboard ?? [], driver)), statedDriver: driver, asleep: [], relieve: [] };
}

/** What a stop states holds from its departure on; a driver who gets off is no longer the driver. */
function manningFrom(plan: Plan, stop: Stop, before: Manning, first: boolean): Manning {
  const aboard =
    stop.aboard === null || first ? before.aboard : inCrewOrder(plan, withDriver(stop.aboard, stop.driver));
  const all = stop.driver === null ? aboard : inCrewOrder(plan, withDriver(aboard, stop.driver));
  const kept = before.statedDriver !== null && all.includes(before.statedDriver) ? before.statedDriver : null;
  const asleep = stop.asleep ?? before.asleep.filter((id) => all.includes(id));
  const relieve =
    stop.relieve.length > 0 ? stop.relieve : before.relieve.filter((relief) => all.includes(relief.driver));
  return { aboard: all, statedDriver: stop.driver ?? kept, asleep, relieve };
}

function manLeg(
  plan: Plan,
  run: Run,
  from: Stop,
  to: Stop,
  index: number,
  leg: Leg,
  manning: Manning,
  findings: Finding[],
): Omit<OrderedLeg, "rolling" | "halts"> | null {
  const vehicle = plan.vehicles.get(run.vehicle);
  if (vehicle === undefined) return null;
  const driver = driverOf(plan, vehicle, from, manning, findings);
  if (driver === null) return null;
  checkPeople(vehicle, from, driver, manning, findings);
  return {
    id: from.id,
    vehicle: run.vehicle,
    index,
    from,
    to,
    driver,
    aboard: manning.aboard,
    asleep: manning.asleep,
    relieve: manning.relieve,
    leg,
  };
}

const mayDrive = (plan: Plan, who: Id, vehicle: Id): boolean => plan.crew.get(who)?.drives.includes(vehicle) ?? false;

function driverOf(plan: Plan, vehicle: Vehicle, from: Stop, manning: Manning, findings: Finding[]): Id | null {
  if (manning.statedDriver !== null) return manning.statedDriver;
  const may = manning.aboard.filter((id) => mayDrive(plan, id, vehicle.id));
  const [only] = may;
  if (only !== undefined && may.length === 1) return only;
  if (manning.aboard.length > 0) {
    findings.push(say.driverMissing.raise({ vehicle: vehicle.id, leg: from.id, may }, { path: from.path }));
  }
  return null;
}

/** That whoever is named at the wheel may drive was seen when the plan was read. */
function checkPeople(vehicle: Vehicle, from: Stop, driver: Id, manning: Manning, findings: Finding[]): void {
  const at = { path: from.path };
  for (const { driver: who } of from.relieve) {
    if (manning.aboard.includes(who)) continue;
    findings.push(say.riderNotAboard.raise({ who, leg: from.id, as: "relief driver" }, { ...at, who }));
  }
  for (const who of from.asleep ?? []) {
    if (manning.aboard.includes(who)) continue;
    findings.push(say.riderNotAboard.raise({ who, leg: from.id, as: "asleep" }, { ...at, who }));
  }
  // With relief on the leg, `asleep` means whenever not at the wheel.
  if (manning.asleep.includes(driver) && manning.relieve.every((relief) => relief.driver === driver)) {
    findings.push(say.driverAsleep.raise({ who: driver, leg: from.id }, { ...at, who: driver }));
  }
  const seats = vehicle.seats;
  if (seats !== null && manning.aboard.length > seats) {
    const facts = { vehicle: vehicle.id, leg: from.id, aboard: manning.aboard.length, seats };
    findings.push(say.tooManyAboard.raise(facts, at));
  }
}
