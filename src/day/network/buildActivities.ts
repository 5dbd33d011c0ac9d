/** Activities in the network: their lengths, windows and order, and the people and vehicles that must be there. */
import type { Id } from "../../plan/plan.ts";
import type { Attendance, PersonStay, RideRef, Visit } from "../order/order.ts";
import {
  inPositionMinutes,
  type Live,
  lastLive,
  lengthOfActivity,
  liveOf,
  livesOf,
  overlapsLawfully,
  shares,
} from "../order/visits.ts";
import type { Rule } from "./network.ts";
import { type Build, label, nodeOf, rulePath } from "./nodes.ts";
import { checkMinutes, preparationOf } from "./prepare.ts";
import { timingOf } from "./timing.ts";

/** Adds the nodes and edges of hits and tasks. */
export function buildActivities(build: Build): void {
  const entered = [...build.order.attendance.values()].filter((one) => build.entered.activities.has(one.activity.id));
  for (const attendance of entered) {
    const live = liveOf(build.plan, attendance.activity.id);
    if (live === null) buildTask(build, attendance);
    else buildLive(build, attendance, live);
    if (attendance.leg !== null) buildOnLeg(build, attendance);
  }
  for (const visit of build.order.visits) orderWithin(build, visit);
  for (const attendance of entered) tieIn(build, attendance);
  orderAcross(build, entered);
  people(build);
  halts(build);
}

/** The instant from which an activity takes its people: the line check, in position, or its start. */
export function takes(build: Build, id: Id): number {
  const first = build.nodes.get(`${id}.lineCheck`) ?? build.nodes.get(`${id}.inPosition`);
  return first ?? nodeOf(build, `${id}.start`);
}

/** The instant at which an activity lets its people go. */
export const frees = (build: Build, id: Id): number => build.nodes.get(`${id}.clear`) ?? nodeOf(build, `${id}.end`);

function buildTask(build: Build, { activity }: Attendance): void {
  const { network, plan } = build;
  const { id } = activity;
  const [start, end] = [nodeOf(build, `${id}.start`), nodeOf(build, `${id}.end`)];
  const parts = { activity: id, place: activity.location.kind === "place" ? activity.location.place : null };
  network.exactly(start, end, lengthOfActivity(plan, activity), label(id, { ...parts, where: activity.path }));
  if (activity.kind === "hit") return;
  if (activity.window !== null) {
    const where = [...activity.path, "window"];
    network.notBefore(start, activity.window.from, label(`${id} window`, { ...parts, where }));
    network.notAfter(end, activity.window.to, label(`${id} window`, { ...parts, where }), "window");
  }
  if (activity.by !== null) {
    network.notAfter(end, activity.by, label(`${id} by`, { ...parts, where: [...activity.path, "by"] }), "window");
  }
}

function buildLive(build: Build, attendance: Attendance, live: Live): void {
  const { network, plan } = build;
  const { activity } = attendance;
  const { id } = activity;
  const place = activity.location.kind === "place" ? activity.location.place : null;
  const parts = { activity: id, place };
  const [position, start] = [nodeOf(build, `${id}.inPosition`), nodeOf(build, `${id}.start`)];
  const [end, clear] = [nodeOf(build, `${id}.end`), nodeOf(build, `${id}.clear`)];
  const checked = checkMinutes(build, id);
  network.exactly(
    position,
    start,
    positionMinutes(build, attendance, live),
    label("in position", { ...parts, where: rulePath(plan, "inPosition") }),
  );
  network.exactly(start, end, live.to - live.from, label(id, { ...parts, where: activity.path }));
  const cleared = clearMinutes(build, attendance, live);
  const stated = activity.kind === "hit" && activity.clearMinutes !== null;
  const clearWhere = stated ? [...activity.path, "clear"] : rulePath(plan, "clear");
  network.exactly(end, clear, cleared, cleared > 0 ? label("clear", { ...parts, where: clearWhere }) : null);
  if (checked !== null) {
    const check = nodeOf(build, `${id}.lineCheck`);
    network.exactly(check, position, checked, label("line check", { ...parts, where: rulePath(plan, "lineCheck") }));
  }
  const timeAt = activity.kind === "hit" ? "at" : "window";
  network.fixed(start, live.from, label(id, { ...parts, where: [...activity.path, timeAt] }));
}

/** The house rule at a visit's first hit and on the road; at a later one what the hit before leaves. */
function positionMinutes(build: Build, { visits }: Attendance, live: Live): number {
  const each = visits.map((visit) =>
    inPositionMinutes(build.order, visit, live, livesOf(build.order, visit, build.entered.activities)),
  );
  return Math.min(build.plan.rules.inPosition, ...each);
}

