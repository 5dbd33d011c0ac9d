/** What each hit and task needs to have there: its own `needs`, pieces in use `during` it, and what those need in turn. */
import type { ActivityTimes, Day } from "../day/day.ts";
import type { Id, Piece } from "../plan/plan.ts";
import { isDark, type SkyResult } from "../sky/index.ts";

export interface Need {
  readonly item: Id;
  /** `stated` by name; `usual` where only a word such as `hits` or `dark` asks for it. */
  readonly by: "stated" | "usual";
  /** What needs it: the activity, or a piece that is there for it. */
  readonly for: Id;
}

/** Tasks at which nobody works with gear. */
const IDLE: ReadonlySet<string> = new Set(["meal", "rest", "standdown", "fuel"]);

/** Whether a word of `during` covers an activity, and how firmly it asks. */
function coverage(day: Day, sky: SkyResult, word: string, { activity, id }: ActivityTimes): Need["by"] | null {
  const isHit = activity.kind === "hit";
  if (word === "hits") return isHit ? "usual" : null;
  if (word === "tasks") return !isHit && !IDLE.has(activity.kind) ? "usual" : null;
  if (word === "dark") return isHit && isDark(sky, id) ? "usual" : null;
  const paths = [activity.signalPath, isHit ? activity.spare : null];
  return word === id || paths.includes(word) || (day.plan.groups.get(word)?.includes(id) ?? false) ? "stated" : null;
}

function usedDuring(day: Day, sky: SkyResult, piece: Piece, times: ActivityTimes): Need["by"] | null {
  const asked = piece.during.map((word) => coverage(day, sky, word, times));
  return asked.includes("stated") ? "stated" : asked.includes("usual") ? "usual" : null;
}

/** Everything an activity needs, each once, the firmest asking first; what a piece needs follows the piece. */
export function needsOf(day: Day, sky: SkyResult, times: ActivityTimes): readonly Need[] {
  const { kit } = day.plan;
  const direct: readonly Need[] = [
    ...times.activity.needs.map((item): Need => ({ item, by: "stated", for: times.id })),
    ...[...kit.values()].flatMap((piece): readonly Need[] => {
      const by = usedDuring(day, sky, piece, times);
      return by === null ? [] : [{ item: piece.id, by, for: times.id }];
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
