/**
 * When is who where? Works every instant of a day back from its fixed times and keeps the chain behind each.
 *
 * `computeDay` is pure: a plan and its legs in, a Day or the mistakes that leave none out.
 */
import type { Finding } from "../findings/finding.ts";
import type { Legs } from "../legs/leg.ts";
import type { Id, Plan } from "../plan/plan.ts";
import { MINUTES_A_DAY, startOnClock } from "../time/index.ts";
import { type Instant, type Interval, instant } from "../time/units.ts";
import { earlyHits } from "./beforeDate.ts";
import type { Before, Chore, Day, PersonDay, Why } from "./day.ts";
import { releasedEarly, wentMistakes } from "./facts/facts.ts";
import { asItWent, type Frozen, frozenBy, frozenUpTo } from "./facts/pinned.ts";
import * as say from "./findings/findings.ts";
import { type Admitted, admit, type Given } from "./network/applyFixedTimes.ts";
import { activityTimesOf, movesOf, stopsOf } from "./network/assemble.ts";
import { type Placed, place } from "./network/place.ts";
import { statedWaits, waitsFor } from "./network/shelter.ts";
import { weatherMatters } from "./network/timing.ts";
import { whyCall, whyNode, whyRelease } from "./network/why.ts";
import { ringFinding } from "./order/cycleMessage.ts";
import type { Order } from "./order/order.ts";
import { settle } from "./order/resolveOrder.ts";
import { partSpans } from "./people/chores.ts";
import { idlePeople, idleStops } from "./people/idle.ts";
import { type PersonResult, personDay, type StatedBefore } from "./people/people.ts";
import { instantOf } from "./people/timeline.ts";
import { slips } from "./slips.ts";
import { bareHits } from "./withoutVehicle.ts";

export type { Before, Day } from "./day.ts";

export const NOTHING_BEFORE: Before = {
  beds: new Map(),
  releases: new Map(),
  evenings: new Map(),
  vehicles: new Map(),
};

export type DayResult =
  | { readonly day: Day; readonly findings: readonly [] }
  /** Mistakes of the plan: nothing is computed on top of them. */
  | { readonly day: null; readonly findings: readonly Finding[] };

/** `now` freezes what is past: as it went where `actual` says so, else as planned. */
export function computeDay(
  written: Plan,
  legs: Legs,
  before: Before = NOTHING_BEFORE,
  now: Instant | null = null,
): DayResult {
  const plan = asItWent(written);
  const settled = settle(plan, legs, before.beds);
  if (settled.findings.length > 0) return refused(plan, settled.findings);
  const { order } = settled;
  const contradictions = wentMistakes(order);
  if (contradictions.length > 0) return refused(plan, contradictions);
  const frozen = frozenBy(plan);
  const planned = placeInWeather(order, frozen);
  if (planned.placed === null) return refused(plan, planned.findings);
  if (now === null) return dayOf(order, planned.placed, planned, before, frozen);
  const past = frozenUpTo(planned.placed, frozen, now);
  const rest = timed(order, { during: planned.during, frozen: past }, planned.waits);
  if (rest.placed === null) return refused(plan, rest.findings);
  return dayOf(order, rest.placed, rest, before, past);
}

/** Timed dry, once more in the weather of that timing, and once more where a wait is better spent in the warm. */
function placeInWeather(order: Order, frozen: Frozen): Timed {
  const stated = statedWaits(order.plan);
  const dry = timed(order, { during: new Map(), frozen }, stated);
  const during = weatherMatters(order) && dry.placed !== null ? legSpans(dry.placed) : new Map<Id, Interval>();
  const wet = during.size > 0 ? timed(order, { during, frozen }, stated) : dry;
  if (wet.placed === null) return wet;
  const waits = waitsFor(wet.placed);
  return [...waits].every((id) => stated.has(id)) ? wet : timed(order, { during, frozen }, waits);
}

const located = (plan: Plan, finding: Finding): Finding =>
  finding.span !== null || finding.path === null ? finding : { ...finding, span: plan.source.locate(finding.path) };

const refused = (plan: Plan, findings: readonly Finding[]): DayResult => ({
  day: null,
  findings: findings.map((finding) => located(plan, finding)),
});

interface Timed {
  readonly admitted: Admitted;
  readonly placed: Placed | null;
  readonly findings: readonly Finding[];
  readonly during: ReadonlyMap<Id, Interval>;
  readonly waits: ReadonlySet<Id>;
}

