/**
 * Placing: fixed instants; then from a run's first instant, and from the departure of a stop that waits, to the run's next
 * fixed instant as late as all fixed instants and windows allow; everything else as early as it can be; and what nothing
 * bounds from below, late.
 */
import type { Finding } from "../../findings/finding.ts";
import type { Id, Plan, Stop } from "../../plan/plan.ts";
import * as say from "../findings/findings.ts";
import { liveOf } from "../order/visits.ts";
import { earliest, everything, fixedOnly, latestInstants, lowerBounds, plannedBounds } from "./network.ts";
import type { Build, RunItem } from "./nodes.ts";
import { preparationOf } from "./prepare.ts";

/** A network with the instant of each node, minutes since the epoch. */
export interface PlacedDay {
  readonly build: Build;
  /** By node, minutes since the epoch. */
  readonly value: Float64Array;
  /** By node, with every fixed instant and window of the plan kept; Infinity where nothing bounds it. */
  readonly latest: Float64Array;
  /** Nodes that were placed late. */
  readonly late: ReadonlySet<number>;
  readonly findings: readonly Finding[];
}

/** `waits` are the ids of stops whose departure waits: stated, or found for shelter. Needs a network without contradiction. */
export function place(build: Build, waits: ReadonlySet<Id>): PlacedDay {
  const { network } = build;
  const [late, early] = [latestInstants(network, everything), earliest(network, everything)];
  if (late === null || early === null) throw new RangeError("a network with a contradiction has no instants");
  const underFixed = latestInstants(network, fixedOnly) ?? late;
  const underPlan = latestInstants(network, (edge) => fixedOnly(edge) && plannedBounds(edge)) ?? underFixed;
  const room = latestInstants(network, plannedBounds) ?? late;
  const pinned = new Map<number, number>();
  const findings: Finding[] = [];
  for (const [vehicle, items] of build.items) {
    const planned = stretchesOf(build, vehicle, items, waits, underPlan);
    const started =
      planned === null
        ? (startAtWindow(build, vehicle, items, early) ?? startForMissed(build, vehicle, items, { early, late }))
        : null;
    for (const [node, at] of started ?? []) pinned.set(node, at);
    if (started !== null) continue;
    // What was logged fixes a run that nothing in the plan does.
    const stretches = planned ?? stretchesOf(build, vehicle, items, waits, underFixed);
    if (stretches === null) findings.push(unfixed(build.plan, vehicle));
    const bounds = planned === null ? late : room;
    for (const node of stretches ?? []) if (Number.isFinite(bounds[node])) pinned.set(node, late[node] ?? 0);
  }
  const placedEarly = earliest(network, lowerBounds, pinned) ?? early;
  const value = Float64Array.from(placedEarly);
  const unbounded = settleUnbounded(build, value);
  findings.push(...neverPlaced(build, value, findings.length > 0));
  return { build, value, latest: room, late: new Set([...pinned.keys(), ...unbounded]), findings };
}

/** With the hits that the vehicle carries the path of and that come at one of its stops: probably they are what it runs for. */
function unfixed(plan: Plan, vehicle: Id): Finding {
  const run = plan.runs.get(vehicle);
  const carried = [...plan.hits.values()].flatMap(({ id, location, signalPath }) =>
    location.kind === "place" && signalPath !== null && plan.paths.get(signalPath)?.vehicle === vehicle
      ? [{ id, place: location.place }]
      : [],
  );
  const at = run?.stops.find((stop) => carried.some(({ place }) => place === stop.place))?.place ?? null;
  const serves = carried.filter(({ place }) => place === at).map(({ id }) => id);
  return say.runUnfixed.raise({ vehicle, serves, at }, { path: run?.path ?? [] });
}

/** A run with an instant that nothing leads to; not raised besides a run that has nothing fixed at all, which others may wait for. */
function neverPlaced({ items, plan }: Build, value: Float64Array, isRaised: boolean): readonly Finding[] {
  if (isRaised) return [];
  return [...items].flatMap(([vehicle, all]) => {
    if (all.every(({ node }) => Number.isFinite(value[node]))) return [];
    return [unfixed(plan, vehicle)];
  });
}

