/** From verdicts to findings: one a person and cause, with the chain behind it and what would cure it. */

import type { Circumstance, Definition, Finding, PlanPath, ReasonTerm, Source } from "../../findings/finding.ts";
import { groupBy, type Some, sumOf } from "../../lists.ts";
import { type Instant, instant } from "../../time/units.ts";
import { partsIn } from "../count/reading.ts";
import {
  type BreachFacts,
  breakMissed,
  dayOffTooShort,
  drivingTooLong,
  dutyTooLong,
  mealLate,
  restAboard,
  restNotStated,
  restTooLate,
  restTooShort,
  weekTooLong,
  windowOver,
} from "../findings.ts";
import type { AskContext } from "../questions/ask.ts";
import { claimConditions, hoursReview } from "../questions/findingsQuestions.ts";
import { questionsOf } from "../questions/questions.ts";
import type { Limit, RestLimit, RuleSet } from "../rules/rule.ts";
import type { Breach, Verdict } from "./judge.ts";
import type { MealGap, Meals } from "./meals.ts";

/** What a breach needs to become a finding. */
export interface FindingContext extends AskContext {
  /** Whether the record begins at a stated release: else a rest at its start may have begun earlier, and is not known. */
  readonly startsReleased: boolean;
  /** The line that states a limit: a house rule, or the vehicle whose rules they are. */
  where(limit: Limit): PlanPath | null;
  /** The meals that would close a gap. */
  mealsFor(gap: MealGap): Meals;
  /** Dates of which nothing is known. */
  readonly missing: readonly string[];
  /** The evening before a call, as a release on it would be stated; null where it would be stated otherwise. */
  evening(call: Instant): string | null;
  /** Minutes by which a call may be later with every fixed instant kept; null where nothing bounds it, or it is not known. */
  callRoom?(call: Instant): number | null;
}

const sourceOf = ({ title }: RuleSet, { clause }: Breach): Source => ({ title, clause });

/** What kind of breach a limit makes. */
export function breachFindingOf(limit: Limit): Definition<BreachFacts> {
  if (limit.kind !== "max") return restTooLate;
  const [since] = limit.since;
  if (limit.leavesFree === true) return dayOffTooShort;
  if (since?.kind === "break") return breakMissed;
  if (since?.kind === "calendar" && (since.count > 1 || since.unit === "week")) return weekTooLong;
  if (limit.counts === "driving") return drivingTooLong;
  if (limit.counts === "elapsed" && limit.forbids === "driving") return windowOver;
  return limit.counts === "elapsed" ? restTooLate : dutyTooLong;
}

const over = (breaches: readonly Breach[]): number => sumOf(breaches, ({ minutes }) => minutes);

const term = (name: string, from: Instant, to: Instant, where: PlanPath | null): ReasonTerm => ({
  name,
  from,
  to,
  minutes: to - from,
  where,
});

/** Whether a call has room for so many minutes; where nothing bounds it, it has. */
const mayBeLater = ({ callRoom }: FindingContext, call: Instant, by: number): boolean =>
  (callRoom?.(call) ?? Number.POSITIVE_INFINITY) >= by;

interface BreachGroup {
  readonly context: FindingContext;
  readonly verdict: Verdict;
  readonly first: Breach;
  readonly all: readonly Breach[];
}

function circumstance({ context, verdict, first }: BreachGroup, more: Circumstance): Circumstance {
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
function aboardFinding(group: BreachGroup, limit: RestLimit): Finding {
  const { context, first } = group;
  const { from, to } = first;
  const facts = { who: context.hours.id, limit: limit.id, rule: limit.title, from: { at: from }, to: { at: to } };
  return restAboard.raise({ ...facts, minutes: to - from }, circumstance(group, { shortMinutes: to - from }));
}

/** A rest that is too short, or of which nothing is known. */
function restFinding(group: BreachGroup, limit: RestLimit): Finding {
  const { context, verdict, first } = group;
  const who = context.hours.id;
  const rest = verdict.rests.findLast((run) => run.to <= first.bites && partsIn(run, limit));
  const known = context.spans[0]?.from;
  if (rest === undefined || (rest.from === known && !context.startsReleased)) {
    const evening = context.evening(known ?? first.bites);
    const facts = { who, rule: limit.title, needed: limit.requires, evening, missing: [] };
    return restNotStated.raise(facts, circumstance(group, { otherwise: verdict.rules.legallyBinding }));
  }
  const minutes = rest.to - rest.from;
  // It counts for another week: what is missing is a rest of its own.
  if (minutes >= limit.requires) return maxFinding(group, limit);
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
    mayBeLater: mayBeLater(context, rest.to, limit.requires - minutes),
  };
  const chain = [term("rest", rest.from, rest.to, context.where(limit))];
  return restTooShort.raise(
    facts,
    circumstance(group, { at: rest.to, chain, shortMinutes: Math.max(0, limit.requires - minutes) }),
  );
}

