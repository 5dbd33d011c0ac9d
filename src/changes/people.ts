/**
 * Whom a change concerns and by when each must know: before they would get up by the old plan or by the new one, where
 * their call differs, and before the first other moment of theirs that differs.
 */
import type { Day, PersonDay } from "../day/day.ts";
import { upBeforeMinutes } from "../day/people/presence.ts";
import { leastOf } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import { type Instant, instant } from "../time/units.ts";
import type { Change } from "./between.ts";
import type { Version } from "./engines.ts";

/** What changes for one person: calls, releases, by when to tell them. */
export interface PersonChange {
  readonly id: Id;
  readonly oldCall: Instant | null;
  readonly newCall: Instant | null;
  readonly oldRelease: Instant | null;
  readonly newRelease: Instant | null;
  /** Where they are called by the new plan, else by the old one. */
  readonly place: Id | null;
  /** Where they sleep before it: on this clock they are told. */
  readonly bed: Id | null;
  /** Null where nothing changes for them. */
  readonly tellBy: Instant | null;
  /** Until when they may sleep: they get up then by the new plan and nothing of theirs differs before. Null where they must be told sooner, and on a day off. */
  readonly sleepsUntil: Instant | null;
  /** The first moment of theirs that differs; null where none does. */
  readonly differsAt: Instant | null;
  /** What else changes for them, their call and release aside. */
  readonly changes: readonly Change[];
}

/** Everyone of both versions, by when they must be told, then in plan order. */
export function peopleOf(older: Version, newer: Version, changes: readonly Change[]): readonly PersonChange[] {
  const ids = [...new Set([...newer.day.plan.crew.keys(), ...older.day.plan.crew.keys()])];
  return ids
    .map((id) =>
      personOf(
        id,
        older.day,
        newer.day,
        changes.filter(({ who }) => who.includes(id)),
      ),
    )
    .sort((a, b) => (a.tellBy ?? Number.MAX_SAFE_INTEGER) - (b.tellBy ?? Number.MAX_SAFE_INTEGER));
}

function personOf(id: Id, older: Day, newer: Day, changes: readonly Change[]): PersonChange {
  const [was, is] = [dayOf(older, id), dayOf(newer, id)];
  const [oldUp, newUp] = [gettingUp(older, was), gettingUp(newer, is)];
  const others = changes.filter(({ kind }) => kind !== "person");
  const calls = (was?.call ?? null) === (is?.call ?? null) ? [] : [oldUp, newUp].flatMap((at) => at ?? []);
  const differs = changes.length === 0 ? null : firstDifference(was, is);
  const moments = [...others.flatMap(momentsOf), ...(differs === null ? [] : [differs])];
  const own = changes.filter(({ kind }) => kind === "person").flatMap(momentsOf);
  const tellBy = changes.length === 0 ? null : leastOf([...calls, ...moments, ...own]);
  const sleeps = newUp !== null && (tellBy === null || tellBy >= newUp);
  return {
    id,
    oldCall: was?.call ?? null,
    newCall: is?.call ?? null,
    oldRelease: was?.release ?? null,
    newRelease: is?.release ?? null,
    place: is?.duties[0]?.callPlace ?? was?.duties[0]?.callPlace ?? null,
    bed: is?.slept ?? was?.slept ?? null,
    tellBy: tellBy === null ? null : instant(tellBy),
    sleepsUntil: sleeps ? newUp : null,
    differsAt: earliest([...moments, ...own]),
    changes: others,
  };
}

/** From when on they do something else, on duty by both plans: a hit that moves, moves what readies it as well. */
function firstDifference(was: PersonDay | null, is: PersonDay | null): Instant | null {
  if (was === null || is === null || was.call === null || is.call === null) return null;
  const from = Math.max(was.call, is.call);
  const to = Math.min(was.release ?? from, is.release ?? from);
  const doing = ({ spans }: PersonDay, at: number): string => {
    const span = spans.find((one) => one.from <= at && at < one.to);
    return span === undefined ? "" : JSON.stringify([span.doing, span.vehicle, span.place]);
  };
  const edges = [...was.spans, ...is.spans].map((span) => span.from).filter((at) => from <= at && at < to);
  return earliest(edges.filter((at) => doing(was, at) !== doing(is, at)));
}

const dayOf = (day: Day, id: Id): PersonDay | null => day.people.find((person) => person.id === id) ?? null;

const gettingUp = (day: Day, person: PersonDay | null): Instant | null =>
  person === null || person.call === null ? null : instant(person.call - upBeforeMinutes(day.plan, person.id));

const earliest = (moments: readonly number[]): Instant | null => {
  const first = leastOf(moments);
  return first === null ? null : instant(first);
};

/** The moments of a change that are times, old and new. */
export const momentsOf = ({ was, now }: Change): readonly Instant[] =>
  [was, now].flatMap((value) => (value?.kind === "time" ? [value.at] : []));
