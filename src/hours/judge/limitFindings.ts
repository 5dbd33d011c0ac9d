/** From verdicts to findings: one a person and cause, with the chain behind it and what would cure it. */

import type { Circumstance, Definition, Finding, PlanPath, Source, Term } from "../../findings/finding.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import { partsIn } from "../count/reading.ts";
import {
  type BreachFacts,
  breakMissed,
  claimConditions,
  dayOffTooShort,
  drivingTooLong,
  dutyTooLong,
  hoursReview,
  mealLate,
  restAboard,
  restNotStated,
  restTooLate,
  restTooShort,
  weekTooLong,
  windowOver,
} from "../findings.ts";
import type { AskContext } from "../questions/ask.ts";
import { questionsOf } from "../questions/questions.ts";
import type { Limit, RestLimit, RuleSet } from "../rules/rule.ts";
import type { Breach, Verdict } from "./judge.ts";

/** A stretch without a meal in time. */
export interface MealGap {
  readonly since: Instant;
  /** When the next meal has to begin at the latest. */
  readonly due: Instant;
  /** The end of the work without one. */
  readonly until: Instant;
  /** Minutes from one meal to the next. */
  readonly allows: number;
}

export interface TellContext extends AskContext {
  /** Whether the record begins at a stated release: else a rest at its start may have begun earlier, and is not known. */
  readonly startsReleased: boolean;
  /** The line that states a limit: a house rule, or the vehicle whose rules they are. */
  where(limit: Limit): PlanPath | null;
  /** When a meal may begin that closes the gap, in the first wait that has room for it; null where none has. */
  mealRoom(gap: MealGap): Interval | null;
  /** Dates of which nothing is known. */
  readonly missing: readonly string[];
  /** The evening before a call, as a release on it would be stated; null where it would be stated otherwise. */
  evening(call: Instant): string | null;
}

const sourceOf = ({ title }: RuleSet, { clause }: Breach): Source => ({ title, clause });

/** What kind of breach a limit makes. */
export function codeOf(limit: Limit): Definition<BreachFacts> {
  if (limit.kind !== "max") return restTooLate;
  const [since] = limit.since;
  if (limit.leavesFree === true) return dayOffTooShort;
  if (since?.kind === "break") return breakMissed;
  if (since?.kind === "calendar" && (since.count > 1 || since.unit === "week")) return weekTooLong;
  if (limit.counts === "driving") return drivingTooLong;
  if (limit.counts === "elapsed" && limit.forbids === "driving") return windowOver;
  return limit.counts === "elapsed" ? restTooLate : dutyTooLong;
}

const over = (breaches: readonly Breach[]): number => breaches.reduce((sum, { minutes }) => sum + minutes, 0);

const term = (name: string, from: Instant, to: Instant, where: PlanPath | null): Term => ({
  name,
  from,
  to,
  minutes: to - from,
  where,
});

interface Told {
  readonly context: TellContext;
  readonly verdict: Verdict;
  readonly first: Breach;
  readonly all: readonly Breach[];
}

function circumstance({ context, verdict, first }: Told, more: Circumstance): Circumstance {
  return {
    legalRules: verdict.rules.legallyBinding,
    who: context.hours.id,
    at: first.bites,
    path: context.path,
    source: sourceOf(verdict.rules, first),
    ...more,
  };
}

/** A weekly rest in a vehicle. */
function tellAboard(told: Told, limit: RestLimit): Finding {
  const { context, first } = told;
  const { from, to } = first;
  const facts = { who: context.hours.id, limit: limit.id, rule: limit.title, from: { at: from }, to: { at: to } };
  return restAboard.raise({ ...facts, minutes: to - from }, circumstance(told, { shortMinutes: to - from }));
}

/** A rest that is too short, or of which nothing is known. */
function tellRest(told: Told, limit: RestLimit): Finding {
  const { context, verdict, first } = told;
  const who = context.hours.id;
  const rest = verdict.rests.findLast((run) => run.to <= first.bites && partsIn(run, limit));
  const known = context.spans[0]?.from;
  if (rest === undefined || (rest.from === known && !context.startsReleased)) {
    const evening = context.evening(known ?? first.bites);
    const facts = { who, rule: limit.title, needed: limit.requires, evening, missing: [] };
    return restNotStated.raise(facts, circumstance(told, { otherwise: verdict.rules.legallyBinding }));
  }
  const minutes = rest.to - rest.from;
  // It counts for another week: what is missing is a rest of its own.
  if (minutes >= limit.requires) return tellMax(told, limit);
  const facts = {
    who,
    limit: limit.id,
    rule: limit.title,
    restMinutes: minutes,
    neededMinutes: limit.requires,
    released: { at: rest.from },
    call: { at: rest.to },
    callFrom: { at: instant(rest.from + limit.requires) },
    releaseBy: { at: instant(rest.to - limit.requires) },
  };
  const chain = [term("rest", rest.from, rest.to, context.where(limit))];
  return restTooShort.raise(
    facts,
    circumstance(told, { at: rest.to, chain, shortMinutes: Math.max(0, limit.requires - minutes) }),
  );
}

