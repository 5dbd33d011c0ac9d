/** Reads the placed network back as stops, moves and activities. */
import { sumOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { after, between, type Instant, type Interval, instant, minutes } from "../../time/units.ts";
import type { ActivityState, ActivityTimes, DayTerm, Move, StopTimes } from "../day.ts";
import { type Attendance, isLive, type OrderedLeg } from "../order/order.ts";
import { placedInstant } from "../people/timeline.ts";
import type { PlacedDay } from "./place.ts";
import { timingOf } from "./timing.ts";

/** Two stops at one place with no time between them are one visit: no one drives. */
export function vehicleMoves(placed: PlacedDay): readonly Move[] {
  const moves = placed.build.order.legs.map((leg) => moveOf(placed, leg));
  return moves.filter(({ from, to, leave, arrive }) => from !== to || arrive > leave).sort((a, b) => a.leave - b.leave);
}

/** A leg of a placed day has both its instants. */
function placedAt(placed: PlacedDay, name: string): Instant {
  const at = placedInstant(placed, name);
  if (at === null) throw new RangeError(`${name} has not been placed`);
  return at;
}

function latestOf({ build, latest }: PlacedDay, name: string): Instant | null {
  const node = build.nodes.get(name);
  const at = node === undefined ? undefined : latest[node];
  return at === undefined || !Number.isFinite(at) ? null : instant(at);
}

function moveOf(placed: PlacedDay, leg: OrderedLeg): Move {
  const { build } = placed;
  const timing = timingOf(build.timing, leg);
  const leave = placedAt(placed, `${leg.id}.leave`);
  const arrive = placedAt(placed, `${leg.to.id}.arrive`);
  const leaveBy = latestOf(placed, `${leg.id}.leave`);
  const halts = haltsOf(placed, leg);
  return {
    id: leg.id,
    vehicle: leg.vehicle,
    from: leg.from.place,
    to: leg.to.place,
    leave,
    arrive,
    driver: leg.driver,
    riders: leg.aboard.filter((id) => id !== leg.driver),
    asleep: leg.asleep,
    wheel: leg.leg.ferry === undefined ? wheelOf(leg, leave, arrive, halts) : [],
    halts,
    leg: leg.leg,
    ...timing,
    leaveBy,
    slackMinutes: leaveBy === null ? null : between(leave, leaveBy),
    overLikelyMinutes: minutes(timing.plannedMinutes - timing.likelyMinutes),
  };
}

function haltsOf(placed: PlacedDay, leg: OrderedLeg): Move["halts"] {
  return leg.halts.flatMap((activity) => {
    const from = placedInstant(placed, `${activity}.inPosition`) ?? placedInstant(placed, `${activity}.start`);
    const to = placedInstant(placed, `${activity}.clear`) ?? placedInstant(placed, `${activity}.end`);
    return from === null || to === null || !placed.build.entered.activities.has(activity)
      ? []
      : [{ from, to, activity }];
  });
}

/** Cuts the driving at halts and where the wheel passes on, `after` planned minutes of driving. */
function wheelOf(leg: OrderedLeg, leave: Instant, arrive: Instant, halts: Move["halts"]): Move["wheel"] {
  const driving: Interval[] = [];
  let from = leave;
  for (const halt of halts) {
    if (halt.from > from) driving.push({ from, to: halt.from });
    from = halt.to;
  }
  if (arrive > from) driving.push({ from, to: arrive });
  const changes = [{ afterMinutes: 0, driver: leg.driver }, ...leg.relieve];
  changes.sort((a, b) => a.afterMinutes - b.afterMinutes);
  const wheel: (Interval & { driver: Id })[] = [];
  let driven = 0;
  for (const stretch of driving) {
    let at = stretch.from;
    while (at < stretch.to) {
      const current = changes.findLast((change) => change.afterMinutes <= driven);
      const next = changes.find((change) => change.afterMinutes > driven);
      const to = next === undefined ? stretch.to : instant(Math.min(stretch.to, at + next.afterMinutes - driven));
      wheel.push({ driver: current?.driver ?? leg.driver, from: at, to });
      driven += to - at;
      at = to;
    }
  }
  return wheel;
}

/** The stops of all vehicles with their instants. */
export function stopsOf(placed: PlacedDay): readonly StopTimes[] {
  const { build } = placed;
  const stops = [...build.plan.runs.values()].flatMap((run) =>
    run.stops.map((stop, index): StopTimes => {
      const visit = build.order.visits.find((one) => one.stop === stop);
      const activities = visit?.activities.filter((id) => build.entered.activities.has(id)) ?? [];
      return {
        stop,
        vehicle: run.vehicle,
        place: stop.place,
        arrive: index === 0 ? null : placedInstant(placed, `${stop.id}.arrive`),
        parked: visit !== undefined && activities.length === 0 ? null : placedInstant(placed, `${stop.id}.parked`),
        leave: placedInstant(placed, `${stop.id}.leave`),
        activities,
        terms: stopTerms(placed, stop.id, stop.place, run.vehicle),
      };
    }),
  );
  const at = (times: StopTimes): number => times.arrive ?? times.leave ?? times.parked ?? 0;
  return stops.sort((a, b) => at(a) - at(b));
}

const STOP_TERMS: readonly (readonly [name: string, from: string, to: string])[] = [
  ["walk-around", "walkAround", "loading"],
  ["loading", "loading", "leave"],
  ["park", "arrive", "parked"],
  ["set-up", "parked", "setUp"],
  ["dish-up", "setUp", "ready"],
  ["unload", "unload", "unloaded"],
  ["post-trip", "unloaded", "checked"],
];

function stopTerms(placed: PlacedDay, stop: Id, place: Id, vehicle: Id): readonly DayTerm[] {
  return STOP_TERMS.flatMap(([name, start, end]) => {
    const [from, to] = [placedInstant(placed, `${stop}.${start}`), placedInstant(placed, `${stop}.${end}`)];
    if (from === null || to === null || to <= from) return [];
    return [{ name, from, to, minutes: minutes(to - from), where: null, place, vehicle, activity: null }];
  });
}

/** The hits and tasks with their instants; `missed` are those that the day does not reach. */
export function activityTimesOf(placed: PlacedDay, missed: ReadonlySet<Id>): readonly ActivityTimes[] {
  const times = [...placed.build.order.attendance.values()].map((one) => timesOf(placed, one, missed));
  return times.sort((a, b) => (a.start ?? fallback(a)) - (b.start ?? fallback(b)));
}

/** A missed hit sorts where it was wanted; a missed task at the end. */
const fallback = ({ activity }: ActivityTimes): number =>
  activity.kind === "hit" ? activity.at : Number.MAX_SAFE_INTEGER;

function timesOf(
  placed: PlacedDay,
  { activity, who, visits, leg }: Attendance,
  missed: ReadonlySet<Id>,
): ActivityTimes {
  const { id } = activity;
  const out = missed.has(id);
  const at = (name: string): Instant | null => (out ? null : placedInstant(placed, `${id}.${name}`));
  const [start, end, inPosition, check] = [at("start"), at("end"), at("inPosition"), at("lineCheck")];
  return {
    activity,
    id,
    who,
    stops: visits.flatMap((visit) => (visit.stop === null ? [] : [visit.stop.id])),
    place: activity.location.kind === "place" ? activity.location.place : null,
    vehicle: leg?.vehicle ?? null,
    state: stateOf(placed, activity, out),
    lineCheck: check === null || inPosition === null ? null : { from: check, to: inPosition },
    inPosition,
    start,
    end,
    clearEnd: at("clear") ?? end,
    slackMinutes: out ? null : slackOf(placed, id, isLive(activity)),
    roadShare: leg?.halts.includes(id) && start !== null ? roadShare(placed, leg, id) : null,
  };
}

function stateOf(placed: PlacedDay, activity: Attendance["activity"], out: boolean): ActivityState {
  if (out) return "missed";
  if (isLive(activity)) return "fixed";
  return placed.late.has(placed.build.nodes.get(`${activity.id}.start`) ?? -1) ? "late" : "early";
}

/**
 * A task's is that of its start; a hit's that of the latest instant before its line check (or before it is in position). A hit
 * that follows another has none: no one comes to it who could come later.
 */
function slackOf({ build, value, latest }: PlacedDay, id: Id, live: boolean): ActivityTimes["slackMinutes"] {
  const start = build.nodes.get(live ? `${id}.lineCheck` : `${id}.start`) ?? build.nodes.get(`${id}.inPosition`);
  if (start === undefined) return null;
  const before = live
    ? build.network
        .into(start)
        .filter((edge) => !edge.backward && edge.from !== 0)
        .map((edge) => edge.from)
        .sort((a, b) => (value[b] ?? 0) - (value[a] ?? 0))[0]
    : start;
  if (live && before !== undefined && endsHit(build, before, id)) return null;
  const late = before === undefined ? undefined : latest[before];
  if (before === undefined || late === undefined || !Number.isFinite(late)) return null;
  return minutes(late - (value[before] ?? late));
}

/** Whether an instant is the end, or the clear, of another hit or standby. */
function endsHit({ network, order }: PlacedDay["build"], node: number, id: Id): boolean {
  const [, other = "", end] = /^(.*)\.(end|clear)$/u.exec(network.names[node] ?? "") ?? [];
  const activity = order.attendance.get(other)?.activity;
  return end !== undefined && other !== id && activity !== undefined && isLive(activity);
}

/** The part of the leg's driving that lies before a halt, 0 to 1. */
function roadShare(placed: PlacedDay, leg: OrderedLeg, id: Id): number | null {
  const leave = placedInstant(placed, `${leg.id}.leave`);
  const halts = haltsOf(placed, leg);
  const halt = halts.find((one) => one.activity === id);
  const planned = timingOf(placed.build.timing, leg).plannedMinutes;
  if (leave === null || halt === undefined || planned === 0) return null;
  const before = halts.filter((one) => one.to <= halt.from);
  const halted = sumOf(before, (one) => one.to - one.from);
  return Math.min(1, Math.max(0, (halt.from - after(leave, halted)) / planned));
}
