/**
 * The order in which everyone's rides follow each other: each leaves from the place where the one before arrived, beginning
 * at the bed. Within a vehicle the run's order holds, among rides by others their times. More than one order that fits is
 * a mistake in the plan, and so is none.
 */

import type { Finding } from "../../findings/finding.ts";
import { sumOf } from "../../lists.ts";
import { isFirstDays } from "../../plan/firstDay.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import * as say from "../findings/findings.ts";
import { rideMissing, rideOrderOpen } from "../findings/findingsOrder.ts";
import { atOnceFinding, besides, type Meet, outAndInAgain } from "./atOnce.ts";
import type { PersonOrder, PersonStay, RideRef } from "./order.ts";

type Leg = Extract<RideRef, { kind: "leg" }>["leg"];

/**
 * `bedLastNight` is where the day before left each person, `standsAt` the place of a vehicle that never leaves with them
 * aboard; `stopsOf` the ids of the stops where an activity is done.
 */
export interface ChainInput {
  readonly plan: Plan;
  readonly legs: readonly Leg[];
  readonly bedLastNight: ReadonlyMap<Id, Id>;
  readonly standsAt: (id: Id) => Id | null;
  readonly stopsOf: (id: Id) => readonly Id[];
  readonly meet: Meet;
}

/** A person's rides and stays in order. */
export function personOrder(input: ChainInput, id: Id): { order: PersonOrder; findings: readonly Finding[] } {
  const person = input.plan.crew.get(id);
  const lanes = lanesOf(input, id);
  const lastNight = input.bedLastNight.get(id) ?? null;
  const isOld = lastNight !== null && isFirstDays(input.plan, ["crew", id, "slept"]);
  const slept = isOld ? lastNight : (person?.slept ?? lastNight);
  const stated = slept ?? (lanes.length === 0 ? input.standsAt(id) : null);
  const starts = stated !== null ? [stated] : startsOf(lanes);
  const found = starts.flatMap((start) => chainsFrom(input, lanes, start).map((rides) => ({ start, rides })));
  const findings: Finding[] = [];
  const [chain] = found;
  const legs = lanes.flatMap((lane) => lane.flatMap((ride) => (ride.kind === "leg" ? ride.leg : [])));
  const one = found.length === 1 ? chain : undefined;
  const atOnce = one ? outAndInAgain(one.rides, input.meet) : besides(legs, input.meet, found.length > 1);
  if (atOnce !== null) findings.push(atOnceFinding(input.plan, id, atOnce));
  else if (found.length > 1) findings.push(orderOpen(id, found));
  else if (chain === undefined && lanes.length > 0) findings.push(missingRide(input, lanes, id, starts[0] ?? ""));
  const stays = chain === undefined ? [] : staysOf(chain.start, chain.rides);
  const end = stays.at(-1)?.place ?? stated;
  const sleeps = person?.sleeps ?? end;
  if (person?.sleeps && end && chain && lanes.length > 0 && person.sleeps !== end) {
    const facts = { who: id, at: end, sleeps: person.sleeps };
    findings.push(say.leftAwayFromBed.raise(facts, { who: id, path: [...person.path, "sleeps"] }));
  }
  const bed = chain?.start ?? stated;
  return {
    order: { id, slept: bed, sleeps, stays: stays.length > 0 || bed === null ? stays : [alone(bed)] },
    findings,
  };
}

function orderOpen(id: Id, found: readonly { readonly start: Id }[]): Finding {
  const beds = [...new Set(found.map(({ start }) => start))];
  return rideOrderOpen.raise({ who: id, beds }, { who: id, path: ["crew", id] });
}

const alone = (place: Id): PersonStay => ({ place, arriving: null, leaving: null });

