/** Instants of a day as JSON states them: ISO 8601 with the offset of the place where it happens. */
import type { Day } from "../../day/day.ts";
import type { Finding, PlanPath } from "../../findings/finding.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { type Instant, type Interval, isoLocal, type ZoneId } from "../../time/index.ts";
import { zoneOfPlace } from "./wording.ts";

/** An instant as ISO 8601 on the clock of its place. */
export const isoAt = (plan: Plan, at: Instant, place: Id | null): string => isoLocal(at, zoneOfPlace(plan, place));

/** An interval and the place whose clock it is shown on. */
export interface IntervalAtPlace extends Interval {
  readonly place: Id | null;
}

/**
 * Both ends of each stretch of a row of stretches. One on the road has no place of its own: it begins on the clock of the
 * place before it and ends on that of the place after it.
 */
export function isoEnds(
  plan: Plan,
  row: readonly IntervalAtPlace[],
): readonly { readonly from: string; readonly to: string }[] {
  const before = row.map((_, at) => row.slice(0, at + 1).findLast((one) => one.place !== null)?.place);
  const behind = row.map((_, at) => row.slice(at).find((one) => one.place !== null)?.place);
  return row.map((one, at) => ({
    from: isoLocal(one.from, zoneOfPlace(plan, before[at] ?? behind[at] ?? null)),
    to: isoLocal(one.to, zoneOfPlace(plan, behind[at] ?? before[at] ?? null)),
  }));
}

/** The zone in which a finding's instant is shown: of the place it names, else of where its person then is, else the plan's. */
export function findingZone(day: Day, at: Instant, finding: Pick<Finding, "who" | "path">): ZoneId {
  const place = placeOfPath(day.plan, finding.path) ?? whereIs(day, finding.who, at);
  return zoneOfPlace(day.plan, place);
}

function placeOfPath(plan: Plan, path: PlanPath | null): Id | null {
  const [section, id, , index] = path ?? [];
  if (typeof id !== "string") return null;
  if (section === "places") return id;
  if (section === "runs") return typeof index === "number" ? (plan.runs.get(id)?.stops[index]?.place ?? null) : null;
  const activity = section === "hits" ? plan.hits.get(id) : section === "tasks" ? plan.tasks.get(id) : undefined;
  return activity?.location.kind === "place" ? activity.location.place : null;
}

/** The place of a person, or the one they last left. */
function whereIs(day: Day, who: Id | null, at: Instant): Id | null {
  const person = day.people.find((one) => one.id === who);
  return person?.spans.findLast((span) => span.from <= at && span.place !== null)?.place ?? person?.slept ?? null;
}
