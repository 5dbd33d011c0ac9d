/** A cycle of things that wait for each other, written as steps between stops, hits, tasks and rides instead of instants. */

import type { Finding, PlanPath } from "../../findings/finding.ts";
import { sumOf } from "../../lists.ts";
import { orderLoop } from "../../plan/findings.ts";
import type { Id, Plan, Stop } from "../../plan/plan.ts";
import { driveTooShort } from "../findings/findingsOrder.ts";
import type { Timing } from "../network/timing.ts";
import { activityOf, type DayOrder, type OrderedLeg } from "./order.ts";
import { lengthOfActivity } from "./visits.ts";

/** What an instant of the network belongs to; where that is a stop, what the vehicle does then and has done by then. */
interface Owner {
  readonly id: Id;
  readonly vehicle: Id | null;
  readonly stop: Stop | null;
  readonly does: Doing | null;
  readonly did: Doing | null;
}

type Doing = "leave" | "arrive at" | "unload at";

/** `later` waits for `earlier`. */
interface Step {
  readonly earlier: Owner;
  readonly later: Owner;
  readonly path: PlanPath;
}

/** `instants` are the names of a cycle, each before the next. */
export function cycleFinding(order: DayOrder, timing: Timing, instants: readonly string[]): Finding {
  const { plan } = order;
  const owners = withoutStrike(instants.map((name) => ownerOf(plan, name)));
  const short = longerThanDrive(order, timing, owners);
  if (short !== null) return short;
  const steps = stepsOf(order, owners);
  const path = steps[0]?.path ?? ["runs"];
  const nameOf = ({ vehicle, id }: Owner): string => vehicle ?? id;
  const ids = owners.map(({ id }) => id).filter((id, index, all) => id !== all[index - 1]);
  const facts = {
    ring: ids[0] === ids.at(-1) ? ids : [...ids, ...ids.slice(0, 1)],
    waits: steps.map(({ later }) => nameOf(later)),
    does: steps.map(({ later }) => later.does ?? ""),
    where: steps.map(({ later }) => later.stop?.place ?? ""),
    waitsFor: steps.map(({ earlier }) => nameOf(earlier)),
    doesFirst: steps.map(({ earlier }) => earlier.did ?? ""),
    whereFirst: steps.map(({ earlier }) => earlier.stop?.place ?? ""),
    lines: steps.map(({ path: stated }) => lineOf(plan, stated)),
    ...workingOrder(order, steps),
    pastMidnight: forgottenDay(plan, ids),
  };
  return orderLoop.raise(facts, { path, span: plan.source.locate(path) });
}

/** What follows the last hit of a visit there follows its strike: the vehicle between the two waits for neither. */
const withoutStrike = (owners: readonly Owner[]): readonly Owner[] =>
  owners.filter(({ stop, does }, at) => {
    const [before, after] = [owners.at(at - 1), owners[(at + 1) % owners.length]];
    return does !== "leave" || stop === null || before?.stop !== null || after?.stop !== null;
  });

/** Minutes of half a day: hits of one night are no further apart. */
const NIGHT = 720;

/** The hit of the cycle that a night of hits would end with if it were a day later: past midnight `+1d` is forgotten. */
function forgottenDay({ hits }: Plan, ids: readonly Id[]): Id | null {
  const timed = ids.flatMap((id) => hits.get(id) ?? []).toSorted((a, b) => a.at - b.at);
  const [first, last] = [timed[0], timed.at(-1)];
  return first !== undefined &&
    last !== undefined &&
    last.at - first.at >= NIGHT &&
    first.at + 2 * NIGHT - last.at <= NIGHT
    ? first.id
    : null;
}

const lineOf = (plan: Plan, path: PlanPath): string => {
  const span = plan.source.locate(path);
  return span === null ? "" : `${span.file}:${span.line}`;
};

/** One step for each change of owner, latest first; a vehicle's way between its own stops goes without saying. */
function stepsOf(order: DayOrder, owners: readonly Owner[]): readonly Step[] {
  const steps = owners.flatMap((earlier, index): Step[] => {
    const later = owners[(index + 1) % owners.length];
    if (later === undefined || later.id === earlier.id) return [];
    if (later.vehicle !== null && later.vehicle === earlier.vehicle) return [];
    return [{ earlier, later, path: pathOf(order, earlier, later) }];
  });
  steps.reverse();
  const stated = steps.findIndex(({ path }) => path.at(-1) === "after" || path.at(-1) === "before");
  return stated < 0 ? steps : [...steps.slice(stated), ...steps.slice(0, stated)];
}

