/**
 * Where and when people of the day are outside: at a stop from when the vehicle is parked to the end of strike, at a task
 * or hit that no vehicle brought them to, in a wait without a roof, and with a pack to swap.
 */
import type { ActivityTimes, Day, DayTerm, StopTimes } from "../day/day.ts";
import type { Id, Weather } from "../plan/plan.ts";
import { type ClosedStretch, rowsAtAny } from "../sky/weather.ts";
import { waitsOf } from "./waits.ts";

/** A stay outside with every row of the weather that holds during it. */
export interface Outside {
  /** One place, or the two ends of the road on which they stop. */
  readonly places: readonly Id[];
  readonly onRoad: boolean;
  readonly stretch: ClosedStretch;
  readonly rows: readonly Weather[];
  /** What is done there; empty for a wait or a chore. */
  readonly activities: readonly ActivityTimes[];
}

/** Meals and rest are taken inside; all else is outside. */
const INSIDE: ReadonlySet<string> = new Set(["meal", "rest", "standdown"]);

const isOutside = ({ activity }: ActivityTimes): boolean => !INSIDE.has(activity.kind);

function stretchOf({ lineCheck, inPosition, start, end, clearEnd }: ActivityTimes): ClosedStretch | null {
  const from = lineCheck?.from ?? inPosition ?? start;
  const to = clearEnd ?? end;
  return from === null || to === null ? null : { from, to };
}

type Stay = Omit<Outside, "rows">;

/** Where something is done: at its place, or on the road between two; aboard a vehicle no one is outside. */
function placesOf({ place, activity: { location } }: ActivityTimes): readonly Id[] {
  if (place !== null) return [place];
  return location.kind === "onRoad" ? [location.from, location.to] : [];
}

/** Strike lies in people's time: the one between arrival and departure of a stop is its own. */
const isStrikeOf = ({ place, arrive, leave }: StopTimes, term: DayTerm): boolean =>
  term.name === "strike" &&
  term.place === place &&
  (arrive === null || term.from >= arrive) &&
  (leave === null || term.to <= leave);

/** From parked to the end of strike; nothing where only meals and rest are taken there. */
function atStop(day: Day, stop: StopTimes): readonly Stay[] {
  const activities = day.activities.filter((times) => stop.activities.includes(times.id) && isOutside(times));
  const stretches = activities.flatMap((times) => stretchOf(times) ?? []);
  const { parked } = stop;
  if (stretches.length === 0) return [];
  const strike = day.people.flatMap(({ terms }) => terms.filter((term) => isStrikeOf(stop, term)));
  const from = parked ?? stop.arrive;
  const stretch = {
    from: from ?? stretches.reduce((a, b) => (a.from <= b.from ? a : b)).from,
    to: [...stretches, ...strike].reduce((a, b) => (a.to >= b.to ? a : b)).to,
  };
  return [{ places: [stop.place], onRoad: false, stretch, activities }];
}

/** Every stay outside of the day: stops in plan order, then what else is done, waits and chores. */
export function outside(day: Day): readonly Outside[] {
  const stops = day.stops.flatMap((stop) => atStop(day, stop));
  const covered = new Set(stops.flatMap(({ activities }) => activities.map(({ id }) => id)));
  const alone = day.activities.flatMap((times): readonly Stay[] => {
    const stretch = stretchOf(times);
    const places = placesOf(times);
    if (stretch === null || places.length === 0 || covered.has(times.id) || !isOutside(times)) return [];
    return [{ places, onRoad: times.place === null, stretch, activities: [times] }];
  });
  const waits = waitsOf(day)
    .filter((wait) => !wait.sheltered)
    .map(({ place, from, to }): Stay => ({ places: [place], onRoad: false, stretch: { from, to }, activities: [] }));
  const chores = day.people.flatMap((person) =>
    person.chores.flatMap(({ from, to, place }): readonly Stay[] =>
      place === null || day.plan.places.get(place)?.shelter === true
        ? []
        : [{ places: [place], onRoad: false, stretch: { from, to }, activities: [] }],
    ),
  );
  return [...stops, ...alone, ...waits, ...chores].map((stay) => ({
    ...stay,
    rows: rowsAtAny(day.plan.weather, stay.places, stay.stretch),
  }));
}
