/**
 * What enters the day and what is missed: what was logged, then rides by others and stops' own times first, in run order, then firm hits and
 * standbys by time, other hits by time, tasks in file order. What contradicts those already in is reported once, with the
 * tightest chain, and the day is then the day without it.
 */
import type { Definition, Finding, Facts as FindingFacts, ReasonTerm } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import { contradiction, withoutContradiction } from "../facts/contradictions.ts";
import { AS_PLANNED, type Fit, givesNoMore, isBetweenPins, resolve, turnedRound, workedFaster } from "../facts/fit.ts";
import { hasPast, NO_PINS, type Pins } from "../facts/pins.ts";
import * as say from "../findings/findingsMissed.ts";
import { orderUnstated } from "../findings/findingsOrder.ts";
import type { DayOrder } from "../order/order.ts";
import { liveOf } from "../order/visits.ts";
import { buildNetwork, type StandingFacts } from "./build.ts";
import { AS_IT_WENT, type Conflict, type Edge, feasible, ringOf, tightestConflict } from "./network.ts";
import type { Build, Entered } from "./nodes.ts";
import { type Timing, timeLegs } from "./timing.ts";

type Candidate = { readonly kind: "ride" | "stop" | "activity"; readonly id: Id };

/** What is given before anything enters. */
export interface FixedTimes {
  /** When each leg is driven, for its weather. */
  readonly during: ReadonlyMap<Id, Interval>;
  readonly pins: Pins;
}

/** A network with its fixed times, and what of them could not hold. */
export interface Admitted {
  readonly build: Build;
  readonly missed: ReadonlySet<Id>;
  readonly findings: readonly Finding[];
  /** What gave way to the facts. */
  readonly fit: Fit;
  /** Facts that cannot all be true: mistakes of the plan, and no day. */
  readonly contradictions: readonly Finding[];
  /** The instants that wait for each other, each before the next: a mistake of the plan, and no day. */
  readonly ring: readonly string[] | null;
}

/** What cannot be met in the plan as planned is out first; what was logged may make room for it after all. */
export function admit(order: DayOrder, given: FixedTimes): Admitted {
  const planned = hasPast(given.pins) ? admitted(order, { ...given, pins: NO_PINS }, new Map()) : null;
  const isFact = (id: string): boolean => given.pins.done.has(id);
  const out = new Map([...(planned?.out ?? [])].filter(([id]) => !isFact(id)));
  return withTrial(order, given, admitted(order, given, out), planned);
}

interface AdmittedSoFar extends Omit<Admitted, "findings" | "missed"> {
  readonly entered: readonly Candidate[];
  readonly out: Out;
}

/** By the id of what is missed, in the order in which it was refused. */
type Out = ReadonlyMap<string, readonly Finding[]>;

function admitted(order: DayOrder, given: FixedTimes, before: Out): AdmittedSoFar {
  const { pins, fit, contradictions } = fitFacts(order, given, new Set(before.keys()));
  const all = inRank(order).filter(({ id }) => !before.has(id));
  const timing = timeLegs(order, new Set(before.keys()), given.during);
  const build = buildNetwork(order, timing, enteredFrom(all), { pins, fit });
  const whole = { build, entered: all, out: before, fit, contradictions, ring: null };
  if (contradictions.length > 0 || feasible(build.network)) return whole;
  const ring = ringOf(build.network);
  if (ring !== null) return { ...whole, ring };
  const [facts, candidates] = [all.filter(({ id }) => pins.done.has(id)), all.filter(({ id }) => !pins.done.has(id))];
  return oneByOne({ order, given: { ...given, pins }, facts, candidates, out: new Map(before), fit });
}

/** Tries what is out once more, each as the last to enter, where facts may have made room for it. */
function withTrial(order: DayOrder, given: FixedTimes, first: AdmittedSoFar, planned: AdmittedSoFar | null): Admitted {
  let best = first;
  const isOpen = first.ring === null && first.contradictions.length === 0 && given.pins.at.size > 0;
  for (const candidate of isOpen ? inRank(order) : []) {
    // What the order of refusals left out as planned is not let in by facts that change nothing.
    if (
      !best.out.has(candidate.id) ||
      (planned?.out.has(candidate.id) && fits(order, { ...given, pins: NO_PINS }, planned, candidate))
    )
      continue;
    const more = fits(order, given, best, candidate);
    // Facts may make room for it; it may not take that room from what happened.
    if (more !== null && givesNoMore(refitted(order, given, best).fit, refitted(order, given, more).fit)) best = more;
  }
  const { build, fit } = isOpen ? refitted(order, given, best) : best;
  const { out, contradictions, ring } = best;
  return { build, missed: new Set(out.keys()), findings: [...out.values()].flat(), fit, contradictions, ring };
}

