/** What the network needs besides the order: how long each leg is planned, and what has been taken out or fixed. */

import { badTime, type Conditions, driveTime, plannedMinutes, roundUp } from "../../legs/times.ts";
import { DRY, type RoadWeather, weatherOn } from "../../legs/weather.ts";
import type { Hit, Id, Stop } from "../../plan/plan.ts";
import type { Interval, Minutes } from "../../time/units.ts";
import { bringsTo, type DayOrder, type OrderedLeg } from "../order/order.ts";

/** The planned minutes of a leg, and by which of its times. */
export interface LegTiming {
  readonly plannedAt: "bad" | "drive";
  readonly plannedMinutes: Minutes;
  readonly likelyMinutes: Minutes;
  readonly badMinutes: Minutes;
}

/** By leg id. */
export type Timing = ReadonlyMap<Id, LegTiming>;

/** Every leg of the order has its timing. */
export function timingOf(timing: Timing, leg: Pick<OrderedLeg, "id">): LegTiming {
  const found = timing.get(leg.id);
  if (found === undefined) throw new RangeError(`leg ${leg.id} has not been timed`);
  return found;
}

/**
 * `bad` into a firm hit: the first hit at or after the stop the leg ends at, in the same run, decides; a ride by others that
 * someone takes from there is as firm, since it does not wait. A stand-down of the driver before it ends the search, as the
 * night between two days does. `missed` hits are as if the plan did not have them.
 */
function plannedAt(order: DayOrder, leg: OrderedLeg, missed: ReadonlySet<Id>): "bad" | "drive" {
  const rule = order.plan.rules.planDrivesAt;
  if (rule !== "bad-into-firm") return rule;
  const stops = order.plan.runs.get(leg.vehicle)?.stops.slice(leg.index + 1) ?? [];
  for (const stop of stops) {
    const down = standdownAt(order, stop, leg.driver, missed);
    const hit = firstHitAt(order, stop, missed, down);
    if (hit !== null) return hit.firm ? "bad" : "drive";
    if (down !== null) return "drive";
    if (ridesOn(order, stop)) return "bad";
  }
  return "drive";
}

/** Whether someone gets out at a stop to go on with a ride by others. */
const ridesOn = ({ people }: DayOrder, stop: Stop): boolean =>
  [...people.values()].some(({ stays }) =>
    stays.some(
      ({ arriving, leaving }) => arriving?.kind === "leg" && arriving.leg.to === stop && leaving?.kind === "ride",
    ),
  );

/** The first stand-down of someone in what is done at a stop; null where there is none. */
function standdownAt(order: DayOrder, stop: Stop, who: Id, missed: ReadonlySet<Id>): Id | null {
  const visit = order.visits.find((candidate) => candidate.stop === stop);
  const isDown = (id: Id): boolean =>
    order.plan.tasks.get(id)?.kind === "standdown" && order.attendance.get(id)?.who.includes(who) === true;
  return visit?.activities.find((id) => !missed.has(id) && isDown(id)) ?? null;
}

/**
 * The first hit that a vehicle's stop serves: of its own visit, before the stand-down `until` where one is named, or of
 * another vehicle's where someone who is needed for it comes with this one.
 */
function firstHitAt(order: DayOrder, stop: Stop, missed: ReadonlySet<Id>, until: Id | null): Hit | null {
  const hits = (ids: readonly Id[]): readonly Hit[] =>
    ids.flatMap((id) => (missed.has(id) ? [] : (order.plan.hits.get(id) ?? [])));
  const visit = order.visits.find((candidate) => candidate.stop === stop);
  const own = visit?.activities ?? [];
  const listed = hits(until === null ? own : own.slice(0, own.indexOf(until))).slice(0, 1);
  const carried = hits([...order.attendance.keys()].filter((id) => bringsTo(order, stop, id)));
  return [...listed, ...carried].reduce<Hit | null>((first, hit) => (first && first.at <= hit.at ? first : hit), null);
}

/** Leg times in the weather that `during` says each leg is driven in; dry where it does not say. */
export function timeLegs(order: DayOrder, missed: ReadonlySet<Id>, during: ReadonlyMap<Id, Interval>): Timing {
  const timing = new Map<Id, LegTiming>();
  for (const leg of order.legs) {
    const span = during.get(leg.id);
    const ends = [leg.from.place, leg.to.place];
    const weather: RoadWeather = span === undefined ? DRY : weatherOn(order.plan.weather, span, ends);
    const conditions: Conditions = { slower: order.plan.vehicles.get(leg.vehicle)?.slower ?? 1, weather };
    const at = plannedAt(order, leg, missed);
    const time = driveTime(leg.leg, conditions);
    timing.set(leg.id, {
      plannedAt: at,
      plannedMinutes: plannedMinutes(leg.leg, { ...conditions, at }),
      likelyMinutes: roundUp(time.median),
      badMinutes: roundUp(badTime(time)),
    });
  }
  return timing;
}

/** Whether the plan's weather can change any leg at all; if not, the day is timed once. */
export const weatherMatters = (order: DayOrder): boolean =>
  order.legs.length > 0 && order.plan.weather.some((row) => row.road !== null && row.road !== "dry");
