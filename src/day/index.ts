/**
 * When is who where? Works every instant of a day back from its fixed times and keeps the chain behind each.
 *
 * `computeDay` is pure: a plan and its legs in, a Day or the mistakes that leave none out.
 */
import type { Finding } from "../findings/finding.ts";
import type { Legs } from "../legs/leg.ts";
import type { Actual, Id, Plan } from "../plan/plan.ts";
import { MINUTES_A_DAY, startOnClock } from "../time/index.ts";
import { type Instant, type Interval, instant } from "../time/units.ts";
import { earlyHits } from "./beforeDate.ts";
import type { Before, Chore, Day, PersonDay, Why } from "./day.ts";
import { asItWent, factsUntil } from "./facts/asItWent.ts";
import { impossibleFacts, releasedEarly } from "./facts/contradictions.ts";
import { overrideNotes } from "./facts/notes.ts";
import { type Completed, completeFacts } from "./facts/openFacts.ts";
import { pastOf } from "./facts/past.ts";
import { NO_PINS, type Pins, pinsOf } from "./facts/pins.ts";
import * as say from "./findings/findings.ts";
import { factAhead } from "./findings/findingsFacts.ts";
import { type Admitted, admit, type Given } from "./network/applyFixedTimes.ts";
import { activityTimesOf, movesOf, stopsOf } from "./network/assemble.ts";
import { type Placed, place } from "./network/place.ts";
import { statedWaits, waitsFor } from "./network/shelter.ts";
import { weatherMatters } from "./network/timing.ts";
import { tilesOfDuty, whyCall, whyNode, whyRelease } from "./network/why.ts";
import { ringFinding } from "./order/cycleMessage.ts";
import type { Order } from "./order/order.ts";
import { settle } from "./order/resolveOrder.ts";
import { unstatedOrders } from "./order/unlisted.ts";
import { partSpans } from "./people/chores.ts";
import { idlePeople, idleStops, lastStops } from "./people/idle.ts";
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

/** What stands besides the plan itself, for a day that is under way. */
export interface UnderWay {
  readonly now: Instant | null;
  /** The plan before the edit that is asked about; null where nothing is edited, and then `now` moves nothing. */
  readonly unedited: { readonly plan: Plan; readonly legs: Legs } | null;
}

export const NOT_UNDER_WAY: UnderWay = { now: null, unedited: null };

/** A day is the same with a `now` as without, but for facts that are later, for an edit, and for a vehicle that still stands. */
export function computeDay(
  written: Plan,
  legs: Legs,
  before: Before = NOTHING_BEFORE,
  { now, unedited }: UnderWay = NOT_UNDER_WAY,
): DayResult {
  if (now === null) return dayFrom(written, legs, before, NO_PAST);
  const { actual, later } = factsUntil(written, now);
  const plan = later.length === 0 ? written : { ...written, actual };
  const findings = later.map(([what, key]) => factAhead.raise({ what, key }, { path: ["actual", what, key] }));
  const standing = (day: Day): Past["standing"] => stillStanding(day, now);
  if (unedited === null) return withStanding(plan, legs, before, { ...NO_PAST, findings }, standing);
  const earlier = withStanding({ ...unedited.plan, actual }, unedited.legs, before, NO_PAST, standing);
  if (earlier.day === null) return dayFrom(plan, legs, before, { ...NO_PAST, findings });
  const past = pastOf(earlier.day, plan, now);
  const made = dayFrom(past.plan, legs, before, {
    pins: past.pins,
    now,
    standing: stillStanding(earlier.day, now),
    findings: [...findings, ...past.findings],
  });
  return made.day === null ? made : { ...made, day: { ...made.day, unedited: { day: earlier.day, now } } };
}

/** What is past and does not follow from the plan itself. */
interface Past {
  readonly pins: Pins["at"];
  readonly now: Instant | null;
  readonly standing: Pins["standing"];
  readonly findings: readonly Finding[];
}

const NO_PAST: Past = { pins: new Map(), now: null, standing: new Map(), findings: [] };

