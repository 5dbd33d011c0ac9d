/**
 * Where a vehicle is logged as standing at a moment (`wagon: { at: pier, since: "07:40" }`): it was there by then and had not
 * left before. What the plan has of it otherwise gives way; later than that moment the plan goes on.
 */
import type { Finding } from "../../findings/finding.ts";
import type { Actual, Id, Plan, Run } from "../../plan/plan.ts";
import type { Instant } from "../../time/units.ts";
import type { Day } from "../day.ts";
import { loggedOtherwise } from "../findings/findingsFacts.ts";
import { NOT_LOGGED } from "./openFacts.ts";

/** What follows from where vehicles stood; by stop id. */
export interface Stood {
  /** Arrivals that the plan does not have earlier. */
  readonly arrived: ReadonlyMap<Id, Instant>;
  /** Departures that the plan does not have later, and the moment at which they had not happened. */
  readonly standing: ReadonlyMap<Id, Instant>;
}

/** No vehicle stood otherwise than planned. */
export const AS_IN_PLAN: Stood = { arrived: new Map(), standing: new Map() };

/** `day` is that of a plan without regard to where its vehicles stood. */
export function stoodOf({ plan, instants }: Pick<Day, "plan" | "instants">): Stood {
  const arrived = new Map<Id, Instant>();
  const standing = new Map<Id, Instant>();
  for (const [vehicle, { place, since }] of plan.actual.vehicles) {
    const run = plan.runs.get(vehicle);
    if (run === undefined || place === null || since === null) continue;
    const [stop] = staysAt(run, place, instants, since);
    if (stop === undefined) continue;
    const went = plan.actual.stops.get(stop.id);
    if (stop.arrive !== null && stop.arrive >= since && went?.arrived == null) arrived.set(stop.id, since);
    if (stop.leave !== null && stop.leave <= since && went?.left == null) standing.set(stop.id, since);
  }
  return { arrived, standing };
}

interface Stay {
  readonly id: Id;
  readonly arrive: Instant | null;
  readonly leave: Instant | null;
}

/** The stays of a run at a place, the nearest in time first. */
function staysAt({ stops }: Run, place: Id, instants: Day["instants"], at: Instant): readonly Stay[] {
  const stays = stops.flatMap((stop, index): Stay[] => {
    if (stop.place !== place) return [];
    const arrive = index === 0 ? null : (instants.get(`${stop.id}.arrive`) ?? null);
    const leave = index === stops.length - 1 ? null : (instants.get(`${stop.id}.leave`) ?? null);
    return [{ id: stop.id, arrive, leave }];
  });
  const apart = ({ arrive, leave }: Stay): number =>
    Math.max(0, (arrive ?? Number.NEGATIVE_INFINITY) - at, at - (leave ?? Number.POSITIVE_INFINITY));
  return stays.toSorted((a, b) => apart(a) - apart(b));
}

/** The plan with arrivals as if each had been logged. */
export function withArrivals(plan: Plan, arrivals: ReadonlyMap<Id, Instant>): Plan {
  if (arrivals.size === 0) return plan;
  const stops = new Map(plan.actual.stops);
  for (const [id, arrived] of arrivals) stops.set(id, { ...(stops.get(id) ?? NOT_LOGGED), arrived });
  const actual: Actual = { ...plan.actual, stops };
  return { ...plan, actual };
}

/** Where a vehicle is after the day: as logged after its last arrival or without a moment, else where its run ends; null where nothing says. */
export function endsAt({ plan, instants }: Pick<Day, "plan" | "instants">, vehicle: Id): Id | null {
  const last = plan.runs.get(vehicle)?.stops.at(-1);
  const logged = plan.actual.vehicles.get(vehicle);
  if (logged?.place == null) return last?.place ?? null;
  const arrives = last === undefined ? null : (instants.get(`${last.id}.arrive`) ?? null);
  return last === undefined || arrives === null || logged.since === null || logged.since >= arrives
    ? logged.place
    : last.place;
}

/** A vehicle that stood where its run does not go, or after the day not where it ends. */
export function stoodOtherwise({ plan, instants }: Pick<Day, "plan" | "instants">): readonly Finding[] {
  return [...plan.actual.vehicles].flatMap(([vehicle, { place }]) => {
    const run = plan.runs.get(vehicle);
    if (run === undefined || place === null) return [];
    const isVisited = run.stops.some((stop) => stop.place === place);
    if (isVisited && endsAt({ plan, instants }, vehicle) === run.stops.at(-1)?.place) return [];
    return [loggedOtherwise.raise({ what: vehicle, rule: "stops", other: null }, { path: ["actual", vehicle, "at"] })];
  });
}
