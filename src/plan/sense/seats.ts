/** Who rides and who drives: seats enough, the driver aboard and allowed. */

import type { PlanPath } from "../../findings/finding.ts";
import { driverMayNot, driverNotAboard, seatsTooFew } from "../findings.ts";
import type { Id, Run } from "../plan.ts";
import type { Body } from "../read.ts";
import type { Reading } from "../reading.ts";

/** One leg as the text has it: who is said to be aboard and at the wheel from a departure on. */
interface Departure {
  readonly aboard: readonly Id[] | null;
  readonly aboardPath: PlanPath;
  readonly drivers: readonly { readonly id: Id; readonly path: PlanPath }[];
}

export function checkSeats(reading: Reading, body: Body): void {
  for (const run of body.runs.values()) {
    const told = new Set<string>();
    const once = (key: string, tell: () => void): void => {
      if (told.has(key)) return;
      told.add(key);
      tell();
    };
    for (const departure of departures(run)) {
      checkDrivers(reading, body, run.vehicle, departure, once);
      checkRoom(reading, body, run.vehicle, departure, once);
    }
  }
}

function departures(run: Run): readonly Departure[] {
  let aboard = run.aboard;
  let aboardPath: PlanPath = [...run.path, "aboard"];
  let driver = run.driver === null ? [] : [{ id: run.driver, path: [...run.path, "driver"] }];
  return run.stops.slice(0, Math.max(1, run.stops.length - 1)).map((stop) => {
    if (stop.aboard !== null) {
      aboard = stop.aboard;
      aboardPath = [...stop.path, "aboard"];
    }
    if (stop.driver !== null) driver = [{ id: stop.driver, path: [...stop.path, "driver"] }];
    const relief = stop.relieve.map((one, index) => ({
      id: one.driver,
      path: [...stop.path, "relieve", index, "driver"],
    }));
    return { aboard, aboardPath, drivers: [...driver, ...relief] };
  });
}

type Once = (key: string, tell: () => void) => void;

function checkDrivers(reading: Reading, body: Body, vehicle: Id, departure: Departure, once: Once): void {
  const { aboard } = departure;
  for (const { id: driver, path } of departure.drivers) {
    const at = JSON.stringify(path);
    if (body.crew.get(driver)?.drives.includes(vehicle) === false) {
      const may = [...body.crew.values()].flatMap((person) => (person.drives.includes(vehicle) ? [person.id] : []));
      once(`may ${at}`, () => reading.mistake(path, (c) => driverMayNot.raise({ driver, vehicle, may }, c)));
    }
    if (aboard !== null && !aboard.includes(driver)) {
      once(`aboard ${at}`, () => reading.mistake(path, (c) => driverNotAboard.raise({ driver, vehicle, aboard }, c)));
    }
  }
}

function checkRoom(reading: Reading, body: Body, vehicle: Id, { aboard, aboardPath }: Departure, once: Once): void {
  const seats = body.vehicles.get(vehicle)?.seats ?? null;
  if (seats === null || aboard === null || aboard.length <= seats) return;
  const facts = { vehicle, seats, aboard };
  once(`seats ${JSON.stringify(aboardPath)}`, () => reading.mistake(aboardPath, (c) => seatsTooFew.raise(facts, c)));
}
