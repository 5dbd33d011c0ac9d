/** One hit or feed on one path: what every check of the signal asks about. */

import type { ActivityTimes, Day } from "../day/day.ts";
import type { PlanPath } from "../findings/finding.ts";
import { groupBy, type Some } from "../lists.ts";
import type { Hit, Id, Place, SignalPath, Task } from "../plan/plan.ts";
import { after, type Instant } from "../time/units.ts";

/** A hit or feed on a path. */
export interface PathUse {
  readonly times: ActivityTimes;
  readonly activity: Hit | Task;
  readonly path: SignalPath;
  readonly as: "main" | "spare";
  /** Null on the road. */
  readonly place: Place | null;
  /** The plan line that chooses the path. */
  readonly where: PlanPath;
  /** From the start to the end, and for a hit as much longer as the desk may slip it; null where the day has no time for it. */
  readonly onAir: { readonly from: Instant; readonly to: Instant } | null;
}

/** A hit's own length and its `late`, from an instant on. */
function onAirOf({ activity, start, end }: ActivityTimes): PathUse["onAir"] {
  if (start === null || end === null) return null;
  return { from: start, to: activity.kind === "hit" ? after(end, activity.lateMinutes ?? 0) : end };
}

/** Every path that a hit or a feed uses, main before spare, in the Day's order. */
export function usesOf(day: Day): readonly PathUse[] {
  return day.activities.flatMap((times) => {
    const { activity } = times;
    const chosen: readonly [PathUse["as"], Id | null][] =
      activity.kind === "hit"
        ? [
            ["main", activity.signalPath],
            ["spare", activity.spare],
          ]
        : [["main", activity.kind === "feed" ? activity.signalPath : null]];
    return chosen.flatMap(([as, id]) => {
      const path = id === null ? undefined : day.plan.paths.get(id);
      if (path === undefined) return [];
      const place = times.place === null ? null : (day.plan.places.get(times.place) ?? null);
      const where = [...activity.path, as === "main" ? "path" : "spare"];
      return [{ times, activity, path, as, place, where, onAir: onAirOf(times) }];
    });
  });
}

/** Uses of one path at one place in one part, never empty: what is judged once for all of them. */
export type PathUses = Some<PathUse>;

/** Uses that share path, part and place, in order of the first of each. */
export const sharedUses = (uses: readonly PathUse[]): readonly PathUses[] => [
  ...groupBy(uses, (use) => `${use.path.id} ${use.as} ${use.place?.id ?? ""}`).values(),
];

/** The ids of the hits and feeds behind some uses. */
export const activityIdsOf = (uses: readonly PathUse[]): readonly Id[] => uses.map((use) => use.activity.id);

/** The second level of what is an error of a main path. */
export const OF_SPARE = { level: "warning", when: "if only the spare is concerned" } as const;

/** Finding circumstances that all checks of one use share; what only concerns the spare is the milder case. */
export const circumstance = (use: PathUse) => ({
  path: use.where,
  ...(use.onAir === null ? {} : { at: use.onAir.from }),
  otherwise: use.as === "spare",
});