function maxFinding(group: BreachGroup, limit: Limit): Finding {
  const { context, verdict, first, all } = group;
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
    doing: limit.kind !== "makeUp" && limit.forbids === "driving" ? ("drives" as const) : ("works" as const),
    since: since === null || since > first.from ? null : { at: since },
    mayBeLater: mayBeLater(context, since ?? first.from, overMinutes),
  };
  const chain = [
    ...(facts.since === null ? [] : [term(limit.title, facts.since.at, first.bites, context.where(limit))]),
    term("beyond it", first.from, first.to, null),
  ];
  const circumstances = circumstance(group, { chain, shortMinutes: overMinutes });
  if (limit.kind !== "max" || limit.meal !== true || verdict.rules.legallyBinding)
    return breachFindingOf(limit).raise(facts, { ...circumstances, otherwise: limit.advice === true });
  const gap: MealGap = {
    since: facts.since?.at ?? instant(first.from - limit.allows),
    due: first.from,
    until: all.at(-1)?.to ?? first.to,
    allows: limit.allows,
  };
  const { count, room, pair } = context.mealsFor(gap);
  const at = (when: Instant | undefined): { at: Instant } | null => (when === undefined ? null : { at: when });
  const [mealAt, nextAt] = pair ?? [];
  return mealLate.raise(
    { ...facts, meals: count, wait: at(room?.from), waitTo: at(room?.to), meal: at(mealAt), nextMeal: at(nextAt) },
    circumstances,
  );
}

/** A breach of a rule that defers, or of a deferred question: stated, not decided. */
function openFinding(group: BreachGroup, question: string): Finding {
  const { context, first } = group;
  const { from, to, limit } = first;
  const facts = {
    who: context.hours.id,
    question: `${question}; ${limit.title}`,
    limit: limit.id,
    from: { at: from },
    to: { at: to },
  };
  return hoursReview.raise(facts, circumstance(group, {}));
}

/** Kept only if a day of which nothing is known was free: one finding for all limits of a rule set. */
function notStatedFindings(context: FindingContext, verdict: Verdict, all: readonly Breach[]): readonly Finding[] {
  const [first] = all;
  if (first === undefined) return [];
  const rule = [...new Set(all.map(({ limit }) => limit.title))].join("; ");
  const facts = { who: context.hours.id, rule, needed: first.minutes, evening: null, missing: context.missing };
  const group: BreachGroup = { context, verdict, first, all };
  return [restNotStated.raise(facts, circumstance(group, { otherwise: verdict.rules.legallyBinding }))];
}

const byLimit = (breaches: readonly Breach[]): readonly Some<Breach>[] => [
  ...groupBy(breaches, ({ limit }) => limit.id).values(),
];

const SHORT_HAUL_LOST =
  "the short-haul exception was lost by a late release, and a break due before that was not taken: is it cited?";

function verdictFindings(context: FindingContext, verdict: Verdict): readonly Finding[] {
  const recent = ({ to }: Breach): boolean => to > context.from;
  const breaches = byLimit(verdict.breaches.filter(recent)).flatMap((all) => {
    const [first] = all;
    const group: BreachGroup = { context, verdict, first, all };
    const { limit } = first;
    if (limit.defer !== undefined) return [openFinding(group, limit.defer)];
    if (limit.kind !== "rest") return [maxFinding(group, limit)];
    return [limit.breach === "aboard" ? aboardFinding(group, limit) : restFinding(group, limit)];
  });
  const open = byLimit(verdict.reviews.filter(recent)).flatMap((all) => {
    const [first] = all;
    return [openFinding({ context, verdict, first, all }, first.question ?? SHORT_HAUL_LOST)];
  });
  return [...breaches, ...open, ...notStatedFindings(context, verdict, (verdict.notStated ?? []).filter(recent))];
}

const claims = ({ hours, path }: FindingContext): readonly Finding[] =>
  hours.bindings.flatMap(({ rules }) =>
    rules.conditions.map((condition) =>
      claimConditions.raise(
        { who: hours.id, condition },
        { who: hours.id, path, source: { title: rules.title, clause: null } },
      ),
    ),
  );

/** Whether two findings are of one short rest: the law's is raised, the house's would say it again. */
const sameRest = (a: Finding, b: Finding): boolean =>
  (a.code === "rest-too-short" || a.code === "rest-not-stated") &&
  a.code === b.code &&
  (a.code === "rest-not-stated" || a.at === b.at) &&
  (a.shortMinutes ?? 0) <= (b.shortMinutes ?? 0);

/** All findings about one person's hours under law and house rules. */
export function personFindings(all: FindingContext): readonly Finding[] {
  // What is shown for the next drive alone finds nothing and asks nothing.
  const bindings = all.hours.bindings.filter(({ forNextDrive }) => forNextDrive !== true);
  const { id, verdicts, disputed } = all.hours;
  const context: FindingContext = { ...all, hours: { id, bindings, verdicts, disputed } };
  const group = context.hours.verdicts.flatMap((verdict) => verdictFindings(context, verdict));
  const distinct = group.filter((one) => one.law || !group.some((other) => other.law && sameRest(one, other)));
  return [...distinct, ...questionsOf(context), ...claims(context)];
}
