/** Where time is spent waiting, under what roof, and how much later one could have left instead. */
import { aboardOf, type Day, type Move } from "../day/day.ts";
import type { Id, Place } from "../plan/plan.ts";
import type { Instant, Interval } from "../time/units.ts";

/** A wait of people at a place, under a roof or outside, in minutes. */
export interface Wait extends Interval {
  readonly place: Id;
  readonly who: readonly Id[];
  readonly minutes: number;
  /** A roof: shelter, mains or a bed, be it tonight's or the berth of the vehicle they came with. */
  readonly sheltered: boolean;
  /** By how much the drive before could leave later with every fixed instant kept, at most the wait; 0 where nothing is won. */
  readonly laterMinutes: number;
  /** The move that brought them, null where they slept here. */
  readonly move: Id | null;
}

const isSheltered = (day: Day, place: Place | undefined): boolean =>
  place !== undefined &&
  (place.shelter ||
    place.mains ||
    place.kind === "lodging" ||
    day.people.some(({ slept, sleeps }) => slept === place.id || sleeps === place.id));

/** The move that brought someone to where they wait. */
const broughtBy = (day: Day, who: Id, at: Instant): Move | undefined =>
  day.moves.findLast((move) => move.arrive <= at && aboardOf(move).includes(who));

function waitOf(day: Day, place: Id, { from, to }: Interval, who: Id): Wait {
  const move = broughtBy(day, who, from);
  const berth = move !== undefined && day.plan.vehicles.get(move.vehicle)?.berth === true;
  const roof = berth || isSheltered(day, day.plan.places.get(place));
  const before = move !== undefined && isSheltered(day, day.plan.places.get(move.from));
  const later = before && !roof ? Math.min(move.slackMinutes ?? 0, to - from) : 0;
  return {
    place,
    who: [who],
    from,
    to,
    minutes: to - from,
    sheltered: roof,
    laterMinutes: Math.max(0, later),
    move: move?.id ?? null,
  };
}

/** All waits of a day at a place, in time order; people who wait at the same place and time wait together. */
export function waitsOf(day: Day): readonly Wait[] {
  const waits = new Map<string, Wait>();
  for (const person of day.people) {
    for (const term of person.terms) {
      if (term.name !== "wait" || term.place === null || term.to <= term.from) continue;
      const key = `${term.from} ${term.to} ${term.place}`;
      const own = waitOf(day, term.place, term, person.id);
      const other = waits.get(key);
      const together = other && {
        ...other,
        who: [...other.who, person.id],
        laterMinutes: Math.min(other.laterMinutes, own.laterMinutes),
      };
      waits.set(key, together ?? own);
    }
  }
  return [...waits.values()].sort((a, b) => a.from - b.from || a.to - b.to);
}
