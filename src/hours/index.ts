/**
 * Is everyone's day allowed, and when may each be called or drive again? Law and house rules on one hand, how rested
 * people are likely to be on the other; the two are never merged.
 */
import type { Day, PersonDay } from "../day/day.ts";
import type { Finding, PlanPath } from "../findings/finding.ts";
import type { JudgeInput, Judgement } from "../findings/judgement.ts";
import { sumOf } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import { dateText, offsetMinutes } from "../time/index.ts";
import { type Instant, instant } from "../time/units.ts";
import { type Calendars, calendarsOf } from "./count/calendar.ts";
import { isDuty, isRest, type LogSpan } from "./count/spans.ts";
import { teamFindings } from "./count/team.ts";
import { hoursGap } from "./findings.ts";
import { nightDriving, sleepShort, wheelAwake } from "./fitness/findingsFitness.ts";
import { bloodAlcoholLevel, type Fitness, fitnessOf } from "./fitness/fitness.ts";
import { bindingsOf, driven } from "./judge/applicableRules.ts";
import { eveningBefore, restUnknown } from "./judge/before.ts";
import { type Ledger, ledgerOf } from "./judge/ledger.ts";
import { personFindings } from "./judge/limitFindings.ts";
import { mealsFor } from "./judge/meals.ts";
import { type PersonHours, personHours, type Totals } from "./judge/person.ts";
import { dayQuestions } from "./questions/dayQuestions.ts";
import { vehicleQuestions } from "./questions/vehicleQuestions.ts";
import { type RuleSetId, ruleSet } from "./rules/index.ts";
import { NO_OPTIONS } from "./rules/options.ts";
import type { Limit } from "./rules/rule.ts";

export type { Fitness } from "./fitness/fitness.ts";
export { type BindingRest, bindingRests } from "./judge/bindingRests.ts";
export type { Breach, Verdict } from "./judge/judge.ts";
export type { LimitState } from "./judge/limitState.ts";
export { logHours, momentOutsideOf } from "./judge/logHours.ts";
export { breachesOf, type PersonHours } from "./judge/person.ts";

/** A person's judged hours, the record they are judged by, and their fitness. */
export interface PersonHoursResult {
  readonly hours: PersonHours;
  readonly ledger: Ledger;
  readonly fitness: Fitness;
  /** The day's breaches only: what ended before the last release was reported on an earlier day. */
  readonly since: Instant;
}

/** The hours of everyone in a day. */
export interface HoursResult {
  /** Everyone in the crew, in plan order. */
  readonly people: ReadonlyMap<Id, PersonHoursResult>;
}

/**
 * The longest stretch off between the last release and the call: work for the gear may part it, and a day of which nothing
 * is known is none of it.
 */
function restBefore({ call, previousRelease }: PersonDay, { spans }: Ledger): number | null {
  if (call === null || previousRelease === null) return null;
  let [longest, from] = [0, previousRelease];
  for (const span of spans.filter(({ to }) => to > previousRelease)) {
    if (span.from >= call) break;
    if (isRest(span)) continue;
    // Work that is not known may have ended with it: what lay before is then no rest before this call.
    longest = span.unknown === true ? 0 : Math.max(longest, span.from - from);
    from = span.to;
  }
  return Math.max(longest, call - from);
}

/** The totals that a day's own calls and releases give; a log has to infer them. */
function totalsOf(person: PersonDay, ledger: Ledger, since: Instant): Totals {
  const today = ledger.spans.filter(({ to }) => to > since);
  const minutes = (counts: (span: LogSpan) => boolean): number =>
    sumOf(today, (span) => (counts(span) ? span.to - span.from : 0));
  return {
    restBeforeMinutes: restBefore(person, ledger),
    restAtLeast: ledger.unknown.some(({ from, to }) => to > since && (person.call === null || from < person.call)),
    dutyMinutes: minutes(isDuty),
    drivingMinutes: minutes(({ is }) => is === "driving"),
  };
}

function resultOf({ days, brief }: JudgeInput, calendars: Calendars, day: Day, person: PersonDay): PersonHoursResult {
  const ledger = ledgerOf(days, person.id);
  const since = person.previousRelease ?? person.call ?? day.span.from;
  const drives = driven(day, person.id).length > 0 || (day.plan.crew.get(person.id)?.drives.length ?? 0) > 0;
  const { recordIn } = ledger;
  const asked = {
    id: person.id,
    recordIn,
    bindings: bindingsOf(day, person.id, days.slice(0, -1)),
    calendars,
    drives,
    released: true,
    foretells: brief !== true,
    // What ran out on an earlier day allows nothing from the call on.
    notBefore: person.call ?? since,
    totals: totalsOf(person, ledger, since),
  };
  return { hours: personHours(asked), ledger, fitness: fitnessOf(day, person), since };
}

/** The plan line behind a limit. */
function whereOf(day: Day, person: Id, { id, planKey }: Limit): PlanPath | null {
  if (planKey !== undefined) return day.plan.rules.stated.has(planKey) ? ["rules", planKey] : null;
  const vehicle = driven(day, person).find(({ rules }) => rules.some((name) => id.startsWith(`${name}.`)));
  return vehicle === undefined ? null : [...vehicle.path, "rules"];
}