/** With one more of what is out, what gives way to the facts alone or to what has entered as well; null where that cannot be. */
function fits(order: DayOrder, given: FixedTimes, before: AdmittedSoFar, candidate: Candidate): AdmittedSoFar | null {
  const out = new Map([...before.out].filter(([id]) => id !== candidate.id));
  const missed = new Set(out.keys());
  const entered = [...before.entered, candidate];
  const timing = timeLegs(order, missed, given.during);
  for (const fit of [fitFacts(order, given, missed).fit, before.fit]) {
    const build = buildNetwork(order, timing, enteredFrom(entered), { pins: given.pins, fit });
    if (feasible(build.network)) return { ...before, build, entered, out, fit };
  }
  return null;
}

/** With all that has entered less may have to give way to the facts than for them alone: a visit is prepared for its hits. */
function refitted(
  order: DayOrder,
  given: FixedTimes,
  { build, entered, out, fit }: AdmittedSoFar,
): Pick<Admitted, "build" | "fit"> {
  const timing = timeLegs(order, new Set(out.keys()), given.during);
  const { dropped, turned, unbound } = fit;
  for (let fresh: Fit = { ...AS_PLANNED, dropped, turned, unbound }; ; ) {
    const made = buildNetwork(order, timing, enteredFrom(entered), { pins: given.pins, fit: fresh });
    if (feasible(made.network)) return { build: made, fit: fresh };
    const conflict = tightestConflict(made.network);
    const step =
      conflict === null || !isBetweenPins(made, given.pins, conflict)
        ? null
        : resolve(made, given.pins, fresh, conflict);
    if (step === null || !("fit" in step)) return { build, fit };
    fresh = step.fit;
  }
}

