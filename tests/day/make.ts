/** Plans made by hand for tests of the Day, without YAML: short forms in, a full `Plan` out. House rules as the format states them. */

import { computeDay, type Day } from "../../src/day/index.ts";
import type {
  Coordinates,
  Hit,
  HouseRules,
  Person,
  Place,
  Plan,
  Ride,
  Road,
  Run,
  SignalPath,
  Stop,
  Task,
  Vehicle,
  Weather,
} from "../../src/plan/plan.ts";
import { type Leg, type Legs, legKey } from "../../src/roads/leg.ts";
import { zone } from "../../src/time/index.ts";
import { type Instant, instant, type ZoneId } from "../../src/time/units.ts";

export const zoneNamed = (name: string): ZoneId => {
  const found = zone(name);
  if (found === null) throw new Error(`unknown zone ${name}`);
  return found;
};

/** The defaults of the table "House rules" of the plan format. */
export const HOUSE: HouseRules = {
  walkAround: 15,
  postTrip: 10,
  loading: 15,
  loadingCheckOut: 30,
  park: 5,
  setUp: 30,
  dishUp: 25,
  lineCheck: 10,
  inPosition: 10,
  clear: 10,
  strike: 20,
  unload: 10,
  turnaround: 600,
  dutyDay: 840,
  mealEvery: 360,
  mealFor: 30,
  wheelDay: 600,
  wheelBreak: 15,
  wheelBreakEvery: 120,
  wheelAwake: 840,
  reserveShare: 0.15,
  reserveColdShare: 0.25,
  swap: 2,
  upBefore: 45,
  upBeforeOnCamera: 75,
  bedAfter: 90,
  planDrivesAt: "bad-into-firm",
  roundCalls: 5,
  enoughWh: 15,
  shelterAfter: 30,
  dayRate: 600,
  stated: new Set(),
};

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

const CHICAGO = zoneNamed("America/Chicago");

const entries = <T, R>(
  record: Readonly<Record<string, T>> | undefined,
  make: (id: string, value: T) => R,
): ReadonlyMap<string, R> => new Map(Object.entries(record ?? {}).map(([id, value]) => [id, make(id, value)]));

const nowhere: Coordinates | null = null;

const person = (id: string, short: Short<Person>): Person => ({
  id,
  path: ["crew", id],
  name: null,
  roles: [],
  drives: [],
  slept: null,
  sleeps: null,
  contract: null,
  phone: null,
  ...short,
});

const vehicle = (id: string, short: Short<Vehicle>): Vehicle => ({
  id,
  path: ["vehicles", id],
  name: null,
  grossKg: null,
  seats: null,
  towingKg: null,
  rules: [],
  week: null,
  claims: [],
  commercial: false,
  commercialBecause: null,
  rangeKm: null,
  fuel: null,
  slower: 1,
  inverterWatts: null,
  shoreWatts: null,
  berth: false,
  insideCelsius: null,
  due: null,
  ...short,
});

const placeOf = (id: string, short: Short<Place>): Place => ({
  id,
  path: ["places", id],
  name: null,
  at: nowhere,
  zone: CHICAGO,
  kind: null,
  mains: false,
  shelter: false,
  signal: null,
  blocked: [],
  open: null,
  checkInMinute: null,
  checkOutMinute: null,
  roadSpeedKmh: null,
  address: null,
  hospital: null,
  parking: null,
  note: null,
  hazards: [],
  ...short,
});

const activity = (
  section: string,
  id: string,
  place: string | undefined,
): Pick<Hit, "id" | "path" | "location" | "who" | "after" | "before" | "signalPath" | "needs"> => ({
  id,
  path: [section, id],
  location: { kind: "place", place: place ?? "pier" },
  who: null,
  after: [],
  before: [],
  signalPath: null,
  needs: [],
});

const stopOf = (run: string, index: number, short: string | (Short<Stop> & { place: string })): Stop => ({
  id: `${run}.${index + 1}`,
  path: ["runs", run, "stops", index],
  do: null,
  leave: null,
  arriveBy: null,
  stayMinutes: null,
  waitHere: false,
  setUpMinutes: null,
  after: [],
  driver: null,
  aboard: null,
  asleep: null,
  relieve: [],
  moves: new Map(),
  ...(typeof short === "string" ? { place: short } : short),
});

