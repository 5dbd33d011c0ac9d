/** Whether booked satellite time holds the line-up, the line check, the hit and as long as the desk may slip it. */
import type { Day } from "../../day/day.ts";
import { rulePath } from "../../day/network/nodes.ts";
import type { Finding, ReasonTerm } from "../../findings/finding.ts";
import { after, type Instant, type Interval, overlap } from "../../time/units.ts";
import { activityIdsOf, circumstance, type PathUse } from "../use.ts";
import { windowMissing, windowNotBooked, windowTooShort } from "./findingsDish.ts";

/** What a use needs of a window, as terms that tile the time from line-up to the end of `late`. */
export function windowNeed(day: Day, use: PathUse, window: Interval | null): readonly ReasonTerm[] {
  const { times, activity, path, onAir } = use;
  if (onAir === null) return [];
  // The Day alone says whether there is a line check: calls, power and bookings go by the same.
  const { lineCheck, inPosition } = times;
  const end = times.end ?? onAir.to;
  const ready = inPosition ?? onAir.from;
  const linedUp = lineCheck === null && isLinedUp(day, use, window);
  const checkFrom = lineCheck?.from ?? ready;
  const lineUp = linedUp ? 0 : (path.lineUpMinutes ?? 0);
  const term = (name: string, from: Instant, to: Instant, where: ReasonTerm["where"]): ReasonTerm => ({
    name,
    from,
    to,
    minutes: to - from,
    where,
  });
  return [
    term("line-up", after(checkFrom, -lineUp), checkFrom, [...path.path, "lineUp"]),
    term("line check", checkFrom, ready, rulePath(day.plan, "lineCheck")),
    term("in position", ready, onAir.from, rulePath(day.plan, "inPosition")),
    term(activity.id, onAir.from, end, [...activity.path, "for"]),
    term("late", end, onAir.to, [...activity.path, "late"]),
  ].filter((own) => own.minutes > 0);
}

/** Whether an earlier hit of the same visit was already on this path in the same window: then the dish stands. */
function isLinedUp(day: Day, { times, path }: PathUse, window: Interval | null): boolean {
  return day.activities.some(
    ({ activity, start, stops }) =>
      activity.kind === "hit" &&
      (activity.signalPath === path.id || activity.spare === path.id) &&
      start !== null &&
      times.start !== null &&
      start < times.start &&
      stops.some((stop) => times.stops.includes(stop)) &&
      (window === null || (start >= window.from && start < window.to)),
  );
}

/** A satellite path that hits or feeds are on and that no one has booked: one finding a path. */
export function unbookedFindings(uses: readonly PathUse[]): readonly Finding[] {
  const unbooked = uses.filter(
    ({ path, as }) => path.kind === "satellite" && as === "main" && path.windows.length === 0,
  );
  return [...new Set(unbooked.map((use) => use.path))].map((path) => {
    const activities = activityIdsOf(unbooked.filter((use) => use.path === path));
    return windowNotBooked.raise({ activities, path: path.id }, { path: path.path });
  });
}

/** The window that a use falls into, or null, and what it needs of it. */
export function windowFor(
  day: Day,
  use: PathUse,
): { readonly window: Interval | null; readonly need: readonly ReasonTerm[] } {
  const { onAir, path } = use;
  const bare = windowNeed(day, use, null);
  const [first] = bare;
  if (onAir === null || first === undefined) return { window: null, need: bare };
  // Of several windows the one that most of the need lies in was booked for it; of two equal ones the first.
  const whole = { from: first.from, to: onAir.to };
  const window = path.windows.reduce<Interval | null>(
    (a, b) => (overlap(whole, b) > (a === null ? 0 : overlap(whole, a)) ? b : a),
    null,
  );
  return { window, need: windowNeed(day, use, window) };
}

/** Judges one use of a satellite path against its windows, where there are any. */
export function windowFindings(day: Day, use: PathUse): readonly Finding[] {
  const { path, onAir, activity } = use;
  const { window, need } = windowFor(day, use);
  const [first] = need;
  if (onAir === null || first === undefined || path.windows.length === 0) return [];
  const span = { from: { at: first.from }, to: { at: onAir.to } };
  const where = circumstance(use);
  if (window === null) return [windowMissing.raise({ activity: activity.id, path: path.id, ...span }, where)];
  const [early, late] = [Math.max(0, window.from - first.from), Math.max(0, onAir.to - window.to)];
  if (early + late === 0) return [];
  const facts = {
    activity: activity.id,
    path: path.id,
    opens: { at: window.from },
    closes: { at: window.to },
    ...span,
    shortBefore: early,
    shortAfter: late,
  };
  return [windowTooShort.raise(facts, { ...where, chain: need, shortMinutes: early + late })];
}
