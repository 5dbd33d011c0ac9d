/** Who rides and who drives: seats enough, the driver aboard and allowed, a second one where two are claimed. */
import type { PlanPath } from "../../findings/finding.ts";
import { declarationOf } from "../../hours/rules/index.ts";
import { driverMayNot, driverNotAboard, driversTooFew, seatsTooFew, teamWithoutBerth } from "../findings.ts";
import type { Body, Id, Run, Stop } from "../plan.ts";
import type { Reading } from "../read/reading.ts";
import { type Manning, manningOf } from "./manning.ts";

/** Findings for vehicles with fewer seats than people. */
export function checkSeats(reading: Reading, body: Body): void {
  for (const run of body.runs.values()) {
    const raised = new Set<string>();
    const once = (key: string, raise: () => void): void => {
      if (raised.has(key)) return;
      raised.add(key);
      raise();
    };
    const mannings = manningOf(body, run) ?? [];
    mannings.slice(0, Math.max(1, mannings.length - 1)).forEach((manning, index) => {
      const allRide = checkDrivers(reading, body, run.vehicle, manning, run.stops[index], once);
      if (allRide) checkRoom(reading, body, run, manning, once);
    });
  }
}

type Once = (key: string, raise: () => void) => void;

/** Everyone named at the wheel, and where; relief at the stop that names it. */
function driversOf({ saidDriver }: Manning, stop: Stop | undefined): readonly { who: Id; path: PlanPath }[] {
  const relief = (stop?.relieve ?? []).map(({ driver }, index) => ({
    who: driver,
    path: [...(stop?.path ?? []), "relieve", index, "driver"],
  }));
  return saidDriver === null ? relief : [saidDriver, ...relief];
}

/** True where all who are named at the wheel ride. */
function checkDrivers(
  reading: Reading,
  body: Body,
  vehicle: Id,
  manning: Manning,
  stop: Stop | undefined,
  once: Once,
): boolean {
  const aboard = manning.saidAboard?.who ?? manning.aboard;
  // An id that no one has is reported on its own, and may well be the driver's.
  const mistyped = manning.saidAboard !== null && reading.mistakenAt(manning.saidAboard.path);
  const drivers = driversOf(manning, stop);
  for (const { who: driver, path } of drivers) {
    const at = JSON.stringify(path);
    if (body.crew.get(driver)?.drives.includes(vehicle) === false && !reading.mistakenAt(["crew", driver, "drives"])) {
      const may = [...body.crew.values()].flatMap((person) => (person.drives.includes(vehicle) ? [person.id] : []));
      once(`may ${at}`, () => reading.mistake(path, (c) => driverMayNot.raise({ driver, vehicle, may }, c)));
    }
    if (!aboard.includes(driver) && !mistyped) {
      once(`aboard ${at}`, () => reading.mistake(path, (c) => driverNotAboard.raise({ driver, vehicle, aboard }, c)));
    }
  }
  return drivers.every(({ who }) => aboard.includes(who));
}

function checkRoom(reading: Reading, body: Body, run: Run, { aboard, saidAboard }: Manning, once: Once): void {
  const seats = body.vehicles.get(run.vehicle)?.seats ?? null;
  if (seats === null || aboard.length <= seats) return;
  const path = saidAboard?.path ?? run.path;
  const facts = { vehicle: run.vehicle, seats, aboard };
  once(`seats ${JSON.stringify(path)}`, () => reading.mistake(path, (c) => seatsTooFew.raise(facts, c)));
}

/** Findings for two drivers that the plan does not have. */
export function checkTeams(reading: Reading, { crew, vehicles }: Body): void {
  for (const { id, path, drivers, rules, berth } of vehicles.values()) {
    if (drivers !== 2) continue;
    const at = [...path, "drivers"];
    const may = [...crew.values()].filter((person) => person.drives.includes(id)).map((person) => person.id);
    if (may.length < 2) {
      const others = [...crew.keys()].filter((person) => !may.includes(person));
      reading.mistake(at, (c) => driversTooFew.raise({ vehicle: id, may, others }, c));
    }
    if (rules.some((name) => declarationOf(name).team?.berth === true) && !berth) {
      reading.mistake(at, (c) => teamWithoutBerth.raise({ vehicle: id }, c));
    }
  }
}
