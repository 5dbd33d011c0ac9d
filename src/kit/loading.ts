/** Tonight's loading: what must be in each vehicle when it first rolls, ticked by hand on paper. */

import type { Day } from "../day/day.ts";
import { groupBy, sumOf } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import { after, type Instant } from "../time/units.ts";
import { type KitItem, kitItems } from "./items.ts";
import type { Track } from "./track.ts";

/** Something that is loaded: how many of which. */
export interface LoadingItem {
  readonly id: Id;
  readonly count: number;
  /** The single packs behind a group, else the id itself. */
  readonly members: readonly Id[];
  /** Where it has to come from before the vehicle rolls; null where it is in already. */
  readonly from: Id | null;
}

/** What goes into a vehicle before it rolls. */
export interface Loading {
  readonly vehicle: Id;
  readonly place: Id;
  readonly rolls: Instant;
  readonly items: readonly LoadingItem[];
}

/** Items of one group that come from one place, listed as one line. */
function lines(items: readonly KitItem[], cameFrom: (item: KitItem) => Id | null): readonly LoadingItem[] {
  const alike = groupBy(items, (item) => `${item.group} ${cameFrom(item) ?? ""}`);
  return [...alike.values()].map((all) => ({
    id: all[0].group,
    count: sumOf(all, ({ count }) => count),
    members: all.map(({ id }) => id),
    from: cameFrom(all[0]),
  }));
}

/** One list for each vehicle that rolls, in the order in which they roll. */
export function loadingOf(day: Day, track: Track): readonly Loading[] {
  const firsts = new Map<Id, Loading>();
  for (const move of day.moves) {
    if (firsts.has(move.vehicle)) continue;
    const before = after(move.leave, -1);
    const aboard = kitItems(day.plan).filter((item) => track.at(item.id, before)?.holder === move.vehicle);
    const cameFrom = ({ id }: KitItem): Id | null =>
      track.moves.find((own) => own.item === id && own.to === move.vehicle && own.at < move.leave)?.from ?? null;
    firsts.set(move.vehicle, {
      vehicle: move.vehicle,
      place: move.from,
      rolls: move.leave,
      items: lines(aboard, cameFrom),
    });
  }
  return [...firsts.values()];
}
