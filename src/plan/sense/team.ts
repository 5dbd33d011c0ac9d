/** Whether a vehicle that is claimed for two drivers could have them: the conditions that the plan's own text decides. */
import { declarationOf } from "../../hours/rules/index.ts";
import { driversTooFew, teamWithoutBerth } from "../findings.ts";
import type { Body } from "../read/body.ts";
import type { Reading } from "../read/reading.ts";

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
