/**
 * What enters the day and what is missed: what was logged, then rides by others and stops' own times first, in run order, then firm hits and
 * standbys by time, other hits by time, tasks in file order. What contradicts those already in is reported once, with the
 * tightest chain, and the day is then the day without it.
 */
import type { Definition, Finding, Facts as FindingFacts, ReasonTerm } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, instant } from "../../time/units.ts";
import { type Fit, turnedRound, workedFaster } from "../facts/fit.ts";
import { hasPast } from "../facts/pins.ts";
import * as say from "../findings/findingsMissed.ts";
import { orderUnstated } from "../findings/findingsOrder.ts";
import type { DayOrder } from "../order/order.ts";
import { liveOf } from "../order/visits.ts";
import { buildNetwork, type StandingFacts } from "./build.ts";
import {
  type AdmittedSoFar,
  type Entrant,
  enteredFrom,
  type FixedTimes,
  fitFacts,
  type Given,
  inRank,
  NOTHING_LOGGED,
  type Refusals,
  timingWith,
} from "./candidates.ts";
import { AS_IT_WENT, type Conflict, cycleOf, type Edge, feasible, tightestConflict } from "./network.ts";
import type { Build } from "./nodes.ts";
import { type AsPlanned, withTrial } from "./roomFromFacts.ts";
import type { Timing } from "./timing.ts";

/** The same with what is said of what is missed. */
export interface Admitted extends AdmittedSoFar {
  readonly missed: ReadonlySet<Id>;
  readonly findings: readonly Finding[];
}

/** What cannot be met in the plan as planned is out first; what was logged may make room for it after all. */
export function admit(order: DayOrder, given: FixedTimes, asPlanned: AsPlanned | null): Admitted {
  const planned = asPlanned ?? plannedIn(order, given);
  const isFact = (id: string): boolean => given.pins.done.has(id);
  const out = new Map([...(planned?.admitted.out ?? [])].filter(([id]) => !isFact(id)));
  const arrived = order.legs.filter(({ to }) => given.pins.at.has(`${to.id}.arrive`));
  const all: Given = { ...given, arrived, missedAsPlanned: new Set(planned?.admitted.out.keys()) };
  const tried = withTrial(order, all, admitted(order, all, out), planned);
  return { ...tried, missed: new Set(tried.out.keys()), findings: [...tried.out.values()].flat() };
}

/** Where the day as planned cannot be: what of it enters in the weather of the day as it went; null where nothing was logged. */
function plannedIn(order: DayOrder, { during, pins }: FixedTimes): AsPlanned | null {
  if (!hasPast(pins)) return null;
  return { admitted: admitted(order, { during, ...NOTHING_LOGGED }, new Map()), during, instantOf: () => null };
}

function admitted(order: DayOrder, given: Given, before: Refusals): AdmittedSoFar {
  const { pins, fit, contradictions } = fitFacts(order, given, new Set(before.keys()));
  const all = inRank(order).filter(({ id }) => !before.has(id));
  const timing = timingWith(order, given, new Set(before.keys()));
  const build = buildNetwork(order, timing, enteredFrom(all), { pins, fit });
  const whole = { build, entered: all, out: before, fit, contradictions, cycle: null };
  if (contradictions.length > 0 || feasible(build.network)) return whole;
  const cycle = cycleOf(build.network);
  if (cycle !== null) return { ...whole, cycle };
  const [facts, candidates] = [all.filter(({ id }) => pins.done.has(id)), all.filter(({ id }) => !pins.done.has(id))];
  return oneByOne({ order, given: { ...given, pins }, facts, candidates, out: new Map(before), fit });
}

/** The candidates enter in rank, after the facts; `out` is what is missed, in the order in which it was refused. */
interface Entering {
  readonly order: DayOrder;
  readonly given: Given;
  readonly facts: readonly Entrant[];
  readonly candidates: readonly Entrant[];
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
    const build = buildNetwork(order, timingWith(order, given, missed), enteredFrom(entered), facts);
    return { build, entered, out, fit: entering.fit, contradictions: [], cycle: null };
  }
}

