/**
 * The network of a day: every instant of its vehicles and activities, with the lengths between them.
 *
 * A run is: (walk-around, loading) departure, leg, arrival, park, set-up and dish-up, activities, strike, departure …
 * unload (post-trip). What is not `entered` is left out as if the plan did not have it; its stop is still visited.
 */
import type { Id, Plan, Run, Stop } from "../../plan/plan.ts";
import { type Fit, pinDown } from "../facts/fit.ts";
import type { Pins } from "../facts/pins.ts";
import { bringsAnyTo, type DayOrder, type OrderedLeg, standdownBefore, type Visit } from "../order/order.ts";
import { buildActivities } from "./buildActivities.ts";
import { Network } from "./network.ts";
import { type Build, type Entered, label, nodeOf, type RunItem, rulePath } from "./nodes.ts";
import { prepare } from "./prepare.ts";
import { type Timing, timingOf } from "./timing.ts";

/** What stands, and what gives way to it. */
export interface StandingFacts {
  readonly pins: Pins;
  readonly fit: Fit;
}

/** The network of a day: a node for each instant, an edge for each length between two. */
export function buildNetwork(order: DayOrder, timing: Timing, entered: Entered, facts: StandingFacts): Build {
  const build: Build = {
    order,
    plan: order.plan,
    timing,
    entered,
    pins: facts.pins,
    network: new Network(),
    nodes: new Map(),
    items: new Map(),
    bounded: new Set(),
  };
  for (const ride of order.plan.rides.values()) if (entered.rides.has(ride.id)) buildRide(build, ride.id);
  for (const run of order.plan.runs.values()) buildRun(build, run);
  buildActivities(build);
  pinDown(build, facts.pins, facts.fit);
  return build;
}

function buildRide(build: Build, id: Id): void {
  const ride = build.plan.rides.get(id);
  if (ride === undefined) return;
  const [lead, leave, arrive] = [
    nodeOf(build, `${id}.lead`),
    nodeOf(build, `${id}.leave`),
    nodeOf(build, `${id}.arrive`),
  ];
  const { network } = build;
  network.exactly(lead, leave, ride.leadMinutes, label("lead", { where: [...ride.path, "lead"], place: ride.from }));
  network.fixed(leave, ride.leave, label(`${id} leaves`, { where: [...ride.path, "leave"], place: ride.from }));
  network.fixed(arrive, ride.arrive, label(`${id} arrives`, { where: [...ride.path, "arrive"], place: ride.to }));
}

/** Whether someone drives a commercial vehicle in the plan. */
export const isDriverOfCommercial = (plan: Plan, vehicle: Id): boolean =>
  plan.vehicles.get(vehicle)?.commercial ?? false;

/** Minutes of loading before a vehicle's first departure: longer where someone aboard checks out. */
export function loadingMinutes(order: DayOrder, leg: OrderedLeg): number {
  const { rules } = order.plan;
  const checksOut = leg.aboard.some((id) => {
    const person = order.people.get(id);
    return (
      person?.slept !== undefined &&
      person.slept !== null &&
      person.slept === leg.from.place &&
      person.sleeps !== person.slept
    );
  });
  return checksOut ? rules.loadingCheckOut : rules.loading;
}

/** The visit that a stop belongs to. */
export const visitAt = (order: DayOrder, stop: Stop): Visit | undefined =>
  order.visits.find((visit) => visit.stop === stop);

function buildRun(build: Build, run: Run): void {
  const items: RunItem[] = [];
  build.items.set(run.vehicle, items);
  const legs = build.order.legs.filter((leg) => leg.vehicle === run.vehicle);
  run.stops.forEach((stop, index) => {
    const arriving = legs.find((leg) => leg.to === stop);
    const leaving = legs.find((leg) => leg.from === stop);
    const add = (name: string, parts: { fixed?: boolean; departure?: boolean } = {}): void => {
      const node = nodeOf(build, name);
      items.push({ node, fixed: parts.fixed ?? false, stop: index, departure: parts.departure ?? false });
    };
    if (arriving !== undefined) arrive(build, run, arriving, stop, add);
    const visit = visitAt(build.order, stop);
    if (visit !== undefined) prepare(build, visit, arriving !== undefined, add);
    else if (arriving !== undefined && bringsAnyTo(build.order, stop, build.entered.activities))
      park(build, run, stop, add);
    if (leaving !== undefined) depart(build, run, leaving, arriving !== undefined, visit !== undefined, add);
    else finish(build, run, stop, arriving, visit !== undefined, add);
  });
}

type Add = (name: string, parts?: { fixed?: boolean; departure?: boolean }) => void;

function arrive(build: Build, run: Run, leg: OrderedLeg, stop: Stop, add: Add): void {
  const { network } = build;
  add(`${stop.id}.arrive`);
  const node = nodeOf(build, `${stop.id}.arrive`);
  const planned = timingOf(build.timing, leg).plannedMinutes;
  const isCrossing = leg.leg.ferry !== undefined;
  const drive = label(isCrossing ? "ferry" : "drive", { where: leg.leg.path ?? leg.to.path, vehicle: run.vehicle });
  if (leg.halts.length === 0 || isCrossing) network.exactly(nodeOf(build, `${leg.id}.leave`), node, planned, drive);
  if (stop.arriveBy !== null && build.entered.stops.has(stop.id)) {
    const where = [...stop.path, "arriveBy"];
    network.notAfter(node, stop.arriveBy, label(`${stop.id} arrive by`, { where, place: stop.place }), "fixed");
    build.bounded.add(run.vehicle);
  }
}

