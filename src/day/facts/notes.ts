/** Notes where what was logged differs from what the plan states of it. */
import type { Finding, PlanPath } from "../../findings/finding.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { manningOf } from "../../plan/sense/manning.ts";
import type { Instant } from "../../time/units.ts";
import { loggedOtherwise } from "../findings/findingsFacts.ts";
import { lengthOfActivity } from "../order/visits.ts";
import type { Fit } from "./fit.ts";

/** The day that a plan gave: what of it gave way, when its stops are left and reached, and whose own times are said to be missed. */
interface Went {
  readonly fit: Fit;
  readonly instantOf: (name: string) => Instant | null;
  readonly isMissed: (stop: Id) => boolean;
}

/** `plan` is the plan as written, `went` the same with who attends what as it went. */
export function overrideNotes(plan: Plan, went: Plan, day: Went): readonly Finding[] {
  const { dropped, shorter } = day.fit;
  const orders = [...dropped.values()].flatMap(({ key, first, second, where }) =>
    where === null ? [] : [note(second, key, first, where)],
  );
  const cut = [...plan.hits.values(), ...plan.tasks.values()].flatMap(({ id, kind, path }) => {
    if (!shorter.has(`${id}.start>${id}.end`) || plan.actual.activities.get(id)?.end != null) return [];
    const rule = kind === "standdown" ? "window" : "for";
    return [note(id, rule, null, [...path, rule])];
  });
  const others = [...went.hits.values(), ...went.tasks.values()].flatMap(({ id, path, who }) =>
    who === (plan.hits.get(id) ?? plan.tasks.get(id))?.who ? [] : [note(id, "who", null, [...path, "who"])],
  );
  return [...ofActivities(plan), ...ofStops(plan, day), ...others, ...orders, ...cut];
}

const note = (what: Id, rule: string, other: Id | null, path: PlanPath): Finding =>
  loggedOtherwise.raise({ what, rule, other }, { path });

function ofActivities(plan: Plan): readonly Finding[] {
  return [...plan.actual.activities].flatMap(([id, { at, end, signalPath }]) => {
    const activity = plan.hits.get(id) ?? plan.tasks.get(id);
    if (activity === undefined) return [];
    const found: Finding[] = [];
    if (activity.forMinutes !== null && at !== null && end !== null && end - at !== activity.forMinutes)
      found.push(note(id, "for", null, [...activity.path, "for"]));
    if (signalPath !== null && activity.signalPath !== null && signalPath !== activity.signalPath)
      found.push(note(id, "path", null, [...activity.path, "path"]));
    if (activity.kind === "hit") return found;
    const to = end ?? (at === null ? null : at + lengthOfActivity(plan, activity));
    const { window, by } = activity;
    if (window !== null && ((at !== null && at < window.from) || (to !== null && to > window.to)))
      found.push(note(id, "window", null, [...activity.path, "window"]));
    if (by !== null && to !== null && to > by) found.push(note(id, "by", null, [...activity.path, "by"]));
    return found;
  });
}

/** Stated times that do not hold: another was logged, or follows from what was. */
function ofStops(plan: Plan, { instantOf, isMissed }: Went): readonly Finding[] {
  return [...plan.runs.values()].flatMap((run) => {
    const mannings = manningOf(plan, run) ?? [];
    return run.stops.flatMap((stop, index) => {
      const { left = null, arrived = null, driver = null } = plan.actual.stops.get(stop.id) ?? {};
      const found: Finding[] = [];
      const said = mannings[index]?.saidDriver ?? null;
      if (driver !== null && said !== null && said.who !== driver) found.push(note(stop.id, "driver", null, said.path));
      const leaves = left ?? (isMissed(stop.id) ? null : instantOf(`${stop.id}.leave`));
      const arrives = arrived ?? (isMissed(stop.id) ? null : instantOf(`${stop.id}.arrive`));
      if (stop.leave !== null && leaves !== null && leaves !== stop.leave)
        found.push(note(stop.id, "leave", null, [...stop.path, "leave"]));
      if (stop.ferry !== null && leaves !== null && leaves !== stop.ferry.sail)
        found.push(note(stop.id, "sail", null, [...stop.path, "ferry", "sail"]));
      if (stop.arriveBy !== null && arrives !== null && arrives > stop.arriveBy)
        found.push(note(stop.id, "arriveBy", null, [...stop.path, "arriveBy"]));
      return found;
    });
  });
}
