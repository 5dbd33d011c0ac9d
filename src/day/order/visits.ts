/** Which hits and standbys of a visit come first and last, how long each is in position, and until when the desk holds it. */
import type { Hit, Id, Plan, Task } from "../../plan/plan.ts";
import { feedMinutes } from "../feed.ts";
import { type Attendance, activityOf, type DayOrder, isLive, type Visit } from "./order.ts";

/** A hit or standby at its fixed time, minutes since the epoch. */
export interface Live {
  readonly id: Id;
  readonly activity: Hit | Task;
  readonly from: number;
  readonly to: number;
}

/** The hit or standby of an id, with its length; null for any other task. */
export function liveOf(plan: Plan, id: Id): Live | null {
  const activity = activityOf(plan, id);
  if (activity === undefined || !isLive(activity)) return null;
  if (activity.kind === "hit") return { id, activity, from: activity.at, to: activity.at + activity.forMinutes };
  const { window, forMinutes } = activity;
  if (window === null) return null;
  return { id, activity, from: window.from, to: forMinutes === null ? window.to : window.from + forMinutes };
}

/** The whole minutes an activity lasts. */
export function lengthOfActivity(plan: Plan, activity: Hit | Task): number {
  if (activity.forMinutes !== null) return activity.forMinutes;
  if (activity.kind === "meal") return plan.rules.mealFor;
  if (activity.kind === "hit") return 0;
  const { window } = activity;
  if ((activity.kind === "standby" || activity.kind === "standdown") && window !== null) return window.to - window.from;
  return minutesBySize(plan, activity) ?? 0;
}

/** Whether two activities need the same person or the same path: only then must one wait for the other. */
export function shares(a: Attendance, b: Attendance): boolean {
  const path = a.activity.signalPath;
  return a.who.some((id) => b.who.includes(id)) || (path !== null && path === b.activity.signalPath);
}

/** Hits inside a standby at the same place overlap it lawfully. */
export function overlapsLawfully(a: Live, b: Live): boolean {
  const standby = a.activity.kind === "standby" || b.activity.kind === "standby";
  return standby && a.from < b.to && b.from < a.to;
}

/** The live activities of a visit among those `entered`, by start. */
export const livesOf = (order: DayOrder, visit: Visit, entered: ReadonlySet<Id>): readonly Live[] =>
  visit.activities
    .flatMap((id) => (entered.has(id) ? (liveOf(order.plan, id) ?? []) : []))
    .sort((a, b) => a.from - b.from);

/** The last of some hits and standbys. */
export const lastLive = (lives: readonly Live[]): Live | undefined =>
  lives.reduce<Live | undefined>((last, live) => (last === undefined || live.to >= last.to ? live : last), undefined);

/** Minutes in position before a later hit: the house rule, or less where the visit's previous hit ends later. */
export function inPositionMinutes(order: DayOrder, visit: Visit, live: Live, lives: readonly Live[]): number {
  const rule = order.plan.rules.inPosition;
  const me = order.attendance.get(live.id);
  const before = lives.filter((other) => {
    const them = order.attendance.get(other.id);
    const ordered = visit.activities.indexOf(other.id) < visit.activities.indexOf(live.id);
    return ordered && me !== undefined && them !== undefined && shares(me, them) && !overlapsLawfully(other, live);
  });
  const free = before.reduce((latest, other) => Math.max(latest, other.to), Number.NEGATIVE_INFINITY);
  return Math.max(0, Math.min(rule, live.from - free));
}

/**
 * Minutes of line check before a hit: the house rule before a visit's first, and before its first on another path, there
 * as much as an earlier hit leaves that needs the same people; null where there is none.
 */
export function lineCheckMinutes(order: DayOrder, visit: Visit, live: Live, lives: readonly Live[]): number | null {
  const index = lives.findIndex(({ id }) => id === live.id);
  const rule = order.plan.rules.lineCheck;
  if (index === 0) return rule;
  const earlier = lives.slice(0, index);
  const path = live.activity.signalPath;
  if (index < 0 || path === null || earlier.some(({ activity }) => activity.signalPath === path)) return null;
  const me = order.attendance.get(live.id);
  const busy = earlier.filter((other) => {
    const them = order.attendance.get(other.id);
    return me !== undefined && them !== undefined && shares(me, them) && !overlapsLawfully(other, live);
  });
  const free = busy.reduce((late, other) => Math.max(late, other.to), Number.NEGATIVE_INFINITY);
  const room = live.from - inPositionMinutes(order, visit, live, lives) - free;
  return room <= 0 ? null : Math.min(rule, room);
}

/** How long an activity's size takes at its path's rate; null where either is not stated. */
export function minutesBySize(plan: Plan, activity: Hit | Task): number | null {
  if (activity.kind === "hit" || activity.sizeMegabytes === null || activity.signalPath === null) return null;
  const rate = plan.paths.get(activity.signalPath)?.rateMegabits ?? null;
  return rate === null ? null : feedMinutes(activity.sizeMegabytes, rate);
}