/** Where people get out for what is done in another vehicle's visit. */
function park(build: Build, run: Run, stop: Stop, add: Add): void {
  const parked = nodeOf(build, `${stop.id}.parked`);
  const where = rulePath(build.plan, "park");
  const text = label("park", { where, place: stop.place, vehicle: run.vehicle });
  build.network.exactly(nodeOf(build, `${stop.id}.arrive`), parked, build.plan.rules.park, text);
  add(`${stop.id}.parked`);
}

function depart(build: Build, run: Run, leg: OrderedLeg, arrived: boolean, visited: boolean, add: Add): void {
  const { network } = build;
  const { from: stop } = leg;
  const leave = nodeOf(build, `${stop.id}.leave`);
  const here = { place: stop.place, vehicle: run.vehicle };
  if (!arrived) {
    const loading = load(build, run, leg, add);
    if (visited) network.atLeast(nodeOf(build, `${stop.id}.packed`), loading, 0);
  } else {
    if (isCalledAgain(build, leg)) load(build, run, leg, add);
    const arrive = nodeOf(build, `${stop.id}.arrive`);
    network.atLeast(
      arrive,
      leave,
      stop.stayMinutes ?? 0,
      stop.stayMinutes === null ? null : label("stay", { ...here, where: [...stop.path, "stay"] }),
    );
    const stands = build.nodes.get(`${stop.id}.${visited ? "packed" : "parked"}`);
    if (stands !== undefined) network.atLeast(stands, leave, 0);
  }
  const entered = build.entered.stops.has(stop.id);
  if (entered && stop.leave !== null) {
    network.fixed(leave, stop.leave, label(`${stop.id} leave`, { ...here, where: [...stop.path, "leave"] }));
  }
  if (entered && stop.ferry !== null) {
    const where = [...stop.path, "ferry", "sail"];
    network.fixed(leave, stop.ferry.sail, label(`${stop.id} sail`, { ...here, where }));
  }
  if (stop.ferry !== null) build.bounded.add(run.vehicle);
  const fixed = entered && (stop.leave !== null || stop.ferry !== null);
  add(`${stop.id}.leave`, { fixed, departure: true });
}

/** Whether someone aboard comes from a stand-down: its end is a call, and they load as for the first. */
const isCalledAgain = ({ order, entered }: Build, leg: OrderedLeg): boolean =>
  leg.aboard.some((id) => {
    const person = order.people.get(id);
    return person !== undefined && standdownBefore(order, person, leg, entered.activities) !== null;
  });

/** Loading before a departure, with the walk-around of a commercial vehicle before it; gives the instant it begins. */
function load(build: Build, run: Run, leg: OrderedLeg, add: Add): number {
  const { network, plan } = build;
  const stop = leg.from;
  const here = { place: stop.place, vehicle: run.vehicle };
  const loading = nodeOf(build, `${stop.id}.loading`);
  const text = label("loading", { ...here, where: rulePath(plan, "loading") });
  network.exactly(loading, nodeOf(build, `${stop.id}.leave`), loadingMinutes(build.order, leg), text);
  if (isDriverOfCommercial(plan, run.vehicle)) {
    add(`${stop.id}.walkAround`);
    const walk = label("walk-around", { ...here, where: rulePath(plan, "walkAround") });
    network.exactly(nodeOf(build, `${stop.id}.walkAround`), loading, plan.rules.walkAround, walk);
  }
  add(`${stop.id}.loading`);
  return loading;
}

/** What is done at the last stop comes before unloading; a stand-down there begins after it. */
function lastActivities(build: Build, stop: Stop, unload: number, unloaded: number): void {
  const visit = visitAt(build.order, stop);
  for (const id of visit?.activities ?? []) {
    const one = build.order.attendance.get(id);
    if (!build.entered.activities.has(id) || !one?.who.some((who) => visit?.party.includes(who))) continue;
    if (one.activity.kind === "standdown") build.network.atLeast(unloaded, nodeOf(build, `${id}.start`), 0);
    else build.network.atLeast(nodeOf(build, `${id}.end`), unload, 0);
  }
}

/** The end of a run: unload, and the post-trip of a commercial vehicle's last driver. */
function finish(
  build: Build,
  run: Run,
  stop: Stop,
  arriving: OrderedLeg | undefined,
  visited: boolean,
  add: Add,
): void {
  if (arriving === undefined) return;
  const { network, plan } = build;
  const here = { place: stop.place, vehicle: run.vehicle };
  const unload = nodeOf(build, `${stop.id}.unload`);
  const unloaded = nodeOf(build, `${stop.id}.unloaded`);
  network.atLeast(nodeOf(build, `${stop.id}.arrive`), unload, stop.stayMinutes ?? 0);
  const stands = build.nodes.get(`${stop.id}.${visited ? "packed" : "parked"}`);
  if (stands !== undefined) network.atLeast(stands, unload, 0);
  lastActivities(build, stop, unload, unloaded);
  network.exactly(unload, unloaded, plan.rules.unload, label("unload", { ...here, where: rulePath(plan, "unload") }));
  add(`${stop.id}.unload`);
  add(`${stop.id}.unloaded`);
  if (!isDriverOfCommercial(plan, run.vehicle)) return;
  const checked = nodeOf(build, `${stop.id}.checked`);
  network.exactly(
    unloaded,
    checked,
    plan.rules.postTrip,
    label("post-trip", { ...here, where: rulePath(plan, "postTrip") }),
  );
  add(`${stop.id}.checked`);
}
