/**
 * What somebody does in each minute of a day, read from the instants of the day and the plan alone: a list of parts with their
 * weights, the weightiest of which is done; then chores, the rounded call, and call and release as they are logged.
 */
import type { Chore, Day, Move } from "../../../src/day/day.ts";
import type { Ride } from "../../../src/plan/plan.ts";
import { wallMinute } from "../../../src/time/index.ts";
import { type Instant, instant } from "../../../src/time/units.ts";

/** What a minute is spent with. */
export interface Doing {
  readonly doing: string;
  readonly is: string;
  readonly place: string | null;
  readonly vehicle: string | null;
  readonly activity: string | null;
}

interface Part extends Doing {
  readonly from: number;
  readonly to: number;
  readonly weight: number;
}

/** A drive or a ride by others. */
interface Way {
  readonly leave: number;
  readonly arrive: number;
  readonly from: string;
  readonly to: string;
  /** The stops that a drive leaves and reaches. */
  readonly stops: readonly [string, string] | null;
  readonly move: Move | null;
  readonly ride: Ride | null;
}

/** Hits over what holds people for them, that over chores, tasks, roads, gear in hand, what a visit needs, waiting about, sleep. */
const WEIGHT = { hit: 6, held: 5, chore: 4.7, task: 4.5, road: 4, gear: 3, visit: 2, standby: 1, asleep: 0.5 };
const AT_WORK = { is: "duty", place: null, vehicle: null, activity: null } as const;
const IN_VEHICLE = new Set(["driving", "riding", "berth", "ferry"]);

/** Someone's calls, releases and minutes. */
export interface Lived {
  readonly call: number | null;
  readonly release: number | null;
  at(minute: number): Doing | null;
  /** Where it may change. */
  readonly cuts: readonly number[];
  /** Whether a minute lies in a stand-down, chores in the midst of it included. */
  isDown(minute: number): boolean;
}

/** The ways that someone goes, in time order. */
function waysOf(day: Day, who: string): readonly Way[] {
  const drives = [...day.plan.runs.values()].flatMap(({ stops }) => {
    let last: Move | undefined;
    return stops.flatMap((stop, n): Way[] => {
      const next = stops[n + 1];
      const [leave, arrive] = [day.instants.get(`${stop.id}.leave`), day.instants.get(`${next?.id}.arrive`)];
      const made = day.moves.find(({ id }) => id === stop.id);
      // A vehicle that goes on from where it stands makes no move: the same people, and no time.
      const still =
        last === undefined || leave === undefined
          ? undefined
          : { ...last, id: stop.id, from: stop.place, to: stop.place, leave, arrive: leave, wheel: [], halts: [] };
      const move = made ?? still;
      last = move;
      if (move === undefined || next === undefined || leave === undefined || arrive === undefined) return [];
      if (![move.driver, ...move.riders].includes(who)) return [];
      const { from, to } = move;
      return [{ leave, arrive, from, to, stops: [stop.id, next.id], move, ride: null }];
    });
  });
  const rides = day.rides.flatMap(({ ride, who: all }): Way[] => {
    if (!all.includes(who)) return [];
    const [leave, arrive] = [day.instants.get(`${ride.id}.leave`), day.instants.get(`${ride.id}.arrive`)];
    if (leave === undefined || arrive === undefined) return [];
    return [{ leave, arrive, from: ride.from, to: ride.to, stops: null, move: null, ride }];
  });
  return [...drives, ...rides].toSorted((a, b) => a.leave - b.leave);
}

/** A stay: between two ways. */
interface Stay {
  readonly came: Way | null;
  readonly goes: Way | null;
}

