/**
 * Facts of which one end alone is logged: what ended began as planned, who arrived had left as planned, and for a hit that
 * went out late everybody was called and left as planned.
 */
import type { Actual, ActualStop, Hit, Id, Plan } from "../../plan/plan.ts";
import { type Instant, instant } from "../../time/units.ts";

/** An end whose beginning is not logged. */
interface OpenEnd {
  readonly id: Id;
  /** What is filled in: the beginning of a task, or the departure of a stop. */
  readonly begins:
    | { readonly kind: "task" | "stop"; readonly id: Id; readonly instant: string }
    | { readonly kind: "departures"; readonly stops: readonly Id[] };
  readonly at: Instant;
}

/** A plan whose open facts are filled, and which of them are assumed. */
export interface Completed {
  readonly plan: Plan;
  /** The names of the instants that were filled in. */
  readonly assumed: ReadonlySet<string>;
  /** Departures that had not happened by then; by stop id. */
  readonly standing: ReadonlyMap<Id, Instant>;
}

/** `planned` gives an instant of a plan as its day has it, null where it has none. */
export function completeFacts(
  plan: Plan,
  planned: (completed: Completed, instant: string) => Instant | null,
): Completed {
  const ends = openEnds(plan);
  let completed: Completed = { plan: ends.reduce(withoutEnd, plan), assumed: new Set(), standing: new Map() };
  for (const end of ends) {
    if (end.begins.kind === "departures") {
      completed = withDepartures(completed, plan, end, end.begins.stops, planned);
      continue;
    }
    const began = planned(completed, end.begins.instant);
    const next = withEnd(completed.plan, plan, end);
    if (began === null || end.at - began < leastBetween(completed, end, began, planned))
      completed = { ...completed, plan: next };
    else
      completed = {
        ...completed,
        plan: { ...next, actual: beginning(next.actual, end, began) },
        assumed: new Set(completed.assumed).add(end.begins.instant),
      };
  }
  return completed;
}

/**
 * Who arrived had not left as planned where the drive would then have taken less than half of its planned minutes; a stated
 * departure stands however fast the drive was.
 */
function leastBetween(
  completed: Completed,
  { id, begins }: OpenEnd,
  began: Instant,
  planned: (completed: Completed, instant: string) => Instant | null,
): number {
  const stops = [...completed.plan.runs.values()].flatMap((run) => run.stops);
  const isOpen = begins.kind === "stop" && stops.find((stop) => stop.id === begins.id)?.leave !== began;
  const arrives = isOpen ? planned(completed, `${id}.arrive`) : null;
  return arrives === null ? 1 : Math.max(1, Math.ceil((arrives - began) / 2));
}

/** With a late hit, and with the departures before it as the day without it has them, where they were before it. */
function withDepartures(
  completed: Completed,
  whole: Plan,
  end: OpenEnd,
  stops: readonly Id[],
  planned: (completed: Completed, instant: string) => Instant | null,
): Completed {
  const assumed = new Set(completed.assumed);
  const standing = new Map(completed.standing);
  const until = instant(Math.min(end.at, whole.hits.get(end.id)?.at ?? end.at));
  // Whoever loads by then was called for it: that departure stands as planned.
  const isLoadingBy = (by: Instant, stop: Id, left: Instant): boolean => {
    const loads = planned(completed, `${stop}.walkAround`) ?? planned(completed, `${stop}.loading`) ?? left;
    return loads < left && loads - whole.rules.roundCalls < by;
  };
  let { actual } = withEnd(completed.plan, whole, end);
  for (const stop of stops) {
    const name = `${stop}.leave`;
    const left = actual.stops.get(stop)?.left == null ? planned(completed, name) : null;
    if (left === null) continue;
    if (left >= until && !isLoadingBy(until, stop, left)) {
      standing.set(stop, until);
      continue;
    }
    actual = { ...actual, stops: new Map(actual.stops).set(stop, { ...(actual.stops.get(stop) ?? NOT_LOGGED), left }) };
    assumed.add(name);
  }
  return { plan: { ...completed.plan, actual }, assumed, standing };
}

/** The stops that vehicles leave on their way to a hit; of vehicles that do not go there, all. */
function stopsBefore(plan: Plan, { id, location }: Hit): readonly Id[] {
  const place = location.kind === "place" ? location.place : null;
  return [...plan.runs.values()].flatMap(({ stops }) => {
    const named = stops.findIndex((stop) => stop.do?.includes(id) === true);
    const at = named >= 0 ? named : stops.findIndex((stop) => stop.do === null && stop.place === place);
    return (at < 0 ? stops : stops.slice(0, at)).map((stop) => stop.id);
  });
}

function openEnds(plan: Plan): readonly OpenEnd[] {
  const ends: OpenEnd[] = [];
  for (const [id, { at, end }] of plan.actual.activities) {
    const task = plan.tasks.get(id);
    const fixed =
      task === undefined || ((task.kind === "standby" || task.kind === "standdown") && task.window !== null);
    if (!fixed && at === null && end !== null)
      ends.push({ id, begins: { kind: "task", id, instant: `${id}.start` }, at: end });
  }
  for (const [id, { at, done }] of plan.actual.activities) {
    const hit = plan.hits.get(id);
    if (hit === undefined || at === null || at <= hit.at || !done) continue;
    ends.push({ id, begins: { kind: "departures", stops: stopsBefore(plan, hit) }, at });
  }
  for (const { stops } of plan.runs.values()) {
    stops.forEach(({ id }, index) => {
      const before = stops[index - 1];
      const arrived = plan.actual.stops.get(id)?.arrived ?? null;
      if (before === undefined || arrived === null || (plan.actual.stops.get(before.id)?.left ?? null) !== null) return;
      ends.push({ id, begins: { kind: "stop", id: before.id, instant: `${before.id}.leave` }, at: arrived });
    });
  }
  return ends.toSorted((a, b) => a.at - b.at);
}

/** Nothing was logged of a stop. */
export const NOT_LOGGED: ActualStop = { arrived: null, left: null, driver: null, note: null };

function withoutEnd(plan: Plan, { id, begins }: OpenEnd): Plan {
  const activities = new Map(plan.actual.activities);
  const stops = new Map(plan.actual.stops);
  if (begins.kind !== "stop") activities.delete(id);
  else stops.set(id, { ...(stops.get(id) ?? NOT_LOGGED), arrived: null });
  return { ...plan, actual: { ...plan.actual, activities, stops } };
}

function withEnd(plan: Plan, whole: Plan, { id, begins }: OpenEnd): Plan {
  const activities = new Map(plan.actual.activities);
  const stops = new Map(plan.actual.stops);
  const activity = whole.actual.activities.get(id);
  const stop = whole.actual.stops.get(id);
  if (begins.kind !== "stop" && activity !== undefined) activities.set(id, activity);
  if (begins.kind === "stop" && stop !== undefined)
    stops.set(id, { ...(stops.get(id) ?? NOT_LOGGED), arrived: stop.arrived });
  return { ...plan, actual: { ...plan.actual, activities, stops } };
}

function beginning(actual: Actual, { begins }: OpenEnd, at: Instant): Actual {
  if (begins.kind === "departures") return actual;
  if (begins.kind === "stop") {
    const stop = actual.stops.get(begins.id) ?? NOT_LOGGED;
    return { ...actual, stops: new Map(actual.stops).set(begins.id, { ...stop, left: at }) };
  }
  const activity = actual.activities.get(begins.id);
  if (activity === undefined) return actual;
  return { ...actual, activities: new Map(actual.activities).set(begins.id, { ...activity, at }) };
}
