/** Who sits in each leg of each run, who drives it, who sleeps, as the plan has them. */
import type { Finding } from "../../findings/finding.ts";
import { crossing, type Leg, type Legs, legKey } from "../../legs/leg.ts";
import { statesPlaceAlone } from "../../plan/keys/runs.ts";
import type { Id, Plan, Run, Stop, Vehicle } from "../../plan/plan.ts";
import { type Manning, manningOf } from "../../plan/sense/manning.ts";
import * as say from "../findings/findings.ts";
import type { OrderedLeg } from "./order.ts";

/** A leg before its activities are known, and who comes to each stop of the run. */
export interface Crewed {
  readonly legs: readonly Omit<OrderedLeg, "rolling" | "halts">[];
  /** By stop id: who arrives with the vehicle; at the first stop who sets off in it. */
  readonly parties: ReadonlyMap<Id, readonly Id[]>;
  readonly findings: readonly Finding[];
}

/** Who drives and who rides on each leg. */
export function crewDay(plan: Plan, legs: Legs): Crewed {
  const made: Omit<OrderedLeg, "rolling" | "halts">[] = [];
  const parties = new Map<Id, readonly Id[]>();
  const findings: Finding[] = [];
  for (const run of plan.runs.values()) {
    const mannings = asItWent(plan, run, manningOf(plan, run));
    if (mannings === null) {
      const may = [...plan.crew.values()].filter(({ drives }) => drives.includes(run.vehicle)).map(({ id }) => id);
      const facts = {
        vehicle: run.vehicle,
        may,
        stops: run.stops.map(({ place }) => place),
        bare: run.stops.every(statesPlaceAlone),
      };
      findings.push(say.aboardMissing.raise(facts, { path: run.path }));
    }
    run.stops.forEach((stop, index) => {
      const manning = mannings?.[index];
      parties.set(stop.id, (index === 0 ? manning : mannings?.[index - 1])?.aboard ?? []);
      const to = run.stops[index + 1];
      const leg =
        to && (stop.ferry === null ? legs.get(legKey(stop.place, to.place)) : crossing(stop, to.place, stop.ferry));
      if (to === undefined || leg === undefined || manning === undefined) return;
      const made1 = manLeg(plan, run, stop, to, index, leg, manning, findings);
      if (made1 !== null) made.push(made1);
    });
  }
  return { legs: made, parties, findings };
}

/** Who was at the wheel of a leg as it went, whatever the plan has; the legs after it are manned as planned. */
function asItWent(plan: Plan, run: Run, mannings: readonly Manning[] | null): readonly Manning[] | null {
  if (mannings === null) return null;
  return mannings.map((manning, index) => {
    const stop = run.stops[index];
    const driver = plan.actual.stops.get(stop?.id ?? "")?.driver ?? null;
    if (stop === undefined || driver === null) return manning;
    const aboard = [...plan.crew.keys()].filter((id) => id === driver || manning.aboard.includes(id));
    const asleep = manning.asleep.filter((id) => id !== driver || manning.relieve.some((one) => one.driver !== driver));
    return { ...manning, aboard, asleep, saidDriver: { who: driver, path: ["actual", stop.id, "driver"] } };
  });
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
  const awake = manning.aboard.filter((id) => mayDrive(plan, id, run.vehicle) && !manning.asleep.includes(id));
  checkSleepers(from, driver, manning, awake, findings);
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
  if (manning.saidDriver !== null) return manning.saidDriver.who;
  const may = manning.aboard.filter((id) => mayDrive(plan, id, vehicle.id));
  const [only] = may;
  if (only !== undefined && may.length === 1) return only;
  // A ferry needs no driver: whoever rides answers for the vehicle.
  if (from.ferry !== null) return only ?? manning.aboard[0] ?? null;
  // One a cause: the same people may, or may not, drive it on every leg.
  const isTold = findings.some(
    ({ code, facts }) =>
      code === say.driverMissing.entry.code && facts["vehicle"] === vehicle.id && String(facts["may"]) === String(may),
  );
  if (manning.aboard.length > 0 && !isTold) {
    findings.push(say.driverMissing.raise({ vehicle: vehicle.id, leg: from.id, may }, { path: from.path }));
  }
  return null;
}

/** That whoever is named at the wheel may drive and rides, and that all have seats, was seen when the plan was read. */
function checkSleepers(from: Stop, driver: Id, manning: Manning, awake: readonly Id[], findings: Finding[]): void {
  const at = { path: from.path };
  for (const who of from.asleep ?? []) {
    if (manning.aboard.includes(who)) continue;
    findings.push(say.riderNotAboard.raise({ who, leg: from.id }, { ...at, who }));
  }
  // With relief on the leg, `asleep` means whenever not at the wheel.
  if (
    from.ferry === null &&
    manning.asleep.includes(driver) &&
    manning.relieve.every((relief) => relief.driver === driver)
  ) {
    // Once a cause: what a stop says of sleepers holds on later legs as well.
    const code = say.driverAsleep.entry.code;
    if (from.asleep === null && findings.some((one) => one.code === code && one.who === driver)) return;
    const others = manning.asleep.filter((id) => id !== driver);
    findings.push(say.driverAsleep.raise({ who: driver, leg: from.id, awake, others }, { ...at, who: driver }));
  }
}