/** After a visit's last hit the stated or the house length; after an earlier one what is stated, until the next is in position. */
function clearMinutes(build: Build, { visits, activity }: Attendance, live: Live): number {
  const stated = activity.kind === "hit" ? activity.clearMinutes : null;
  const full = stated ?? build.plan.rules.clear;
  if (visits.length === 0) return full;
  const each = visits.map((visit) => {
    const lives = livesOf(build.order, visit, build.entered.activities);
    if (lastLive(lives)?.id === live.id) return full;
    const next = lives.filter((other) => other.from >= live.to && other.id !== live.id);
    const positions = next.map((other) => other.from - inPositionMinutes(build.order, visit, other, lives));
    return Math.max(0, Math.min(stated ?? 0, Math.min(...positions, Number.POSITIVE_INFINITY) - live.to));
  });
  return Math.max(...each);
}

/** Rolling: inside the leg. At a halt: see `halts`. */
function buildOnLeg(build: Build, { activity, leg }: Attendance): void {
  if (leg === null || !leg.rolling.includes(activity.id)) return;
  build.network.atLeast(nodeOf(build, `${leg.id}.leave`), takes(build, activity.id), 0);
  build.network.atLeast(nodeOf(build, `${activity.id}.end`), nodeOf(build, `${leg.to.id}.arrive`), 0);
}

/** The order of `do` for what shares someone or a path; every activity after the visit's set-up. */
function orderWithin(build: Build, visit: Visit): void {
  const here = visit.activities.filter((id) => build.entered.activities.has(id));
  const ready = nodeOf(build, `${visit.id}.ready`);
  const lives = livesOf(build.order, visit, build.entered.activities);
  const last = lastLive(lives);
  const strike = preparationOf(build, visit).strike;
  here.forEach((id, index) => {
    const setUp: Rule = { key: "set-up", first: visit.id, second: id, where: null };
    build.network.atLeast(ready, takes(build, id), 0, null, setUp);
    for (const later of here.slice(index + 1)) {
      if (!mustFollow(build, id, later, lives)) continue;
      const from = strike && id === last?.id && !isLiveId(lives, later) ? nodeOf(build, `${visit.id}.packed`) : null;
      const liveToLive = isLiveId(lives, id) && isLiveId(lives, later);
      build.network.atLeast(
        from ?? (liveToLive ? nodeOf(build, `${id}.end`) : frees(build, id)),
        takes(build, later),
        0,
        null,
        ruleOf(visit, id, later),
      );
    }
  });
}

/** What says which of two activities of a visit comes first. */
function ruleOf({ stop }: Visit, first: Id, second: Id): Rule {
  const listed = stop?.do ?? [];
  if (stop === null || !listed.includes(first) || !listed.includes(second))
    return { key: "time", first, second, where: null };
  return { key: "do", first, second, where: [...stop.path, "do"] };
}

const isLiveId = (lives: readonly Live[], id: Id): boolean => lives.some((live) => live.id === id);

function mustFollow(build: Build, earlier: Id, later: Id, lives: readonly Live[]): boolean {
  const [a, b] = [build.order.attendance.get(earlier), build.order.attendance.get(later)];
  if (a === undefined || b === undefined || !shares(a, b)) return false;
  const [liveA, liveB] = [lives.find((live) => live.id === earlier), lives.find((live) => live.id === later)];
  return liveA === undefined || liveB === undefined || !overlapsLawfully(liveA, liveB);
}

/** `after` and `before`, of activities and of stops. */
function tieIn(build: Build, { activity }: Attendance): void {
  const { network } = build;
  for (const id of activity.after) {
    const node = build.nodes.get(`${id}.end`) === undefined ? build.nodes.get(`${id}.arrive`) : frees(build, id);
    const rule: Rule = { key: "after", first: id, second: activity.id, where: [...activity.path, "after"] };
    if (node !== undefined) network.atLeast(node, takes(build, activity.id), 0, null, rule);
  }
  for (const id of activity.before) {
    const node = build.nodes.get(`${id}.start`) === undefined ? build.nodes.get(`${id}.leave`) : takes(build, id);
    const rule: Rule = { key: "before", first: activity.id, second: id, where: [...activity.path, "before"] };
    if (node !== undefined) network.atLeast(frees(build, activity.id), node, 0, null, rule);
  }
}

/**
 * Hits in different visits that share someone or a path, by time; people's departures and arrivals do the rest. One that is
 * logged so late that it went out after the time of a later stop's hit does not turn the way round: then that hit is missed.
 */
