/**
 * Chores: short work for the gear outside the plan's own hours. One within `rules.choreJoin` of a release makes it later, of
 * a call makes it earlier; one apart from both parts the rest, without loading, lobby or rounding.
 */
import type { Id } from "../../plan/plan.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { Chore, PersonSpan } from "../day.ts";
import type { TimelineStretch } from "./timeline.ts";

/** Heavier than a ride, a meal, a rest or a stand-down, lighter than a hit. */
const WEIGHT = 4.7;

/** A time without duty, shortened by what joins its ends, and the chores that lie in it apart from both. */
interface Parted<C extends Interval> extends Interval {
  readonly apart: readonly C[];
}

const byStart = (a: Interval, b: Interval): number => a.from - b.from || a.to - b.to;

/** `chores` are those that touch the time from `from` to `to`; an end that is infinite joins nothing. */
export function partOff<C extends Interval>({ from, to }: Interval, chores: readonly C[], join: number): Parted<C> {
  const inside = chores.filter((one) => one.to > from && one.from < to).toSorted(byStart);
  let [start, end] = [from, to];
  const left: C[] = [];
  for (const one of inside) {
    if (one.from <= start + join) start = instant(Math.max(start, Math.min(one.to, to)));
    else left.push(one);
  }
  const apart: C[] = [];
  for (const one of left.toReversed()) {
    if (one.to >= end - join) end = instant(Math.min(end, one.from));
    else apart.unshift(one);
  }
  return { from: start, to: end, apart };
}

/** A chore as a stretch of a duty. */
export const choreStretch = ({ from, to, place, vehicle }: Chore): TimelineStretch => ({
  name: "chore",
  from,
  to,
  is: "duty",
  weight: WEIGHT,
  where: null,
  place,
  vehicle,
  activity: null,
  ends: ["", ""],
});

/** A person's stretches with the chores in them, and the duties that follow. */
export interface WithChores {
  readonly stretches: readonly TimelineStretch[];
  /** The previous release, later by what joins it. */
  readonly previousRelease: Instant | null;
  /** From the previous release as it was to where what joins it ends; null where nothing does. */
  readonly lastNight: Interval | null;
  /** What lies in no duty. */
  readonly apart: readonly Chore[];
}

interface Duties extends Interval {
  /** Null where it is not known. */
  readonly previousRelease: Instant | null;
  readonly isStanddown: (stretch: TimelineStretch) => boolean;
  readonly join: number;
}

const AGES = 1_000_000_000;

/** Adds someone's chores to the stretches of their day, which is from the first call to the last release. */
export function addChores(stretches: readonly TimelineStretch[], chores: readonly Chore[], duties: Duties): WithChores {
  const { from, to, previousRelease, join } = duties;
  if (chores.length === 0) return { stretches, previousRelease, lastNight: null, apart: [] };
  const night = partOff({ from: previousRelease ?? instant(from - AGES), to: from }, chores, join);
  const evening = partOff({ from: to, to: instant(to + AGES) }, chores, join);
  const apart = [...night.apart, ...evening.apart];
  const kept = stretches.map((stretch): TimelineStretch => {
    if (!duties.isStanddown(stretch)) return stretch;
    const parted = partOff(stretch, chores, join);
    apart.push(...parted.apart);
    return { ...stretch, from: parted.from, to: parted.to };
  });
  const released = previousRelease === null ? null : night.from;
  const isBefore = (one: Chore): boolean => released !== null && one.to <= released;
  const inDuty = chores.filter((one) => !night.apart.includes(one) && !evening.apart.includes(one) && !isBefore(one));
  return {
    stretches: [...kept.filter((one) => one.to > one.from), ...inDuty.map(choreStretch)],
    previousRelease: released,
    lastNight:
      previousRelease === null || night.from <= previousRelease ? null : { from: previousRelease, to: night.from },
    apart: apart.toSorted(byStart),
  };
}

const choreSpan = ({ from, to, place, vehicle }: Interval & Pick<Chore, "place" | "vehicle">): PersonSpan => ({
  from,
  to,
  is: "duty",
  vehicle,
  activity: null,
  place,
  doing: "chore",
});

const offSpan = ({ from, to }: Interval, place: Id | null): PersonSpan => ({
  from,
  to,
  is: "off",
  vehicle: null,
  activity: null,
  place,
  doing: "off",
});

/** Someone's spans parted by chores that lie in no duty; before and after the spans the time between is off. */
export function partSpans(
  spans: readonly PersonSpan[],
  apart: readonly Chore[],
  { slept, sleeps }: { readonly slept: Id | null; readonly sleeps: Id | null },
): readonly PersonSpan[] {
  let made = [...spans];
  for (const chore of apart) {
    const [first, last] = [made[0], made.at(-1)];
    if (first === undefined || last === undefined) made = [choreSpan(chore)];
    else if (chore.to <= first.from)
      made = [choreSpan(chore), offSpan({ from: chore.to, to: first.from }, slept), ...made];
    else if (chore.from >= last.to)
      made = [...made, offSpan({ from: last.to, to: chore.from }, sleeps), choreSpan(chore)];
    else made = made.flatMap((span) => partSpan(span, chore));
    made = made.filter((span) => span.to > span.from);
  }
  return made;
}

function partSpan(span: PersonSpan, chore: Chore): readonly PersonSpan[] {
  if (span.is !== "off" || span.to <= chore.from || span.from >= chore.to) return [span];
  const { place, vehicle } = chore;
  const worked = {
    from: instant(Math.max(span.from, chore.from)),
    to: instant(Math.min(span.to, chore.to)),
    place,
    vehicle,
  };
  return [{ ...span, to: worked.from }, choreSpan(worked), { ...span, from: worked.to }];
}
