/** The plan with hits and tasks at the times and lengths they really had, and without facts of the future. */
import type { Actual, Hit, Id, Plan, Task } from "../../plan/plan.ts";
import { type Instant, instant } from "../../time/units.ts";
import type { Day } from "../day.ts";
import { lengthOfActivity } from "../order/visits.ts";

type Went = { readonly at: Instant | null; readonly end: Instant | null; readonly done: boolean };

/** The plan with what was logged in place of what was planned. */
export function asItWent(plan: Plan): Plan {
  if (plan.actual.activities.size === 0) return plan;
  return { ...plan, hits: mapped(plan.hits, plan, hitAsItWent), tasks: mapped(plan.tasks, plan, taskAsItWent) };
}

const mapped = <T extends Hit | Task>(
  all: ReadonlyMap<Id, T>,
  plan: Plan,
  change: (one: T, went: Went, plan: Plan) => T,
): ReadonlyMap<Id, T> =>
  new Map(
    [...all].map(([id, one]) => {
      const went = plan.actual.activities.get(id);
      return [id, went === undefined ? one : change(one, went, plan)];
    }),
  );

function hitAsItWent(hit: Hit, { at, end }: Went): Hit {
  const start = at ?? hit.at;
  return { ...hit, at: start, forMinutes: end !== null && end >= start ? end - start : hit.forMinutes };
}

/**
 * What fills its window is fixed at both ends; one that began late without a length of its own still ends with it. What is
 * logged as not done keeps its place, because people were there for it, as plain work: no meal, no fuel, no release.
 */
function taskAsItWent(task: Task, { at, end, done }: Went, plan: Plan): Task {
  if (!done && at === null && end === null) return { ...task, kind: "work", forMinutes: lengthOfActivity(plan, task) };
  const fills = (task.kind === "standby" || task.kind === "standdown") && task.window !== null;
  if (!fills || task.window === null) {
    return at !== null && end !== null && end >= at ? { ...task, forMinutes: end - at } : task;
  }
  if (at === null && end === null) return task;
  const { window } = task;
  const from = at ?? window.from;
  const planned = task.forMinutes === null ? window.to : from + task.forMinutes;
  const to = end ?? (planned > from ? planned : from + window.to - window.from);
  return { ...task, window: { from, to: instant(Math.max(from, to)) }, forMinutes: null };
}

/**
 * The paths that hits and tasks went out on. Their times stay as they are: the set-up, the dish-up and the line checks were
 * for the paths that the plan has.
 */
export function wentOut(day: Day): Day {
  const { activities: went } = day.plan.actual;
  if ([...went.values()].every(({ signalPath }) => signalPath === null)) return day;
  const otherPath = <T extends Hit | Task>(one: T): T => {
    const used = went.get(one.id)?.signalPath ?? null;
    if (used === null || used === one.signalPath) return one;
    return "spare" in one && one.spare === used
      ? { ...one, signalPath: used, spare: one.signalPath }
      : { ...one, signalPath: used };
  };
  const changed = <T extends Hit | Task>(all: ReadonlyMap<Id, T>): ReadonlyMap<Id, T> =>
    new Map([...all].map(([id, one]) => [id, otherPath(one)]));
  return {
    ...day,
    plan: { ...day.plan, hits: changed(day.plan.hits), tasks: changed(day.plan.tasks) },
    activities: day.activities.map((one) => ({ ...one, activity: otherPath(one.activity) })),
    unedited: day.unedited === null ? null : { ...day.unedited, day: wentOut(day.unedited.day) },
    withChores: (chores, before) => wentOut(day.withChores(chores, before)),
  };
}

/** An entry of `actual` by its id and key. */
type Key = readonly [id: Id, key: string];

/** The facts that are known at `now`, and the keys of those that are later. */
export function factsUntil(
  { actual }: Plan,
  now: Instant,
): { readonly actual: Actual; readonly later: readonly Key[] } {
  const later: Key[] = [];
  const known = (id: Id, key: string, at: Instant | null): Instant | null => {
    if (at === null || at <= now) return at;
    later.push([id, key]);
    return null;
  };
  const people = [...actual.people].map(([id, one]): [Id, typeof one] => [
    id,
    { ...one, call: known(id, "call", one.call), released: known(id, "released", one.released) },
  ]);
  const activities = [...actual.activities].flatMap(([id, one]): [Id, typeof one][] => {
    const [at, end] = [known(id, "at", one.at), known(id, "end", one.end)];
    const isLater = (one.at !== null && at === null) || (one.at === null && one.end !== null && end === null);
    return isLater ? [] : [[id, { ...one, at, end }]];
  });
  const stops = [...actual.stops].map(([id, one]): [Id, typeof one] => {
    const [arrived, left] = [known(id, "arrived", one.arrived), known(id, "left", one.left)];
    // Who drove from there on is known once the vehicle has left.
    return [id, { ...one, arrived, left, driver: one.left !== null && left === null ? null : one.driver }];
  });
  const packs = [...actual.packs].filter(([id, one]) => one.at === null || known(id, "at", one.at) !== null);
  const vehicles = [...actual.vehicles].filter(
    ([id, one]) => one.since === null || known(id, "since", one.since) !== null,
  );
  return {
    actual: {
      ...actual,
      people: new Map(people),
      activities: new Map(activities),
      stops: new Map(stops),
      packs: new Map(packs),
      vehicles: new Map(vehicles),
    },
    later,
  };
}
