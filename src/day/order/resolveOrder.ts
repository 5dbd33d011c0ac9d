/** Puts the order of a day together; every mistake found on the way is reported, and then nothing is computed on top of it. */
import type { Finding } from "../../findings/finding.ts";
import type { Legs } from "../../legs/leg.ts";
import type { Id, Plan, Stop } from "../../plan/plan.ts";
import * as say from "../findings/findings.ts";
import { orderOpen } from "../findings/findingsOrder.ts";
import { activitiesOf, attend, legOfActivity, type StopsOf, stopsOfActivities, visitsOf } from "./attendance.ts";
import { personOrder } from "./chains.ts";
import { crewDay } from "./crewing.ts";
import { type AsDriven, asDriven, attendedAsDriven } from "./loggedDrivers.ts";
import { type Attendance, type DayOrder, isLive, type OrderedLeg, type PersonOrder } from "./order.ts";
import { liveOf, minutesBySize } from "./visits.ts";

/** The order of a day and what is wrong with it. */
export interface ResolvedOrder {
  readonly order: DayOrder;
  /** Mistakes; where there are any the order is not to be used. */
  readonly findings: readonly Finding[];
}

/** Brings all that shares a person, a vehicle or a path into order. */
export function resolveOrder(written: Plan, legs: Legs, bedLastNight: ReadonlyMap<Id, Id>): ResolvedOrder {
  const driven = drivenDay(written, legs, bedLastNight);
  const { crewed, unfitted } = driven;
  const plan = attendedAsDriven(written, driven);
  const findings: Finding[] = [...crewed.findings];
  const grounds = { plan, parties: crewed.parties, findings };
  const stopsOf = stopsOfActivities(grounds);
  const orderedLegs = withActivities(plan, crewed.legs, findings);
  const people = new Map<Id, PersonOrder>();
  const meet = meetingAt(stopsOf);
  const standing = [...plan.runs.values()].flatMap(({ stops }) => (stops.length === 1 ? stops : []));
  const standsAt = (id: Id): Id | null =>
    standing.find((stop) => crewed.parties.get(stop.id)?.includes(id))?.place ?? null;
  for (const id of plan.crew.keys()) {
    const placed = (target: Id): readonly Id[] =>
      (stopsOf.get(target) ?? stopsNamed(plan, target)).map((stop) => stop.id);
    const made = personOrder({ plan, legs: orderedLegs, bedLastNight, standsAt, stopsOf: placed, meet }, id);
    findings.push(...made.findings);
    people.set(id, made.order);
  }
  const visits = visitsOf(grounds, stopsOf);
  const attendance = new Map<Id, Attendance>();
  for (const activity of activitiesOf(plan)) {
    const leg = orderedLegs.find((one) => one.rolling.includes(activity.id) || one.halts.includes(activity.id)) ?? null;
    attendance.set(activity.id, attend(grounds, activity, visits, leg, people));
  }
  checkLengths(plan, findings);
  for (const person of people.keys()) checkOrder(plan, person, attendance, findings);
  checkWaits(plan, attendance, findings);
  return { order: { plan, legs: orderedLegs, visits, people, attendance }, findings: onlyRoots(findings, unfitted) };
}

/** Who rides and drives as planned and as logged. */
function drivenDay(plan: Plan, legs: Legs, bedLastNight: ReadonlyMap<Id, Id>): AsDriven {
  const planned = crewDay(plan, legs);
  return asDriven(plan, planned, (moved, who) => {
    const stopsOf = stopsOfActivities({ plan, parties: planned.parties, findings: [] });
    const bare = moved.map((leg) => ({ ...leg, rolling: [], halts: [] }));
    const ids = (target: Id): readonly Id[] => (stopsOf.get(target) ?? stopsNamed(plan, target)).map(({ id }) => id);
    const input = { plan, legs: bare, bedLastNight, standsAt: () => null, stopsOf: ids, meet: meetingAt(stopsOf) };
    return personOrder(input, who).findings.length === 0;
  });
}

const meetingAt =
  (stopsOf: StopsOf) =>
  (one: Stop, other: Stop): Id | null =>
    [...stopsOf].find(([, stops]) => stops.includes(one) && stops.includes(other))?.[0] ?? null;

const stopsNamed = (plan: Plan, id: Id): readonly Stop[] =>
  [...plan.runs.values()].flatMap((run) => run.stops.filter((stop) => stop.id === id));

function withActivities(
  plan: Plan,
  legs: readonly Omit<OrderedLeg, "rolling" | "halts">[],
  findings: Finding[],
): readonly OrderedLeg[] {
  const ofLeg = new Map<Id, { rolling: Id[]; halts: Id[] }>();
  for (const activity of activitiesOf(plan)) {
    const leg = legOfActivity(legs, activity, findings);
    if (leg === null) continue;
    const lists = ofLeg.get(leg.id) ?? { rolling: [], halts: [] };
    (activity.location.kind === "aboard" ? lists.rolling : lists.halts).push(activity.id);
    ofLeg.set(leg.id, lists);
  }
  const inOrder = (leg: Omit<OrderedLeg, "rolling" | "halts">, ids: readonly Id[]): readonly Id[] => {
    const listed = (leg.from.do ?? []).filter((id) => ids.includes(id));
    return [...listed, ...ids.filter((id) => !listed.includes(id))];
  };
  return legs.map((leg) => {
    const lists = ofLeg.get(leg.id);
    return { ...leg, rolling: inOrder(leg, lists?.rolling ?? []), halts: inOrder(leg, lists?.halts ?? []) };
  });
}

