/** The Day of what has been placed: people, stops, drives, activities, and why each instant is when it is. */

import type { Finding } from "../findings/finding.ts";
import type { Actual, HistorySpan, Id, Plan } from "../plan/plan.ts";
import { MINUTES_A_DAY, startOnClock } from "../time/index.ts";
import { type Instant, type Interval, instant } from "../time/units.ts";
import type { Chore, Day, DayBefore, PersonDay, Why } from "./day.ts";
import { releasedEarly } from "./facts/contradictions.ts";
import { lostFindings, withoutSentHome } from "./facts/sentHome.ts";
import { stoodOtherwise } from "./facts/vehiclesStood.ts";
import { activityTimesOf, stopsOf, vehicleMoves } from "./network/assemble.ts";
import type { Timed } from "./network/inWeather.ts";
import type { PlacedDay } from "./network/place.ts";
import { tilesOfDuty, whyCall, whyNode, whyRelease, whyStanddown } from "./network/why.ts";
import type { DayOrder } from "./order/order.ts";
import { partSpans } from "./people/chores.ts";
import {
  isStanddown,
  type PersonPlanned,
  personDay,
  personPlanned,
  type SolvedPeople,
  type StatedBefore,
} from "./people/people.ts";
import { placedInstants } from "./people/timeline.ts";
import { remarks } from "./remarks.ts";

/** A solved day, or the findings that say why there is none. */
export type DayResult =
  | { readonly day: Day; readonly findings: readonly [] }
  /** Mistakes of the plan: nothing is computed on top of them. */
  | { readonly day: null; readonly findings: readonly Finding[] };

const located = (plan: Plan, finding: Finding): Finding =>
  finding.span !== null || finding.path === null ? finding : { ...finding, span: plan.source.locate(finding.path) };

/** The answer for a plan that has no day. */
export const refusedDay = (plan: Plan, findings: readonly Finding[]): DayResult => ({
  day: null,
  findings: findings.map((finding) => located(plan, finding)),
});

/** What a day is made of besides what is placed. */
export interface Circumstances {
  readonly timed: Timed;
  readonly before: DayBefore;
  readonly notes: readonly Finding[];
  /** What was logged, without what follows from it. */
  readonly actual: Actual;
  readonly chores: readonly Chore[];
}

/** What a placed network gives, whatever chores there are and whatever was before. */
interface Placed {
  readonly order: DayOrder;
  readonly placed: PlacedDay;
  readonly moves: Day["moves"];
  readonly stops: Day["stops"];
  readonly activities: Day["activities"];
  readonly people: readonly PersonPlanned[];
}

/** The day that a placed network describes. */
export function dayOf(order: DayOrder, placed: PlacedDay, around: Circumstances): DayResult {
  const { missed, fit } = around.timed.admitted;
  const moves = vehicleMoves(placed);
  const people = [...order.people.values()].map((person) => personPlanned({ placed, moves, fit }, person));
  const [stops, activities] = [stopsOf(placed), activityTimesOf(placed, missed)];
  return dayWith({ order, placed, moves, stops, activities, people }, around);
}

function dayWith(whole: Placed, around: Circumstances): DayResult {
  const { order, placed, moves, stops, activities } = whole;
  const { before, notes, actual, chores } = around;
  const { findings, fit } = around.timed.admitted;
  const plan: Plan = { ...order.plan, actual };
  const results = new Map<Id, SolvedPeople>();
  for (const planned of whole.people) {
    const { id } = planned.order;
    const mine = chores.filter(({ who }) => who === id).toSorted((a, b) => a.from - b.from);
    results.set(id, personDay({ placed, moves, fit }, planned, statedBefore(plan, before, id), mine));
  }
  const early = [...results].flatMap(([id, { day, calledAt }]) => releasedEarly(plan, id, calledAt, day.slept));
  if (early.length > 0) return refusedDay(plan, early);
  const people = closeTheDay([...results.values()].map((result) => result.day));
  const attended = withoutSentHome(activities, people, actual);
  const lost = new Set(attended.lost.map(({ id }) => id));
  const isLost = (name: string): boolean => lost.has(name.slice(0, name.lastIndexOf(".")));
  const instants = new Map([...instantsOf(placed, people)].filter(([name]) => !isLost(name)));
  const stood = stoodOtherwise({ plan, instants });
  const day: Day = {
    plan,
    people,
    stops:
      lost.size === 0
        ? stops
        : stops.map((one) => ({ ...one, activities: one.activities.filter((id) => !lost.has(id)) })),
    moves,
    activities: attended.activities,
    rides: [...plan.rides.values()].map((ride) => ({ ride, who: ride.who })),
    findings: [
      ...findings,
      ...remarks({ order, plan, placed, before, moves, people }),
      ...stood,
      ...lostFindings(attended.lost),
      ...notes,
    ].map((finding) => located(plan, finding)),
    instants,
    why: (id) => (isLost(id) ? null : whyOf(placed, results, id)),
    span: spanOf(people, plan),
    unedited: null,
    intact: null,
    withChores: (others, since = before) => dayWith(whole, { ...around, chores: others, before: since }).day ?? day,
  };
  return { day, findings: [] };
}

