/** What the tanks give reason to say: too little, not stated, restated, a stop on the road that must stand somewhere. */
import type { Finding } from "../findings/finding.ts";
import type { Plan } from "../plan/plan.ts";
import { fuelDueShort, fuelNotStated, fuelRestated, fuelShort, fuelStopPlace } from "./findings.ts";
import type { FuelState } from "./fuel.ts";

/** Levels are read off a gauge: a percent is no difference. */
const SAME_SHARE = 0.01;
const percentOf = (share: number): number => Math.round(share * 100);

function shortOf(plan: Plan, state: FuelState): readonly Finding[] {
  const { vehicle, fuelBy, reserveKm, leastKm, idleKm, assumedFull: full } = state;
  if (fuelBy === null) return [];
  const path = ["vehicles", vehicle, "fuel"];
  const leftKm = Math.floor(leastKm);
  const { place, withinKm, holdsKm, everyKm, stops } = fuelBy;
  const facts = {
    ...{ vehicle, place, leftKm, full, stops },
    withinKm: Math.floor(withinKm),
    reserveKm: Math.round(reserveKm),
    idleKm: Math.round(idleKm),
    holdsKm: Math.floor(holdsKm),
    everyKm: everyKm === null ? null : Math.floor(everyKm),
  };
  return [fuelShort.raise(facts, { path, span: plan.source.locate(path), otherwise: leftKm < 0 })];
}

function notStated({ vehicle, assumedFull, neededShare, rangeKm, reserveKm }: FuelState): readonly Finding[] {
  if (!assumedFull) return [];
  const facts = { vehicle, percent: Math.ceil(neededShare * 100), km: Math.ceil(neededShare * rangeKm - reserveKm) };
  return [fuelNotStated.raise(facts, { path: ["vehicles", vehicle, "range"], otherwise: neededShare > 0.5 })];
}

function restated({ vehicle, restated, startKm, rangeKm }: FuelState): readonly Finding[] {
  if (restated === null || Math.abs(restated.beforeKm - startKm) <= SAME_SHARE * rangeKm) return [];
  const before = percentOf(Math.max(0, restated.beforeKm) / rangeKm);
  const facts = { vehicle, percent: percentOf(startKm / rangeKm), before };
  return [fuelRestated.raise(facts, { path: ["vehicles", vehicle, "fuel"] })];
}

const roadStops = (plan: Plan, { vehicle, onRoad }: FuelState): readonly Finding[] =>
  onRoad.map(({ activity, from, fromKm, toKm, plannedKm }) => {
    const where = { fromKm: Math.ceil(fromKm), toKm: Math.floor(toKm) };
    const facts = {
      vehicle,
      stop: activity,
      place: from,
      ...where,
      plannedKm: plannedKm === null ? null : Math.round(plannedKm),
    };
    const path = plan.tasks.get(activity)?.path ?? ["tasks"];
    return fuelStopPlace.raise(facts, { path, otherwise: plannedKm !== null });
  });

function dueShort(plan: Plan, { vehicle, endKm, rangeKm }: FuelState): readonly Finding[] {
  const due = plan.vehicles.get(vehicle)?.due?.fuel ?? null;
  const left = Math.max(0, endKm / rangeKm);
  const path = ["vehicles", vehicle, "fuel"];
  return due === null || left >= due
    ? []
    : [fuelDueShort.raise({ vehicle, due, left }, { path, span: plan.source.locate(path) })];
}

/** All findings about fuel, vehicle by vehicle. */
export const fuelFindings = (plan: Plan, states: readonly FuelState[]): readonly Finding[] =>
  states.flatMap((state) => [
    ...shortOf(plan, state),
    ...notStated(state),
    ...restated(state),
    ...roadStops(plan, state),
    ...dueShort(plan, state),
  ]);
