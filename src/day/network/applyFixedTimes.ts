/**
 * What enters the day and what is missed: rides by others and stops' own times first, in run order, then firm hits and
 * standbys by time, other hits by time, tasks in file order. What contradicts those already in is told once, with the
 * tightest chain, and the day is then the day without it.
 */
import type { Definition, Facts, Finding, Term } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { Frozen } from "../facts/pinned.ts";
import * as say from "../findings/findings.ts";
import type { Order } from "../order/order.ts";
import { liveOf } from "../order/visits.ts";
import { type Build, buildNetwork, type Entered } from "./build.ts";
import { type Conflict, feasible, ringOf, tightestConflict } from "./network.ts";
import { type Timing, timeLegs } from "./timing.ts";

type Candidate = { readonly kind: "ride" | "stop" | "activity"; readonly id: Id };

/** What is given before anything enters. */
export interface Given {
  /** When each leg is driven, for its weather. */
  readonly during: ReadonlyMap<Id, Interval>;
  readonly frozen: Frozen;
}

export interface Admitted {
  readonly build: Build;
  readonly missed: ReadonlySet<Id>;
  readonly findings: readonly Finding[];
  /** The instants that wait for each other, each before the next: a mistake of the plan, and no day. */
  readonly ring: readonly string[] | null;
}

export function admit(order: Order, given: Given): Admitted {
  const candidates = inRank(order);
  const nothing: ReadonlySet<Id> = new Set();
  const all = buildNetwork(order, timeLegs(order, nothing, given.during), enteredFrom(candidates), given.frozen);
  if (feasible(all.network)) return { build: all, missed: nothing, findings: [], ring: null };
  const ring = ringOf(all.network);
  if (ring !== null) return { build: all, missed: nothing, findings: [], ring };
  return oneByOne(order, given, candidates);
}

interface Missed {
  /** Ids of what is out, in the order in which it was refused. */
  readonly out: Set<string>;
  readonly findings: Finding[];
}

/** Enters the candidates in rank; a refusal that changes how a leg is planned begins the day anew, without what is out. */
function oneByOne(order: Order, given: Given, candidates: readonly Candidate[]): Admitted {
  const missed: Missed = { out: new Set(), findings: [] };
  for (;;) {
    const kept = enter(order, given, candidates, missed);
    if (kept === null) continue;
    const build = buildNetwork(order, timeLegs(order, missed.out, given.during), enteredFrom(kept), given.frozen);
    return { build, missed: missed.out, findings: missed.findings, ring: null };
  }
}

/** One pass; null where a refusal changed the legs and the pass has to begin again. */
function enter(
  order: Order,
  given: Given,
  candidates: readonly Candidate[],
  missed: Missed,
): readonly Candidate[] | null {
  const timing = timeLegs(order, missed.out, given.during);
  let kept: readonly Candidate[] = [];
  for (const candidate of candidates) {
    if (missed.out.has(candidate.id)) continue;
    const trial = buildNetwork(order, timing, enteredFrom([...kept, candidate]), given.frozen);
    if (feasible(trial.network)) {
      kept = [...kept, candidate];
      continue;
    }
    const conflict = tightestConflict(trial.network);
    if (conflict !== null) missed.findings.push(missedFinding(order, candidate, conflict));
    missed.out.add(candidate.id);
    if (!sameTiming(timing, timeLegs(order, missed.out, given.during))) return null;
  }
  return kept;
}

const sameTiming = (a: Timing, b: Timing): boolean =>
  [...a].every(([id, leg]) => b.get(id)?.plannedMinutes === leg.plannedMinutes);

