/**
 * Who is logged as called later than their vehicle was to leave: it cannot have left without its driver, nor does it leave
 * without its riders. It leaves as soon as they have loaded, unless the departure itself was logged.
 */
import type { Id, Plan } from "../../plan/plan.ts";
import { type Instant, instant } from "../../time/units.ts";
import { aboardOf, type Day, type Move } from "../day.ts";
import type { Stood } from "./vehiclesStood.ts";

/** Departures that had not happened by an instant, by stop id. `day` is that of a plan without regard to this. */
export function calledLate({
  plan,
  moves,
  activities,
  instants,
}: Pick<Day, "plan" | "moves" | "activities" | "instants">): Stood["standing"] {
  const standing = new Map<Id, Instant>();
  for (const [id, { call }] of plan.actual.people) {
    if (call === null) continue;
    const from = lastStanddown(activities, id, call);
    const first = moves
      .filter((move) => move.leave >= from && aboardOf(move).includes(id))
      .toSorted((a, b) => a.leave - b.leave)[0];
    if (first === undefined || first.leave >= call || plan.actual.stops.get(first.id)?.left != null) continue;
    const leave = Math.max(call, Math.min(call + leadOf(first, id, instants), latestLeave(first, plan)));
    standing.set(first.id, instant(Math.max(leave, standing.get(first.id) ?? leave)));
  }
  return standing;
}

/** A stated call is that after the last stand-down which began before it, else the first. */
function lastStanddown(activities: Day["activities"], who: Id, call: Instant): number {
  const begun = activities.flatMap((one) =>
    one.activity.kind === "standdown" && one.who.includes(who) && one.start !== null && one.start < call
      ? [one.start]
      : [],
  );
  return Math.max(Number.NEGATIVE_INFINITY, ...begun);
}

/** Minutes of loading before a departure, with the walk-around for who does it. */
function leadOf({ id, leave, driver }: Move, who: Id, instants: Day["instants"]): number {
  const walks = who === driver ? instants.get(`${id}.walkAround`) : undefined;
  return leave - (walks ?? instants.get(`${id}.loading`) ?? leave);
}

/** When a vehicle left at the latest whose arrival is logged, by the planned length of its drive. */
function latestLeave({ id, vehicle, plannedMinutes }: Move, { runs, actual }: Plan): number {
  const stops = runs.get(vehicle)?.stops ?? [];
  const next = stops[stops.findIndex((stop) => stop.id === id) + 1];
  const arrived = next === undefined ? null : (actual.stops.get(next.id)?.arrived ?? null);
  return arrived === null ? Number.POSITIVE_INFINITY : arrived - plannedMinutes;
}
