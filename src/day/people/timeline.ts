/** What each person does from call to release, as named stretches that tile the time; only waits stretch. */
import type { PlanPath } from "../../findings/finding.ts";
import type { Id, SpanKind, Stop } from "../../plan/plan.ts";
import { type Instant, instant, minutes } from "../../time/units.ts";
import type { DayTerm, Move } from "../day.ts";
import type { Fit } from "../facts/fit.ts";
import { loadingMinutes } from "../network/build.ts";
import { rulePath } from "../network/nodes.ts";
import type { PlacedDay } from "../network/place.ts";
import {
  type Attendance,
  type OrderedLeg,
  type PersonOrder,
  type PersonStay,
  sleepsThrough,
  standdownBefore,
  type Visit,
} from "../order/order.ts";

/** A stretch of someone's time; where two overlap, the one that weighs more is what they do. */
export interface TimelineStretch {
  readonly name: string;
  readonly from: Instant;
  readonly to: Instant;
  readonly is: SpanKind;
  /** On a ferry: a berth of one's own. */
  readonly bunk?: boolean;
  readonly weight: number;
  readonly where: PlanPath | null;
  readonly place: Id | null;
  readonly vehicle: Id | null;
  readonly activity: Id | null;
  /** Node names of both ends, for the chain behind a call or release. */
  readonly ends: readonly [string, string];
}

const WEIGHT = { live: 6, held: 5, task: 4, road: 4, gear: 3, prepare: 2, standby: 1, asleep: 0.5 } as const;

/** What someone does who sleeps in a seat while the vehicle stands. */
export const ASLEEP = "asleep";

/** What a person's timeline is made from. */
export interface TimelineInput {
  readonly placed: PlacedDay;
  readonly moves: readonly Move[];
  readonly fit: Fit;
}

/** Everything a person takes part in, unsorted and overlapping where the plan overlaps. */
export function timelineOf(input: TimelineInput, person: PersonOrder): readonly TimelineStretch[] {
  return [
    ...person.stays.flatMap((stay) => rideStretches(input, person, stay)),
    ...person.stays.flatMap((_, index) => sleepsOn(input, person, index)),
    ...visitStretches(input, person),
    ...activityStretches(input, person),
  ].filter((stretch) => stretch.to > stretch.from);
}

/** The instant of a node by its name; null where the network has none. */
export function placedInstant({ build, value }: PlacedDay, name: string): Instant | null {
  const node = build.nodes.get(name);
  const at = node === undefined ? undefined : value[node];
  return at === undefined || !Number.isFinite(at) ? null : instant(at);
}

/** All instants of a placed network by the names of their nodes. */
export function placedInstants(placed: PlacedDay): ReadonlyMap<string, Instant> {
  const instants = new Map<string, Instant>();
  for (const name of placed.build.nodes.keys()) {
    const at = placedInstant(placed, name);
    if (at !== null) instants.set(name, at);
  }
  return instants;
}

type Parts = Partial<Omit<TimelineStretch, "from" | "to" | "ends" | "name">>;

function between(placed: PlacedDay, name: string, from: string, to: string, parts: Parts): readonly TimelineStretch[] {
  const [start, end] = [placedInstant(placed, from), placedInstant(placed, to)];
  if (start === null || end === null) return [];
  const base = { is: "duty", weight: WEIGHT.gear, where: null, place: null, vehicle: null, activity: null } as const;
  return [{ ...base, ...parts, name, from: start, to: end, ends: [from, to] }];
}

function rideStretches(input: TimelineInput, person: PersonOrder, stay: PersonStay): readonly TimelineStretch[] {
  const { placed } = input;
  const ride = stay.leaving;
  if (ride === null) return [];
  if (ride.kind === "ride") {
    const { id, from, path, leadMinutes, by, bunk } = ride.ride;
    const lead = between(placed, "lead", `${id}.lead`, `${id}.leave`, { place: from, where: [...path, "lead"] });
    const onWay = between(placed, id, `${id}.leave`, `${id}.arrive`, {
      is: by === "ferry" ? "ferry" : "riding",
      bunk: by === "ferry" && bunk,
      weight: WEIGHT.road,
      where: path,
    });
    return [...(leadMinutes > 0 ? lead : []), ...onWay];
  }
  return [...boarding(input, person, ride.leg, stay), ...onTheWay(input, person.id, ride.leg)];
}

