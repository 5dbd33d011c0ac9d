/** What every part of the network is made with: the build, its named instants and the labels of its lengths. */
import type { PlanPath } from "../../findings/finding.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import type { Pins } from "../facts/pins.ts";
import type { DayOrder } from "../order/order.ts";
import type { Label, Network } from "./network.ts";
import type { Timing } from "./timing.ts";

/** What takes part: ids of activities, of stops whose own times count, of rides by others. */
export interface Entered {
  readonly activities: ReadonlySet<Id>;
  readonly stops: ReadonlySet<Id>;
  readonly rides: ReadonlySet<Id>;
}

/** One instant of a run, in run order. `fixed` marks those that end a stretch placed late. */
export interface RunItem {
  readonly node: number;
  readonly fixed: boolean;
  /** The stop it belongs to; a leg's halts belong to the stop it leaves from. */
  readonly stop: number;
  readonly departure: boolean;
}

/** A network being built, with the order it is built for. */
export interface Build {
  readonly order: DayOrder;
  readonly plan: Plan;
  readonly timing: Timing;
  readonly entered: Entered;
  readonly pins: Pins;
  readonly network: Network;
  readonly nodes: Map<string, number>;
  /** By vehicle. */
  readonly items: Map<Id, RunItem[]>;
  /** Vehicles whose run a stop's `arriveBy` or a ferry bounds; a run that misses its ferry goes as early as it can. */
  readonly bounded: Set<Id>;
}

/** The node of a named instant, made on first use. */
export function nodeOf(build: Build, name: string): number {
  const known = build.nodes.get(name);
  if (known !== undefined) return known;
  const made = build.network.node(name);
  build.nodes.set(name, made);
  return made;
}

/** Whose node it is, and where the plan says how long. */
export interface LabelParts {
  readonly where?: PlanPath | null;
  readonly place?: Id | null;
  readonly vehicle?: Id | null;
  readonly activity?: Id | null;
}

/** What a node or length is called in reasons. */
export const label = (name: string, parts: LabelParts = {}): Label => ({
  name,
  where: parts.where ?? null,
  place: parts.place ?? null,
  vehicle: parts.vehicle ?? null,
  activity: parts.activity ?? null,
});

/** Where a house rule comes from: the plan's line where it states the rule, else null. */
export const rulePath = (plan: Plan, rule: string): PlanPath | null =>
  plan.rules.stated.has(rule) ? ["rules", rule] : null;
