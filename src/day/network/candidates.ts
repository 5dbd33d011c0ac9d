/** What may enter a day, in its rank, and what is given and known while it does. */
import type { Finding } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { Interval } from "../../time/units.ts";
import { contradiction, withoutContradiction } from "../facts/contradictions.ts";
import { AS_PLANNED, type Fit, resolve } from "../facts/fit.ts";
import { NO_PINS, type Pins } from "../facts/pins.ts";
import type { DayOrder, OrderedLeg } from "../order/order.ts";
import { liveOf } from "../order/visits.ts";
import { buildNetwork } from "./build.ts";
import { feasible, tightestConflict } from "./network.ts";
import type { Build, Entered } from "./nodes.ts";
import { type Timing, timeLegs, timingOf } from "./timing.ts";

/** What has a time of its own or takes some. */
export type Entrant = { readonly kind: "ride" | "stop" | "activity"; readonly id: Id };

/** What is given before anything enters. */
export interface FixedTimes {
  /** When each leg is driven, for its weather. */
  readonly during: ReadonlyMap<Id, Interval>;
  readonly pins: Pins;
}

/** The same with what of the day as planned matters to it. */
export interface Given extends FixedTimes {
  /** The legs that have arrived: they were driven to what was planned, whatever else can be made now. */
  readonly arrived: readonly OrderedLeg[];
  /** What is missed in the day as planned. */
  readonly missedAsPlanned: ReadonlySet<Id>;
}

/** By the id of what is missed, in the order in which it was refused. */
export type Refusals = ReadonlyMap<string, readonly Finding[]>;

/** A network with its fixed times, and what of them could not hold. */
export interface AdmittedSoFar {
  readonly build: Build;
  readonly entered: readonly Entrant[];
  readonly out: Refusals;
  /** What gave way to the facts. */
  readonly fit: Fit;
  /** Facts that cannot all be true: mistakes of the plan, and no day. */
  readonly contradictions: readonly Finding[];
  /** The instants that wait for each other, each before the next: a mistake of the plan, and no day. */
  readonly cycle: readonly string[] | null;
}

/** A day of which nothing was logged. */
export const NOTHING_LOGGED: Omit<Given, "during"> = { pins: NO_PINS, arrived: [], missedAsPlanned: new Set() };

/** All candidates in the order in which they enter. */
export function inRank({ plan }: DayOrder): readonly Entrant[] {
  const activity = (id: Id): Entrant => ({ kind: "activity", id });
  const stops = [...plan.runs.values()].flatMap((run) => run.stops);
  const lives = [...plan.hits.keys(), ...plan.tasks.keys()].flatMap((id) => liveOf(plan, id) ?? []);
  lives.sort((a, b) => a.from - b.from);
  const firm = lives.filter(
    (live) => live.activity.kind === "standby" || (live.activity.kind === "hit" && live.activity.firm),
  );
  const loose = lives.filter((live) => !firm.includes(live));
  const tasks = [...plan.tasks.values()].filter((task) => task.kind !== "standby" || task.window === null);
  return [
    ...[...plan.rides.keys()].map((id): Entrant => ({ kind: "ride", id })),
    ...stops
      .filter((stop) => stop.leave !== null || stop.arriveBy !== null || stop.ferry !== null)
      .map((stop): Entrant => ({ kind: "stop", id: stop.id })),
    ...[...firm, ...loose].map((live) => activity(live.id)),
    ...tasks.map((task) => activity(task.id)),
  ];
}

/** The same by kind, as the network takes them. */
export function enteredFrom(candidates: readonly Entrant[]): Entered {
  const of = (kind: Entrant["kind"]): ReadonlySet<Id> =>
    new Set(candidates.filter((candidate) => candidate.kind === kind).map((candidate) => candidate.id));
  return { activities: of("activity"), stops: of("stop"), rides: of("ride") };
}

/** The legs with so much missed, those that have arrived as they were planned. */
export function timingWith(
  order: DayOrder,
  { during, arrived, missedAsPlanned }: Given,
  missed: ReadonlySet<Id>,
): Timing {
  const timing = timeLegs(order, missed, during);
  if (arrived.length === 0) return timing;
  const planned = timeLegs(order, missedAsPlanned, during);
  return new Map([...timing, ...arrived.map(({ id }) => [id, timingOf(planned, { id })] as const)]);
}

/** The days' facts alone, with what gives way to them; a pin that contradicts another is reported and left out. */
export function fitFacts(
  order: DayOrder,
  given: Given,
  missed: ReadonlySet<Id>,
): Pick<AdmittedSoFar, "fit" | "contradictions"> & { pins: Pins } {
  let { pins } = given;
  let fit = AS_PLANNED;
  const contradictions: Finding[] = [];
  if (pins.at.size === 0 && pins.done.size === 0) return { pins, fit, contradictions };
  const timing = timingWith(order, given, missed);
  const entered: Entered = { activities: pins.done, stops: new Set(), rides: new Set() };
  for (;;) {
    const build = buildNetwork(order, timing, entered, { pins: { ...pins, now: null }, fit });
    const conflict = feasible(build.network) ? null : tightestConflict(build.network);
    if (conflict === null) return { pins, fit, contradictions };
    const step = resolve(build, pins, fit, conflict);
    if ("fit" in step) {
      fit = step.fit;
      continue;
    }
    contradictions.push(...contradiction(order.plan, pins, step));
    pins = withoutContradiction(pins, step);
  }
}
