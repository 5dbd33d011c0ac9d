/**
 * A network of instants: difference constraints `to >= from + weight` between nodes, with the name of each length kept.
 *
 * Node 0 is the origin of the time line, so a fixed instant is a pair of edges to and from it. The engine builds one network
 * for a day, asks for earliest and latest values, and reads the chains behind them off the same edges.
 */
import type { PlanPath } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";

/** What a length is, as `why` and conflicts tell it. */
export interface Label {
  readonly name: string;
  readonly where: PlanPath | null;
  readonly place: Id | null;
  readonly vehicle: Id | null;
  readonly activity: Id | null;
}

/** What puts two things in an order that a fact may turn round: the plan's line for it, or null for an order of the house. */
export interface Rule {
  readonly key: "do" | "after" | "before" | "time" | "set-up";
  readonly first: Id;
  readonly second: Id;
  readonly where: PlanPath | null;
}

/** A length between two nodes, in minutes; `bound` says what it comes from. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  /** Minutes; `to >= from + weight`. */
  readonly weight: number;
  readonly label: Label | null;
  /** Upper bounds lead back to the origin: what a conflict is named by; `window` also for `by`. */
  readonly bound: "none" | "fixed" | "window";
  /** A fixed length read backwards, its minutes negative. */
  readonly backward: boolean;
  readonly rule: Rule | null;
}

/** The node of the instant zero. */
export const ORIGIN = 0;

/** Nodes and the lengths between them. */
export class Network {
  readonly names: string[] = ["origin"];
  readonly edges: Edge[] = [];
  readonly #out: Edge[][] = [[]];
  readonly #in: Edge[][] = [[]];

  /** Adds an instant; `name` is the id that `why` takes. */
  node(name: string): number {
    this.names.push(name);
    this.#out.push([]);
    this.#in.push([]);
    return this.names.length - 1;
  }

  get size(): number {
    return this.names.length;
  }

  out(node: number): readonly Edge[] {
    return this.#out[node] ?? [];
  }

  into(node: number): readonly Edge[] {
    return this.#in[node] ?? [];
  }

