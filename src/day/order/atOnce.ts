/** Someone who is listed in two vehicles at the same time: on one drive, or into two visits for one hit or task. */
import type { Finding, PlanPath } from "../../findings/finding.ts";
import type { Id, Plan, Stop } from "../../plan/plan.ts";
import { twoVehiclesAtOnce } from "../findings/findingsOrder.ts";
import type { OrderedLeg, RideRef } from "./order.ts";

/** The hit or task that is done at both stops; null where none is. */
export type Meet = (one: Stop, other: Stop) => Id | null;

interface Pair {
  readonly first: OrderedLeg;
  readonly second: OrderedLeg;
  /** What both legs are driven for; null where all that is known is that they lead the same way. */
  readonly activity: Id | null;
}

/** Two legs that someone cannot both ride; where their rides fit in several orders, also two that lead the same way. */
export function besides(legs: readonly OrderedLeg[], meet: Meet, several: boolean): Pair | null {
  for (const [index, first] of legs.entries()) {
    for (const second of legs.slice(index + 1)) {
      if (first.vehicle === second.vehicle) continue;
      const activity = meet(first.to, second.to);
      const sameWay = first.from.place === second.from.place && first.to.place === second.to.place;
      if (activity !== null || (several && sameWay)) return { first, second, activity };
    }
  }
  return null;
}

/** In an order of rides: out of a visit in the vehicle that made it, and later into another visit for the same activity. */
export function outAndInAgain(rides: readonly RideRef[], meet: Meet): Pair | null {
  const legs = rides.map((ride) => (ride.kind === "leg" ? ride.leg : null));
  for (const [index, first] of legs.entries()) {
    if (first === null || legs[index + 1]?.from !== first.to) continue;
    for (const second of legs.slice(index + 2)) {
      if (second === null || second.vehicle === first.vehicle) continue;
      const activity = meet(first.to, second.to);
      if (activity !== null) return { first, second, activity };
    }
  }
  return null;
}

/** The finding for a person who is needed in two vehicles at once. */
export function atOnceFinding(plan: Plan, who: Id, { first, second, activity }: Pair): Finding {
  const [here, there] = [listedAt(plan, first, who), listedAt(plan, second, who)];
  const span = plan.source.locate(here);
  const facts = {
    who,
    first: first.vehicle,
    second: second.vehicle,
    from: first.from.place === second.from.place ? first.from.place : null,
    to: first.to.place,
    activity,
    drives: there.at(-1) === "driver",
  };
  return twoVehiclesAtOnce.raise(facts, {
    who,
    path: there,
    span: plan.source.locate(there),
    related: span === null ? [] : [{ span, label: "and here" }],
  });
}

/** What in the plan puts someone on a leg: `aboard` or `driver` of the last stop that says so, else of the run. */
function listedAt(plan: Plan, leg: OrderedLeg, who: Id): PlanPath {
  const run = plan.runs.get(leg.vehicle);
  for (const stop of run?.stops.slice(0, leg.index + 1).reverse() ?? []) {
    if (stop.driver === who) return [...stop.path, "driver"];
    if (stop.aboard?.includes(who)) return [...stop.path, "aboard"];
  }
  if (run === undefined) return leg.from.path;
  return [...run.path, run.driver === who ? "driver" : "aboard"];
}