/** Loading before a vehicle first rolls, the walk-around of who takes a commercial one out; and loading at a pick-up from bed. */
function boarding(
  { placed }: TimelineInput,
  person: PersonOrder,
  leg: OrderedLeg,
  stay: PersonStay,
): readonly TimelineStretch[] {
  const { plan } = placed.build;
  const stop = leg.from.id;
  const parts = { place: leg.from.place, vehicle: leg.vehicle };
  if (leg.index === 0 || standdownBefore(placed.build.order, person, leg, placed.build.entered.activities) !== null) {
    const walk = { ...parts, where: rulePath(plan, "walkAround") };
    return [
      ...(leg.driver === person.id
        ? between(placed, "walk-around", `${stop}.walkAround`, `${stop}.loading`, walk)
        : []),
      ...between(placed, "loading", `${stop}.loading`, `${stop}.leave`, { ...parts, where: rulePath(plan, "loading") }),
    ];
  }
  if (stay.arriving !== null) return [];
  const leave = placedInstant(placed, `${stop}.leave`);
  if (leave === null) return [];
  const from = instant(leave - loadingMinutes(placed.build.order, { ...leg, aboard: [person.id] }));
  const ends = [`${stop}.leave`, `${stop}.leave`] as const;
  return [
    {
      name: "loading",
      from,
      to: leave,
      is: "duty",
      weight: WEIGHT.gear,
      where: rulePath(plan, "loading"),
      ...parts,
      activity: null,
      ends,
    },
  ];
}

/** On a ferry; else driving, riding or in the berth, as the wheel passes from one to another; halts on the road are activities of their own. */
function onTheWay({ placed, moves }: TimelineInput, id: Id, leg: OrderedLeg): readonly TimelineStretch[] {
  const move = moves.find((one) => one.id === leg.id);
  if (move === undefined) return [];
  const berth = placed.build.plan.vehicles.get(leg.vehicle)?.berth ?? false;
  const asleep = leg.asleep.includes(id);
  const resting: SpanKind = berth && asleep ? "berth" : "riding";
  const where = leg.leg.path ?? leg.to.path;
  const ends = [`${leg.id}.leave`, `${leg.to.id}.arrive`] as const;
  const parts = { weight: WEIGHT.road, where, place: null, vehicle: leg.vehicle, activity: null, ends };
  const { ferry } = leg.leg;
  if (ferry !== undefined) {
    const { leave: from, arrive: to } = move;
    return [{ ...parts, name: "ferry", is: "ferry", bunk: ferry.bunk, from, to }];
  }
  const driving = move.wheel.map(({ driver, from, to }): TimelineStretch => {
    const mine = driver === id;
    return { ...parts, name: mine ? "drive" : "ride", is: mine ? "driving" : resting, from, to };
  });
  const halts = move.halts.map(
    ({ from, to, activity }): TimelineStretch => ({
      ...parts,
      name: "halt",
      // A sleeper whom the halt does not need sleeps on.
      is: asleep && driverBefore(move, from) !== id ? resting : "duty",
      weight: WEIGHT.standby,
      from,
      to,
      activity,
    }),
  );
  return [...driving, ...halts];
}

const driverBefore = (move: Move, at: Instant): Id | undefined => move.wheel.findLast(({ to }) => to <= at)?.driver;

/** Who sleeps before and after a stop and has nothing to do there sleeps on through it, whatever others do. */
function sleepsOn({ placed }: TimelineInput, person: PersonOrder, index: number): readonly TimelineStretch[] {
  const { order, plan } = placed.build;
  const { place, arriving, leaving } = person.stays[index] ?? {};
  if (!sleepsThrough(order, person, index) || arriving?.kind !== "leg" || leaving?.kind !== "leg") return [];
  const { vehicle } = leaving.leg;
  const berth = plan.vehicles.get(vehicle)?.berth === true;
  const parts: Parts = { is: berth ? "berth" : "riding", weight: WEIGHT.asleep, place: place ?? null, vehicle };
  return between(
    placed,
    berth ? "wait" : ASLEEP,
    `${arriving.leg.to.id}.arrive`,
    `${leaving.leg.from.id}.leave`,
    parts,
  );
}