/**
 * What someone does at one stay in visits of different vehicles has no order of `do`: hits go by time, everything else
 * needs `after` or `before`, or windows that do not meet.
 */
function checkOrder(plan: Plan, who: Id, attendance: ReadonlyMap<Id, Attendance>, findings: Finding[]): void {
  const mine = [...attendance.values()].filter((one) => one.stayOf.has(who));
  mine.forEach((a, index) => {
    for (const b of mine.slice(index + 1)) {
      if (a.stayOf.get(who) !== b.stayOf.get(who) || a.visits.some((visit) => b.visits.includes(visit))) continue;
      if (isLive(a.activity) && isLive(b.activity)) continue;
      if (areApart(plan, a, b)) continue;
      if (isBehind(attendance, a.activity.id, b.activity.id) || isBehind(attendance, b.activity.id, a.activity.id))
        continue;
      const facts = { who, first: a.activity.id, second: b.activity.id };
      findings.push(orderOpen.raise(facts, { who, path: b.activity.path }));
    }
  });
}

/** Whether `after` and `before` put one behind the other, perhaps by way of others. */
function isBehind(all: ReadonlyMap<Id, Attendance>, later: Id, first: Id): boolean {
  const seen = new Set<Id>();
  const open = [later];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (id === first) return true;
    if (seen.has(id)) continue;
    seen.add(id);
    open.push(...(all.get(id)?.activity.after ?? []));
    for (const { activity } of all.values()) if (activity.before.includes(id)) open.push(activity.id);
  }
  return false;
}

/** Whether the times that two activities are bound to do not meet. */
function areApart(plan: Plan, a: Attendance, b: Attendance): boolean {
  const [first, second] = [boundsOf(plan, a), boundsOf(plan, b)];
  return first !== null && second !== null && (first.to <= second.from || second.to <= first.from);
}

function boundsOf(plan: Plan, { activity }: Attendance): { from: number; to: number } | null {
  return liveOf(plan, activity.id) ?? (activity.kind === "hit" ? null : activity.window);
}

/** Fills its window, or lasts as long as a meal does by the house rules; everything else states its length. */
function checkLengths(plan: Plan, findings: Finding[]): void {
  for (const task of plan.tasks.values()) {
    const fillsWindow = (task.kind === "standby" || task.kind === "standdown") && task.window !== null;
    const derived = task.kind === "meal" || (task.kind === "feed" && minutesBySize(plan, task) !== null);
    if (task.forMinutes !== null || fillsWindow || derived) continue;
    findings.push(say.lengthMissing.raise({ task: task.id }, { path: task.path }));
  }
}

/** Two stops that wait before the same fixed instant of a run. */
function checkWaits(plan: Plan, attendance: ReadonlyMap<Id, Attendance>, findings: Finding[]): void {
  for (const run of plan.runs.values()) {
    let waiting: Stop | null = null;
    for (const stop of run.stops) {
      const fixed = [...attendance.values()].find(
        ({ activity, visits }) => isLive(activity) && visits.some((visit) => visit.stop === stop),
      );
      if (fixed !== undefined) waiting = null;
      if (stop.waitHere && waiting !== null) {
        const facts = { vehicle: run.vehicle, stops: [waiting.id, stop.id], before: "the next fixed instant" };
        findings.push(say.twoWaits.raise(facts, { path: [...stop.path, "wait"] }));
      }
      if (stop.waitHere) waiting = stop;
      if (stop.leave !== null || stop.ferry !== null) waiting = null;
    }
  }
}

const brokenRides = new Set(["ride-missing", "ride-order-open", "two-vehicles-at-once"]);
const effectsOfRides = new Set(["cannot-attend", "visit-open"]);

/** A person whose rides do not chain cannot attend anything either; only the cause is reported. */
function onlyRoots(findings: readonly Finding[], unfitted: ReadonlySet<Id>): readonly Finding[] {
  const broken = new Set(findings.filter(({ code }) => brokenRides.has(code)).map((f) => f.who));
  const crewless = findings.some(
    (finding) =>
      finding.code === "aboard-missing" || finding.code === "driver-missing" || finding.code === "driver-elsewhere",
  );
  const effects = new Set(["cannot-attend", "nobody-attends", "ride-missing", "place-not-visited"]);
  return findings.filter((finding) => {
    if (finding.who !== null && unfitted.has(finding.who)) return finding.code === "driver-elsewhere";
    if (finding.who !== null && effectsOfRides.has(finding.code) && broken.has(finding.who)) return false;
    return !(crewless && effects.has(finding.code));
  });
}
