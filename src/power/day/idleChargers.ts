/** How long a charger has power and may not use it, for frost or for heat. */
import { sumOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { chargeWindow, HOTTEST_CELSIUS } from "../physics.ts";
import type { DayModel } from "./build.ts";
import { stretchesWhere } from "./surroundings.ts";

/** Minutes in which a vehicle with an inverter runs, or a place has mains, in too much heat to charge. */
export function hotMinutes({ model, around }: DayModel, bay: Id): number {
  const { plan } = around.day;
  const vehicle = plan.vehicles.get(bay);
  const hot = stretchesWhere(around, model, (at) => {
    const place = around.placeOf(bay, at);
    const mains = place !== null && plan.places.get(place)?.mains === true;
    const powered = mains || (vehicle !== undefined && vehicle.inverterWatts !== null && around.runs(bay, at));
    return powered && (around.inside(bay, at) ?? 0) > HOTTEST_CELSIUS;
  });
  return sumOf(hot, (one) => one.to - one.from);
}

/** Minutes in which a vehicle with an inverter runs in the frost. */
export function frozenMinutes({ model, around }: DayModel, bay: Id): number {
  const { plan } = around.day;
  if (plan.vehicles.get(bay)?.inverterWatts == null) return 0;
  const cold = stretchesWhere(around, model, (at) => {
    const celsius = around.inside(bay, at);
    return around.runs(bay, at) && celsius !== null && chargeWindow(celsius) === "forbidden" && celsius < 0;
  });
  return sumOf(cold, (one) => one.to - one.from);
}