/** Whether someone is neither on the road nor at a bed at an instant of the day. */
function isAtVenue({ plan }: Day, { spans }: PersonDay, at: Instant): boolean {
  const place = spans.find(({ from, to }) => from <= at && at < to)?.place ?? null;
  return place !== null && plan.places.get(place)?.kind !== "lodging";
}

/** A call follows from the first departure behind it; what was logged is a fact. */
function callRoom({ plan, moves }: Day, who: Id, call: Instant): number | null {
  if ((plan.actual.people.get(who)?.call ?? null) !== null) return 0;
  const first = moves.find(({ leave, driver, riders }) => leave >= call && [driver, ...riders].includes(who));
  return first?.slackMinutes ?? null;
}

const contractRules = ({ plan }: Day, person: Id): readonly RuleSetId[] =>
  plan.contracts.get(plan.crew.get(person)?.contract ?? "")?.rules ?? [];

function lawful(day: Day, person: PersonDay, result: PersonHoursResult): readonly Finding[] {
  const path = day.plan.crew.get(person.id)?.path ?? ["crew", person.id];
  const { hours, ledger, since } = result;
  const raised = personFindings({
    hours,
    spans: ledger.spans,
    startsReleased: person.previousRelease !== null,
    from: since,
    path,
    where: (limit) => whereOf(day, person.id, limit),
    mealsFor: (gap) => mealsFor(day.plan.rules, person.spans, gap),
    evening: (call) => eveningBefore(day, person, call),
    callRoom: (call) => callRoom(day, person.id, call),
    missing: ledger.unknown.map(({ from }) => dateText(from, day.plan.zone)),
    offset: (at) => offsetMinutes(day.plan.zone, at),
    atVenue: ({ from }) => isAtVenue(day, person, from),
    labour: contractRules(day, person.id).map((name) => ruleSet(name, NO_OPTIONS, day.plan.rules)),
  });
  const who = person.id;
  const unknown = restUnknown(day, person, hours, raised);
  // A release that cannot be is reported once, not as one that is missing too.
  const known = person.lateRelease === null ? raised : raised.filter(({ code }) => code !== "rest-not-stated");
  const gaps = ledger.gaps.map(({ from, to }) =>
    hoursGap.raise({ who, from: { at: from }, to: { at: to } }, { who, path, at: from }),
  );
  return [...known, ...(unknown === null ? [] : [unknown]), ...gaps];
}

/** Cautions about whoever is at the wheel: one of each kind a person. */
function cautions(day: Day, person: PersonDay, { fitness }: PersonHoursResult): readonly Finding[] {
  const who = person.id;
  const path = day.plan.crew.get(who)?.path ?? ["crew", who];
  const [first] = fitness.wheel;
  if (first === undefined) return [];
  const found: Finding[] = [];
  const { stated } = fitness;
  for (const { sleepMinutes, crashRatio: ratio, from } of fitness.wheel) {
    if (sleepMinutes === null || ratio === null || ratio <= 1) continue;
    const mayBeLater = person.call !== null && callRoom(day, who, person.call) !== 0;
    const facts = { who, sleepMinutes, stated, ratio, from: { at: from }, mayBeLater };
    found.push(sleepShort.raise(facts, { who, path, at: from }));
    break;
  }
  const limitMinutes = day.plan.rules.wheelAwake;
  const late = fitness.wheel.filter(({ awakeMinutes }) => awakeMinutes !== null && awakeMinutes > limitMinutes);
  const last = late.at(-1);
  if (last !== undefined && last.awakeMinutes !== null) {
    const begun = late[0] ?? last;
    const from = instant(Math.max(begun.from, (begun.awakeSince ?? begun.from) + limitMinutes));
    const level = bloodAlcoholLevel(last.awakeMinutes);
    const assumed = fitness.upAssumed && begun.awakeSince === fitness.up;
    const facts = { who, awakeMinutes: last.awakeMinutes, limitMinutes, level, from: { at: from }, assumed };
    found.push(wheelAwake.raise(facts, { who, path, at: from, shortMinutes: last.awakeMinutes - limitMinutes }));
  }
  const dark = fitness.wheel.filter(({ nightMinutes }) => nightMinutes > 0);
  const [night] = dark;
  if (night !== undefined) {
    const minutes = sumOf(dark, ({ nightMinutes }) => nightMinutes);
    const facts = { who, from: { at: night.nightFrom }, to: { at: night.to }, minutes };
    found.push(nightDriving.raise(facts, { who, path, at: night.nightFrom }));
  }
  return found;
}

/** Judges everyone's hours on the last of `input.days`, with the chain behind it. */
export function assess(input: JudgeInput): Judgement<HoursResult> {
  const day = input.days.at(-1);
  if (day === undefined) throw new RangeError("no day to judge");
  const people = new Map<Id, PersonHoursResult>();
  const findings: Finding[] = [];
  const calendars = calendarsOf(day.plan.zone);
  for (const person of day.people) {
    const result = resultOf(input, calendars, day, person);
    people.set(person.id, result);
    findings.push(...lawful(day, person, result), ...cautions(day, person, result));
  }
  const hours = [...people.values()].map((person) => person.hours);
  const asked = [...dayQuestions(input.days, day, hours), ...vehicleQuestions(input.days, day, hours)];
  return { result: { people }, findings: [...findings, ...teamFindings(day), ...asked] };
}
