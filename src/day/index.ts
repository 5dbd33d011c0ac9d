/**
 * When is who where? Works every instant of a day back from its fixed times and keeps the chain behind each.
 *
 * `computeDay` is pure: a plan and its legs in, a Day or the mistakes that leave none out.
 */
import type { Finding } from "../findings/finding.ts";
import type { Legs } from "../legs/leg.ts";
import type { ActualPerson, Hit, Id, Plan, Task } from "../plan/plan.ts";
import type { Instant } from "../time/units.ts";
import type { ActivityTimes, Day, DayBefore } from "./day.ts";
import { factsUntil, wentOut } from "./facts/asItWent.ts";
import { stoodAndCalled } from "./facts/inTurn.ts";
import { pastOf } from "./facts/past.ts";
import { notMade } from "./facts/sentHome.ts";
import { factAhead } from "./findings/findingsFacts.ts";
import { vehicleOutOfService } from "./findings/findingsOutage.ts";
import type { DayResult } from "./makeDay.ts";
import { type Loss, lossOf, outagesOf, type ServiceOutage } from "./outage/outage.ts";
import { dayFrom, NO_PAST } from "./solve.ts";

export type { Day, DayBefore } from "./day.ts";

/** No day before: beds and releases are as the plan states them. */
export const NOTHING_BEFORE: DayBefore = {
  beds: new Map(),
  releases: new Map(),
  evenings: new Map(),
  vehicles: new Map(),
};

export type { DayResult };

/** What stands besides the plan itself, for a day that is under way. */
export interface UnderWay {
  readonly now: Instant | null;
  /** The plan before the edit that is asked about; null where nothing is edited, and then `now` moves nothing. */
  readonly unedited: { readonly plan: Plan; readonly legs: Legs } | null;
}

/** The day has not begun: everything may still be planned. */
export const NOT_UNDER_WAY: UnderWay = { now: null, unedited: null };

/** The day of a plan. What is out of service, and who is away, is not there from then on. */
export function computeDay(
  written: Plan,
  legs: Legs,
  before: DayBefore = NOTHING_BEFORE,
  underWay: UnderWay = NOT_UNDER_WAY,
): DayResult {
  const whole = dayUnderWay(written, legs, before, underWay);
  const outages = outagesOf(written);
  const result = whole.day === null || outages.length === 0 ? whole : withOutages(whole.day, legs, before, outages);
  return result.day === null ? result : { ...result, day: wentOut(result.day) };
}

/** One outage after the other: each takes from the day what the earlier ones have left. */
function withOutages(whole: Day, legs: Legs, before: DayBefore, outages: readonly ServiceOutage[]): DayResult {
  const lost: ActivityTimes[] = [];
  const findings: Finding[] = [];
  let day = whole;
  for (const outage of outages) {
    const loss = lossOf(day, day.plan, outage, outages);
    findings.push(outageFinding(day, outage, loss));
    lost.push(...day.activities.flatMap((one) => (loss.lost.includes(one.id) ? [notMade(one)] : [])));
    if (loss.plan === day.plan) continue;
    const past = pastOf(day, day.plan, loss.plan, loss.from);
    const { pins } = past;
    const next = dayFrom(past.plan, legs, before, {
      ...NO_PAST,
      ...{ pins, now: loss.from, standing: loss.standing },
    });
    if (next.day === null) return { day: null, findings: [...findings, ...next.findings] };
    day = next.day;
  }
  return { day: { ...withLost(day, whole, lost, findings), unedited: whole.unedited }, findings: [] };
}

/** What is lost stays among the activities as missed, and in the plan. */
function withLost(day: Day, whole: Day, lost: readonly ActivityTimes[], findings: readonly Finding[]): Day {
  const { hits, tasks } = whole.plan;
  const own = <T extends Hit | Task>(all: ReadonlyMap<Id, T>, made: ReadonlyMap<Id, T>): ReadonlyMap<Id, T> =>
    new Map([...all].map(([id, one]) => [id, made.get(id) ?? one]));
  const plan = { ...day.plan, hits: own(hits, day.plan.hits), tasks: own(tasks, day.plan.tasks) };
  const located = findings.map((one) => ({ ...one, span: one.path === null ? null : plan.source.locate(one.path) }));
  return {
    ...day,
    plan,
    activities: [...day.activities, ...lost],
    intact: whole,
    findings: [...located, ...day.findings],
    withChores: (chores, before) => withLost(day.withChores(chores, before), whole, lost, findings),
  };
}

const SECTION = { vehicle: "vehicles", path: "paths", person: "crew" } as const;

function outageFinding(
  { plan }: Day,
  { kind, id, during }: ServiceOutage,
  { lost, stranded, place, road }: Loss,
): Finding {
  const gear = [...plan.kit.values(), ...plan.packs.values()].flatMap((piece) =>
    kind === "vehicle" && piece.in === id ? piece.id : [],
  );
  const facts = {
    ...{ what: id, kind, at: { at: during.from }, place, lost, road: road ?? [] },
    ...{ stranded: [...stranded.keys()], where: [...stranded.values()], gear: stranded.size === 0 ? [] : gear },
  };
  const path = [SECTION[kind], id, kind === "person" ? "away" : "broken"];
  return vehicleOutOfService.raise(facts, { path, at: during.from, otherwise: lost.length > 0 || stranded.size > 0 });
}

/** A day is the same with a `now` as without, but for facts that are later and for an edit. */
function dayUnderWay(written: Plan, legs: Legs, before: DayBefore, { now, unedited }: UnderWay): DayResult {
  if (now === null) return dayFrom(written, legs, before, NO_PAST);
  const { actual, later } = factsUntil(written, now);
  const plan = later.length === 0 ? written : { ...written, actual };
  const findings = later.map(([what, key]) => factAhead.raise({ what, key }, { path: ["actual", what, key] }));
  if (unedited === null) return dayFrom(plan, legs, before, { ...NO_PAST, findings });
  const old = { ...unedited.plan, actual };
  const earlier = dayFrom(old, unedited.legs, before, NO_PAST);
  if (earlier.day === null) return dayFrom(plan, legs, before, { ...NO_PAST, findings });
  const past = pastOf(earlier.day, old, plan, now);
  const stood = stoodAndCalled(earlier.day);
  const given = { ...stood, pins: past.pins, now, findings: [...findings, ...past.findings] };
  const free = dayFrom(past.plan, legs, before, given);
  const called = free.day === null ? null : withCalled(past.plan, earlier.day, free.day, now);
  const made = called === null ? free : dayFrom(called, legs, before, given);
  return made.day === null ? made : { ...made, day: { ...made.day, unedited: { day: earlier.day, now } } };
}

const NOT_LOGGED: ActualPerson = { call: null, released: null, asleepMinutes: null, inBed: [], up: null, note: null };

/** Whoever was called before `now` has been, whatever an edit makes of what they were called for; null where all have. */
function withCalled(plan: Plan, before: Day, after: Day, now: Instant): Plan | null {
  const people = new Map(plan.actual.people);
  let moved = false;
  for (const { id, call } of before.people) {
    if (call === null || call >= now || after.people.find((one) => one.id === id)?.call === call) continue;
    const went = people.get(id) ?? NOT_LOGGED;
    if (went.call !== null || !plan.crew.has(id)) continue;
    people.set(id, { ...went, call });
    moved = true;
  }
  return moved ? { ...plan, actual: { ...plan.actual, people } } : null;
}