function withStanding(
  plan: Plan,
  legs: Legs,
  before: Before,
  past: Past,
  standing: (day: Day) => Past["standing"],
): DayResult {
  const planned = dayFrom(plan, legs, before, past);
  if (planned.day === null) return planned;
  const stands = standing(planned.day);
  return stands.size === 0 ? planned : dayFrom(plan, legs, before, { ...past, standing: stands });
}

/** Departures that the plan has before now of vehicles that are stated to stand there, which have not happened. */
function stillStanding({ plan, instants }: Day, now: Instant): ReadonlyMap<Id, Instant> {
  const standing = new Map<Id, Instant>();
  for (const [vehicle, { place, since }] of plan.actual.vehicles) {
    const reached = (plan.runs.get(vehicle)?.stops ?? []).filter((stop) => stop.place === place);
    const arrived = (id: Id): number => instants.get(`${id}.arrive`) ?? Number.NEGATIVE_INFINITY;
    const here = reached.findLast(({ id }) => since === null || arrived(id) <= since) ?? reached[0];
    if (here === undefined || plan.actual.stops.get(here.id)?.left != null) continue;
    if ((instants.get(`${here.id}.leave`) ?? now) < now) standing.set(here.id, now);
  }
  return standing;
}

function dayFrom(written: Plan, legs: Legs, before: Before, past: Past): DayResult {
  const solved = (completed: Completed): Solved => solve(completed, legs, before, past);
  const completed = completeFacts(written, (known, name) => {
    const { placed } = solved(known);
    return placed === null ? null : instantOf(placed, name);
  });
  const { order, timed: day, placed, findings } = solved(completed);
  if (placed === null || day === null) return refused(written, findings);
  const notes = [...past.findings, ...overrideNotes(written, day.admitted.fit)];
  return dayOf(order, placed, { timed: day, before, notes, actual: written.actual, chores: [] });
}

type Solved =
  | { readonly order: Order; readonly timed: Timed; readonly placed: Placed; readonly findings: readonly Finding[] }
  | { readonly order: Order; readonly timed: null; readonly placed: null; readonly findings: readonly Finding[] };

function solve({ plan: completed, assumed }: Completed, legs: Legs, before: Before, past: Past): Solved {
  const plan = asItWent(completed);
  const { order, findings } = settle(plan, legs, before.beds);
  const none = { order, timed: null, placed: null };
  if (findings.length > 0) return { ...none, findings };
  const impossible = impossibleFacts(order);
  if (impossible.length > 0) return { ...none, findings: impossible };
  const facts = pinsOf(plan, assumed);
  const { now, standing } = past;
  const begun = [...order.attendance.keys()].filter((id) => past.pins.has(`${id}.start`));
  const at = new Map([...past.pins, ...facts.at]);
  const done = new Set([...facts.done, ...begun]);
  const timed = placeInWeather(order, { at, now, standing, done });
  const { placed } = timed;
  return placed === null ? { ...none, findings: timed.findings } : { order, timed, placed, findings: [] };
}

/** Timed dry, once more in the weather of that timing, and once more where a wait is better spent in the warm. */
function placeInWeather(order: Order, pins: Pins): Timed {
  if (pins.at.size > 0 || pins.done.size > 0) {
    const planned = placeInWeather(order, NO_PINS);
    if (planned.placed !== null) return placeAsItWent(order, pins, planned, planned.placed);
  }
  const stated = statedWaits(order.plan);
  const dry = timed(order, { during: new Map(), pins }, stated);
  const during = weatherMatters(order) && dry.placed !== null ? legSpans(dry.placed) : new Map<Id, Interval>();
  const wet = during.size > 0 ? timed(order, { during, pins }, stated) : dry;
  if (wet.placed === null) return wet;
  const waits = waitsFor(wet.placed);
  return [...waits].every((id) => stated.has(id)) ? wet : timed(order, { during, pins }, waits);
}

