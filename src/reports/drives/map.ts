/** What a map of a day shows: its places, and a line for every drive, straight where no road is known. */
import type { Day, Move } from "../../day/day.ts";
import { legKey } from "../../legs/leg.ts";
import { NO_ANSWERS, type RoutedAnswers } from "../../legs/legs.ts";
import type { Coordinates, Id } from "../../plan/plan.ts";
import { isoAt } from "../shared/stamps.ts";

/** A place on the map. */
export interface MapPlace {
  readonly id: Id;
  readonly name: string;
  readonly at: Coordinates;
  /** Hits and tasks there, in time order. */
  readonly activities: readonly Id[];
}

/** A drive on the map and its line. */
export interface MapDrive {
  readonly move: Move;
  readonly name: string;
  /** In order of travel. */
  readonly line: readonly Coordinates[];
  /** True where the line is only the straight one between its ends. */
  readonly isStraight: boolean;
  /** Says that the line is straight; null where it is the road. */
  readonly note: string | null;
  /** ISO 8601 on the clocks of both ends. */
  readonly leave: string;
  readonly arrive: string;
}

/** A day on a map. */
export interface DayMap {
  readonly title: string;
  readonly places: readonly MapPlace[];
  /** Drives with coordinates at both ends. */
  readonly drives: readonly MapDrive[];
  /** Places that the day comes to and that have no coordinates: neither they nor the drives from and to them are shown. */
  readonly without: readonly Id[];
}

/** Said wherever a straight line is shown. */
const STRAIGHT = "a straight line: the road is not known";

function driveOf(day: Day, move: Move, routed: RoutedAnswers): readonly MapDrive[] {
  const { places } = day.plan;
  const [from, to] = [places.get(move.from), places.get(move.to)];
  const [start, end] = [from?.at ?? null, to?.at ?? null];
  if (start === null || end === null) return [];
  const shape = routed.get(legKey(move.from, move.to))?.line ?? null;
  const line = shape === null ? [start, end] : shape.map(([longitude, latitude]) => ({ latitude, longitude }));
  const name = `${day.plan.vehicles.get(move.vehicle)?.name ?? move.vehicle}: ${from?.name ?? move.from} to ${to?.name ?? move.to}`;
  const [leave, arrive] = [isoAt(day.plan, move.leave, move.from), isoAt(day.plan, move.arrive, move.to)];
  return [{ move, name, line, isStraight: shape === null, note: shape === null ? STRAIGHT : null, leave, arrive }];
}

/** The map of a day; places no one comes to are left out, and so are those without coordinates, which are named. */
export function dayMap(day: Day, routed: RoutedAnswers = NO_ANSWERS): DayMap {
  const reached = new Set([
    ...day.stops.map(({ place }) => place),
    ...day.activities.flatMap(({ place }) => place ?? []),
    ...day.rides.flatMap(({ ride }) => [ride.from, ride.to]),
  ]);
  const used = [...day.plan.places.values()].filter(({ id }) => reached.has(id));
  const places = used.flatMap(({ id, name, at }): readonly MapPlace[] => {
    if (at === null) return [];
    const activities = day.activities.filter(({ place }) => place === id).map((activity) => activity.id);
    return [{ id, name: name ?? id, at, activities }];
  });
  const title = day.plan.title === null ? day.plan.date : `${day.plan.title}, ${day.plan.date}`;
  const without = used.flatMap(({ id, at }) => (at === null ? [id] : []));
  return { title, places, drives: day.moves.flatMap((move) => driveOf(day, move, routed)), without };
}
