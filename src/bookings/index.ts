/** What must be booked or told for a day: windows of paths, nights of lodging, permits, and what goes back when? */
import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { JudgeInput, Judgement } from "../findings/judgement.ts";
import type { KitResult } from "../kit/index.ts";
import type { Id, Permit } from "../plan/plan.ts";
import { type Instant, type Interval, instant, startOnClock } from "../time/index.ts";
import { joined } from "../time/units.ts";
import * as say from "./findings.ts";

/** What one path is needed for: from line-up to clear, the slip included. */
export interface PathNeed extends Interval {
  readonly path: Id;
  /** Hits and feeds, in time order. */
  readonly uses: readonly Id[];
  /** The booked window that covers it. */
  readonly window: Interval | null;
}

/** One night of people at one place, and whether beds are booked for it. */
export interface BookedNight {
  readonly who: readonly Id[];
  readonly place: Id;
  /** The date of the evening. */
  readonly night: string;
  /** Null where no room is stated for them. */
  readonly booking: string | null;
  readonly booked: boolean;
}

/** A stay at a place that a permit covers, or does not. */
export interface PermitStay extends Interval {
  readonly permit: Permit;
  readonly place: Id;
  readonly covered: boolean;
}

/** Something that goes back: when and where, and where the day leaves it. */
export interface Return {
  readonly item: Id;
  readonly at: Instant | null;
  readonly place: Id | null;
  /** Where it is then; null where that is not known. */
  readonly is: Id | null;
  readonly late: boolean;
}

/** All that a day has booked, needs or gives back. */
export interface BookingsResult {
  /** By first need. */
  readonly paths: readonly PathNeed[];
  readonly unused: readonly (Interval & { readonly path: Id })[];
  readonly nights: readonly BookedNight[];
  readonly permits: readonly PermitStay[];
  readonly rented: readonly Return[];
}

/** Judges the last of `days`. */
export function assess({ days }: JudgeInput, kit: KitResult): Judgement<BookingsResult> {
  const day = days.at(-1);
  if (day === undefined) throw new RangeError("no day to judge");
  const paths = needsOf(day);
  const unused = unusedWindows(day, paths);
  const result: BookingsResult = {
    paths,
    unused,
    nights: nightsOf(day),
    permits: staysOf(day),
    rented: rentedOf(day, kit),
  };
  return {
    result,
    findings: [
      ...roomFindings(day, result.nights),
      ...windowFindings(day, unused),
      ...permitFindings(result.permits),
      ...checkouts(day),
      ...returns(day, result.rented),
    ],
  };
}

/** Uses of each booked kind of path; those whose times touch are one. */
function needsOf(day: Day): readonly PathNeed[] {
  const needs = day.activities.flatMap((one): readonly PathNeed[] => {
    const path = day.plan.paths.get(one.activity.signalPath ?? "");
    if (path?.kind !== "satellite" || one.start === null || one.end === null) return [];
    const first = one.lineCheck?.from ?? one.inPosition ?? one.start;
    const late = one.activity.kind === "hit" ? (one.activity.lateMinutes ?? 0) : 0;
    const from = instant(first - (path.lineUpMinutes ?? 0));
    const to = instant(Math.max(one.clearEnd ?? one.end, one.end) + late);
    return [{ path: path.id, uses: [one.id], from, to, window: null }];
  });
  const whole: PathNeed[] = [];
  for (const need of needs.sort((a, b) => a.from - b.from)) {
    const at = whole.findLastIndex((one) => one.path === need.path && sameWindow(day, one, need));
    const before = whole[at];
    if (before === undefined) whole.push(need);
    else whole[at] = { ...before, uses: [...before.uses, ...need.uses], to: instant(Math.max(before.to, need.to)) };
  }
  return whole.map((need) => ({ ...need, window: windowOf(day, need) }));
}

/** Two uses of one booked window, or two that overlap where none is booked, are one need. */
const sameWindow = (day: Day, a: PathNeed, b: PathNeed): boolean => {
  const window = windowOf(day, a);
  return b.from <= a.to || (window !== null && window === windowOf(day, b));
};

const windowOf = (day: Day, { path, from, to }: PathNeed): Interval | null =>
  day.plan.paths.get(path)?.windows.find((window) => window.from <= from && to <= window.to) ?? null;

/** Of paths that are used at all that day, spares included: a window in which nothing needs them. */
function unusedWindows(day: Day, needs: readonly PathNeed[]): BookingsResult["unused"] {
  const spares = day.activities.flatMap(({ activity, start, end }) =>
    activity.kind === "hit" && activity.spare !== null && start !== null && end !== null
      ? [{ path: activity.spare, from: start, to: end }]
      : [],
  );
  const used = [...needs, ...spares];
  return [...day.plan.paths.values()].flatMap(({ id, windows }) => {
    const own = used.filter(({ path }) => path === id);
    // A window that misses its hit is told as that.
    if (own.length === 0 || needs.some(({ path, window }) => path === id && window === null)) return [];
    return windows
      .filter((window) => !own.some((one) => one.from < window.to && window.from < one.to))
      .map(({ from, to }) => ({ path: id, from, to }));
  });
}

/** Tonight's beds at lodgings, people of one room together. */
function nightsOf(day: Day): readonly BookedNight[] {
  const night = day.plan.date;
  const beds = day.people.flatMap(({ id, sleeps, call }) => (sleeps === null || call === null ? [] : [{ id, sleeps }]));
  const places = [...new Set(beds.map(({ sleeps }) => sleeps))].filter(
    (id) => day.plan.places.get(id)?.kind === "lodging",
  );
  return places.flatMap((place): readonly BookedNight[] => {
    const who = beds.filter(({ sleeps }) => sleeps === place).map(({ id }) => id);
    const rooms = (day.plan.places.get(place)?.rooms ?? []).filter(({ nights }) => nights.includes(night));
    const housed = rooms.flatMap((room): readonly BookedNight[] => {
      const inIt = who.filter((id) => room.who.includes(id));
      return inIt.length === 0 ? [] : [{ who: inIt, place, night, booking: room.booking, booked: true }];
    });
    const left = who.filter((id) => !rooms.some((room) => room.who.includes(id)));
    return left.length === 0 ? housed : [...housed, { who: left, place, night, booking: null, booked: false }];
  });
}

