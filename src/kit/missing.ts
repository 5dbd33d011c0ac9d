/** What is needed and not there, where it is instead, and until when it could still be moved. */

import type { ActivityTimes, Day } from "../day/day.ts";
import { type Presence, presenceOf } from "../day/people/presence.ts";
import { groupBy } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import type { SkyResult } from "../sky/index.ts";
import { type Instant, type Interval, instant } from "../time/units.ts";
import { piecesOf } from "./items.ts";
import { canStandIn, type Need, needsOf } from "./needs.ts";
import { handsAt, type ItemStay, type Track, timesTogether } from "./track.ts";

/** How an item got to where it is. */
export interface LastMove {
  readonly at: Instant;
  readonly place: Id;
  /** The vehicle it would have to go into. */
  readonly into: Id;
}

/** An item that is needed at a place and is not there. */
export interface MissingItem {
  readonly item: Id;
  readonly by: Need["by"];
  readonly for: Id;
  /** Hits and tasks of one visit that lack it, in order. */
  readonly activities: readonly Id[];
  readonly place: Id | null;
  readonly neededFrom: Instant;
  /** The vehicle or place that holds it then. */
  readonly holder: Id;
  /** Where that is; null on the road. */
  readonly isAt: Id | null;
  /** Null where it cannot get there in time. */
  readonly lastMove: LastMove | null;
}

/** From the line check (or in position) to the end of an activity. */
export function useSpan({ lineCheck, inPosition, start, end }: ActivityTimes): Interval | null {
  const from = lineCheck?.from ?? inPosition ?? start;
  return from === null || end === null ? null : { from, to: instant(Math.max(end, from + 1)) };
}

/** Whether a stay is where the activity is: at its place, or in the vehicle that carries it along. */
export function isThere(stay: ItemStay, { place, vehicle, activity }: ActivityTimes): boolean {
  if (activity.location.kind !== "place") return vehicle === null || stay.holder === vehicle;
  return stay.place !== null && stay.place === place;
}

/** The first stay during a use that is not where the activity is. */
const astray = (stays: readonly ItemStay[], use: Interval, times: ActivityTimes): ItemStay | null =>
  stays.find((stay) => stay.from < use.to && stay.to > use.from && !isThere(stay, times)) ?? null;

/** A group of packs is there where one of its packs is, and so are pieces that start in several vehicles. */
function membersOf({ plan }: Day, item: Id): readonly Id[] {
  const piece = plan.kit.get(item);
  return plan.groups.get(item) ?? (piece === undefined ? [item] : piecesOf(piece).map(({ id }) => id));
}

/** The vehicles that stand where an activity is when it needs its things; the one that rolls with it where it rolls. */
function carriersOf(day: Day, presence: Presence, times: ActivityTimes, from: Instant): readonly Id[] {
  if (times.activity.location.kind !== "place") return times.vehicle === null ? [] : [times.vehicle];
  return [...day.plan.vehicles.keys()].filter((vehicle) => presence.vehicleAt(vehicle, from)?.place === times.place);
}

/** The last moment at which someone could put the item into a vehicle that will be there. */
function lastMoveOf(
  day: Day,
  presence: Presence,
  stays: readonly ItemStay[],
  times: ActivityTimes,
  by: Instant,
): LastMove | null {
  let last: LastMove | null = null;
  for (const stay of stays.filter((own) => own.place !== null && own.from < by)) {
    const { place } = stay;
    if (place === null) continue;
    for (const into of carriersOf(day, presence, times, by)) {
      const chances = timesTogether(day, presence, stay.holder, into, place).map((span) => ({
        from: instant(Math.max(span.from, stay.from)),
        to: instant(Math.min(span.to, stay.to, by)),
      }));
      for (const chance of chances.filter((span) => span.from < span.to)) {
        for (const hand of handsAt(day, presence, place, chance)) {
          if (last === null || hand.to > last.at) last = { at: hand.to, place, into };
        }
      }
    }
  }
  return last;
}

/** What one activity lacks. */
function lacks(
  day: Day,
  presence: Presence,
  sky: SkyResult,
  track: Track,
  times: ActivityTimes,
): readonly MissingItem[] {
  const use = useSpan(times);
  if (use === null) return [];
  const isHere = (item: Id): boolean => astray(track.stays(item), use, times) === null;
  // Pieces whose own needs are not asked for: a like piece stands in, or they are missing themselves.
  const excused = new Set<Id>();
  return needsOf(day, sky, times).flatMap((need) => {
    const members = membersOf(day, need.item).filter((item) => track.stays(item).length > 0);
    if (excused.has(need.for)) {
      excused.add(need.item);
      return [];
    }
    if (members.length === 0 || members.some(isHere)) return [];
    if (need.by === "usual") excused.add(need.item);
    if (standsIn(day, need, isHere)) return [];
    const [first] = members;
    const stays = first === undefined ? [] : track.stays(first);
    const stay = astray(stays, use, times);
    if (stay === null) return [];
    const { holder, place: isAt } = stay;
    const lastMove = lastMoveOf(day, presence, stays, times, use.from);
    const { item, by } = need;
    return [
      {
        item,
        by,
        for: need.for,
        activities: [times.id],
        place: times.place,
        neededFrom: use.from,
        holder,
        isAt,
        lastMove,
      },
    ];
  });
}

/** A piece asked for by a word alone is made good by its like. */
function standsIn(day: Day, need: Need, isHere: (item: Id) => boolean): boolean {
  const piece = day.plan.kit.get(need.item);
  if (need.by === "stated" || piece === undefined) return false;
  return [...day.plan.kit.values()].some(
    (other) => other.id !== piece.id && canStandIn(piece, other) && isHere(other.id),
  );
}

/** Everything missing in a day, one entry for each item, place and holder, in time order. */
export function missingItems(day: Day, sky: SkyResult, track: Track): readonly MissingItem[] {
  const presence = presenceOf(day);
  const lacking = day.activities.flatMap((times) => lacks(day, presence, sky, track, times));
  const alike = groupBy(lacking, (own) => `${own.item} ${own.place ?? ""} ${own.holder} ${own.isAt ?? ""} ${own.by}`);
  return [...alike.values()].map((all) => ({ ...all[0], activities: all.flatMap((own) => own.activities) }));
}