  #add(edge: Edge): void {
    this.edges.push(edge);
    this.#out[edge.from]?.push(edge);
    this.#in[edge.to]?.push(edge);
  }

  /** `to` at least `weight` minutes after `from`. */
  atLeast(from: number, to: number, weight: number, label: Label | null = null, rule: Rule | null = null): void {
    this.#add({ from, to, weight, label, bound: "none", backward: false, rule });
  }

  /** `to` exactly `weight` minutes after `from`. */
  exactly(from: number, to: number, weight: number, label: Label | null): void {
    this.#add({ from, to, weight, label, bound: "none", backward: false, rule: null });
    this.#add({ from: to, to: from, weight: -weight, label, bound: "none", backward: true, rule: null });
  }

  notBefore(node: number, at: number, label: Label): void {
    this.#add({ from: ORIGIN, to: node, weight: at, label, bound: "none", backward: false, rule: null });
  }

  notAfter(node: number, at: number, label: Label, bound: "fixed" | "window"): void {
    this.#add({ from: node, to: ORIGIN, weight: -at, label, bound, backward: false, rule: null });
  }

  /** Replaces each edge by what `change` makes of it. */
  change(change: (edge: Edge) => readonly Edge[]): void {
    const edges = this.edges.splice(0).flatMap(change);
    for (const list of [...this.#out, ...this.#in]) list.length = 0;
    for (const edge of edges) this.#add(edge);
  }

  fixed(node: number, at: number, label: Label): void {
    this.notBefore(node, at, label);
    this.notAfter(node, at, label, "fixed");
  }
}

type Use = (edge: Edge) => boolean;

/**
 * Longest distances over the edges that `use` admits: `forward` from the origin to every node (its earliest instant),
 * `backward` from every node to the origin (minus its latest instant); -Infinity where there is no way.
 * Null where a cycle of edges gains on every turn. The instants in `pinned` are taken as given and never moved. With a
 * `floor` every node is at least that, so that a cycle is found wherever it lies.
 */
function longest(
  network: Network,
  direction: "forward" | "backward",
  use: Use,
  pinned: ReadonlyMap<number, number>,
  floor = -Infinity,
): Float64Array | null {
  const forward = direction === "forward";
  const value = new Float64Array(network.size).fill(floor);
  const queued = new Uint8Array(network.size).fill(floor > -Infinity ? 1 : 0);
  const turns = new Int32Array(network.size);
  const queue: number[] = floor > -Infinity ? Array.from(value.keys()) : [ORIGIN];
  value[ORIGIN] = 0;
  for (const [node, at] of pinned) {
    value[node] = forward ? at : -at;
    queued[node] = 1;
    queue.push(node);
  }
  for (let head = 0; head < queue.length; head++) {
    const here = queue[head] ?? ORIGIN;
    queued[here] = 0;
    for (const edge of forward ? network.out(here) : network.into(here)) {
      const next = forward ? edge.to : edge.from;
      if (!use(edge) || pinned.has(next)) continue;
      const reach = (value[here] ?? -Infinity) + edge.weight;
      if (reach <= (value[next] ?? -Infinity)) continue;
      if (next === ORIGIN) return null;
      value[next] = reach;
      if (queued[next]) continue;
      turns[next] = (turns[next] ?? 0) + 1;
      if ((turns[next] ?? 0) > network.size) return null;
      queued[next] = 1;
      queue.push(next);
    }
  }
  return value;
}

const nothing: ReadonlyMap<number, number> = new Map();

/** Earliest instants, -Infinity where nothing bounds a node from below; null for a contradiction. */
export const earliest = (network: Network, use: Use, pinned = nothing): Float64Array | null =>
  longest(network, "forward", use, pinned);

/** Latest instants, Infinity where nothing bounds a node from above; null for a contradiction. */
export const latestInstants = (network: Network, use: Use, pinned = nothing): Float64Array | null =>
  longest(network, "backward", use, pinned)?.map((distance) => -distance) ?? null;

/** The name of the bounds of what was logged or is past. */
export const AS_IT_WENT = "as it went";

/** Without the bounds of what was logged: how late it could have been. */
export const plannedBounds: Use = (edge) => edge.bound === "none" || edge.label?.name !== AS_IT_WENT;
/** All edges. */
export const everything: Use = () => true;
/** The edges that only push later. */
export const lowerBounds: Use = (edge) => edge.bound === "none";
/** The edges that are not windows. */
export const fixedOnly: Use = (edge) => edge.bound !== "window";

/** Whether all constraints can hold at once: no cycle of edges gains, also none that nothing fixed leads to. */
export const feasible = (network: Network): boolean => longest(network, "forward", everything, nothing, 0) !== null;

/** Two edges that cannot both hold. */
export interface Conflict {
  /** The edge from the origin that starts the chain and the bound that it runs into. */
  readonly start: Edge;
  readonly bound: Edge;
  /** The edges between them, in time order. */
  readonly chain: readonly Edge[];
  readonly shortMinutes: number;
  /** The names of the instants that are fixed by the two edges. */
  readonly startName: string;
  readonly boundName: string;
}

/**
 * The tightest path between two fixed instants of an infeasible network: the one that is short by most, then with the
 * fewest terms, then first in plan order. Null where a cycle without any fixed instant is the cause.
 */
export function tightestConflict(network: Network): Conflict | null {
  const best = labelledLongest(network);
  if (best === null) return null;
  let worst: { bound: Edge; short: number; terms: number } | null = null;
  for (const bound of network.edges) {
    if (bound.bound === "none") continue;
    const short = (best.value[bound.from] ?? -Infinity) + bound.weight;
    if (!(short > 0)) continue;
    const terms = best.terms[bound.from] ?? 0;
    if (worst === null || short > worst.short || (short === worst.short && terms < worst.terms)) {
      worst = { bound, short, terms };
    }
  }
  if (worst === null) return null;
  const path: Edge[] = [];
  for (let node = worst.bound.from; node !== ORIGIN; ) {
    const edge = best.by[node];
    if (edge === undefined) return null;
    path.unshift(edge);
    node = edge.from;
  }
  const [start, ...chain] = path;
  if (start === undefined) return null;
  const { bound, short } = worst;
  const [startName = "", boundName = ""] = [network.names[start.to], network.names[bound.from]];
  return { start, bound, chain, shortMinutes: short, startName, boundName };
}

interface Labelled {
  readonly value: readonly number[];
  readonly terms: readonly number[];
  readonly by: readonly (Edge | undefined)[];
}

/** Longest paths from the origin over lower bounds, then with the fewest terms; null for a cycle that gains. */
function labelledLongest(network: Network): Labelled | null {
  const value = new Array<number>(network.size).fill(-Infinity);
  const terms = new Array<number>(network.size).fill(0);
  const by = new Array<Edge | undefined>(network.size).fill(undefined);
  value[ORIGIN] = 0;
  for (let round = 0; round <= network.size; round++) {
    let changed = false;
    for (const edge of network.edges) {
      const base = value[edge.from] ?? -Infinity;
      if (edge.bound !== "none" || base === -Infinity || edge.to === ORIGIN) continue;
      const reach = base + edge.weight;
      const count = (terms[edge.from] ?? 0) + (edge.label === null ? 0 : 1) + 1e-6;
      const old = value[edge.to] ?? -Infinity;
      if (reach < old || (reach === old && count >= (terms[edge.to] ?? 0))) continue;
      value[edge.to] = reach;
      terms[edge.to] = count;
      by[edge.to] = edge;
      changed = true;
    }
    if (!changed) return { value, terms, by };
  }
  return null;
}

/** The names of the instants on a cycle that gains on every turn, whatever is fixed; null where there is none. */
export function cycleOf(network: Network): readonly string[] | null {
  const value = new Float64Array(network.size);
  const by = new Array<Edge | undefined>(network.size).fill(undefined);
  let raised: Edge | undefined;
  for (let round = 0; round <= network.size; round++) {
    raised = undefined;
    for (const edge of network.edges) {
      if (edge.bound !== "none" || edge.from === ORIGIN) continue;
      const reach = (value[edge.from] ?? 0) + edge.weight;
      if (reach <= (value[edge.to] ?? 0)) continue;
      value[edge.to] = reach;
      by[edge.to] = edge;
      raised = edge;
    }
    if (raised === undefined) return null;
  }
  let node = raised?.from ?? ORIGIN;
  for (let step = 0; step < network.size; step++) node = by[node]?.from ?? node;
  const cycle: string[] = [];
  for (let at = node; ; ) {
    cycle.unshift(network.names[at] ?? "");
    at = by[at]?.from ?? node;
    if (at === node) return cycle;
  }
}