/** In the weather and with the waits of the day as planned; a leg that is driven at another time has the weather of that. */
function placeAsItWent(order: Order, pins: Pins, { during, waits }: Timed, planned: Placed): Timed {
  const went = timed(order, { during, pins }, waits);
  if (went.placed === null || !weatherMatters(order)) return went;
  const before = legSpans(planned);
  const moved = [...legSpans(went.placed)].filter(([id, { from, to }]) => {
    const as = before.get(id);
    return as?.from !== from || as.to !== to;
  });
  return moved.length === 0 ? went : timed(order, { during: new Map([...during, ...moved]), pins }, waits);
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
  if (admitted.contradictions.length > 0)
    return { admitted, placed: null, findings: admitted.contradictions, during, waits };
  if (admitted.ring !== null) {
    const ring = ringFinding(order, admitted.build.timing, admitted.ring);
    return { admitted, placed: null, findings: [ring], during, waits };
  }
  const placed = place(admitted.build, waits);
  return { admitted, placed: placed.findings.length > 0 ? null : placed, findings: placed.findings, during, waits };
}

const legSpans = (placed: Placed): ReadonlyMap<Id, Interval> =>
  new Map(movesOf(placed).map((move) => [move.id, { from: move.leave, to: move.arrive }]));

/** What a day is made of besides what is placed. */
interface Circumstances {
  readonly timed: Timed;
  readonly before: Before;
  readonly notes: readonly Finding[];
  /** What was logged, without what follows from it. */
  readonly actual: Actual;
  readonly chores: readonly Chore[];
}

function dayOf(order: Order, placed: Placed, around: Circumstances): DayResult {
  const { before, notes, actual, chores } = around;
  const { missed, findings, fit } = around.timed.admitted;
  const plan: Plan = { ...order.plan, actual };
  const moves = movesOf(placed);
  const stops = stopsOf(placed);
  const activities = activityTimesOf(placed, missed);
  const results = new Map<Id, PersonResult>();
  for (const person of order.people.values()) {
    const mine = chores.filter(({ who }) => who === person.id).toSorted((a, b) => a.from - b.from);
    results.set(person.id, personDay({ placed, moves, fit }, person, statedBefore(plan, before, person.id), mine));
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
    findings: [...findings, ...slips(placed), ...forgotten(order), ...elsewhere(plan, before), ...notes].map(
      (finding) => located(plan, finding),
    ),
    instants: instantsOf(placed, people),
    why: (id) => whyOf(placed, results, id),
    span: spanOf(people, plan),
    unedited: null,
    withChores: (others, since = before) =>
      dayOf(order, placed, { ...around, chores: others, before: since }).day ?? day,
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
  ...lastStops(order),
  ...lastStops(order),
  ...idlePeople(order),
  ...bareHits(order),
  ...earlyHits(order.plan),
  ...unstatedOrders(order.visits, order.attendance),
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
    for (const [index, { call, release }] of person.duties.entries()) {
      if (index > 0) instants.set(`${person.id}.call.${index + 1}`, call);
      if (index < person.duties.length - 1) instants.set(`${person.id}.release.${index + 1}`, release);
    }
  }
  for (const name of placed.build.nodes.keys()) {
    const at = instantOf(placed, name);
    if (at !== null) instants.set(name, at);
  }
  return instants;
}

function whyOf(placed: Placed, results: ReadonlyMap<Id, PersonResult>, id: string): Why | null {
  for (const [who, { tiles, day }] of results) {
    if (!id.startsWith(`${who}.`)) continue;
    const [what, number] = id.slice(who.length + 1).split(".");
    if (what !== "call" && what !== "release") continue;
    const count = number === undefined ? (what === "call" ? 1 : day.duties.length) : Number(number);
    const mine = tilesOfDuty(tiles, day.duties[count - 1]);
    const inside = mine ?? (number === undefined ? tiles : []);
    return what === "call" ? whyCall(placed, id, inside) : whyRelease(placed, id, inside);
  }
  return whyNode(placed, id);
}