/** `truck.2.arrive` belongs to the stop `truck.2`, `@talk.parked` to the visit that `talk` makes without a vehicle. */
function ownerOf(plan: Plan, instant: string): Owner {
  const dot = instant.lastIndexOf(".");
  const id = instant.slice(instant.startsWith("@") ? 1 : 0, dot);
  for (const run of plan.runs.values()) {
    const stop = run.stops.find((one) => one.id === id);
    if (stop === undefined) continue;
    const did = doingAt(instant.slice(dot + 1));
    // Ready to go is what an arrival leads to and what a departure waits for.
    const does = instant.endsWith(".packed") ? "leave" : did;
    return { id, vehicle: run.vehicle, stop, does, did };
  }
  return { id, vehicle: null, stop: null, does: null, did: null };
}

function doingAt(instant: string): Doing {
  if (["leave", "loading", "walkAround"].includes(instant)) return "leave";
  return ["unload", "unloaded", "checked"].includes(instant) ? "unload at" : "arrive at";
}

/** The plan's line for a wait: the `after`, `before` or `do` that states it, else what waits. */
function pathOf({ plan, visits }: DayOrder, earlier: Owner, later: Owner): PlanPath {
  const [before, waiting] = [activityOf(plan, earlier.id), activityOf(plan, later.id)];
  if (before?.before.includes(later.id)) return [...before.path, "before"];
  if (later.stop !== null) return later.stop.path;
  if (waiting === undefined) return plan.rides.get(later.id)?.path ?? [];
  if (waiting.after.includes(earlier.id)) return [...waiting.path, "after"];
  const listing = visits.find(({ activities }) => activities.includes(earlier.id) && activities.includes(later.id));
  return listing?.stop?.do == null ? waiting.path : [...listing.stop.path, "do"];
}

/** Where the `do` of a stop is what closes the cycle: its activities in an order that keeps every `after` and `before`. */
function workingOrder(order: DayOrder, steps: readonly Step[]): { order: readonly Id[]; orderAt: Id } {
  const { plan } = order;
  const none = { order: [], orderAt: "" };
  const listed = steps.find(({ path }) => path.at(-1) === "do");
  const visit = order.visits.find(
    ({ activities, stop }) =>
      stop != null &&
      listed !== undefined &&
      activities.includes(listed.later.id) &&
      activities.includes(listed.earlier.id),
  );
  if (visit?.stop == null) return none;
  const kept = (ids: readonly Id[]): boolean =>
    ids.every((id, at) => !ids.slice(0, at).some((one) => mustFollow(order, one, id)));
  const moved = visit.activities.filter((id) =>
    steps.some(({ earlier, later }) => earlier.id === id || later.id === id),
  );
  // Hits have their times; it is the task that gives way.
  const tasksFirst = moved.toSorted((a, b) => Number(plan.hits.has(a)) - Number(plan.hits.has(b)));
  for (const id of tasksFirst) {
    const rest = visit.activities.filter((one) => one !== id);
    for (let at = 0; at <= rest.length; at++) {
      const tried = rest.toSpliced(at, 0, id);
      // What stands there already is no way out.
      if (kept(tried) && tried.join() !== (visit.stop.do ?? []).join())
        return { order: tried, orderAt: visit.stop.place };
    }
  }
  return none;
}

/** Whether `one` is stated to come after `other`. */
function mustFollow({ plan }: DayOrder, one: Id, other: Id): boolean {
  const [later, earlier] = [activityOf(plan, one), activityOf(plan, other)];
  return later?.after.includes(other) === true || earlier?.before.includes(one) === true;
}

/** A cycle of one drive and what is done on it: all of that lasts longer than the drive. */
function longerThanDrive(order: DayOrder, timing: Timing, owners: readonly Owner[]): Finding | null {
  const ids = [...new Set(owners.map(({ id }) => id))];
  const leg = order.legs.find((one) => one.rolling.some((id) => ids.includes(id)));
  if (leg === undefined || !ids.every((id) => isOn(leg, id))) return null;
  const tasks = leg.rolling.filter((id) => ids.includes(id));
  const lengths = tasks
    .map((id) => activityOf(order.plan, id))
    .map((one) => (one ? lengthOfActivity(order.plan, one) : 0));
  const facts = {
    tasks,
    takes: sumOf(lengths, (length) => length),
    from: leg.from.place,
    to: leg.to.place,
    drive: timing.get(leg.id)?.plannedMinutes ?? 0,
  };
  const path = activityOf(order.plan, tasks[0] ?? "")?.path ?? leg.from.path;
  return driveTooShort.raise(facts, { path, span: order.plan.source.locate(path) });
}

const isOn = (leg: OrderedLeg, id: Id): boolean => leg.from.id === id || leg.to.id === id || leg.rolling.includes(id);