/** A day that follows another goes by that one; `history` is for the first. */
function statedBefore({ history }: Plan, { releases, evenings }: DayBefore, person: Id): StatedBefore {
  const followed = releases.get(person);
  if (followed !== undefined)
    return { released: followed, spansEnd: null, rest: null, evening: evenings.get(person) ?? null };
  const stated = history.get(person);
  const spans = (stated?.spans ?? []).toSorted((a, b) => a.from - b.from);
  return {
    released: stated?.released ?? null,
    spansEnd: spans.findLast((span) => !isOff(span))?.to ?? null,
    rest: restAtEnd(spans),
    evening: null,
  };
}

const isOff = ({ is, bunk }: HistorySpan): boolean => is === "off" || is === "berth" || (is === "ferry" && bunk);

/** The rest without a break that spans in time order end with. */
function restAtEnd(spans: readonly HistorySpan[]): Interval | null {
  const last = spans.at(-1);
  if (last === undefined || !isOff(last)) return null;
  const from = spans.reduceRight((begin, span) => (span.to === begin && isOff(span) ? span.from : begin), last.from);
  return { from, to: last.to };
}

/** From the first call or release known to the last release; where no one has a duty, the plan's date on its own clock. */
function spanOf(people: readonly PersonDay[], plan: Plan): Interval {
  const froms = people.flatMap((person) => person.spans.slice(0, 1).map((span) => span.from));
  const tos = people.flatMap((person) => person.release ?? []);
  if (froms.length === 0 || tos.length === 0) {
    return {
      from: startOnClock(plan.date, 0, plan.zone),
      to: startOnClock(plan.date, (plan.untilDays + 1) * MINUTES_A_DAY, plan.zone),
    };
  }
  return { from: instant(Math.min(...froms)), to: instant(Math.max(...tos)) };
}

/** Someone with nothing to do is off until the last release of the day. */
function closeTheDay(people: readonly PersonDay[]): readonly PersonDay[] {
  const last = people.reduce<Instant | null>(
    (late, one) => (one.release !== null && (late === null || one.release > late) ? one.release : late),
    null,
  );
  return people.map((person) => {
    const from = person.previousRelease;
    if (person.call !== null || from === null || last === null || last <= from) return person;
    const apart = person.chores.filter((one) => one.from >= from);
    const off = {
      from,
      to: last,
      is: "off",
      vehicle: null,
      activity: null,
      place: person.slept,
      doing: "off",
    } as const;
    return { ...person, spans: partSpans([off], apart, person) };
  });
}

function instantsOf(placed: PlacedDay, people: readonly PersonDay[]): ReadonlyMap<string, Instant> {
  const instants = new Map<string, Instant>();
  for (const person of people) {
    if (person.call !== null) instants.set(`${person.id}.call`, person.call);
    if (person.release !== null) instants.set(`${person.id}.release`, person.release);
    for (const [index, { call, release }] of person.duties.entries()) {
      if (index > 0) instants.set(`${person.id}.call.${index + 1}`, call);
      if (index < person.duties.length - 1) instants.set(`${person.id}.release.${index + 1}`, release);
    }
  }
  return new Map([...instants, ...placedInstants(placed)]);
}

function whyOf(placed: PlacedDay, results: ReadonlyMap<Id, SolvedPeople>, id: string): Why | null {
  for (const [who, { tiles, day }] of results) {
    if (!id.startsWith(`${who}.`)) continue;
    const [what, number] = id.slice(who.length + 1).split(".");
    if (what !== "call" && what !== "release") continue;
    const count = number === undefined ? (what === "call" ? 1 : day.duties.length) : Number(number);
    const duty = day.duties[count - 1];
    const downs = tiles.filter((tile) => isStanddown(placed.build.plan, tile));
    const between = duty === undefined ? null : whyStanddown(placed, id, downs, { at: duty[what], of: what });
    if (between !== null) return between;
    const mine = tilesOfDuty(tiles, duty);
    const inside = mine ?? (number === undefined ? tiles : []);
    return what === "call" ? whyCall(placed, id, inside) : whyRelease(placed, id, inside);
  }
  return whyNode(placed, id);
}