function inRank({ plan }: Order): readonly Candidate[] {
  const activity = (id: Id): Candidate => ({ kind: "activity", id });
  const stops = [...plan.runs.values()].flatMap((run) => run.stops);
  const lives = [...plan.hits.keys(), ...plan.tasks.keys()].flatMap((id) => liveOf(plan, id) ?? []);
  lives.sort((a, b) => a.from - b.from);
  const firm = lives.filter(
    (live) => live.activity.kind === "standby" || (live.activity.kind === "hit" && live.activity.firm),
  );
  const loose = lives.filter((live) => !firm.includes(live));
  const tasks = [...plan.tasks.values()].filter((task) => task.kind !== "standby" || task.window === null);
  return [
    ...[...plan.rides.keys()].map((id): Candidate => ({ kind: "ride", id })),
    ...stops
      .filter((stop) => stop.leave !== null || stop.arriveBy !== null)
      .map((stop): Candidate => ({ kind: "stop", id: stop.id })),
    ...[...firm, ...loose].map((live) => activity(live.id)),
    ...tasks.map((task) => activity(task.id)),
  ];
}

function enteredFrom(candidates: readonly Candidate[]): Entered {
  const of = (kind: Candidate["kind"]): ReadonlySet<Id> =>
    new Set(candidates.filter((candidate) => candidate.kind === kind).map((candidate) => candidate.id));
  return { activities: of("activity"), stops: of("stop"), rides: of("ride") };
}

function missedFinding(order: Order, candidate: Candidate, conflict: Conflict): Finding {
  const { plan } = order;
  const chain = termsOf(conflict);
  const startAt = instant(conflict.start.weight);
  const boundAt = instant(-conflict.bound.weight);
  const facts = {
    what: candidate.id,
    short: conflict.shortMinutes,
    start: conflict.start.label?.name ?? "",
    startAt: { at: startAt },
    neededAt: { at: instant(startAt - conflict.shortMinutes) },
    bound: conflict.bound.label?.name ?? "",
    boundAt: { at: boundAt },
    byTime: byTime(order, candidate.id),
  };
  const [definition, path, at] = subject(order, candidate);
  return definition.raise(facts, {
    chain,
    shortMinutes: conflict.shortMinutes,
    path,
    at: at ?? boundAt,
    span: plan.source.locate(path),
  });
}

/** Where a task with a time of its own stands after the hits of its stop only because no `do` lists it: the order by time. */
function byTime({ plan, visits }: Order, id: Id): readonly Id[] {
  const visit = visits.find(({ activities, stop }) => activities.includes(id) && !stop?.do?.includes(id));
  const own = plan.tasks.get(id)?.window?.from ?? plan.tasks.get(id)?.by ?? null;
  if (visit === undefined || own === null) return [];
  const others = visit.activities.filter((other) => other !== id);
  const at = others.findIndex((other) => (liveOf(plan, other)?.from ?? Number.NEGATIVE_INFINITY) > own);
  return at < 0 ? [] : [...others.slice(0, at), id, ...others.slice(at)];
}

type Subject = readonly [
  Definition<Facts & Parameters<typeof say.hitMissed.raise>[0]>,
  readonly (string | number)[],
  Instant | null,
];

function subject({ plan }: Order, { kind, id }: Candidate): Subject {
  if (kind === "ride") return [say.rideMissed, plan.rides.get(id)?.path ?? [], plan.rides.get(id)?.leave ?? null];
  if (kind === "stop") {
    const stop = [...plan.runs.values()].flatMap((run) => run.stops).find((one) => one.id === id);
    return [say.stopTimeMissed, stop?.path ?? [], stop?.leave ?? stop?.arriveBy ?? null];
  }
  const hit = plan.hits.get(id);
  if (hit !== undefined) return [say.hitMissed, [...hit.path, "at"], hit.at];
  return [say.taskMissed, plan.tasks.get(id)?.path ?? [], null];
}

/** The lengths between the two fixed instants, in time order. */
function termsOf({ start, chain }: Conflict): readonly Term[] {
  let at = instant(start.weight);
  return chain.flatMap((edge) => {
    const from = at;
    at = instant(at + edge.weight);
    if (edge.weight === 0 || edge.label === null) return [];
    return [{ name: edge.label.name, from, to: at, minutes: edge.weight, where: edge.label.where }];
  });
}