/** Park, set-up, dish-up with the vehicle one comes with; strike, unload and post-trip with the one one leaves or ends in. */
function visitStretches(input: TimelineInput, person: PersonOrder): readonly TimelineStretch[] {
  const { placed } = input;
  const { build } = placed;
  const last = person.stays.at(-1);
  const visits = [
    ...build.order.visits.flatMap((visit) => standing(placed, person, visit)),
    ...person.stays.flatMap((stay) => parking(placed, stay)),
  ];
  if (last?.arriving?.kind !== "leg") return visits;
  const leg = last.arriving.leg;
  const ending = isLastStop(placed, leg.vehicle, leg.to) ? endOfRun(input, person.id, leg) : [];
  return [...visits, ...ending];
}

const isLastStop = ({ build }: PlacedDay, vehicle: Id, stop: Stop): boolean =>
  build.plan.runs.get(vehicle)?.stops.at(-1) === stop;

function endOfRun({ placed, moves }: TimelineInput, who: Id, leg: OrderedLeg): readonly TimelineStretch[] {
  const { plan } = placed.build;
  const parts = { place: leg.to.place, vehicle: leg.vehicle };
  const { id } = leg.to;
  const lastDriver = moves.find((move) => move.id === leg.id)?.wheel.at(-1)?.driver ?? leg.driver;
  const check = between(placed, "post-trip", `${id}.unloaded`, `${id}.checked`, {
    ...parts,
    where: rulePath(plan, "postTrip"),
  });
  return [
    ...between(placed, "unload", `${id}.unload`, `${id}.unloaded`, { ...parts, where: rulePath(plan, "unload") }),
    ...(lastDriver === who ? check : []),
  ];
}

/** Parking where people get out for another vehicle's visit. */
function parking(placed: PlacedDay, { arriving, place }: PersonStay): readonly TimelineStretch[] {
  if (arriving?.kind !== "leg") return [];
  const { to, vehicle } = arriving.leg;
  if (placed.build.order.visits.some(({ stop }) => stop === to)) return [];
  const where = rulePath(placed.build.plan, "park");
  return between(placed, "park", `${to.id}.arrive`, `${to.id}.parked`, {
    ...{ place, vehicle, where },
    weight: WEIGHT.prepare,
  });
}

function standing(placed: PlacedDay, person: PersonOrder, visit: Visit): readonly TimelineStretch[] {
  const { build } = placed;
  const { id, place, vehicle, stop } = visit;
  const parts = { place, vehicle, weight: WEIGHT.prepare };
  const came = person.stays.findIndex((stay) => stay.arriving?.kind === "leg" && stay.arriving.leg.to === stop);
  if (came >= 0 && sleepsThrough(build.order, person, came)) return [];
  const comes = came >= 0;
  const startsHere =
    visit.party.includes(person.id) && stop !== null && stop === build.plan.runs.get(vehicle ?? "")?.stops[0];
  const leaving = person.stays.find((stay) => stay.leaving?.kind === "leg" && stay.leaving.leg.from === stop);
  const stays = stop !== null && (comes ? staysWith(person, stop) : startsHere && person.stays.length === 1);
  const remains = stays && vehicle !== null && isLastStop(placed, vehicle, stop);
  const here = leaving === undefined ? null : cameAt(placed, leaving);
  const strike = leaving !== undefined || remains ? strikeStretch(placed, visit, here, parts) : [];
  if (!comes && !startsHere) return strike;
  const setUpWhere = stop?.setUpMinutes == null ? rulePath(build.plan, "setUp") : [...stop.path, "setUp"];
  const prepares = [
    ...between(placed, "park", `${id}.arrive`, `${id}.parked`, { ...parts, where: rulePath(build.plan, "park") }),
    ...between(placed, "set-up", `${id}.parked`, `${id}.setUp`, { ...parts, where: setUpWhere }),
    ...between(placed, "dish-up", `${id}.setUp`, `${id}.ready`, { ...parts, where: rulePath(build.plan, "dishUp") }),
  ];
  return [...untilTheyGo(placed, person.stays[came], prepares), ...strike];
}

/** The name of the instant at which a stay ends. */
const departureOf = (leaving: NonNullable<PersonStay["leaving"]>): string =>
  `${leaving.kind === "leg" ? leaving.leg.from.id : leaving.ride.id}.leave`;

