/** When someone slept, as stated or estimated: the night before the day, what they slept in it, and from when they are awake. */

import type { Day, PersonDay } from "../../day/day.ts";
import { firstWorkIn } from "../../day/people/inBed.ts";
import { sumOf } from "../../lists.ts";
import type { OpenInterval, Place } from "../../plan/plan.ts";
import { dateOfDay, localDay, resolveLocal, wallMinute, type ZoneId } from "../../time/index.ts";
import { type Instant, type Interval, instant, joined, lengthOf, overlap } from "../../time/units.ts";

/** No one is taken to sleep longer, however long the night: adults need 7 to 9 hours (NIOSH). */
const LONGEST_SLEEP = 9 * 60;

/** Sleep of this length starts the waking time again: common practice, no source. */
const STARTS_ANEW = 5 * 60;

/** Shorter sleep adds nothing: common practice, no source. */
const LEAST_NAP = 2 * 60;

/** A whole night on the clock of the bed; for an early call no one is taken to be asleep before `early`. No source. */
const NIGHT = { from: 23 * 60, to: 7 * 60, early: 21 * 60 };

/** The sleep before a day, minutes; null where it is not known. */
export interface NightSleep {
  /** Null where neither the plan nor the day before says. */
  readonly sleepMinutes: number | null;
  /** True where the plan states how long they slept, false for an estimate. */
  readonly stated: boolean;
  /** Getting up; null where the call before it is not known. */
  readonly up: Instant | null;
  /** Getting up is taken to be at 07:00, or before the call, after a whole night off: nothing states it. */
  readonly upAssumed: boolean;
}

/** The first instant at or after `at` on its own local day when the clock of `zone` shows `minute`; `at` where it is past. */
function notBefore(at: Instant, minute: number | null, zone: ZoneId): Instant {
  if (minute === null || wallMinute(at, zone) >= minute) return at;
  return onDay(localDay(at, zone), minute, zone) ?? at;
}

function onDay(day: number, minute: number, zone: ZoneId): Instant | null {
  const reading = resolveLocal(dateOfDay(day), minute, zone);
  return reading.kind === "once" ? reading.at : null;
}

/** In bed after the release and never before check-in: a release in the small hours is of a night already paid for. */
function toBed(released: Instant, bed: Place | null, after: number, zone: ZoneId): Instant {
  const settled = instant(released + after);
  const early = wallMinute(released, zone) < 6 * 60;
  return early ? settled : instant(Math.max(settled, notBefore(released, bed?.checkInMinute ?? null, zone)));
}

/** Up before the call, and out by check-out where the call is later. */
function gettingUp(call: Instant, bed: Place | null, before: number, zone: ZoneId): Instant {
  const up = instant(call - before);
  const out = bed?.checkOutMinute ?? null;
  if (out === null || wallMinute(up, zone) <= out) return up;
  return instant(up - (wallMinute(up, zone) - out));
}

/**
 * The morning after the last whole night of a rest; null where it holds none, or where `up`, before an early call, leaves
 * enough of a later night to sleep in.
 */
function morningAfterNight(released: Instant, up: Instant, zone: ZoneId): Instant | null {
  const today = localDay(up, zone);
  const evening = onDay(today - 1, NIGHT.early, zone);
  const early = wallMinute(up, zone) < NIGHT.to;
  if (early && evening !== null && up - Math.max(evening, released) >= STARTS_ANEW) return null;
  const day = early ? today - 1 : today;
  const [from, to] = [onDay(day - 1, NIGHT.from, zone), onDay(day, NIGHT.to, zone)];
  return from !== null && to !== null && from >= released ? to : null;
}

const statedUp = ({ plan }: Day, { id }: PersonDay): Instant | null =>
  plan.actual.people.get(id)?.up ?? plan.crew.get(id)?.up ?? null;