/** The nodes of a run that are placed late; null where nothing fixes the run. */
function stretchesOf(
  build: Build,
  vehicle: Id,
  items: readonly RunItem[],
  waits: ReadonlySet<Id>,
  underFixed: Float64Array,
): readonly number[] | null {
  const first = items.findIndex((item) => item.fixed);
  const start = first >= 0 ? items.slice(0, first) : boundedStart(build, vehicle, items, underFixed);
  if (start === null) return null;
  const stops = build.plan.runs.get(vehicle)?.stops ?? [];
  const waiting = items.flatMap((item, index) => {
    const stop = stops[item.stop];
    if (!item.departure || item.fixed || stop === undefined || !waits.has(stop.id)) return [];
    const next = items.findIndex((other, at) => at > index && other.fixed);
    return next < 0 ? [] : items.slice(index, next);
  });
  return [...start, ...waiting].map((item) => item.node);
}

/** A run without a fixed instant of its own: up to its last instant that an `arriveBy` or another vehicle's hit bounds. */
function boundedStart(
  build: Build,
  vehicle: Id,
  items: readonly RunItem[],
  underFixed: Float64Array,
): readonly RunItem[] | null {
  const last = items.findLastIndex((item) => (underFixed[item.node] ?? Infinity) < Infinity);
  if (last < 0) return items.length === 0 || build.bounded.has(vehicle) ? [] : null;
  return items.slice(0, last + 1);
}

/** A run that only windows bound starts so that its first windowed task begins with its window, or as soon as it can. */
function startAtWindow(
  build: Build,
  vehicle: Id,
  items: readonly RunItem[],
  early: Float64Array,
): ReadonlyMap<number, number> | null {
  const visits = build.order.visits.filter((visit) => visit.vehicle === vehicle);
  const ids = visits.flatMap((visit) => visit.activities).filter((id) => build.entered.activities.has(id));
  const windowed = ids.find((id) => build.plan.tasks.get(id)?.window != null);
  const start = windowed === undefined ? undefined : build.nodes.get(`${windowed}.start`);
  if (start === undefined) return null;
  return anchored(build, items, start, early[start] ?? 0);
}

/** The nodes of a run up to one that is placed at an instant, as late as that allows. */
function anchored(build: Build, items: readonly RunItem[], node: number, at: number): ReadonlyMap<number, number> {
  const bounds = latestInstants(build.network, everything, new Map([[node, at]]));
  const upTo = items.findIndex((item) => item.node === node);
  const before = items.slice(0, Math.max(0, upTo)).map((item) => item.node);
  return new Map([[node, at], ...before.map((one): [number, number] => [one, bounds?.[one] ?? at])]);
}

/** A run whose stated times are all missed goes as if for the first of them, or as near to that as what was logged allows. */
function startForMissed(
  build: Build,
  vehicle: Id,
  items: readonly RunItem[],
  { early, late }: { readonly early: Float64Array; readonly late: Float64Array },
): ReadonlyMap<number, number> | null {
  for (const stop of build.plan.runs.get(vehicle)?.stops ?? []) {
    const [name, at] = missedAt(build, stop);
    const node = at === null ? undefined : build.nodes.get(`${stop.id}.${name}`);
    if (node !== undefined && at !== null)
      return anchored(build, items, node, Math.min(Math.max(at, early[node] ?? at), late[node] ?? at));
  }
  return null;
}

/** When a vehicle would be at a stop or leave it for a time that is missed there; null where none is. */
function missedAt(build: Build, stop: Stop): readonly ["arrive" | "leave", number | null] {
  const { plan, order, entered } = build;
  const visit = order.visits.find((one) => one.stop === stop);
  for (const id of visit?.activities ?? []) {
    if (visit === undefined || entered.activities.has(id)) continue;
    const live = liveOf(plan, id);
    const from = live?.from ?? plan.tasks.get(id)?.window?.from;
    if (from === undefined) continue;
    const { setUpMinutes, dishUpMinutes } = preparationOf(
      { ...build, entered: { ...entered, activities: new Set([id]) } },
      visit,
    );
    const { inPosition, lineCheck, park } = plan.rules;
    return ["arrive", from - (live === null ? 0 : inPosition + lineCheck) - setUpMinutes - dishUpMinutes - park];
  }
  return stop.leave === null ? ["arrive", stop.arriveBy] : ["leave", stop.leave];
}

/** What nothing bounds from below goes as late as what follows it; gives the nodes of it. */
function settleUnbounded(build: Build, value: Float64Array): readonly number[] {
  const known = new Map<number, number>();
  value.forEach((at, node) => {
    if (at > Number.NEGATIVE_INFINITY) known.set(node, at);
  });
  const unbounded = [...value.keys()].filter((node) => !known.has(node));
  if (unbounded.length === 0) return [];
  const late = latestInstants(build.network, everything, known);
  for (const node of unbounded) value[node] = late?.[node] ?? Number.POSITIVE_INFINITY;
  return unbounded;
}