function timed(order: Order, given: Given, waits: ReadonlySet<Id>): Timed {
  const admitted = admit(order, given);
  const { during } = given;
  if (admitted.ring !== null) {
    const ring = ringFinding(order, admitted.build.timing, admitted.ring);
    return { admitted, placed: null, findings: [ring], during, waits };
  }
  const placed = place(admitted.build, waits);
  return { admitted, placed: placed.findings.length > 0 ? null : placed, findings: placed.findings, during, waits };
}

const legSpans = (placed: Placed): ReadonlyMap<Id, Interval> =>
  new Map(movesOf(placed).map((move) => [move.id, { from: move.leave, to: move.arrive }]));

function dayOf(
  order: Order,
  placed: Placed,
  timing: Timed,
  before: Before,
  frozen: Frozen,
  chores: readonly Chore[] = [],
): DayResult {
  const { admitted } = timing;
  const { plan } = order;
  const moves = movesOf(placed);
  const stops = stopsOf(placed);
  const activities = activityTimesOf(placed, admitted.missed);
  const results = new Map<Id, PersonResult>();
  for (const person of order.people.values()) {
    const mine = chores.filter(({ who }) => who === person.id).toSorted((a, b) => a.from - b.from);
    results.set(person.id, personDay({ placed, moves, frozen }, person, statedBefore(plan, before, person.id), mine));
  }
  const early = [...results].flatMap(([id, { day, calledAt }]) => releasedEarly(plan, id, calledAt, day.slept));
  if (early.length > 0) return refused(plan, early);
  const people = closeTheDay([...results.values()].map((result) => result.day));
  const day: Day = {
    plan,
    people,
    stops,
    moves,
    activities,
    rides: [...plan.rides.values()].map((ride) => ({ ride, who: ride.who })),
    findings: [...admitted.findings, ...slips(placed, frozen.now), ...forgotten(order), ...elsewhere(plan, before)].map(
      (finding) => located(plan, finding),
    ),
    instants: instantsOf(placed, people),
    why: (id) => whyOf(placed, results, id),
    span: spanOf(people, plan),
    withChores: (others, since = before) => dayOf(order, placed, timing, since, frozen, others).day ?? day,
  };
  return { day, findings: [] };
}

/** A day that follows another goes by that one; `history` is for the first. */
function statedBefore({ history }: Plan, { releases, evenings }: Before, person: Id): StatedBefore {
  const followed = releases.get(person);
  if (followed !== undefined) return { released: followed, spansEnd: null, evening: evenings.get(person) ?? null };
  const stated = history.get(person);
  const ends = (stated?.spans ?? []).map(({ to }) => to);
  return {
    released: stated?.released ?? null,
    spansEnd: ends.length === 0 ? null : instant(Math.max(...ends)),
    evening: null,
  };
}

const forgotten = (order: Order): readonly Finding[] => [
  ...idleStops(order),
  ...idlePeople(order),
  ...bareHits(order),
  ...earlyHits(order.plan),
];

/** What sets off from a place where the day before did not leave it. */
function elsewhere(plan: Plan, before: Before): readonly Finding[] {
  const vehicles = [...plan.runs.values()].flatMap((run) => {
    const at = before.vehicles.get(run.vehicle);
    const first = run.stops[0];
    if (at === undefined || first === undefined || first.place === at) return [];
    return [say.vehicleElsewhere.raise({ vehicle: run.vehicle, at, from: first.place }, { path: first.path })];
  });
  const people = [...plan.crew.values()].flatMap((person) => {
    const at = before.beds.get(person.id);
    if (at === undefined || person.slept === null || person.slept === at) return [];
    const facts = { who: person.id, at, slept: person.slept };
    return [say.bedElsewhere.raise(facts, { who: person.id, path: [...person.path, "slept"] })];
  });
  return [...vehicles, ...people];
}

/** From the first call or release known to the last release; where nobody has a duty, the plan's date on its own clock. */
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

function instantsOf(placed: Placed, people: readonly PersonDay[]): ReadonlyMap<string, Instant> {
  const instants = new Map<string, Instant>();
  for (const person of people) {
    if (person.call !== null) instants.set(`${person.id}.call`, person.call);
    if (person.release !== null) instants.set(`${person.id}.release`, person.release);
  }
  for (const name of placed.build.nodes.keys()) {
    const at = instantOf(placed, name);
    if (at !== null) instants.set(name, at);
  }
  return instants;
}

function whyOf(placed: Placed, results: ReadonlyMap<Id, PersonResult>, id: string): Why | null {
  const [who, what] = [id.slice(0, id.lastIndexOf(".")), id.slice(id.lastIndexOf(".") + 1)];
  const person = results.get(who);
  if (person !== undefined && what === "call") return whyCall(placed, id, person.tiles);
  if (person !== undefined && what === "release") return whyRelease(placed, id, person.tiles);
  return whyNode(placed, id);
}
