/** Cuts the driving of a day into stretches at the stops and at every so many planned minutes, with who may drive each. */
import { aboardOf, type Day, type Move, type PersonDay } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, type Interval, instant, overlap } from "../../time/units.ts";
import type { DrivingStretch } from "./problem.ts";

/** A stretch on the time line of the day. */
export interface DayStretch extends DrivingStretch, Interval {
  readonly move: Id;
  /** Planned minutes of driving into the leg at which it begins. */
  readonly afterMinutes: number;
  /** Who drives it as planned. */
  readonly planned: Id;
}

const ON_THE_WAY: ReadonlySet<string> = new Set(["driving", "riding", "berth"]);

/** True where someone only drives, rides or sleeps during a stretch: a task aboard keeps them from the wheel. */
const isFree = (person: PersonDay | undefined, during: Interval): boolean =>
  person?.spans.every((span) => overlap(span, during) === 0 || ON_THE_WAY.has(span.is)) ?? false;

/** Who may take the wheel for a stretch, in plan order; the planned driver where no one else may or the stretch is past. */
function driversOf(day: Day, move: Move, during: Interval, planned: Id, now: Instant | null): readonly Id[] {
  if (now !== null && during.from < now) return [planned];
  const able = [...day.plan.crew.values()].filter(
    ({ id, drives }) =>
      drives.includes(move.vehicle) &&
      aboardOf(move).includes(id) &&
      isFree(
        day.people.find((person) => person.id === id),
        during,
      ),
  );
  return able.length === 0 ? [planned] : able.map(({ id }) => id);
}

/** The driving of one leg in pieces: cut at halts, at multiples of `every` minutes of driving, nowhere else. */
function piecesOf(
  move: Move,
  every: number,
): readonly (Interval & { readonly afterMinutes: number; readonly planned: Id })[] {
  const pieces: (Interval & { afterMinutes: number; planned: Id })[] = [];
  let driven = 0;
  for (const { from, to, driver } of move.wheel) {
    for (let at = from; at < to; ) {
      const end = instant(Math.min(to, at + every - (driven % every)));
      const last = pieces.at(-1);
      // A change of drivers as planned is no change point of ours.
      if (last !== undefined && last.to === at && driven % every !== 0)
        pieces[pieces.length - 1] = { ...last, to: end };
      else pieces.push({ from: at, to: end, afterMinutes: driven, planned: driver });
      driven += end - at;
      at = end;
    }
  }
  return pieces;
}

/** All stretches of a day in time order. `every` is in planned minutes of driving, counted anew on each leg. */
export function drivingStretches(day: Day, every: number, now: Instant | null): readonly DayStretch[] {
  const stretches = day.moves.flatMap((move) =>
    piecesOf(move, every).map(
      (piece): DayStretch => ({
        ...piece,
        move: move.id,
        vehicle: move.vehicle,
        drivers: driversOf(day, move, piece, piece.planned, now),
      }),
    ),
  );
  return stretches.sort((a, b) => a.from - b.from);
}

/** Stretches that hang together through people who may drive in several vehicles; each group can be decided alone. */
export function groupsOf(stretches: readonly DayStretch[]): readonly (readonly DayStretch[])[] {
  const groups: { readonly drivers: Set<Id>; readonly vehicles: Set<Id> }[] = [];
  for (const { drivers, vehicle } of stretches) {
    const joined = groups.filter(
      (group) => group.vehicles.has(vehicle) || drivers.some((who) => group.drivers.has(who)),
    );
    const merged = {
      drivers: new Set([...joined.flatMap((group) => [...group.drivers]), ...drivers]),
      vehicles: new Set([...joined.flatMap((group) => [...group.vehicles]), vehicle]),
    };
    for (const group of joined) groups.splice(groups.indexOf(group), 1);
    groups.push(merged);
  }
  return groups.map(({ vehicles }) => stretches.filter(({ vehicle }) => vehicles.has(vehicle)));
}
