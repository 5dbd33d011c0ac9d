/** What `drives` says of each tank: every key with its column. */
import type { Wording } from "../../findings/finding.ts";
import type { FuelState } from "../../roads/fuel.ts";
import { column, columns, kept, object } from "../shared/columns.ts";
import { flagKind, idKind, instantKind, keyKind, km, listKind, orNull, wholeKind } from "../shared/kinds.ts";
import type { Cell } from "../shared/view.ts";

const fuelBy = object<NonNullable<FuelState["fuelBy"]>>()({
  stop: keyKind,
  place: keyKind,
  withinKm: km,
});

const fuelStep = object<FuelState["steps"][number]>()({
  to: keyKind,
  at: kept(instantKind, (step) => ({ at: step.at, place: step.to })),
  leftKm: km,
});

/** Where to fill up; if no level is stated, how full the tank must be at the start. */
function fuelByCell(say: Pick<Wording, "name">, { fuelBy: by, onRoad, assumedFull, neededShare }: FuelState): Cell {
  if (by !== null) {
    const within = Math.floor(by.withinKm);
    const road = within === 0 ? "" : `, or within ${within} km of it`;
    return { text: `${say.name(by.place)}${road}`, raw: by.place, tone: "bad" };
  }
  const [stop] = onRoad;
  if (stop !== undefined) {
    const text = `${Math.ceil(stop.fromKm)} to ${Math.floor(stop.toKm)} km from ${say.name(stop.from)}`;
    return { text, raw: null, tone: stop.plannedKm === null ? "plain" : "warn" };
  }
  if (assumedFull) return { text: `needs ${Math.ceil(neededShare * 100)} % at the start`, raw: null, tone: "warn" };
  return { text: "not needed", raw: null };
}

/** A row for each vehicle's fuel. */
export const FUEL = columns<FuelState>()({
  vehicle: column("Vehicle", idKind, { tone: "strong" }),
  rangeKm: km,
  reserveKm: column("Reserve", km, { spare: 2 }),
  startKm: column("Starts", km, {
    cell: ({ assumedFull, startKm }) =>
      assumedFull ? { text: "not stated", raw: startKm, tone: "warn" } : km.cell(startKm, null),
  }),
  endKm: km,
  leastKm: column("Lowest", km, {
    cell: ({ leastKm, reserveKm }) => ({ ...km.cell(leastKm, null), tone: leastKm < reserveKm ? "bad" : "plain" }),
  }),
  drivenKm: column("Driven", km, { spare: 1 }),
  idleMinutes: wholeKind,
  idleKm: column("Idling", km, { spare: 2 }),
  estimated: flagKind,
  assumedFull: flagKind,
  fuelBy: column("Fill up by", orNull(fuelBy), {
    cell: (state, { say }) => fuelByCell(say, state),
  }),
  steps: listKind(fuelStep),
});