/** The days' facts alone, with what gives way to them; a pin that contradicts another is reported and left out. */
function fitFacts(
  order: DayOrder,
  given: FixedTimes,
  missed: ReadonlySet<Id>,
): Pick<Admitted, "fit" | "contradictions"> & { pins: Pins } {
  let { pins } = given;
  let fit = AS_PLANNED;
  const contradictions: Finding[] = [];
  if (pins.at.size === 0 && pins.done.size === 0) return { pins, fit, contradictions };
  const timing = timeLegs(order, missed, given.during);
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

/** The candidates enter in rank, after the facts; `out` is what is missed, in the order in which it was refused. */
interface Entering {
  readonly order: DayOrder;
  readonly given: FixedTimes;
  readonly facts: readonly Candidate[];
  readonly candidates: readonly Candidate[];
  readonly out: Map<string, readonly Finding[]>;
  fit: Fit;
}

/** Enters the candidates in rank; a refusal that changes how a leg is planned begins the day anew, without what is out. */
function oneByOne(entering: Entering): AdmittedSoFar {
  const { order, given, out } = entering;
  for (;;) {
    const entered = enter(entering);
    const missed = new Set(out.keys());
    if (entered === null) {
      entering.fit = fitFacts(order, given, missed).fit;
      continue;
    }
    sayAgainstAll(entering, entered);
    const facts: StandingFacts = { pins: given.pins, fit: entering.fit };
    const build = buildNetwork(order, timeLegs(order, missed, given.during), enteredFrom(entered), facts);
    return { build, entered, out, fit: entering.fit, contradictions: [], ring: null };
  }
}

/** What a missed task lacks is counted against all that entered, so that tasks behind it in the file do not change the sum. */
function sayAgainstAll(entering: Entering, entered: readonly Candidate[]): void {
  const { order, given, out } = entering;
  const timing = timeLegs(order, new Set(out.keys()), given.during);
  for (const [id, [, ...notes]] of [...out].filter(([id]) => order.plan.tasks.has(id))) {
    const candidate: Candidate = { kind: "activity", id };
    const conflict = conflictOf({ ...entering }, timing, [...entered, candidate]);
    if (conflict !== null && conflict !== "ring") out.set(id, [missedFinding(order, candidate, conflict), ...notes]);
  }
}

/** One pass; null where a refusal changed the legs and the pass has to begin again. */
function enter(entering: Entering): readonly Candidate[] | null {
  const { order, given, out } = entering;
  const timing = timeLegs(order, new Set(out.keys()), given.during);
  let kept: readonly Candidate[] = entering.facts;
  for (const candidate of entering.candidates) {
    if (out.has(candidate.id)) continue;
    const conflict = conflictOf(entering, timing, [...kept, candidate]);
    if (conflict === null) {
      kept = [...kept, candidate];
      continue;
    }
    const said =
      conflict === "ring"
        ? []
        : [missedFinding(order, candidate, conflict), ...byFileOrder(entering, timing, kept, candidate, conflict)];
    out.set(candidate.id, said);
    if (!sameTiming(timing, timeLegs(order, new Set(out.keys()), given.during))) return null;
  }
  return kept;
}

/** A note where only the order of the file decided which of two of the same rank is missed. */
function byFileOrder(
  { order, given, fit }: Entering,
  timing: Timing,
  kept: readonly Candidate[],
  { kind, id }: Candidate,
  { start, chain, bound }: Conflict,
): readonly Finding[] {
  if (kind !== "activity") return [];
  const rank = (other: Id): string => {
    const live = liveOf(order.plan, other);
    return live === null ? "task" : `${live.activity.kind === "hit" && !live.activity.firm} ${live.from}`;
  };
  const others = [start, ...chain, bound].flatMap(({ label }) => label?.activity ?? []);
  const other = others.find((one) => one !== id && rank(one) === rank(id));
  if (other === undefined) return [];
  const without = [...kept.filter((one) => one.id !== other), { kind, id }];
  const trial = buildNetwork(order, timing, enteredFrom(without), { pins: given.pins, fit });
  if (!feasible(trial.network)) return [];
  const path = order.plan.hits.get(id)?.path ?? order.plan.tasks.get(id)?.path ?? [];
  return [orderUnstated.raise({ tasks: [other, id], stop: null, order: [], missed: id }, { path })];
}

/** What stands against the last of `entered`, whatever order it comes in against what is logged; null where nothing does. */
function conflictOf(entering: Entering, timing: Timing, entered: readonly Candidate[]): Conflict | "ring" | null {
  const { order, given } = entering;
  const last = entered.at(-1)?.id ?? "";
  const asPlanned = entering.fit;
  let first: Conflict | "ring" | null = null;
  for (let fit: Fit | null = asPlanned; fit !== null; ) {
    const trial = buildNetwork(order, timing, enteredFrom(entered), { pins: given.pins, fit });
    if (feasible(trial.network)) {
      entering.fit = fit;
      return null;
    }
    const conflict = tightestConflict(trial.network);
    first ??= conflict ?? "ring";
    fit =
      conflict === null
        ? null
        : (turnedRound(fit, last, (id) => given.pins.done.has(id), conflict) ??
          workedFaster(trial, given.pins, fit, conflict));
  }
  return first;
}

const sameTiming = (a: Timing, b: Timing): boolean =>
  [...a].every(([id, leg]) => b.get(id)?.plannedMinutes === leg.plannedMinutes);

function inRank({ plan }: DayOrder): readonly Candidate[] {
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
      .filter((stop) => stop.leave !== null || stop.arriveBy !== null || stop.ferry !== null)
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

function missedFinding(order: DayOrder, candidate: Candidate, conflict: Conflict): Finding {
  const { plan } = order;
  const chain = termsOf(conflict);
  const startAt = instant(conflict.start.weight);
  const boundAt = instant(-conflict.bound.weight);
  const facts = {
    what: candidate.id,
    short: conflict.shortMinutes,
    start: fixedName(conflict.start, conflict.startName),
    startAt: { at: startAt },
    neededAt: { at: instant(startAt - conflict.shortMinutes) },
    bound: fixedName(conflict.bound, conflict.boundName),
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

/** What a fixed instant is called: by what fixes it, or by itself where it stands as it went. */
const fixedName = ({ label }: Edge, name: string): string =>
  label?.name === AS_IT_WENT ? name.replace(/\.(?=\w+$)/u, " ") : (label?.name ?? "");

/** The order by time of what is done at a stop, where a task with a time of its own stands elsewhere in it; else empty. */
function byTime({ plan, visits }: DayOrder, id: Id): readonly Id[] {
  const visit = visits.find(({ activities }) => activities.includes(id));
  const own = plan.tasks.get(id);
  if (visit === undefined || own === undefined || (own.window === null && own.by === null)) return [];
  let last = Number.NEGATIVE_INFINITY;
  const timed = visit.activities.map((one) => {
    const task = plan.tasks.get(one);
    last = task?.window?.from ?? task?.by ?? liveOf(plan, one)?.from ?? last;
    return { one, at: last };
  });
  const sorted = timed.toSorted((a, b) => a.at - b.at).map(({ one }) => one);
  return sorted.every((one, at) => one === visit.activities[at]) ? [] : sorted;
}

type Subject = readonly [
  Definition<FindingFacts & Parameters<typeof say.hitMissed.raise>[0]>,
  readonly (string | number)[],
  Instant | null,
];

function subject({ plan }: DayOrder, { kind, id }: Candidate): Subject {
  if (kind === "ride") return [say.rideMissed, plan.rides.get(id)?.path ?? [], plan.rides.get(id)?.leave ?? null];
  if (kind === "stop") {
    const stop = [...plan.runs.values()].flatMap((run) => run.stops).find((one) => one.id === id);
    return [say.stopTimeMissed, stop?.path ?? [], stop?.leave ?? stop?.ferry?.sail ?? stop?.arriveBy ?? null];
  }
  const hit = plan.hits.get(id);
  if (hit !== undefined) return [say.hitMissed, [...hit.path, "at"], hit.at];
  return [say.taskMissed, plan.tasks.get(id)?.path ?? [], null];
}

/** The lengths between the two fixed instants, in time order. */
function termsOf({ start, chain }: Conflict): readonly ReasonTerm[] {
  let at = instant(start.weight);
  return chain.flatMap((edge) => {
    const from = at;
    at = instant(at + edge.weight);
    if (edge.weight === 0 || edge.label === null) return [];
    return [{ name: edge.label.name, from, to: at, minutes: edge.weight, where: edge.label.where }];
  });
}