/** What a missed task lacks is counted against all that entered, so that tasks behind it in the file do not change the sum. */
function sayAgainstAll(entering: Entering, entered: readonly Entrant[]): void {
  const { order, given, out } = entering;
  const timing = timingWith(order, given, new Set(out.keys()));
  for (const [id, [, ...notes]] of [...out].filter(([id]) => order.plan.tasks.has(id))) {
    const candidate: Entrant = { kind: "activity", id };
    const conflict = conflictOf({ ...entering }, timing, [...entered, candidate]);
    if (conflict !== null && conflict !== "cycle") out.set(id, [missedFinding(order, candidate, conflict), ...notes]);
  }
}

/** One pass; null where a refusal changed the legs and the pass has to begin again. */
function enter(entering: Entering): readonly Entrant[] | null {
  const { order, given, out } = entering;
  const timing = timingWith(order, given, new Set(out.keys()));
  let kept: readonly Entrant[] = entering.facts;
  for (const candidate of entering.candidates) {
    if (out.has(candidate.id)) continue;
    const conflict = conflictOf(entering, timing, [...kept, candidate]);
    if (conflict === null) {
      kept = [...kept, candidate];
      continue;
    }
    const said =
      conflict === "cycle"
        ? []
        : [missedFinding(order, candidate, conflict), ...byFileOrder(entering, timing, kept, candidate, conflict)];
    out.set(candidate.id, said);
    if (!sameTiming(timing, timingWith(order, given, new Set(out.keys())))) return null;
  }
  return kept;
}

/** A note where only the order of the file decided which of two of the same rank is missed. */
function byFileOrder(
  { order, given, fit }: Entering,
  timing: Timing,
  kept: readonly Entrant[],
  { kind, id }: Entrant,
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
function conflictOf(entering: Entering, timing: Timing, entered: readonly Entrant[]): Conflict | "cycle" | null {
  const { order, given } = entering;
  const last = entered.at(-1)?.id ?? "";
  const isDone = (id: Id): boolean => given.pins.done.has(id);
  const turns = (build: Build, fit: Fit, conflict: Conflict): Fit | null =>
    turnedRound(build, fit, last, isDone, conflict);
  const hurries = (build: Build, fit: Fit, conflict: Conflict): Fit | null =>
    workedFaster(build, given.pins, fit, conflict);
  // A fact overrides the order: what is short is the least in any.
  let least: Conflict | "cycle" | null = null;
  // What came before a fact as planned was done faster sooner than after it.
  for (const [gives, otherwise] of [
    [hurries, turns],
    [turns, hurries],
  ] as const) {
    let tries = 0;
    for (let fit: Fit | null = entering.fit; fit !== null; tries++) {
      const trial = buildNetwork(order, timing, enteredFrom(entered), { pins: given.pins, fit });
      if (feasible(trial.network)) {
        entering.fit = fit;
        return null;
      }
      const conflict = tightestConflict(trial.network);
      if (conflict === null) least ??= "cycle";
      else if (least === null || (least !== "cycle" && conflict.shortMinutes < least.shortMinutes)) least = conflict;
      fit = conflict === null ? null : (gives(trial, fit, conflict) ?? otherwise(trial, fit, conflict));
    }
    // Where no fact gives way the other order finds the same.
    if (tries === 1) break;
  }
  return least;
}

const sameTiming = (a: Timing, b: Timing): boolean =>
  [...a].every(([id, leg]) => b.get(id)?.plannedMinutes === leg.plannedMinutes);

function missedFinding(order: DayOrder, candidate: Entrant, conflict: Conflict): Finding {
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

function subject({ plan }: DayOrder, { kind, id }: Entrant): Subject {
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
