/**
 * The other view: how rested someone at the wheel is likely to be. Estimates and group averages from publications, never
 * merged with law and never multiplied with each other; no model clears a person to drive.
 */
import type { Day, PersonDay, PersonSpan } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import { minutesOnClock, wallMinute, type ZoneId } from "../../time/index.ts";
import { type Instant, type Interval, instant, joined } from "../../time/units.ts";
import { alertness } from "./alertness.ts";
import { type NightSleep, type Waking, wakingOf } from "./sleep.ts";

/** A stretch at the wheel with what it says of fatigue. */
export interface WheelSpell extends Interval {
  /** Where it begins. */
  readonly place: Id | null;
  /** Since when they are awake at its end; null where it is not known. */
  readonly awakeSince: Instant | null;
  /** Since then, at its end. */
  readonly awakeMinutes: number | null;
  /** Sleep in the 24 h before its end; null where the night is not known. */
  readonly sleepMinutes: number | null;
  /** Crash rate after so much sleep against 7 h or more. */
  readonly crashRatio: number | null;
  /** Of it, between 00:00 and 06:00 on the clock of that place. */
  readonly nightMinutes: number;
  /** When these begin; the spell's own beginning without any. */
  readonly nightFrom: Instant;
  /** S + C at its end; null where the night is not known. */
  readonly index: number | null;
}

/** What is known of a person's sleep and of how fit they are to drive. */
export interface Fitness extends NightSleep {
  /** The bed of the night before; null where none is known. */
  readonly slept: Id | null;
  /** Crash rate after the night against 7 h of sleep or more; null where the sleep is not known. */
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

/** The wall minute at which the night at the wheel ends that began at midnight. */
const NIGHT_ENDS = 6 * 60;

const zoneOf = (day: Day, place: Id | null): ZoneId =>
  (place === null ? undefined : day.plan.places.get(place)?.zone) ?? day.plan.zone;

/** Driving spans that touch, as one spell. */
const spells = (spans: readonly PersonSpan[]): readonly Interval[] =>
  joined(spans.filter(({ is }) => is === "driving"));

/** S + C at a moment: after the last sleep that started the waking time, however long ago. */
function indexAt(at: Instant, waking: Waking, zone: ZoneId): number | null {
  const since = waking.since(at);
  if (since === null || since.sleepMinutes === null) return null;
  return alertness(since.sleepMinutes, at - since.up, wallMinute(at, zone));
}

/** The index hour by hour from getting up to the release. */
function curveOf(waking: Waking, release: Instant | null, zone: ZoneId): Fitness["curve"] {
  const { up } = waking.night;
  if (up === null || release === null || release < up) return [];
  return Array.from({ length: Math.floor((release - up) / 60) + 1 }, (_, hour) => instant(up + hour * 60)).flatMap(
    (at) => {
      const index = indexAt(at, waking, zone);
      return index === null ? [] : [{ at, index }];
    },
  );
}

/** The first instant of a spell between 00:00 and 06:00 on a clock, by halving: the minutes up to a moment never fall. */
function nightFrom({ from, to }: Interval, zone: ZoneId): Instant {
  const nightBy = (at: number): boolean => minutesOnClock({ from, to: instant(at) }, zone, 0, NIGHT_ENDS) > 0;
  if (!nightBy(to)) return from;
  let [before, by] = [Number(from), Number(to)];
  while (by - before > 1) {
    const middle = Math.floor((before + by) / 2);
    if (nightBy(middle)) by = middle;
    else before = middle;
  }
  return instant(before);
}

/** How rested someone is likely to be today, and at each spell at the wheel. */
export function fitnessOf(day: Day, person: PersonDay): Fitness {
  const waking = wakingOf(day, person);
  const { night } = waking;
  const originOf = ({ from }: Interval): Id | null => {
    const begins = (one: Interval & { readonly driver: Id }): boolean => one.driver === person.id && one.from === from;
    return day.moves.find(({ wheel }) => wheel.some(begins))?.from ?? person.slept;
  };
  const wheel = spells(person.spans).map((spell): WheelSpell => {
    const place = originOf(spell);
    const zone = zoneOf(day, place);
    const awakeSince = waking.since(spell.to)?.up ?? null;
    const sleepMinutes = waking.sleepIn24(spell.to);
    return {
      ...spell,
      place,
      awakeSince,
      awakeMinutes: awakeSince === null ? null : spell.to - awakeSince,
      sleepMinutes,
      crashRatio: sleepMinutes === null ? null : crashRatio(sleepMinutes),
      nightMinutes: minutesOnClock(spell, zone, 0, NIGHT_ENDS),
      nightFrom: nightFrom(spell, zone),
      index: indexAt(spell.to, waking, zone),
    };
  });
  const ratio = night.sleepMinutes === null ? null : crashRatio(night.sleepMinutes);
  const curve = curveOf(waking, person.release, zoneOf(day, person.slept));
  return { ...night, slept: person.slept, crashRatio: ratio, wheel, curve };
}