export function makePlan(d: Description): Plan {
  const stopsIn = Object.values(d.runs).flatMap((run) =>
    run.stops.map((stop) => (typeof stop === "string" ? stop : stop.place)),
  );
  const roadEnds = Object.keys(d.roads).flatMap((ends) => ends.split(" "));
  const places = Object.fromEntries([...new Set([...stopsIn, ...roadEnds])].map((id) => [id, d.places?.[id] ?? {}]));
  const vehicles = Object.fromEntries(Object.keys(d.runs).map((id) => [id, d.vehicles?.[id] ?? {}]));
  const roads = Object.entries(d.roads).map(([ends, [drive, bad]]): Road => {
    const [from = "", to = ""] = ends.split(" ");
    return {
      link: [from, to],
      oneWay: false,
      driveMinutes: drive,
      badMinutes: bad,
      km: null,
      noSignal: false,
      path: ["roads", ends],
    };
  });
  return {
    file: "day.yaml",
    title: null,
    date: "2027-01-20",
    clock: CHICAGO,
    zone: CHICAGO,
    revision: null,
    untilDays: 0,
    labels: new Map(),
    follows: null,
    history: new Map(),
    crew: entries(d.crew, person),
    vehicles: entries(vehicles, vehicle),
    places: entries({ ...places, ...d.places }, placeOf),
    roads,
    hits: entries(
      d.hits,
      (id, { in: place, ...short }): Hit => ({
        kind: "hit",
        firm: true,
        lateMinutes: null,
        clearMinutes: null,
        spare: null,
        facing: null,
        show: null,
        run: null,
        fallback: null,
        ...activity("hits", id, place),
        ...short,
      }),
    ),
    tasks: entries(
      d.tasks,
      (id, { in: place, ...short }): Task => ({
        kind: "work",
        what: null,
        window: null,
        by: null,
        sizeMegabytes: null,
        forMinutes: null,
        ...activity("tasks", id, place),
        ...short,
      }),
    ),
    runs: entries(
      d.runs,
      (id, { driver, aboard, stops }): Run => ({
        id,
        path: ["runs", id],
        vehicle: id,
        driver: driver ?? null,
        aboard: aboard ?? null,
        stops: stops.map((stop, index) => stopOf(id, index, stop)),
      }),
    ),
    rides: entries(d.rides, (id, short): Ride => ({ id, path: ["rides", id], leadMinutes: 0, by: null, ...short })),
    kit: new Map(),
    packs: new Map(),
    chargers: new Map(),
    paths: entries(
      d.paths,
      (id, short): SignalPath => ({
        id,
        path: ["paths", id],
        kind: "cellular",
        vehicle: null,
        slotEast: null,
        aboveDegrees: null,
        windows: [],
        lineUpMinutes: null,
        dishMeters: null,
        bandGigahertz: null,
        booking: null,
        polarisation: null,
        phone: null,
        reelMeters: [],
        rateMegabits: null,
        uplinkWatts: null,
        ...short,
      }),
    ),
    lines: new Map(),
    weather: (d.weather ?? []).map(
      (short, index): Weather => ({
        from: null,
        to: null,
        places: [],
        celsius: null,
        windKmh: null,
        gustKmh: null,
        cloud: null,
        road: null,
        humidity: null,
        lightning: false,
        path: ["weather", index],
        ...short,
      }),
    ),
    rules: { ...HOUSE, ...d.rules },
    contracts: new Map(),
    accept: [],
    routing: null,
    actual: {
      people: new Map(),
      activities: new Map(),
      stops: new Map(),
      packs: new Map(),
      vehicles: new Map(),
      pieces: new Map(),
    },
    groups: new Map(),
    source: { locate: () => null },
  };
}

/** Both directions of every stated road, and from a place to itself. */
export function legsOf(plan: Plan): Legs {
  const legs = new Map<string, Leg>();
  const put = (from: string, to: string, likely: number, bad: number | null): void => {
    legs.set(legKey(from, to), {
      from,
      to,
      likelyMinutes: likely,
      badMinutes: bad,
      km: null,
      range: null,
      basis: "stated",
      noSignal: false,
      path: ["roads"],
    });
  };
  for (const place of plan.places.keys()) put(place, place, 0, 0);
  for (const road of plan.roads) {
    put(road.link[0], road.link[1], road.driveMinutes ?? 0, road.badMinutes);
    put(road.link[1], road.link[0], road.driveMinutes ?? 0, road.badMinutes);
  }
  return legs;
}

/** The Day of a description; throws what the plan's mistakes are where there is none. */
export const dayOf = (description: Description): Day => {
  const plan = makePlan(description);
  const { day, findings } = computeDay(plan, legsOf(plan));
  if (day === null)
    throw new Error(findings.map((finding) => `${finding.code} ${JSON.stringify(finding.facts)}`).join("; "));
  return day;
};

/** The codes of the mistakes of a description that leave no day. */
export const mistakesOf = (description: Description): readonly string[] => {
  const plan = makePlan(description);
  return computeDay(plan, legsOf(plan)).findings.map((finding) => finding.code);
};

/** Named instants of a day as `07:05`. */
export const times = (day: Day, ...names: readonly string[]): readonly (string | null)[] =>
  names.map((name) => text(day.instants.get(name) ?? null));
