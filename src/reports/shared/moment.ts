/** Where a vehicle stands at an instant of a day. */
import type { Day } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/index.ts";

/** The place; null on the road, and for a vehicle without a run. */
export function whereIs(day: Day, vehicle: Id, at: Instant): Id | null {
  const stops = day.stops.filter((stop) => stop.vehicle === vehicle);
  const there = stops.find(({ arrive, leave }) => (arrive === null || arrive <= at) && (leave === null || at < leave));
  return there?.place ?? null;
}