function tellMax(told: Told, limit: Limit): Finding {
  const { context, verdict, first, all } = told;
  const state = verdict.limits.find((one) => one.limit.id === limit.id);
  const since = state?.countsFrom ?? null;
  const overMinutes = over(all);
  const facts = {
    who: context.hours.id,
    limit: limit.id,
    rule: limit.title,
    from: { at: first.from },
    to: { at: first.to },
    overMinutes,
    times: all.length,
    since: since === null || since > first.from ? null : { at: since },
  };
  const chain = [
    ...(facts.since === null ? [] : [term(limit.title, facts.since.at, first.bites, context.where(limit))]),
    term("beyond it", first.from, first.to, null),
  ];
  const circumstances = circumstance(told, { chain, shortMinutes: overMinutes });
  if (limit.kind !== "max" || limit.meal !== true || verdict.rules.legallyBinding)
    return codeOf(limit).raise(facts, { ...circumstances, otherwise: limit.advice === true });
  const room = context.mealRoom({
    since: facts.since?.at ?? instant(first.from - limit.allows),
    due: first.from,
    until: all.at(-1)?.to ?? first.to,
    allows: limit.allows,
  });
  const wait = room === null ? null : { at: room.from };
  return mealLate.raise({ ...facts, wait, waitTo: room === null ? null : { at: room.to } }, circumstances);
}

/** A breach of a rule that defers, or of a deferred question: stated, not decided. */
function tellOpen(told: Told, question: string): Finding {
  const { context, first } = told;
  const { from, to, limit } = first;
  const facts = {
    who: context.hours.id,
    question: `${question}; ${limit.title}`,
    limit: limit.id,
    from: { at: from },
    to: { at: to },
  };
  return hoursReview.raise(facts, circumstance(told, {}));
}

/** Kept only if a day of which nothing is known was free: one finding for all limits of a rule set. */
function tellNotStated(context: TellContext, verdict: Verdict, all: readonly Breach[]): readonly Finding[] {
  const [first] = all;
  if (first === undefined) return [];
  const rule = [...new Set(all.map(({ limit }) => limit.title))].join("; ");
  const facts = { who: context.hours.id, rule, needed: first.minutes, evening: null, missing: context.missing };
  const told: Told = { context, verdict, first, all };
  return [restNotStated.raise(facts, circumstance(told, { otherwise: verdict.rules.legallyBinding }))];
}

function byLimit(breaches: readonly Breach[]): ReadonlyMap<string, readonly Breach[]> {
  const groups = new Map<string, Breach[]>();
  for (const breach of breaches) groups.set(breach.limit.id, [...(groups.get(breach.limit.id) ?? []), breach]);
  return groups;
}

const SHORT_HAUL_LOST =
  "the short-haul exception was lost by a late release, and a break due before that was not taken: is it cited?";

function tellVerdict(context: TellContext, verdict: Verdict): readonly Finding[] {
  const recent = ({ to }: Breach): boolean => to > context.from;
  const breaches = [...byLimit(verdict.breaches.filter(recent)).values()].flatMap((all) => {
    const [first] = all;
    if (first === undefined) return [];
    const told: Told = { context, verdict, first, all };
    const { limit } = first;
    if (limit.defer !== undefined) return [tellOpen(told, limit.defer)];
    if (limit.kind !== "rest") return [tellMax(told, limit)];
    return [limit.breach === "aboard" ? tellAboard(told, limit) : tellRest(told, limit)];
  });
  const open = [...byLimit(verdict.reviews.filter(recent)).values()].flatMap((all) => {
    const [first] = all;
    if (first === undefined) return [];
    return [tellOpen({ context, verdict, first, all }, first.question ?? SHORT_HAUL_LOST)];
  });
  return [...breaches, ...open, ...tellNotStated(context, verdict, (verdict.notStated ?? []).filter(recent))];
}

const claims = ({ hours, path }: TellContext): readonly Finding[] =>
  hours.bindings.flatMap(({ rules }) =>
    rules.conditions.map((condition) =>
      claimConditions.raise(
        { who: hours.id, condition },
        { who: hours.id, path, source: { title: rules.title, clause: null } },
      ),
    ),
  );

/** Whether two findings are of one short rest: the law's is told, the house's would say it again. */
const sameRest = (a: Finding, b: Finding): boolean =>
  (a.code === "rest-too-short" || a.code === "rest-not-stated") &&
  a.code === b.code &&
  (a.code === "rest-not-stated" || a.at === b.at) &&
  (a.shortMinutes ?? 0) <= (b.shortMinutes ?? 0);

/** Everything to be told of one person's hours under law and house rules. */
export function tellPerson(all: TellContext): readonly Finding[] {
  // What is shown for the next drive alone finds nothing and asks nothing.
  const bindings = all.hours.bindings.filter(({ forNextDrive }) => forNextDrive !== true);
  const context: TellContext = { ...all, hours: { ...all.hours, bindings } };
  const told = context.hours.verdicts.flatMap((verdict) => tellVerdict(context, verdict));
  const distinct = told.filter((one) => one.law || !told.some((other) => other.law && sameRest(one, other)));
  return [...distinct, ...questionsOf(context), ...claims(context)];
}