/** Rooms are missed only at lodgings that list theirs, and unused on the plan's own night. */
function roomFindings({ plan, people }: Day, nights: readonly BookedNight[]): readonly Finding[] {
  const missing = nights
    .filter(({ booked, place }) => !booked && (plan.places.get(place)?.rooms.length ?? 0) > 0)
    .map(({ who, place, night }) =>
      say.bookingMissing.raise({ who, place, night }, { path: ["places", place, "rooms"] }),
    );
  const unused = [...plan.places.values()].flatMap(({ id, rooms }) =>
    rooms.flatMap(({ who, nights: dates, path }) => {
      const away = who.filter((one) =>
        people.some((person) => person.id === one && person.call !== null && person.sleeps !== id),
      );
      if (!dates.includes(plan.date) || away.length < who.length || away.length === 0) return [];
      return [say.bookingUnused.raise({ what: id, who: away, night: plan.date, from: null }, { path })];
    }),
  );
  return [...missing, ...unused];
}

const windowFindings = ({ plan }: Day, unused: BookingsResult["unused"]): readonly Finding[] =>
  unused.map(({ path, from }) =>
    say.bookingUnused.raise(
      { what: path, who: [], night: null, from: { at: from } },
      { path: [...(plan.paths.get(path)?.path ?? ["paths", path]), "windows"], at: from },
    ),
  );

/** The stays of all vehicles at a place that has a permit; those that overlap are one. */
function staysOf(day: Day): readonly PermitStay[] {
  return [...day.plan.permits.values()].flatMap((permit) => {
    const stays = day.stops
      .filter(({ place, activities }) => place === permit.place && activities.length > 0)
      .map(({ arrive, leave }) => ({ from: arrive ?? day.span.from, to: leave ?? day.span.to }))
      .sort((a, b) => a.from - b.from);
    const holds = ({ from, to }: Interval): boolean =>
      (permit.from === null || permit.from <= from) && (permit.to === null || to <= permit.to);
    return joined(stays).map((stay) => ({ permit, place: permit.place ?? "", ...stay, covered: holds(stay) }));
  });
}

function permitFindings(stays: readonly PermitStay[]): readonly Finding[] {
  return stays
    .filter(({ covered }) => !covered)
    .map(({ permit, place, from, to }) =>
      say.permitMissing.raise(
        { permit: permit.id, place, from: { at: from }, to: { at: to } },
        { path: permit.path, at: from },
      ),
    );
}

/** People who sleep elsewhere tonight and are at last night's lodging after its check-out. */
function checkouts(day: Day): readonly Finding[] {
  const places = [...day.plan.places.values()].filter(({ checkOutMinute }) => checkOutMinute !== null);
  return places.flatMap(({ id, zone, checkOutMinute, path }): readonly Finding[] => {
    const checkOut = startOnClock(day.plan.date, checkOutMinute ?? 0, zone);
    const late = day.people.flatMap(({ id: who, slept, sleeps, spans, call }) => {
      const last = spans.findLast(({ place, is }) => place === id && is !== "off");
      return slept === id && sleeps !== id && call !== null && last !== undefined && last.to > checkOut
        ? [{ who, until: last.to }]
        : [];
    });
    const until = late.map((one) => one.until).sort((a, b) => b - a)[0];
    if (until === undefined) return [];
    const facts = { who: late.map(({ who }) => who), place: id, until: { at: until }, checkOut: { at: checkOut } };
    return [say.lateCheckout.raise(facts, { path: [...path, "checkOut"], at: checkOut })];
  });
}

/** What is rented and due: vehicles and pieces. */
function rentedOf(day: Day, kit: KitResult): readonly Return[] {
  const pieces = [...day.plan.kit.values()].flatMap(({ id, due }) => (due === null ? [] : [{ item: id, ...due }]));
  const vehicles = [...day.plan.vehicles.values()].flatMap(({ id, due }) =>
    due === null ? [] : [{ item: id, at: due.at, place: due.place }],
  );
  return [...vehicles, ...pieces].map(({ item, at, place }) => {
    const judged = at !== null && at >= day.span.from && at <= day.span.to;
    const on = at ?? day.span.to;
    const held = day.plan.kit.has(item) ? (kit.track?.at(item, on)?.place ?? null) : vehicleAt(day, item, on);
    const is = judged ? held : null;
    return { item, at, place, is, late: judged && place !== null && is !== place };
  });
}

/** Where a vehicle stands; null on the road and where it has no run. */
function vehicleAt(day: Day, vehicle: Id, at: Instant): Id | null {
  const stops = day.stops.filter((stop) => stop.vehicle === vehicle);
  return (
    stops.find(({ arrive, leave }) => (arrive ?? day.span.from) <= at && at <= (leave ?? day.span.to))?.place ?? null
  );
}

const returns = ({ plan }: Day, rented: readonly Return[]): readonly Finding[] =>
  rented.flatMap(({ item, at, place, is, late }) => {
    const path = plan.kit.get(item)?.path ?? plan.vehicles.get(item)?.path;
    if (!late || at === null || path === undefined) return [];
    return [say.returnLate.raise({ item, place, due: { at }, is: is ?? "road" }, { path: [...path, "due"], at })];
  });
