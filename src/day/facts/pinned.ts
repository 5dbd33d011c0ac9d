/**
 * What has happened: instants as they went (from `actual`) and, with `--now`, as they were planned. They are fixed before
 * anything else; between two of them lengths are as it went, and nothing else is before now.
 */
import type { Hit, Id, Plan, Task } from "../../plan/plan.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { Build, RunItem } from "../network/build.ts";
import { type Edge, feasible, type Label, ORIGIN } from "../network/network.ts";
import type { Placed } from "../network/place.ts";

export interface Frozen {
  /** By instant name. */
  readonly at: ReadonlyMap<string, Frost>;
  /** Every other instant is not before this one; null for a day that is not under way. */
  readonly now: Instant | null;
}

export interface Frost {
  readonly at: Instant;
  readonly how: "as it went" | "as planned";
}

/** The plan with hits and tasks at the times and lengths they really had. */
export function asItWent(plan: Plan): Plan {
  if (plan.actual.activities.size === 0) return plan;
  return { ...plan, hits: mapped(plan.hits, plan, lived), tasks: mapped(plan.tasks, plan, lived) };
}

const mapped = <T extends Hit | Task>(
  all: ReadonlyMap<Id, T>,
  plan: Plan,
  change: (one: T, went: Went) => T,
): ReadonlyMap<Id, T> =>
  new Map(
    [...all].map(([id, one]) => {
      const went = plan.actual.activities.get(id);
      return [id, went === undefined ? one : change(one, went)];
    }),
  );

type Went = { readonly at: Instant | null; readonly end: Instant | null };

function lived<T extends Hit | Task>(one: T, { at, end }: Went): T {
  const start = at ?? (one.kind === "hit" ? one.at : null);
  const length = start !== null && end !== null && end > start ? { forMinutes: end - start } : {};
  return at !== null && one.kind === "hit" ? { ...one, at, ...length } : { ...one, ...length };
}

/** The instants that `actual` states. */
export function frozenBy(plan: Plan): Frozen {
  const at = new Map<string, Frost>();
  const put = (name: string, when: Instant | null): void => {
    if (when !== null) at.set(name, { at: when, how: "as it went" });
  };
  for (const [id, went] of plan.actual.activities) {
    put(`${id}.start`, went.at);
    put(`${id}.end`, went.at === null ? null : went.end);
  }
  for (const [id, went] of plan.actual.stops) {
    put(`${id}.arrive`, went.arrived);
    put(`${id}.leave`, went.left);
  }
  return { at, now: null };
}

/** Freezes everything before `now` where the day as planned puts it; a vehicle stated to stand somewhere has not left it. */
export function frozenUpTo(placed: Placed, before: Frozen, now: Instant): Frozen {
  const at = new Map(before.at);
  const ahead = stillAhead(placed);
  for (const [name, node] of placed.build.nodes) {
    const value = placed.value[node];
    if (value === undefined || !Number.isFinite(value) || value >= now || at.has(name) || ahead.has(node)) continue;
    at.set(name, { at: instant(value), how: "as planned" });
  }
  return { at, now };
}

/** Instants that cannot have happened, because `actual` says where the vehicle stands: its departure there and all after it. */
function stillAhead({ build, value }: Placed): ReadonlySet<number> {
  const ahead = new Set<number>();
  for (const [vehicle, { place, since }] of build.plan.actual.vehicles) {
    const stops = build.plan.runs.get(vehicle)?.stops ?? [];
    const arrived = (id: Id): number => value[build.nodes.get(`${id}.arrive`) ?? -1] ?? Number.NEGATIVE_INFINITY;
    const reached = stops.filter((stop) => stop.place === place);
    const here = reached.findLast((stop) => since === null || arrived(stop.id) <= since) ?? reached[0];
    const items = build.items.get(vehicle) ?? [];
    const leaves = items.findIndex((item) => item.departure && stops[item.stop] === here);
    if (here !== undefined && leaves >= 0) for (const item of items.slice(leaves)) ahead.add(item.node);
  }
  return ahead;
}

/** Puts what is frozen into a network and lets the lengths between two frozen instants be as they went. */
export function freeze(build: Build, frozen: Frozen): void {
  if (frozen.at.size === 0 && frozen.now === null) return;
  const fixed = new Map<number, Frost>();
  for (const [name, frost] of frozen.at) {
    const node = build.nodes.get(name);
    if (node !== undefined) fixed.set(node, frost);
  }
  const drives = (edge: Edge): boolean => edge.label?.name === "drive" && !(fixed.has(edge.from) && fixed.has(edge.to));
  build.network.relax((edge) => !drives(edge) && between(build, fixed, edge));
  for (const [node, frost] of fixed) build.network.fixed(node, frost.at, labelled(frost.how));
  // A drive keeps its length and a wait stretches, unless there was less time than that.
  if (!feasible(build.network)) build.network.relax((edge) => drives(edge) && between(build, fixed, edge));
  if (frozen.now === null) return;
  for (const node of build.nodes.values()) {
    if (!fixed.has(node)) build.network.notBefore(node, frozen.now, labelled("now"));
  }
}

const labelled = (name: string): Label => ({ name, where: null, place: null, vehicle: null, activity: null });

/** Whether an edge lies between two frozen instants of one run, or joins two of them. */
function between(build: Build, fixed: ReadonlyMap<number, Frost>, edge: Edge): boolean {
  if (edge.from === ORIGIN || edge.to === ORIGIN) return fixed.has(edge.from) || fixed.has(edge.to);
  if (fixed.has(edge.from) && fixed.has(edge.to)) return true;
  return [...build.items.values()].some((items) => sameStretch(items, fixed, edge));
}

function sameStretch(items: readonly RunItem[], fixed: ReadonlyMap<number, Frost>, edge: Edge): boolean {
  const [a, b] = [edge.from, edge.to].map((node) => items.findIndex((item) => item.node === node));
  if (a === undefined || b === undefined || a < 0 || b < 0) return false;
  const [first, last] = [Math.min(a, b), Math.max(a, b)];
  const isFixed = (item: RunItem): boolean => fixed.has(item.node);
  const from = items.findLastIndex((item, index) => index <= first && isFixed(item));
  const to = items.findIndex((item, index) => index >= last && isFixed(item));
  const inside = items.some((item, index) => index > first && index < last && isFixed(item));
  return from >= 0 && to >= 0 && !inside;
}

/** Whether two instants are both as they went: then the time between them is told as such. */
export const wentBetween = (frozen: Frozen, { from, to }: Interval): boolean => {
  const went = new Set([...frozen.at.values()].filter((frost) => frost.how === "as it went").map((frost) => frost.at));
  return went.has(from) && went.has(to);
};
