/**
 * Fits the plan to what stands: lengths between two pinned instants last as long as they did, and an order that a fact
 * contradicts is turned round or dropped. What cannot be fitted is two facts that contradict each other.
 */
import { sumOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { type Interval, instant } from "../../time/units.ts";
import {
  AS_IT_WENT,
  type Conflict,
  type Edge,
  type Label,
  latestInstants,
  ORIGIN,
  type Rule,
} from "../network/network.ts";
import type { Build } from "../network/nodes.ts";
import type { Pin, Pins } from "./pins.ts";

/** What gives way; edges by the names of their ends. */
export interface Fit {
  /** Lengths that last fewer minutes. */
  readonly shorter: ReadonlyMap<string, number>;
  /** Exact lengths that last longer. */
  readonly longer: ReadonlySet<string>;
  /** Orders that do not hold; by key, first and second. */
  readonly dropped: ReadonlyMap<string, Rule>;
  /** Of those, what comes in the other order. */
  readonly turned: ReadonlySet<string>;
  /** Between which two pinned instants there was less time than planned. */
  readonly hurried: readonly Interval[];
  /** Instants that follow the end of a hit and not its clear, which whoever stays goes through; by `hit.clear>instant`. */
  readonly eased: ReadonlySet<string>;
  /** Windows and fixed times that do not hold. */
  readonly unbound: ReadonlyMap<string, Edge>;
}

/** A day in which nothing was logged. */
export const AS_PLANNED: Fit = {
  shorter: new Map(),
  longer: new Set(),
  dropped: new Map(),
  turned: new Set(),
  hurried: [],
  eased: new Set(),
  unbound: new Map(),
};

const nameOf = ({ network }: Build, node: number): string => network.names[node] ?? "";
const keyOf = (build: Build, edge: Edge): string => `${nameOf(build, edge.from)}>${nameOf(build, edge.to)}`;
/** The same key in both directions of an exact length. */
const lengthKey = (build: Build, edge: Edge): string =>
  edge.backward ? `${nameOf(build, edge.to)}>${nameOf(build, edge.from)}` : keyOf(build, edge);
const boundKey = (build: Build, edge: Edge): string => `${keyOf(build, edge)} ${edge.label?.name ?? ""}`;
const ruleKey = ({ key, first, second }: Rule): string => `${key} ${first} ${second}`;
const turnKey = ({ first, second }: Rule): string => `${first} ${second}`;

/** Puts what stands into a network, with everything else as it fits. */
export function pinDown(build: Build, pins: Pins, fit: Fit): void {
  const { network, nodes } = build;
  const pinned = new Map<number, Pin>();
  for (const [name, pin] of pins.at) {
    const node = nodes.get(name);
    if (node !== undefined) pinned.set(node, pin);
  }
  if (pinned.size > 0 || fit !== AS_PLANNED) network.change((edge) => changed(build, pinned, fit, edge));
  for (const [node, pin] of pinned) network.fixed(node, pin.at, labelled(AS_IT_WENT));
  for (const [stop, at] of pins.standing) {
    const leave = nodes.get(`${stop}.leave`);
    if (leave !== undefined && !pinned.has(leave) && !fit.unbound.has(stoodKey(stop)))
      network.notBefore(leave, at, labelled(leavingOf(stop)));
  }
  if (pins.now !== null) fromNowOn(build, pins, pinned, pins.now);
}

/**
 * What has not begun is not before `now`. An edit may give a vehicle something to do where it already stands, or take the last
 * hit from it: what follows its arrival or the hit before then begins now, though it comes before something done meanwhile. What
 * stands leaves no room for that at a stop which it has left: there only what is to be done waits, and is missed.
 */
function fromNowOn(
  { network, nodes, entered }: Build,
  { done }: Pins,
  pinned: ReadonlyMap<number, Pin>,
  now: number,
): void {
  const label = labelled("now");
  const late: Edge[] = [];
  const isOpen = (node: number): boolean => node !== ORIGIN && !pinned.has(node);
  const toDo = new Set<number>();
  for (const [name, node] of nodes) {
    const id = name.slice(0, name.lastIndexOf("."));
    if (entered.activities.has(id) && !done.has(id) && isOpen(node)) toDo.add(node);
  }
  network.change((edge) => {
    if (!isOpen(edge.from) || toDo.has(edge.from)) return [edge];
    if (edge.rule !== null && (pinned.get(edge.to)?.at ?? now) < now) return [];
    const begun = edge.backward ? pinned.get(edge.to) : undefined;
    if (begun === undefined || begun.at - edge.weight >= now) return [edge];
    late.push(edge);
    return [];
  });
  const latest = latestInstants(network, (edge) => edge.bound === "none" || edge.label?.name === AS_IT_WENT);
  const bound = (node: number, at: number): void => {
    if (latest === null || (latest[node] ?? at) >= at) network.notBefore(node, at, label);
  };
  for (const { from, weight } of late) bound(from, now - weight);
  for (const node of nodes.values()) {
    if (toDo.has(node)) network.notBefore(node, now, label);
    else if (isOpen(node)) bound(node, now);
  }
}

/** The key of the bound that a vehicle which was seen standing puts on its departure. */
const stoodKey = (stop: Id): string => `origin>${stop}.leave ${leavingOf(stop)}`;

const leavingOf = (stop: Id): string => `${stop} leaving`;

const labelled = (name: string): Label => ({ name, where: null, place: null, vehicle: null, activity: null });

function changed(build: Build, pinned: ReadonlyMap<number, Pin>, fit: Fit, edge: Edge): readonly Edge[] {
  const node = edge.from === ORIGIN ? edge.to : edge.to === ORIGIN ? edge.from : null;
  if (node !== null) {
    const pin = pinned.get(node);
    const holds = pin === undefined || (edge.to === ORIGIN ? pin.at <= -edge.weight : pin.at >= edge.weight);
    return holds && !fit.unbound.has(boundKey(build, edge)) ? [edge] : [];
  }
  if (edge.rule !== null && fit.dropped.has(ruleKey(edge.rule))) {
    if (!fit.turned.has(turnKey(edge.rule))) return [];
    const [from, to] = [lastOf(build, edge.rule.second), firstOf(build, edge.rule.first)];
    return from === undefined || to === undefined ? [] : [{ ...edge, from, to, rule: null }];
  }
  const own = fit.eased.has(lengthKey(build, edge)) ? fromEnd(build, edge) : edge;
  const key = lengthKey(build, own);
  if (own.backward && fit.longer.has(key)) return [];
  const minutes = fit.shorter.get(key);
  // What was shortened is no longer than it is planned in other weather or on another way to a hit.
  if (minutes === undefined || minutes >= Math.abs(own.weight)) return [own];
  return [{ ...own, weight: own.backward ? -minutes : minutes }];
}

/** From the end of the hit in place of its clear. */
function fromEnd(build: Build, edge: Edge): Edge {
  const clear = edge.backward ? edge.to : edge.from;
  const end = build.nodes.get(nameOf(build, clear).replace(/clear$/u, "end")) ?? clear;
  return edge.backward ? { ...edge, to: end } : { ...edge, from: end };
}

/**
 * Where who left early would cut short the clear of a hit that others stay for: the same with their leaving from its end.
 * Null if no one stays.
 */
function easedFor(build: Build, fit: Fit, { chain, bound }: Conflict, shorter: Fit): Fit | null {
  const stop = nameOf(build, bound.from).replace(/\.\w+$/u, "");
  const leg = build.order.legs.find(({ id }) => id === stop);
  const at = chain.findIndex((edge) => edge.label?.name === "clear" && shorter.shorter.has(lengthKey(build, edge)));
  const [clear, next] = [chain[at], chain[at + 1]];
  if (leg === undefined || clear === undefined || next === undefined) return null;
  const who = build.order.attendance.get(clear.label?.activity ?? "")?.who ?? [];
  if (who.every((id) => leg.aboard.includes(id))) return null;
  return { ...fit, eased: new Set(fit.eased).add(lengthKey(build, next)) };
}

const firstOf = ({ nodes }: Build, id: Id): number | undefined =>
  nodes.get(`${id}.lineCheck`) ?? nodes.get(`${id}.inPosition`) ?? nodes.get(`${id}.start`);

const lastOf = ({ nodes }: Build, id: Id): number | undefined => nodes.get(`${id}.clear`) ?? nodes.get(`${id}.end`);

/** What gives way first where there was less time than planned; what is not named here, after it and before the drive. */
const GIVES: readonly string[] = [
  "stay",
  "set-up",
  "dish-up",
  "strike",
  "clear",
  "unload",
  "post-trip",
  "walk-around",
  "loading",
  "park",
  "line check",
  "in position",
];

function rankOf({ label }: Edge): number {
  const at = GIVES.indexOf(label?.name ?? "");
  if (label?.name === "drive") return GIVES.length + 1;
  return at < 0 ? GIVES.length : at;
}

const isBoundByStanding = (build: Build, { standing }: Pins, start: Edge): boolean =>
  [...standing.keys()].some((stop) => boundKey(build, start) === stoodKey(stop));

/** A day fitted to the facts, or why it cannot be. */
export type Fitted =
  | { readonly fit: Fit }
  /** Two pins that cannot both be, the one that comes first in the plan's order before the other. */
  | { readonly first: string; readonly second: string };

/** One step: the same with what resolves a conflict between two pinned instants. */
export function resolve(build: Build, pins: Pins, fit: Fit, conflict: Conflict): Fitted {
  const { start, chain, bound } = conflict;
  const isStood = isBoundByStanding(build, pins, start);
  const loose = [start, bound].find((edge) => !isPin(build, pins, edge) && !(isStood && edge === start));
  if (loose !== undefined) return { fit: { ...fit, unbound: added(fit.unbound, boundKey(build, loose), loose) } };
  const backwards = chain.filter((edge) => edge.backward);
  const longest = backwards.toSorted((a, b) => rankOf(b) - rankOf(a) || a.weight - b.weight)[0];
  if (longest !== undefined) return { fit: { ...fit, longer: new Set(fit.longer).add(lengthKey(build, longest)) } };
  const setUp = chain.find(({ rule }) => rule?.key === "set-up" && build.plan.tasks.has(rule.second));
  if (setUp?.rule) return { fit: dropping(fit, setUp.rule) };
  const lengths = chain.filter((edge) => edge.weight > 0);
  const room = sumOf(lengths, ({ weight }) => weight);
  const ruled = chain.find(({ rule }) => rule !== null);
  if (room < conflict.shortMinutes) {
    if (ruled?.rule) return { fit: dropping(fit, ruled.rule) };
    if (isStood) return { fit: { ...fit, unbound: added(fit.unbound, boundKey(build, start), start) } };
    return { first: nameOf(build, start.to), second: nameOf(build, bound.from) };
  }
  const between = { from: instant(start.weight), to: instant(-bound.weight) };
  const shorter = shortened(build, fit, lengths, conflict.shortMinutes, ({ weight }) => weight);
  const eased = easedFor(build, fit, conflict, shorter);
  if (eased !== null) return { fit: eased };
  return { fit: { ...shorter, hurried: [...fit.hurried, between] } };
}

const isPin = ({ network }: Build, pins: Pins, edge: Edge): boolean =>
  edge.label?.name === AS_IT_WENT && pins.at.has(network.names[edge.from === ORIGIN ? edge.to : edge.from] ?? "");

/** Whether only what stands contradicts itself here. */
export const isBetweenPins = (build: Build, pins: Pins, { start, bound }: Conflict): boolean =>
  isPin(build, pins, start) && isPin(build, pins, bound);

const added = <V>(map: ReadonlyMap<string, V>, key: string, value: V): ReadonlyMap<string, V> =>
  new Map(map).set(key, value);

const dropping = (fit: Fit, rule: Rule): Fit => ({ ...fit, dropped: added(fit.dropped, ruleKey(rule), rule) });

/** What gives way before the rest does: a drive no more than half of its minutes. */
const mayGive = ({ weight, label }: Edge): number => (label?.name === "drive" ? Math.floor(weight / 2) : weight);

const moreThanNone = ({ weight, label }: Edge): number => (label?.name === "drive" ? weight - 1 : weight);

function shortened(build: Build, fit: Fit, lengths: readonly Edge[], by: number, most: (edge: Edge) => number): Fit {
  const shorter = new Map(fit.shorter);
  const taken = new Map<Edge, number>();
  let left = by;
  const inTurn = lengths.toSorted((a, b) => rankOf(a) - rankOf(b));
  // No drive gives more while another can still give, and none is gone while another has a minute.
  for (const upTo of [mayGive, moreThanNone, ({ weight }: Edge): number => weight]) {
    for (const edge of inTurn) {
      const given = edge.weight - (taken.get(edge) ?? edge.weight);
      const less = Math.max(0, Math.min(left, Math.min(most(edge), upTo(edge)) - given));
      if (less === 0) continue;
      taken.set(edge, edge.weight - given - less);
      shorter.set(lengthKey(build, edge), edge.weight - given - less);
      left -= less;
    }
  }
  return { ...fit, shorter };
}

/**
 * What is planned before something that happened took place all the same where the work between them alone can have been
 * shorter: a vehicle that left early was loaded faster, one that arrived early drove faster, a stand-down ended with it. Null
 * where there was not room enough, or a fact comes first.
 */
export function workedFaster(build: Build, pins: Pins, fit: Fit, conflict: Conflict): Fit | null {
  const { start, chain, bound, shortMinutes } = conflict;
  const isFact = isPin(build, pins, bound) && hasHappened(build, pins, nameOf(build, bound.from));
  const isBound = start.label?.name === "now" || isBoundByStanding(build, pins, start) || isPin(build, pins, start);
  if (!isFact || isBound || chain.some(({ backward }) => backward)) return null;
  const gives = (name: string): boolean =>
    GIVES.includes(name) || name === "drive" || build.plan.tasks.get(name)?.kind === "standdown";
  const lengths = chain.filter(({ weight, label }) => weight > 0 && gives(label?.name ?? ""));
  if (sumOf(lengths, mayGive) < shortMinutes) return null;
  const shorter = shortened(build, fit, lengths, shortMinutes, mayGive);
  const between = { from: instant(start.weight), to: instant(-bound.weight) };
  return easedFor(build, fit, conflict, shorter) ?? { ...shorter, hurried: [...fit.hurried, between] };
}

/** What was logged, and the departure that is filled in for a logged arrival. */
function hasHappened({ order }: Build, { at }: Pins, name: string): boolean {
  const leg = order.legs.find(({ from }) => `${from.id}.leave` === name);
  return [name, `${leg?.to.id}.arrive`].some((one) => at.get(one)?.how === "as it went");
}

/** Whether nothing gives way in `next` that does not in `before`. */
export const givesNoMore = (before: Fit, next: Fit): boolean =>
  [...next.shorter].every(([key, minutes]) => minutes >= (before.shorter.get(key) ?? Infinity)) &&
  [...next.longer].every((key) => before.longer.has(key)) &&
  [...next.eased].every((key) => before.eased.has(key)) &&
  [...next.dropped.keys()].every((key) => before.dropped.has(key)) &&
  [...next.unbound.keys()].every((key) => before.unbound.has(key));

/**
 * The orders between `id` and facts that a refusal of `id` runs into, turned round, with all else that puts the same two in
 * that order; null where there are none.
 */
export function turnedRound(
  { network }: Build,
  fit: Fit,
  id: Id,
  facts: (id: Id) => boolean,
  { chain }: Conflict,
): Fit | null {
  const others = chain.flatMap(({ rule }) => {
    const other = rule?.first === id ? rule.second : rule?.second === id ? rule.first : null;
    return rule === null || other === null || !facts(other) ? [] : [rule];
  });
  const alike = network.edges.flatMap(({ rule }) =>
    rule !== null && others.some(({ first, second }) => first === rule.first && second === rule.second) ? [rule] : [],
  );
  const fresh = [...others, ...alike].filter((rule) => !fit.dropped.has(ruleKey(rule)));
  if (fresh.length === 0) return null;
  return {
    ...fit,
    dropped: new Map([...fit.dropped, ...fresh.map((rule): [string, Rule] => [ruleKey(rule), rule])]),
    turned: new Set([...fit.turned, ...fresh.map(turnKey)]),
  };
}

/** Whether a stretch between two named instants lasted otherwise than planned, or lies where there was less time. */
export const wentOtherwise = (
  { shorter, longer, hurried }: Fit,
  { from, to }: Interval,
  [start, end]: readonly [string, string],
): boolean =>
  shorter.has(`${start}>${end}`) ||
  longer.has(`${start}>${end}`) ||
  hurried.some((between) => between.from <= from && to <= between.to);
