/**
 * The other view: how rested someone at the wheel is likely to be. Estimates and group averages from publications, never
 * merged with law and never multiplied with each other; no model clears a person to drive.
 */
import type { Day, PersonDay, PersonSpan } from "../../day/day.ts";
import type { Id, Place } from "../../plan/plan.ts";
import { dateOfDay, localDay, resolveLocal, wallMinute, type ZoneId } from "../../time/index.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import { alertness } from "./alertness.ts";

export interface WheelSpell extends Interval {
  /** Where it begins. */
  readonly place: Id | null;
  /** Since getting up, at its end; null where the night is not known. */
  readonly awakeMinutes: number | null;
  /** Of it, between 00:00 and 06:00 on the clock of that place. */
  readonly nightMinutes: number;
  /** S + C at its end; null where the night is not known. */
  readonly index: number | null;
}

export interface Fitness {
  /** Null where neither the plan nor the day before says. */
  readonly sleepMinutes: number | null;
  /** True where the plan states it, false for an estimate. */
  readonly stated: boolean;
  /** Getting up; null where the call before it is not known. */
  readonly up: Instant | null;
  /** The bed of the night before; null where none is known. */
  readonly slept: Id | null;
  /** Crash rate against 7 h of sleep or more; null where the sleep is not known. */
  readonly crashRatio: number | null;
  readonly wheel: readonly WheelSpell[];
  /** S + C on every full hour since getting up, to the release; empty where the night is not known. */
  readonly curve: readonly { readonly at: Instant; readonly index: number }[];
}

/** Tefft, AAA Foundation for Traffic Safety, December 2016: sleep in the last 24 h, crash rate against 7 h or more. */
const CRASH_RATIOS: readonly (readonly [fromMinutes: number, ratio: number])[] = [
  [7 * 60, 1],
  [6 * 60, 1.3],
  [5 * 60, 1.9],
  [4 * 60, 4.3],
  [0, 11.5],
];

/** The published crash rate ratio for that much sleep in the last 24 hours. */
export const crashRatio = (sleepMinutes: number): number =>
  CRASH_RATIOS.find(([from]) => sleepMinutes >= from)?.[1] ?? 11.5;

/** Dawson and Reid, Nature 388:235, 1997: the two published points; nothing is drawn between them. */
export const bloodAlcoholLevel = (awakeMinutes: number): string | null =>
  awakeMinutes >= 24 * 60 ? "0.10 %" : awakeMinutes >= 17 * 60 ? "0.05 %" : null;

/** Nobody is taken to sleep longer, however long the night: adults need 7 to 9 hours (NIOSH). */
const LONGEST_SLEEP = 9 * 60;

/** The first instant at or after `at` on its own local day when the clock of `zone` shows `minute`; `at` where it is past. */
function notBefore(at: Instant, minute: number | null, zone: ZoneId): Instant {
  if (minute === null || wallMinute(at, zone) >= minute) return at;
  const reading = resolveLocal(dateOfDay(localDay(at, zone)), minute, zone);
  return reading.kind === "once" ? reading.at : at;
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

interface Night {
  readonly sleepMinutes: number | null;
  readonly stated: boolean;
  readonly up: Instant | null;
}

function nightOf(day: Day, person: PersonDay): Night {
  const { plan } = day;
  const { call, previousRelease } = person;
  const bed = person.slept === null ? null : (plan.places.get(person.slept) ?? null);
  const zone = bed?.zone ?? plan.zone;
  const onCamera = plan.crew.get(person.id)?.roles.includes("reporter") === true;
  const before = onCamera ? plan.rules.upBeforeOnCamera : plan.rules.upBefore;
  const up = call === null ? null : gettingUp(call, bed, before, zone);
  const stated = plan.actual.people.get(person.id)?.asleepMinutes ?? plan.history.get(person.id)?.asleepMinutes ?? null;
  if (stated !== null) return { sleepMinutes: stated, stated: true, up };
  if (up === null || previousRelease === null) return { sleepMinutes: null, stated: false, up };
  const asleep = up - toBed(previousRelease, bed, plan.rules.bedAfter, zone);
  return { sleepMinutes: Math.max(0, Math.min(LONGEST_SLEEP, asleep)), stated: false, up };
}

/** Minutes of an interval between 00:00 and 06:00 on a clock. */
function nightMinutes({ from, to }: Interval, zone: ZoneId): number {
  let minutes = 0;
  for (let at = from; at < to; at = instant(at + 1)) if (wallMinute(at, zone) < 6 * 60) minutes += 1;
  return minutes;
}

const zoneOf = (day: Day, place: Id | null): ZoneId =>
  (place === null ? undefined : day.plan.places.get(place)?.zone) ?? day.plan.zone;

/** Driving spans that touch, as one spell. */
function spells(spans: readonly PersonSpan[]): readonly Interval[] {
  const done: { from: Instant; to: Instant }[] = [];
  for (const { from, to, is } of spans) {
    if (is !== "driving") continue;
    const last = done.at(-1);
    if (last !== undefined && last.to === from) last.to = to;
    else done.push({ from, to });
  }
  return done;
}

/** The index hour by hour from getting up to the release. */
function curveOf({ up, sleepMinutes }: Night, release: Instant | null, zone: ZoneId): Fitness["curve"] {
  if (up === null || sleepMinutes === null || release === null || release < up) return [];
  return Array.from({ length: Math.floor((release - up) / 60) + 1 }, (_, hour) => {
    const at = instant(up + hour * 60);
    return { at, index: alertness(sleepMinutes, hour * 60, wallMinute(at, zone)) };
  });
}

/** How rested someone is likely to be today, and at each spell at the wheel. */
export function fitnessOf(day: Day, person: PersonDay): Fitness {
  const night = nightOf(day, person);
  const { up, sleepMinutes } = night;
  const originOf = ({ from }: Interval): Id | null => {
    const begins = (one: Interval & { readonly driver: Id }): boolean => one.driver === person.id && one.from === from;
    return day.moves.find(({ wheel }) => wheel.some(begins))?.from ?? person.slept;
  };
  const wheel = spells(person.spans).map((spell): WheelSpell => {
    const place = originOf(spell);
    const zone = zoneOf(day, place);
    const awakeMinutes = up === null ? null : spell.to - up;
    const known = awakeMinutes !== null && sleepMinutes !== null;
    const index = known ? alertness(sleepMinutes, awakeMinutes, wallMinute(spell.to, zone)) : null;
    return { ...spell, place, awakeMinutes, nightMinutes: nightMinutes(spell, zone), index };
  });
  const ratio = sleepMinutes === null ? null : crashRatio(sleepMinutes);
  const curve = curveOf(night, person.release, zoneOf(day, person.slept));
  return { ...night, slept: person.slept, crashRatio: ratio, wheel, curve };
}