/** Whoever goes on with another vehicle before all is set up is not there for the rest of it. */
function untilTheyGo(
  placed: PlacedDay,
  stay: PersonStay | undefined,
  stretches: readonly TimelineStretch[],
): readonly TimelineStretch[] {
  const leaving = stay?.leaving ?? null;
  if (leaving === null) return stretches;
  const gone = placedInstant(placed, departureOf(leaving));
  if (gone === null) return stretches;
  return stretches.flatMap((one) => (one.from < gone ? [{ ...one, to: instant(Math.min(one.to, gone)) }] : []));
}

const staysWith = (person: PersonOrder, stop: Stop): boolean => {
  const arriving = person.stays.at(-1)?.arriving;
  return arriving?.kind === "leg" && arriving.leg.to === stop;
};

/** When a stay begins; null where it begins in the bed, or has no time. */
function cameAt(placed: PlacedDay, { arriving }: PersonStay): Instant | null {
  if (arriving === null) return null;
  return placedInstant(placed, `${arriving.kind === "leg" ? arriving.leg.to.id : arriving.ride.id}.arrive`);
}

/** Nobody strikes who comes when it has begun, with another vehicle. */
function strikeStretch(
  placed: PlacedDay,
  visit: Visit,
  here: Instant | null,
  parts: Parts,
): readonly TimelineStretch[] {
  const { build } = placed;
  const packed = placedInstant(placed, `${visit.id}.packed`);
  const clears = visit.activities.flatMap((id) => {
    const at = placedInstant(placed, `${id}.clear`);
    return at === null ? [] : [{ id, at }];
  });
  const last = clears.reduce<{ id: Id; at: Instant } | null>(
    (late, one) => (late === null || one.at >= late.at ? one : late),
    null,
  );
  if (packed === null || last === null || (here !== null && here > last.at)) return [];
  return between(placed, "strike", `${last.id}.clear`, `${visit.id}.packed`, {
    ...parts,
    where: rulePath(build.plan, "strike"),
  });
}

const TASK_SPAN: Readonly<Record<string, SpanKind>> = {
  meal: "meal",
  standby: "standby",
  standdown: "off",
  rest: "off",
};

/** The end of a hit's clear for someone, who may be logged as leaving before it. */
function clearedAt(placed: PlacedDay, { id, stays }: PersonOrder, { activity, stayOf }: Attendance): string {
  const clear = `${activity.id}.clear`;
  const leaving = stays[stayOf.get(id) ?? -1]?.leaving ?? null;
  if (leaving === null) return clear;
  const leave = departureOf(leaving);
  const [left, end] = [placedInstant(placed, leave), placedInstant(placed, clear)];
  return left !== null && end !== null && left < end ? leave : clear;
}

function activityStretches({ placed }: TimelineInput, person: PersonOrder): readonly TimelineStretch[] {
  const who = person.id;
  const { build } = placed;
  return [...build.order.attendance.values()].flatMap((one) => {
    const { id, kind, location } = one.activity;
    if (!one.who.includes(who) || !build.entered.activities.has(id)) return [];
    const place = location.kind === "place" ? location.place : null;
    const parts = { place, vehicle: one.leg?.vehicle ?? null, activity: id, where: one.activity.path };
    const held = { ...parts, weight: WEIGHT.held };
    const weight = kind === "hit" ? WEIGHT.live : kind === "standby" ? WEIGHT.standby : WEIGHT.task + 0.5;
    return [
      ...between(placed, "line check", `${id}.lineCheck`, `${id}.inPosition`, {
        ...held,
        where: rulePath(build.plan, "lineCheck"),
      }),
      ...between(placed, "in position", `${id}.inPosition`, `${id}.start`, {
        ...held,
        where: rulePath(build.plan, "inPosition"),
      }),
      ...between(placed, id, `${id}.start`, `${id}.end`, { ...parts, weight, is: TASK_SPAN[kind] ?? "duty" }),
      ...between(placed, "clear", `${id}.end`, clearedAt(placed, person, one), {
        ...held,
        where: rulePath(build.plan, "clear"),
      }),
    ];
  });
}

/** A stretch as a term of a chain of reasons. */
export const termOf = (stretch: TimelineStretch): DayTerm => ({
  name: stretch.name,
  from: stretch.from,
  to: stretch.to,
  minutes: minutes(stretch.to - stretch.from),
  where: stretch.where,
  place: stretch.place,
  vehicle: stretch.vehicle,
  activity: stretch.activity,
});
