/** What each hit and task needs to have there: its own `needs`, pieces in use `during` it, and what those need in turn. */
import type { ActivityTimes, Day } from "../day/day.ts";
import { type PathShare, useOf } from "../day/during.ts";
import type { Id, Piece } from "../plan/plan.ts";
import { isDark, type SkyResult } from "../sky/index.ts";

/** An item that a hit, task or path needs, and when. */
export interface Need {
  readonly item: Id;
  readonly by: PathShare["by"];
  /** What needs it: the activity, or a piece that is there for it. */
  readonly for: Id;
}

/** Everything an activity needs, each once, the firmest asking first; what a piece needs follows the piece. */
export function needsOf(day: Day, sky: SkyResult, times: ActivityTimes): readonly Need[] {
  const { kit } = day.plan;
  const direct: readonly Need[] = [
    ...times.activity.needs.map((item): Need => ({ item, by: "stated", for: times.id })),
    ...[...kit.values()].flatMap((piece): readonly Need[] => {
      const use = useOf(day.plan, piece, times.activity, (id) => isDark(sky, id));
      return use === null ? [] : [{ item: piece.id, by: use.by, for: times.id }];
    }),
  ];
  const found = new Map<Id, Need>();
  const queue = direct.toSorted((a, b) => Number(a.by === "usual") - Number(b.by === "usual"));
  for (const need of queue) {
    if (found.has(need.item)) continue;
    found.set(need.item, need);
    queue.push(...(kit.get(need.item)?.needs ?? []).map((item) => ({ item, by: need.by, for: need.item })));
  }
  return [...found.values()];
}

/** Pieces that do the same for a word of `during`: one of them there is enough, as with one camera at each of two hits. */
export const canStandIn = (a: Piece, b: Piece): boolean =>
  a.mount === b.mount && a.watts === b.watts && a.during.some((word) => b.during.includes(word));