/** All that someone takes part in. */
function partsOf(day: Day, who: string): readonly Part[] {
  const { plan } = day;
  const ways = waysOf(day, who);
  const person = plan.crew.get(who);
  const own = day.people.find(({ id }) => id === who);
  const stays = [null, ...ways].map((came, n): Stay => ({ came, goes: ways[n] ?? null }));
  const parts: Part[] = [];
  const put = (part: Omit<Part, "from" | "to">, from: number | undefined, to: number | undefined): void => {
    if (from !== undefined && to !== undefined && from < to) parts.push({ ...part, from, to });
  };
  const at = (name: string): number | undefined => day.instants.get(name);
  const gear = (doing: string, place: string, vehicle: string | null, weight: number, from: string, to: string): void =>
    put({ ...AT_WORK, doing, place, vehicle, weight }, at(from), at(to));
  const doneAt = ({ came, goes }: Stay) =>
    day.activities.filter(({ who: all, activity, stops, start }) => {
      if (!all.includes(who) || activity.location.kind !== "place") return false;
      const place = came?.to ?? goes?.from ?? own?.slept;
      const listed = stays.some((one) =>
        [one.came?.stops?.[1], one.goes?.stops?.[0]].some((stop) => stop !== undefined && stops.includes(stop)),
      );
      const here = [came?.stops?.[1], goes?.stops?.[0]].some((stop) => stop !== undefined && stops.includes(stop));
      if (listed) return here;
      const when = start ?? (activity.kind === "hit" ? activity.at : 0);
      return activity.location.place === place && (came?.arrive ?? 0) <= when && when < (goes?.leave ?? Infinity);
    });
  const sleepsOn = ({ came, goes }: Stay, stay: Stay): boolean =>
    came?.move?.asleep.includes(who) === true &&
    goes?.move?.asleep.includes(who) === true &&
    came.move.vehicle === goes.move.vehicle &&
    doneAt(stay).length === 0;
  const lastStop = (vehicle: string): string | undefined => plan.runs.get(vehicle)?.stops.at(-1)?.id;
  const isVisit = (stop: string): boolean => day.activities.some(({ stops }) => stops.includes(stop));

  for (const stay of stays) {
    const { came, goes } = stay;
    if (goes?.ride) {
      const { id, leadMinutes, by, from } = goes.ride;
      if (leadMinutes > 0)
        put({ ...AT_WORK, doing: "lead", place: from, weight: WEIGHT.gear }, at(`${id}.lead`), at(`${id}.leave`));
      const is = by === "ferry" ? "ferry" : "riding";
      put({ ...AT_WORK, doing: id, is, weight: WEIGHT.road }, goes.leave, goes.arrive);
    }
    if (goes?.move && goes.stops !== null) {
      const { move } = goes;
      const { vehicle } = move;
      const [stop] = goes.stops;
      const stated = doneAt(stay).filter(({ start }) => start !== null);
      const downs = stated.filter(({ activity }) => activity.kind === "standdown");
      const lastDown = Math.max(...downs.map(({ start }) => start ?? 0));
      const isCalledAgain = downs.length > 0 && stated.every(({ start }) => (start ?? 0) <= lastDown);
      if (plan.runs.get(vehicle)?.stops[0]?.id === stop || isCalledAgain) {
        if (move.driver === who)
          gear("walk-around", goes.from, vehicle, WEIGHT.gear, `${stop}.walkAround`, `${stop}.loading`);
        gear("loading", goes.from, vehicle, WEIGHT.gear, `${stop}.loading`, `${stop}.leave`);
      } else if (came === null) {
        const checksOut = own?.slept === goes.from && own.sleeps !== own.slept;
        const long = checksOut ? plan.rules.loadingCheckOut : plan.rules.loading;
        const loading = { ...AT_WORK, doing: "loading", place: goes.from, vehicle, weight: WEIGHT.gear };
        put(loading, goes.leave - long, goes.leave);
      }
      const isAsleep = move.asleep.includes(who);
      const passive = isAsleep && plan.vehicles.get(vehicle)?.berth === true ? "berth" : "riding";
      const road = { ...AT_WORK, vehicle, weight: WEIGHT.road };
      if (move.leg.ferry !== undefined) put({ ...road, doing: "ferry", is: "ferry" }, move.leave, move.arrive);
      else
        for (const { driver, from, to } of move.wheel)
          put(
            { ...road, doing: driver === who ? "drive" : "ride", is: driver === who ? "driving" : passive },
            from,
            to,
          );
      for (const { from, to, activity } of move.leg.ferry === undefined ? move.halts : []) {
        const drove = move.wheel.findLast((one) => one.to <= from)?.driver === who;
        const is = isAsleep && !drove ? passive : "duty";
        put({ ...AT_WORK, doing: "halt", is, vehicle, activity, weight: WEIGHT.standby }, from, to);
      }
      // Who sleeps on through a stop is not woken by what others do there.
      if (sleepsOn(stay, stay) && came !== null) {
        const berth = passive === "berth";
        put(
          { ...AT_WORK, doing: berth ? "wait" : "asleep", is: passive, place: came.to, vehicle, weight: WEIGHT.asleep },
          came.arrive,
          goes.leave,
        );
      }
    }
    if (came?.move && came.stops !== null && !sleepsOn(stay, stay)) {
      const [stop, { vehicle }] = [came.stops[1], came.move];
      gear("park", came.to, vehicle, WEIGHT.visit, `${stop}.arrive`, `${stop}.parked`);
      if (isVisit(stop)) {
        gear("set-up", came.to, vehicle, WEIGHT.visit, `${stop}.parked`, `${stop}.setUp`);
        gear("dish-up", came.to, vehicle, WEIGHT.visit, `${stop}.setUp`, `${stop}.ready`);
      }
    } else if (came?.move && came.stops !== null && !isVisit(came.stops[1]))
      gear("park", came.to, came.move.vehicle, WEIGHT.visit, `${came.stops[1]}.arrive`, `${came.stops[1]}.parked`);
    const leaves = goes?.move && goes.stops !== null ? { stop: goes.stops[0], ...goes.move, place: goes.from } : null;
    const ends =
      goes === null && came?.move && came.stops !== null && lastStop(came.move.vehicle) === came.stops[1]
        ? { stop: came.stops[1], ...came.move, place: came.to }
        : null;
    const strikes = sleepsOn(stay, stay) ? null : (leaves ?? ends);
    if (strikes !== null) {
      const clears = day.activities.flatMap(({ id, stops }) =>
        stops.includes(strikes.stop) ? (at(`${id}.clear`) ?? []) : [],
      );
      const { place, vehicle } = strikes;
      if (clears.length > 0)
        put(
          { ...AT_WORK, doing: "strike", place, vehicle, weight: WEIGHT.visit },
          Math.max(...clears),
          at(`${strikes.stop}.packed`),
        );
    }
    if (ends !== null) {
      const { stop, place, vehicle } = ends;
      gear("unload", place, vehicle, WEIGHT.gear, `${stop}.unload`, `${stop}.unloaded`);
      if ((ends.wheel.at(-1)?.driver ?? ends.driver) === who)
        gear("post-trip", place, vehicle, WEIGHT.gear, `${stop}.unloaded`, `${stop}.checked`);
    }
  }
  for (const one of day.activities) {
    const { id, activity } = one;
    if (!one.who.includes(who) || one.start === null) continue;
    const { kind, location } = activity;
    const place = location.kind === "place" ? location.place : null;
    const here = { ...AT_WORK, activity: id, place, vehicle: one.vehicle };
    const held = { ...here, weight: WEIGHT.held };
    put({ ...held, doing: "line check" }, at(`${id}.lineCheck`), at(`${id}.inPosition`));
    put({ ...held, doing: "in position" }, at(`${id}.inPosition`), at(`${id}.start`));
    const weight = kind === "hit" ? WEIGHT.hit : kind === "standby" ? WEIGHT.standby : WEIGHT.task;
    const is =
      kind === "meal" ? "meal" : kind === "standby" ? "standby" : /^(?:rest|standdown)$/u.test(kind) ? "off" : "duty";
    put({ ...here, doing: id, is, weight }, at(`${id}.start`), at(`${id}.end`));
    const left = ways.find(({ leave }) => leave > (one.start ?? 0))?.leave ?? Infinity;
    const clear = at(`${id}.clear`);
    put({ ...held, doing: "clear" }, at(`${id}.end`), clear === undefined ? undefined : Math.min(clear, left));
  }
  return person === undefined ? [] : parts;
}

