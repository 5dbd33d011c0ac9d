/** What a piece's `during` says of a hit or a task: the one reading, for what must be there and for what draws power. */
import type { Hit, Id, Piece, Plan, Task } from "../plan/plan.ts";
import { isLive } from "./order/order.ts";

/** Why a path is used in a stretch, and whether it is held in reserve. */
export interface PathShare {
  /** `stated` by an id, a group or a path; `usual` where only a word such as `hits` or `dark` asks for it. */
  readonly by: "stated" | "usual";
  /** True where only the spare path asks for it: it is there and switched off, as long as the main one holds. */
  readonly inReserve: boolean;
}

const USUAL: PathShare = { by: "usual", inReserve: false };
const STATED: PathShare = { by: "stated", inReserve: false };
const SPARE: PathShare = { by: "stated", inReserve: true };

/** Tasks at which somebody works with gear; a stand-by is prepared and held as a hit is. */
const isWork = ({ kind }: Hit | Task): boolean => kind === "work" || kind === "feed";

function covered(plan: Plan, word: string, activity: Hit | Task, isDark: (activity: Id) => boolean): PathShare | null {
  const live = isLive(activity);
  if (word === "hits") return live ? USUAL : null;
  if (word === "tasks") return isWork(activity) ? USUAL : null;
  if (word === "dark") return live && isDark(activity.id) ? USUAL : null;
  if (word === activity.id || word === activity.signalPath || plan.groups.get(word)?.includes(activity.id) === true) {
    return STATED;
  }
  return activity.kind === "hit" && word === activity.spare ? SPARE : null;
}

/** The firmest use of a piece at a hit or task; null where it is not in use. */
export function useOf(
  plan: Plan,
  piece: Piece,
  activity: Hit | Task,
  isDark: (activity: Id) => boolean,
): PathShare | null {
  const uses = piece.during.flatMap((word) => covered(plan, word, activity, isDark) ?? []);
  if (uses.length === 0) return null;
  return {
    by: uses.some((use) => use.by === "stated") ? "stated" : "usual",
    inReserve: uses.every((use) => use.inReserve),
  };
}
