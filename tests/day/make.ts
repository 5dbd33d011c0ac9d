/** Plans made by hand for tests of the Day, without YAML: short forms in, a full `Plan` out. The parts are in `parts.ts`. */

import { computeDay, type Day } from "../../src/day/index.ts";
import { type Leg, type Legs, legKey } from "../../src/legs/leg.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import type {
  Hit,
  HouseRules,
  Person,
  Place,
  Plan,
  Ride,
  SignalPath,
  Stop,
  Task,
  Vehicle,
  Weather,
} from "../../src/plan/plan.ts";
import { type Instant, instant } from "../../src/time/units.ts";
import { hit, leg, path, person, place, plan, road, run, stop, task, vehicle, weather } from "./parts.ts";

/** 2027-01-20T00:00 in Chicago. */
export const MIDNIGHT = Math.round(Date.UTC(2027, 0, 20, 6) / 60000);

/** Minutes after local midnight, `"07:05"` or a number, as an instant. */
export function at(clock: string | number): Instant {
  if (typeof clock === "number") return instant(MIDNIGHT + clock);
  const [hours, mins] = clock.split(":").map(Number);
  return instant(MIDNIGHT + (hours ?? 0) * 60 + (mins ?? 0));
}

/** An instant as `07:05` on Chicago's clock of the plan's day, past 24:00 where it is the next day. */
export const text = (when: Instant | null): string | null => {
  if (when === null) return null;
  const minute = when - MIDNIGHT;
  const two = (n: number): string => String(n).padStart(2, "0");
  return minute < 0 ? `-${text(instant(MIDNIGHT - minute))}` : `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
};

type Short<T> = Partial<T>;

export interface Description {
  readonly crew: Readonly<Record<string, Short<Person>>>;
  readonly vehicles?: Readonly<Record<string, Short<Vehicle>>>;
  readonly places?: Readonly<Record<string, Short<Place>>>;
  /** `"lodge pier": [drive, bad]`. */
  readonly roads: Readonly<Record<string, readonly [number, number | null]>>;
  readonly hits?: Readonly<Record<string, Short<Hit> & { at: Instant; forMinutes: number; in?: string }>>;
  readonly tasks?: Readonly<Record<string, Short<Task> & { in?: string }>>;
  readonly runs: Readonly<
    Record<
      string,
      { driver?: string; aboard?: readonly string[]; stops: readonly (string | (Short<Stop> & { place: string }))[] }
    >
  >;
  readonly rides?: Readonly<Record<string, Short<Ride> & Pick<Ride, "from" | "to" | "leave" | "arrive" | "who">>>;
  readonly paths?: Readonly<Record<string, Short<SignalPath>>>;
  readonly weather?: readonly Short<Weather>[];
  readonly rules?: Short<HouseRules>;
}

const entries = <T, R>(
  record: Readonly<Record<string, T>> | undefined,
  make: (id: string, value: T) => R,
): ReadonlyMap<string, R> => new Map(Object.entries(record ?? {}).map(([id, value]) => [id, make(id, value)]));

export function makePlan(d: Description): Plan {
  const stopsIn = Object.values(d.runs).flatMap(({ stops }) =>
    stops.map((short) => (typeof short === "string" ? short : short.place)),
  );
  const roadEnds = Object.keys(d.roads).flatMap((ends) => ends.split(" "));
  const places = Object.fromEntries([...new Set([...stopsIn, ...roadEnds])].map((id) => [id, d.places?.[id] ?? {}]));
  const vehicles = Object.fromEntries(Object.keys(d.runs).map((id) => [id, d.vehicles?.[id] ?? {}]));
  const roads = Object.entries(d.roads).map(([ends, [driveMinutes, badMinutes]]) => {
    const [from = "", to = ""] = ends.split(" ");
    return road(from, to, { driveMinutes, badMinutes, path: ["roads", ends] });
  });
  return plan({
    crew: entries(d.crew, person),
    vehicles: entries(vehicles, vehicle),
    places: entries({ ...places, ...d.places }, place),
    roads,
    hits: entries(d.hits, (id, { in: where = "pier", ...short }) => hit(id, where, short)),
    tasks: entries(d.tasks, (id, { in: where = "pier", ...short }) => task(id, where, short)),
    runs: entries(d.runs, (id, { driver = null, aboard = null, stops }) =>
      run(id, [], {
        driver,
        aboard,
        stops: stops.map((short, index) => {
          const stated = typeof short === "string" ? { place: short } : short;
          return stop(`${id}.${index + 1}`, stated.place, { path: ["runs", id, "stops", index], ...stated });
        }),
      }),
    ),
    rides: entries(
      d.rides,
      (id, short): Ride => ({ id, path: ["rides", id], leadMinutes: 0, by: null, bunk: false, ...short }),
    ),
    paths: entries(d.paths, path),
    weather: (d.weather ?? []).map((short, index) => weather({ path: ["weather", index], ...short })),
    rules: { ...houseDefaults(), ...d.rules },
  });
}

/** Both directions of every stated road, and from a place to itself. */
export function legsOf(made: Plan): Legs {
  const legs = new Map<string, Leg>();
  const put = (from: string, to: string, likely: number, bad: number | null): void => {
    legs.set(legKey(from, to), leg(from, to, likely, bad, { path: ["roads"] }));
  };
  for (const id of made.places.keys()) put(id, id, 0, 0);
  for (const { link, driveMinutes, badMinutes } of made.roads) {
    put(link[0], link[1], driveMinutes ?? 0, badMinutes);
    put(link[1], link[0], driveMinutes ?? 0, badMinutes);
  }
  return legs;
}

/** The Day of a description; throws what the plan's mistakes are where there is none. */
export const dayOf = (description: Description): Day => {
  const made = makePlan(description);
  const { day, findings } = computeDay(made, legsOf(made));
  if (day === null)
    throw new Error(findings.map((finding) => `${finding.code} ${JSON.stringify(finding.facts)}`).join("; "));
  return day;
};

/** The codes of the mistakes of a description that leave no day. */
export const mistakesOf = (description: Description): readonly string[] => {
  const made = makePlan(description);
  return computeDay(made, legsOf(made)).findings.map((finding) => finding.code);
};

/** Named instants of a day as `07:05`. */
export const times = (day: Day, ...names: readonly string[]): readonly (string | null)[] =>
  names.map((name) => text(day.instants.get(name) ?? null));