function orderAcross(build: Build, entered: readonly Attendance[]): void {
  const lives = entered.flatMap((one) => {
    const live = liveOf(build.plan, one.activity.id);
    return live === null ? [] : [{ one, live }];
  });
  lives.sort((a, b) => a.live.from - b.live.from);
  lives.forEach((a, index) => {
    for (const b of lives.slice(index + 1)) {
      if (a.one.visits.some((visit) => b.one.visits.includes(visit)) || !shares(a.one, b.one)) continue;
      const samePlace = a.one.visits[0]?.place === b.one.visits[0]?.place;
      if (samePlace && overlapsLawfully(a.live, b.live)) continue;
      if ((isLogged(build, a.live) || isLogged(build, b.live)) && isOnTheWayTo(b.one, a.one)) continue;
      const rule: Rule = { key: "time", first: a.live.id, second: b.live.id, where: null };
      build.network.atLeast(nodeOf(build, `${a.live.id}.end`), nodeOf(build, `${b.live.id}.inPosition`), 0, null, rule);
    }
  });
}

const isLogged = ({ plan }: Build, { id }: Live): boolean => plan.actual.activities.get(id)?.at != null;

/** Whether someone of both comes to the first before the second. */
const isOnTheWayTo = ({ stayOf: first }: Attendance, { stayOf: second }: Attendance): boolean =>
  [...first].some(([who, stay]) => stay < (second.get(who) ?? stay));

/** The instant a ride brings someone to a place. */
const arrivalNode = (build: Build, ride: RideRef): number =>
  nodeOf(build, ride.kind === "leg" ? `${ride.leg.to.id}.arrive` : `${ride.ride.id}.arrive`);

/** The instant from which someone can do something there: who gets out of a vehicle parks it first. */
function outNode(build: Build, ride: RideRef): number {
  const parked = ride.kind === "leg" ? build.nodes.get(`${ride.leg.to.id}.parked`) : undefined;
  return parked ?? arrivalNode(build, ride);
}

/** The instant by which someone must be free to take a ride: walk-around, loading, departure, or a ride's lead. */
function boardingNode(build: Build, ride: RideRef, who: Id): number {
  if (ride.kind === "ride") return nodeOf(build, `${ride.ride.id}.lead`);
  const stop = ride.leg.from.id;
  const walk = build.nodes.get(`${stop}.walkAround`);
  if (walk !== undefined && ride.leg.driver === who) return walk;
  return build.nodes.get(`${stop}.loading`) ?? nodeOf(build, `${stop}.leave`);
}

const rideEntered = (build: Build, ride: RideRef | null): ride is RideRef =>
  ride !== null && (ride.kind === "leg" || build.entered.rides.has(ride.ride.id));

/** No one is in two places: what someone does at a stay lies between their arrival there and their boarding. */
function people(build: Build): void {
  for (const person of build.order.people.values()) {
    person.stays.forEach((stay, index) => {
      const boarding = rideEntered(build, stay.leaving) ? boardingNode(build, stay.leaving, person.id) : null;
      const arrival = rideEntered(build, stay.arriving) ? arrivalNode(build, stay.arriving) : null;
      const out = rideEntered(build, stay.arriving) ? outNode(build, stay.arriving) : null;
      if (boarding !== null && arrival !== null && !sameVehicle(stay)) build.network.atLeast(arrival, boarding, 0);
      for (const one of build.order.attendance.values()) {
        if (one.stayOf.get(person.id) !== index || !build.entered.activities.has(one.activity.id)) continue;
        if (out !== null) build.network.atLeast(out, takes(build, one.activity.id), 0);
        if (boarding !== null) build.network.atLeast(frees(build, one.activity.id), boarding, 0);
      }
    });
  }
}

const sameVehicle = ({ arriving, leaving }: PersonStay): boolean =>
  arriving?.kind === "leg" && leaving?.kind === "leg" && arriving.leg.vehicle === leaving.leg.vehicle;

/** Halts on the road lengthen their leg by their length; the spot follows from the time. */
function halts(build: Build): void {
  const { network } = build;
  for (const leg of build.order.legs) {
    if (leg.halts.length === 0) continue;
    const leave = nodeOf(build, `${leg.id}.leave`);
    const arrive = nodeOf(build, `${leg.to.id}.arrive`);
    const drive = label("drive", { where: leg.leg.path ?? leg.to.path, vehicle: leg.vehicle });
    const planned = timingOf(build.timing, leg).plannedMinutes;
    let before = leave;
    let halted = 0;
    for (const id of leg.halts.filter((halt) => build.entered.activities.has(halt))) {
      network.atLeast(before, takes(build, id), 0);
      before = frees(build, id);
      halted += haltMinutes(build, id);
    }
    network.atLeast(before, arrive, 0);
    network.exactly(leave, arrive, planned + halted, drive);
  }
}

/** How long the vehicle stands for an activity on the road: from in position until the desk clears, or the task's length. */
function haltMinutes(build: Build, id: Id): number {
  const attendance = build.order.attendance.get(id);
  if (attendance === undefined) return 0;
  const live = liveOf(build.plan, id);
  if (live === null) return lengthOfActivity(build.plan, attendance.activity);
  return positionMinutes(build, attendance, live) + live.to - live.from + clearMinutes(build, attendance, live);
}
