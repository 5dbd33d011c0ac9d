/**
 * What is settled before any time: who rides which leg and drives it, which activity belongs to which visit, and in what
 * order everyone's rides follow each other. Order is data; none is searched (a better one is a repair).
 */

import type { Leg } from "../../legs/leg.ts";
import type { Hit, Id, Plan, Relief, Ride, Stop, Task } from "../../plan/plan.ts";

/** A drive between two stops of a run with its people. */
export interface OrderedLeg {
  /** The id of the stop it leaves from. */
  readonly id: Id;
  readonly vehicle: Id;
  readonly index: number;
  readonly from: Stop;
  readonly to: Stop;
  readonly driver: Id;
  /** Everyone in the vehicle, the driver among them, in plan order. */
  readonly aboard: readonly Id[];
  readonly asleep: readonly Id[];
  /** Who takes the wheel after how many planned minutes; stated at this stop or an earlier one of the run. */
  readonly relieve: readonly Relief[];
  readonly leg: Leg;
  /** Activities done on this leg: rolling (`aboard`) or at a halt on the road, in order. */
  readonly rolling: readonly Id[];
  readonly halts: readonly Id[];
}

/** A vehicle standing at a stop with something to do there; `vehicle` null for people who are there without one. */
export interface Visit {
  /** The stop's id; `@place` for a visit without a vehicle. */
  readonly id: Id;
  readonly vehicle: Id | null;
  readonly stop: Stop | null;
  readonly place: Id;
  /** Who comes with it (at the first stop: who sets off in it). */
  readonly party: readonly Id[];
  /** Ids in the order in which they are done. */
  readonly activities: readonly Id[];
}

/** A leg of a vehicle, or a ride by others. */
export type RideRef =
  | { readonly kind: "leg"; readonly leg: OrderedLeg }
  | { readonly kind: "ride"; readonly ride: Ride };

/** Where a person is between two rides. */
export interface PersonStay {
  readonly place: Id;
  readonly arriving: RideRef | null;
  readonly leaving: RideRef | null;
}

/** A person's rides and stays in order, from bed to bed. */
export interface PersonOrder {
  readonly id: Id;
  readonly slept: Id | null;
  readonly sleeps: Id | null;
  /** One more than the rides; a person with nothing to do has none or one. */
  readonly stays: readonly PersonStay[];
}

/** An activity with its people and the visits it is done in. */
export interface Attendance {
  readonly activity: Hit | Task;
  readonly who: readonly Id[];
  readonly visits: readonly Visit[];
  /** For `aboard` and `onRoad`. */
  readonly leg: OrderedLeg | null;
  /** The stay (index into `stays`) of each of `who`. */
  readonly stayOf: ReadonlyMap<Id, number>;
}

/** Everything of a day in order, before any instant is known. */
export interface DayOrder {
  readonly plan: Plan;
  readonly legs: readonly OrderedLeg[];
  readonly visits: readonly Visit[];
  readonly people: ReadonlyMap<Id, PersonOrder>;
  /** In plan order: hits, then tasks. */
  readonly attendance: ReadonlyMap<Id, Attendance>;
}

/** The hit or task of an id. */
export const activityOf = (plan: Plan, id: Id): Hit | Task | undefined => plan.hits.get(id) ?? plan.tasks.get(id);

/** Hits and standbys are prepared and fixed alike: set-up, line check, in position, clear, strike. */
export const isLive = (activity: Hit | Task): boolean => activity.kind === "hit" || activity.kind === "standby";

/** Whether the vehicle that makes this stop brings someone to it who is needed there for an activity. */
export function bringsTo(order: DayOrder, stop: Stop, activity: Id): boolean {
  return [...(order.attendance.get(activity)?.stayOf ?? [])].some(([who, stay]) => {
    const arriving = order.people.get(who)?.stays[stay]?.arriving;
    return arriving?.kind === "leg" && arriving.leg.to === stop;
  });
}

/** Whether someone from this vehicle is needed for something that is done at this stop, in whoever's visit. */
export const bringsAnyTo = (order: DayOrder, stop: Stop, entered: ReadonlySet<Id>): boolean =>
  [...entered].some((id) => bringsTo(order, stop, id));

/** Whether someone is asleep before and after a stop, in the same vehicle, and needed for nothing there. */
export function sleepsThrough(order: DayOrder, person: PersonOrder, index: number): boolean {
  const { arriving = null, leaving = null } = person.stays[index] ?? {};
  if (arriving?.kind !== "leg" || leaving?.kind !== "leg" || arriving.leg.vehicle !== leaving.leg.vehicle) return false;
  if (!arriving.leg.asleep.includes(person.id) || !leaving.leg.asleep.includes(person.id)) return false;
  return [...order.attendance.values()].every(({ stayOf }) => stayOf.get(person.id) !== index);
}

/** The stand-down that is the last thing someone does at a stay before a vehicle takes them on; null where none is. */
export function standdownBefore(
  order: DayOrder,
  person: PersonOrder,
  leg: OrderedLeg,
  entered: ReadonlySet<Id>,
): Id | null {
  const index = person.stays.findIndex(({ leaving }) => leaving?.kind === "leg" && leaving.leg === leg);
  const here = [...order.attendance.values()].filter(
    ({ activity, stayOf }) => index >= 0 && stayOf.get(person.id) === index && entered.has(activity.id),
  );
  const down = here.filter(({ activity }) => activity.kind === "standdown");
  const last = down.toSorted((a, b) => startOf(b.activity) - startOf(a.activity))[0];
  if (last === undefined) return null;
  const isLater = (one: Attendance): boolean =>
    one !== last &&
    (one.visits.some(({ activities }) => comesAfter(activities, last.activity.id, one.activity.id)) ||
      isTiedAfter(one, last));
  return here.some(isLater) ? null : last.activity.id;
}

const startOf = (activity: Hit | Task): number =>
  activity.kind === "hit" ? activity.at : (activity.window?.from ?? 0);
const comesAfter = (activities: readonly Id[], first: Id, second: Id): boolean =>
  activities.includes(first) && activities.indexOf(second) > activities.indexOf(first);
const isTiedAfter = (one: Attendance, last: Attendance): boolean =>
  one.activity.after.includes(last.activity.id) || last.activity.before.includes(one.activity.id);