/** A person's rides as lanes that each keep their own order: one a vehicle, one for rides by others. */
function lanesOf({ plan, legs }: ChainInput, id: Id): readonly (readonly RideRef[])[] {
  const lanes: RideRef[][] = [];
  for (const run of plan.runs.values()) {
    const mine = legs.filter((leg) => leg.vehicle === run.vehicle && leg.aboard.includes(id));
    if (mine.length > 0) lanes.push(mine.map((leg) => ({ kind: "leg", leg })));
  }
  const rides = [...plan.rides.values()].filter((ride) => ride.who.includes(id));
  rides.sort((a, b) => a.leave - b.leave);
  if (rides.length > 0) lanes.push(rides.map((ride) => ({ kind: "ride", ride })));
  return lanes;
}

const fromOf = (ride: RideRef): Id => (ride.kind === "leg" ? ride.leg.from.place : ride.ride.from);
/** Where a ride ends. */
export const toOf = (ride: RideRef): Id => (ride.kind === "leg" ? ride.leg.to.place : ride.ride.to);

const startsOf = (lanes: readonly (readonly RideRef[])[]): readonly Id[] => [
  ...new Set(lanes.flatMap((lane) => lane.slice(0, 1).map(fromOf))),
];

/** Up to two orders that use every ride; states already known to lead nowhere are not tried again. */
function chainsFrom(input: ChainInput, lanes: readonly (readonly RideRef[])[], start: Id): RideRef[][] {
  const total = sumOf(lanes, (lane) => lane.length);
  const dead = new Set<string>();
  const found: RideRef[][] = [];
  const taken = lanes.map(() => 0);
  const path: RideRef[] = [];
  const go = (place: Id): boolean => {
    if (path.length === total) {
      found.push([...path]);
      return true;
    }
    const key = taken.join(",");
    if (dead.has(key)) return false;
    let any = false;
    lanes.forEach((lane, index) => {
      const next = lane[taken[index] ?? 0];
      if (found.length > 1 || next === undefined || fromOf(next) !== place) return;
      if (!mayFollow(input, lanes, taken, next)) return;
      taken[index] = (taken[index] ?? 0) + 1;
      path.push(next);
      any = go(toOf(next)) || any;
      path.pop();
      taken[index] = (taken[index] ?? 0) - 1;
    });
    if (!any) dead.add(key);
    return any;
  };
  go(start);
  return found;
}

/** `after` on the stop a leg leaves from: the rides that bring the person to those stops come first. */
function mayFollow(
  input: ChainInput,
  lanes: readonly (readonly RideRef[])[],
  taken: readonly number[],
  next: RideRef,
): boolean {
  if (next.kind !== "leg" || next.leg.from.after.length === 0) return true;
  const before = new Set(next.leg.from.after.flatMap((id) => input.stopsOf(id)));
  return lanes.every((lane, index) =>
    lane.slice(taken[index] ?? 0).every((ride) => ride === next || ride.kind !== "leg" || !before.has(ride.leg.to.id)),
  );
}

const staysOf = (start: Id, rides: readonly RideRef[]): readonly PersonStay[] =>
  [null, ...rides].map((arriving, index) => ({
    place: arriving === null ? start : toOf(arriving),
    arriving,
    leaving: rides[index] ?? null,
  }));

/** Follows the rides as far as they chain and names the first that does not leave from there. */
function missingRide(input: ChainInput, lanes: readonly (readonly RideRef[])[], id: Id, start: Id): Finding {
  const taken = lanes.map(() => 0);
  let place = start;
  for (;;) {
    const index = lanes.findIndex((lane, i) => {
      const next = lane[taken[i] ?? 0];
      return next !== undefined && fromOf(next) === place && mayFollow(input, lanes, taken, next);
    });
    const ride = lanes[index]?.[taken[index] ?? 0];
    if (ride === undefined) break;
    taken[index] = (taken[index] ?? 0) + 1;
    place = toOf(ride);
  }
  const left = lanes.flatMap((lane, index) => lane.slice(taken[index] ?? 0, (taken[index] ?? 0) + 1))[0];
  const next = left === undefined ? "" : left.kind === "leg" ? left.leg.vehicle : left.ride.id;
  const path = left?.kind === "leg" ? left.leg.from.path : (left?.ride.path ?? ["crew", id]);
  return rideMissing.raise({ who: id, at: place, next, from: left ? fromOf(left) : "" }, { who: id, path });
}