/** Chores that touch a stretch without duty: what joins its ends moves them, the rest lies apart. */
function parted(from: number, to: number, chores: readonly Chore[], join: number) {
  let [start, end] = [from, to];
  let open = chores.filter((one) => one.to > from && one.from < to);
  for (;;) {
    const next = open.find((one) => one.from <= start + join);
    if (next === undefined) break;
    start = Math.max(start, Math.min(next.to, to));
    open = open.filter((one) => one !== next);
  }
  for (;;) {
    const next = open.findLast((one) => one.to >= end - join);
    if (next === undefined) break;
    end = Math.min(end, next.from);
    open = open.filter((one) => one !== next);
  }
  return { from: start, to: end, apart: open };
}

const over = (a: Part, b: Part): number =>
  b.weight - a.weight || b.from - a.from || a.to - b.to || (a.doing < b.doing ? -1 : 1);

/** A day of somebody with chores that follow each other. */
export function lived(day: Day, who: string, chores: readonly Chore[]): Lived {
  const { plan } = day;
  const person = day.people.find(({ id }) => id === who);
  const { slept = null, sleeps = null } = person ?? {};
  const went = plan.actual.people.get(who);
  const planned = partsOf(day, who);
  const isDownPart = ({ activity, doing }: Doing): boolean =>
    activity === doing && plan.tasks.get(activity ?? "")?.kind === "standdown";
  if (planned.length === 0) return { call: null, release: null, at: () => null, cuts: [], isDown: () => false };
  const ways = waysOf(day, who);
  const standsAt = (minute: number): string | null =>
    ways.findLast(({ arrive }) => arrive <= minute)?.to ?? ways[0]?.from ?? slept;
  const first = Math.min(...planned.map(({ from }) => from));
  const last = Math.max(...planned.map(({ to }) => to));
  const stretched = planned.flatMap((part): Part[] => {
    if (!isDownPart(part)) return [part];
    const { from, to } = parted(part.from, part.to, chores, plan.rules.choreJoin);
    return from < to ? [{ ...part, from, to }] : [];
  });
  const stated = plan.history.get(who)?.released ?? null;
  const step = Math.max(1, plan.rules.roundCalls);
  const roundedTo = (minute: Instant, place: string | null): number =>
    minute - (wallMinute(minute, plan.places.get(place ?? slept ?? "")?.zone ?? plan.zone) % step);
  const opens = planned.filter(({ from }) => from === first).toSorted(over)[0];
  // What joins a call joins the one that was made: of a full step of the clock.
  const night = parted(
    stated ?? first - 1_000_000,
    roundedTo(instant(first), opens?.place ?? null),
    chores,
    plan.rules.choreJoin,
  );
  const evening = parted(last, last + 1_000_000, chores, plan.rules.choreJoin);
  const worked = chores.filter(
    (one) => !night.apart.includes(one) && !evening.apart.includes(one) && (stated === null || one.to > night.from),
  );
  const parts = [
    ...stretched,
    ...worked.map(
      ({ from, to, place, vehicle }): Part => ({
        ...AT_WORK,
        ...{ doing: "chore", place, vehicle, weight: WEIGHT.chore, from, to },
      }),
    ),
  ];
  const [begins, ends] = [Math.min(...parts.map(({ from }) => from)), Math.max(...parts.map(({ to }) => to))];
  const topAt = (minute: number): Part | undefined =>
    parts.filter(({ from, to }) => from <= minute && minute < to).toSorted(over)[0];
  const plannedAt = (minute: number): Doing => {
    const top = topAt(minute);
    if (top !== undefined) return top;
    return {
      ...AT_WORK,
      doing: "wait",
      place: standsAt(
        parts
          .flatMap(({ from, to }) => [from, to])
          .filter((cut) => cut <= minute)
          .reduce((a, b) => Math.max(a, b)),
      ),
    };
  };
  const downs = stretched.filter(isDownPart).toSorted((a, b) => a.from - b.from);
  const opening = topAt(begins);
  const rounded = roundedTo(instant(begins), opening?.place ?? null);
  // A logged call is that after the last stand-down which began before it, else the first.
  const call = went?.call ?? null;
  const before = call === null ? undefined : downs.findLast(({ from }) => from < call);
  const isFirst = call !== null && before === undefined;
  const start = isFirst ? call : rounded;
  const released = went?.released ?? null;
  const after = released === null ? undefined : downs.find(({ to }) => to > released);
  const isMid = after !== undefined && parts.some(({ from }) => from >= after.to);
  const end = released === null || isMid ? ends : released;
  /** The stretch from a stand-down to a logged call behind it, or from a logged release in front of one to its end. */
  const longer = before === undefined || call === null ? null : { from: before.from, to: call, part: before };
  const sooner =
    !isMid || after === undefined || released === null ? null : { from: released, to: after.to, part: after };
  const changed = [longer, sooner].flatMap((one) => one ?? []);
  const isIn = ({ from, to }: { from: number; to: number }, minute: number): boolean => from <= minute && minute < to;
  /** Between the end of the stand-down or the last work and the logged moment nothing else is known than that they worked. */
  const isOpen = (minute: number): boolean => {
    if (longer !== null && before !== undefined && isIn({ from: longer.to, to: before.to }, minute)) return true;
    return sooner !== null && after !== undefined && isIn({ from: after.from, to: sooner.from }, minute);
  };
  const isDownAt = (minute: number): boolean =>
    changed.some((one) => isIn(one, minute)) || (!isOpen(minute) && downs.some((one) => isIn(one, minute)));
  return {
    cuts: [call ?? start, released ?? end, ...[...planned, ...parts].flatMap(({ from, to }) => [from, to])],
    call: start,
    release: end,
    isDown: (minute) => isDownAt(minute),
    at: (minute) => {
      if (minute < start || minute >= end) return null;
      if (minute < begins && isFirst) return { ...AT_WORK, doing: "as it went", place: slept };
      if (minute < begins) {
        const place = opening?.place ?? null;
        return { ...AT_WORK, doing: "rounding", place };
      }
      if (minute >= ends) return { ...AT_WORK, doing: "as it went", place: sleeps };
      const now = changed.find((one) => isIn(one, minute))?.part ?? plannedAt(minute);
      if (isOpen(minute)) {
        const place = (before !== undefined && longer !== null && minute < before.to ? before : after)?.place ?? null;
        return { ...AT_WORK, doing: "as it went", place };
      }
      return { ...now, vehicle: IN_VEHICLE.has(now.is) || now.place === null ? now.vehicle : null };
    },
  };
}
