/**
 * Which rests a chore may touch: for each person the times without duty, what binds them, and how long the longest stretch off
 * stays when chores lie in them. The Day it looks at has no chores.
 */
import type { Day, PersonDay } from "../../day/day.ts";
import { partOff } from "../../day/people/chores.ts";
import type { Id } from "../../plan/plan.ts";
import { type Interval, instant } from "../../time/units.ts";

/** The least uninterrupted rest that binds someone, in minutes; null where nothing does. */
export interface RestBound {
  readonly lawMinutes: number | null;
  readonly houseMinutes: number | null;
}

/** What binds each person; no one is bound who is not in it. */
export type RestBounds = ReadonlyMap<Id, RestBound>;

/** The rests that chores must leave whole. */
export interface Rests {
  /** The rest that holds any part of `during`; null where all of it is duty. */
  restAt(who: Id, during: Interval): Interval | null;
  /** Minutes off that are left before the call at its end with these chores in it. */
  kept(rest: Interval, chores: readonly Interval[]): number;
  /** Minutes that must stay; by law what is shorter than that already must not become shorter still. */
  needed(who: Id, rest: Interval): number;
  /** The same by law alone. */
  neededByLaw(who: Id, rest: Interval): number;
  /** Whether a chore lies at the very start or end of the rest, and is part of the duty there. */
  joins(rest: Interval, chore: Interval): boolean;
}

/** The rests of a day. */
export function restsOf(day: Day, bounds: RestBounds): Rests {
  const { choreJoin } = day.plan.rules;
  const rests = new Map(day.people.map((person) => [person.id, timesOff(person)]));
  // What lies before the call is what turnaround and law look at: a chore in the morning, apart from the call, leaves little.
  const kept = (rest: Interval, chores: readonly Interval[]): number => {
    const { from, to, apart } = partOff(rest, chores, choreJoin);
    return to - (apart.at(-1)?.to ?? from);
  };
  const least = (rest: Interval, minutes: number | null | undefined): number =>
    Math.min(minutes ?? 0, rest.to - rest.from);
  /** A rest that the house finds too short anyway may lose what joins its ends, and no more. */
  const house = (rest: Interval, minutes: number): number =>
    rest.to - rest.from < minutes ? rest.to - rest.from - 2 * choreJoin : minutes;
  return {
    restAt: (who, during) => rests.get(who)?.find((rest) => during.to > rest.from && during.from < rest.to) ?? null,
    kept,
    needed: (who, rest) => {
      const bound = bounds.get(who);
      return Math.max(least(rest, bound?.lawMinutes), house(rest, bound?.houseMinutes ?? 0));
    },
    neededByLaw: (who, rest) => least(rest, bounds.get(who)?.lawMinutes),
    joins: (rest, chore) => partOff(rest, [chore], choreJoin).apart.length === 0,
  };
}

/** Longer than any rest: an end that is not known. */
const AGES = 1_000_000_000;

/** From each release to the next call; open where the release before or the call after is not known. */
function timesOff({ duties, previousRelease }: PersonDay): Interval[] {
  const releases = [previousRelease, ...duties.map((duty) => duty.release)];
  return releases.flatMap((release, n) => {
    const call = duties[n]?.call ?? null;
    if (release === null && call === null) return [];
    const from = release ?? instant((call ?? 0) - AGES);
    return [{ from, to: call ?? instant(from + AGES) }];
  });
}