/** Sleep as stated, in time order and to the first work in it; what only says when someone went to bed ends with getting up. */
function statedSleep({ plan }: Day, { id, spans }: PersonDay, up: Instant | null): readonly Interval[] {
  const logged = plan.actual.people.get(id)?.inBed ?? [];
  const stated: readonly OpenInterval[] = logged.length > 0 ? logged : (plan.crew.get(id)?.inBed ?? []);
  return stated.flatMap(({ from, to }) => {
    const end = to ?? up;
    if (end === null) return [];
    const work = firstWorkIn(spans, { from, to: end });
    const last = work === undefined ? end : work.from;
    return last <= from ? [] : [{ from, to: last }];
  });
}

/** Getting up and the sleep before it: stated, else estimated. */
export function nightOf(day: Day, person: PersonDay): NightSleep {
  const { plan } = day;
  const { call, previousRelease } = person;
  const bed = person.slept === null ? null : (plan.places.get(person.slept) ?? null);
  const zone = bed?.zone ?? plan.zone;
  const onCamera = plan.crew.get(person.id)?.roles.includes("reporter") === true;
  const before = onCamera ? plan.rules.upBeforeOnCamera : plan.rules.upBefore;
  const said = statedUp(day, person);
  const usual = call === null ? null : gettingUp(call, bed, before, zone);
  const morning =
    said !== null || usual === null || previousRelease === null
      ? null
      : morningAfterNight(previousRelease, usual, zone);
  const assumed = morning === null || usual === null ? usual : instant(Math.min(morning, usual));
  const inBed = statedSleep(day, person, said ?? assumed).filter(({ from }) => call === null || from < call);
  const last = inBed.findLast((sleep) => lengthOf(sleep) >= STARTS_ANEW) ?? inBed.at(-1);
  const up = said ?? last?.to ?? assumed;
  const upAssumed = said === null && last === undefined && morning !== null;
  const stated = plan.actual.people.get(person.id)?.asleepMinutes ?? plan.history.get(person.id)?.asleepMinutes ?? null;
  if (stated !== null) return { sleepMinutes: stated, stated: true, up, upAssumed };
  if (last !== undefined) return { sleepMinutes: lengthOf(last), stated: true, up, upAssumed };
  if (up === null || previousRelease === null) return { sleepMinutes: null, stated: false, up, upAssumed };
  const asleep = up - toBed(previousRelease, bed, plan.rules.bedAfter, zone);
  return { sleepMinutes: Math.max(0, Math.min(LONGEST_SLEEP, asleep)), stated: false, up, upAssumed };
}

/** Stays in a berth, aboard a vehicle or a ferry, as one stretch where they touch. */
const inBerth = ({ spans }: PersonDay): readonly Interval[] =>
  joined(spans.filter(({ is, bunk }) => is === "berth" || (is === "ferry" && bunk === true)));

/** What is known of someone's sleep at each moment of a day. */
export interface Waking {
  readonly night: NightSleep;
  /** Since when they are awake at `at`, and how long they slept before that; null where it is not known. */
  since(at: Instant): { readonly up: Instant; readonly sleepMinutes: number | null } | null;
  /** Sleep in the 24 h before `at`; null where the night is not known. */
  sleepIn24(at: Instant): number | null;
}

/** The night, and every later sleep of two hours or more; five hours or more start the waking time again, in a berth too. */
export function wakingOf(day: Day, person: PersonDay): Waking {
  const night = nightOf(day, person);
  const { up, sleepMinutes } = night;
  const before = up === null ? [] : [{ from: instant(up - (sleepMinutes ?? 0)), to: up }];
  const later = [...statedSleep(day, person, up), ...inBerth(person)]
    .filter((sleep) => lengthOf(sleep) >= LEAST_NAP && (up === null || sleep.from >= up))
    .sort((a, b) => a.from - b.from);
  return {
    night,
    since(at) {
      const anew = later.findLast((sleep) => lengthOf(sleep) >= STARTS_ANEW && sleep.to <= at);
      if (anew !== undefined) return { up: anew.to, sleepMinutes: lengthOf(anew) };
      return up === null ? null : { up, sleepMinutes };
    },
    sleepIn24(at) {
      if (sleepMinutes === null) return null;
      const window = { from: instant(at - 24 * 60), to: at };
      return sumOf([...before, ...later], (sleep) => overlap(sleep, window));
    },
  };
}
