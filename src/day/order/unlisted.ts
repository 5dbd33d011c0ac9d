/**
 * The order of what no `do` lists: hits by time, each behind the tasks that the plan puts before it, then the other tasks
 * as `after`, `before` and their windows say, else in file order.
 */
import type { Finding } from "../../findings/finding.ts";
import type { Hit, Id, Task } from "../../plan/plan.ts";
import { orderUnstated } from "../findings/findingsOrder.ts";
import type { Attendance, Visit } from "./order.ts";
import { shares } from "./visits.ts";

/** `here` in file order. */
export function unlistedOrder(here: readonly (Hit | Task)[]): readonly (Hit | Task)[] {
  const hits = here.flatMap((one) => (one.kind === "hit" ? one : [])).toSorted((a, b) => a.at - b.at);
  const tasks = here.flatMap((one) => (one.kind === "hit" ? [] : one));
  const ordered: Task[] = [];
  const left = [...tasks];
  while (left.length > 0) {
    // Where each waits for another the first in the file is taken; the cycle is found later.
    const next = left.find((one) => left.every((other) => other === one || !comesFirst(other, one))) ?? left[0];
    if (next === undefined) break;
    left.splice(left.indexOf(next), 1);
    ordered.push(next);
  }
  const result: (Hit | Task)[] = [];
  const place = (some: readonly (Hit | Task)[]): void => {
    result.push(...some.filter((one) => !result.includes(one)));
  };
  for (const hit of hits) {
    // A task that waits for this hit as well is left behind it: the cycle is found later.
    place(ordered.filter((task) => leads(task, hit, here) && !leads(hit, task, here)));
    place([hit]);
  }
  place(ordered);
  return result;
}

/** Whether the plan says that one comes before another: by name, by the times of hits, or by windows that do not meet. */
function comesFirst(one: Hit | Task, other: Hit | Task): boolean {
  if (one.before.includes(other.id) || other.after.includes(one.id)) return true;
  if (other.before.includes(one.id) || one.after.includes(other.id)) return false;
  if (one.kind === "hit" && other.kind === "hit") return one.at < other.at;
  if (one.kind === "hit" || other.kind === "hit" || one.window === null || other.window === null) return false;
  return one.window.to <= other.window.from;
}

/** Notes for visits in which the order of the file decided what somebody does first. */
export function unstatedOrders(visits: readonly Visit[], attendance: ReadonlyMap<Id, Attendance>): readonly Finding[] {
  return visits.flatMap((visit) => {
    const listed = visit.stop?.do ?? [];
    const rest = visit.activities.flatMap((id) => (listed.includes(id) ? [] : (attendance.get(id) ?? [])));
    const open = new Set<Id>();
    rest.forEach((earlier, index) => {
      for (const later of rest.slice(index + 1)) {
        if (!shares(earlier, later) || isDecided(earlier.activity, later.activity)) continue;
        const there = rest.map(({ activity }) => activity);
        if (leads(earlier.activity, later.activity, there)) continue;
        open.add(earlier.activity.id).add(later.activity.id);
      }
    });
    if (open.size === 0) return [];
    const facts = { tasks: [...open], stop: visit.stop?.id ?? null, order: [...visit.activities], missed: null };
    return [orderUnstated.raise(facts, { path: visit.stop?.path ?? rest[0]?.activity.path ?? [] })];
  });
}

/** Hits go by time, and before tasks. */
function isDecided(earlier: Hit | Task, later: Hit | Task): boolean {
  if (earlier.kind !== "hit") return false;
  return later.kind !== "hit" || earlier.at !== later.at;
}

/** Whether the plan's own words lead from one to the other, over others as well. */
function leads(from: Hit | Task, to: Hit | Task, among: readonly (Hit | Task)[]): boolean {
  const reached = new Set<Id>([from.id]);
  const queue = [from];
  for (let here = queue.pop(); here !== undefined; here = queue.pop()) {
    if (here.id === to.id) return true;
    for (const activity of among) {
      if (reached.has(activity.id) || !comesFirst(here, activity)) continue;
      reached.add(activity.id);
      queue.push(activity);
    }
  }
  return false;
}
