/** What `drives` says of each tank: every key with its column. */
import type { Wording } from "../../findings/finding.ts";
import type { FuelState } from "../../roads/fuel.ts";
import { column, columns, kept, object } from "../shared/columns.ts";
import { flagKind, idKind, instantKind, keyKind, km, listKind, orNull, wholeKind } from "../shared/kinds.ts";
import type { Cell } from "../shared/view.ts";

const fuelBy = object<NonNullable<FuelState["fuelBy"]>>({
  stop: kept(keyKind, (own) => own.stop),
  place: kept(keyKind, (own) => own.place),
  withinKm: kept(km, (own) => own.withinKm),
});

const fuelStep = object<FuelState["steps"][number]>({
  to: kept(keyKind, (step) => step.to),
  at: kept(instantKind, (step) => ({ at: step.at, place: step.to })),
  leftKm: kept(km, (step) => step.leftKm),
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
  vehicle: column("Vehicle", idKind, (state) => state.vehicle, { tone: "strong" }),
  rangeKm: kept(km, (state) => state.rangeKm),
  reserveKm: column("Reserve", km, (state) => state.reserveKm, { spare: 2 }),
  startKm: column("Starts", km, (state) => state.startKm, {
    cell: ({ assumedFull, startKm }) =>
      assumedFull ? { text: "not stated", raw: startKm, tone: "warn" } : km.cell(startKm, null),
  }),
  endKm: kept(km, (state) => state.endKm),
  leastKm: column("Lowest", km, (state) => state.leastKm, {
    cell: ({ leastKm, reserveKm }) => ({ ...km.cell(leastKm, null), tone: leastKm < reserveKm ? "bad" : "plain" }),
  }),
  drivenKm: column("Driven", km, (state) => state.drivenKm, { spare: 1 }),
  idleMinutes: kept(wholeKind, (state) => state.idleMinutes),
  idleKm: column("Idling", km, (state) => state.idleKm, { spare: 2 }),
  estimated: kept(flagKind, (state) => state.estimated),
  assumedFull: kept(flagKind, (state) => state.assumedFull),
  fuelBy: column("Fill up by", orNull(fuelBy), (state) => state.fuelBy, {
    cell: (state, { say }) => fuelByCell(say, state),
  }),
  steps: kept(listKind(fuelStep), (state) => state.steps),
});
