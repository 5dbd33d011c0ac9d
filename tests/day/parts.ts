/** The parts of plans made by hand for tests: everything a real one has, empty unless given. House rules as the format states them. */

import type { Leg } from "../../src/legs/leg.ts";
import type {
  Actual,
  ActualActivity,
  ActualPack,
  ActualPerson,
  ActualStop,
  ActualVehicle,
  Hit,
  HouseRules,
  Id,
  Line,
  Person,
  Place,
  Plan,
  Road,
  Run,
  SignalPath,
  Stop,
  Task,
  Vehicle,
  Weather,
} from "../../src/plan/plan.ts";
import { zone } from "../../src/time/index.ts";
import type { ZoneId } from "../../src/time/units.ts";

export const zoneNamed = (name: string): ZoneId => {
  const found = zone(name);
  if (found === null) throw new Error(`unknown zone ${name}`);
  return found;
};

export const CHICAGO = zoneNamed("America/Chicago");

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
  wheelBreak: { minutes: 15, every: 120 },
  wheelAwake: 840,
  reserve: 0.15,
  reserveCold: 0.25,
  swap: 2,
  choreJoin: 15,
  warmUp: 60,
  upBefore: 45,
  upBeforeOnCamera: 75,
  bedAfter: 90,
  planDrivesAt: "bad-into-firm",
  roundCalls: 5,
  enough: 15,
  shelterAfter: 30,
  dayRate: 600,
  stated: new Set(),
};

export const person = (id: Id, more: Partial<Person> = {}): Person => ({
  id,
  path: ["crew", id],
  name: null,
  roles: [],
  drives: [],
  slept: null,
  sleeps: null,
  contract: null,
  phone: null,
  up: null,
  inBed: [],
  rules: [],
  away: null,
  ...more,
});

export const vehicle = (id: Id, more: Partial<Vehicle> = {}): Vehicle => ({
  id,
  path: ["vehicles", id],
  name: null,
  grossKg: null,
  seats: null,
  towingKg: null,
  rules: [],
  week: null,
  claims: [],
  drivers: null,
  dayStarts: null,
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
  broken: null,
  keys: null,
  ...more,
});

export const place = (id: Id, more: Partial<Place> = {}): Place => ({
  id,
  path: ["places", id],
  name: null,
  at: null,
  zone: CHICAGO,
  kind: null,
  mains: false,
  shelter: false,
  signal: null,
  blocked: [],
  open: [],
  checkInMinute: null,
  checkOutMinute: null,
  roadSpeedKmh: null,
  address: null,
  hospital: null,
  rooms: [],
  declination: null,
  parking: null,
  note: null,
  hazards: [],
  ...more,
});

export const road = (from: Id, to: Id, more: Partial<Road> = {}): Road => ({
  link: [from, to],
  oneWay: false,
  driveMinutes: null,
  badMinutes: null,
  km: null,
  noSignal: false,
  path: ["roads", 0],
  ...more,
});

const activity = (
  section: string,
  id: Id,
  where: Id,
): Pick<Hit, "id" | "path" | "location" | "who" | "after" | "before" | "signalPath" | "needs"> => ({
  id,
  path: [section, id],
  location: { kind: "place", place: where },
  who: null,
  after: [],
  before: [],
  signalPath: null,
  needs: [],
});

export const hit = (id: Id, where: Id, more: Pick<Hit, "at"> & Partial<Hit>): Hit => ({
  ...activity("hits", id, where),
  kind: "hit",
  forMinutes: 3,
  firm: true,
  lateMinutes: null,
  clearMinutes: null,
  spare: null,
  facing: null,
  show: null,
  run: null,
  fallback: null,
  ...more,
});

export const task = (id: Id, where: Id, more: Partial<Task> = {}): Task => ({
  ...activity("tasks", id, where),
  kind: "work",
  what: null,
  window: null,
  by: null,
  sizeMegabytes: null,
  forMinutes: null,
  ...more,
});

/** `wagon.2`: the second stop of the wagon's run, which is written as a bare list of stops. */
export const stop = (id: Id, where: Id, more: Partial<Stop> = {}): Stop => {
  const [run = id, number] = id.split(".");
  return {
    id,
    path: ["runs", run, Number(number) - 1],
    place: where,
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
    ferry: null,
    ...more,
  };
};

export const run = (of: Id, places: readonly Id[], more: Partial<Run> = {}): Run => ({
  id: of,
  path: ["runs", of],
  vehicle: of,
  driver: null,
  aboard: null,
  stops: places.map((at, index) => stop(`${of}.${index + 1}`, at)),
  ...more,
});

export const path = (id: Id, more: Partial<SignalPath> = {}): SignalPath => ({
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
  broken: null,
  ...more,
});

export const line = (id: Id, more: Partial<Line> = {}): Line => ({
  id,
  path: ["lines", id],
  number: null,
  who: [],
  spare: null,
  ...more,
});

export const weather = (more: Partial<Weather>): Weather => ({
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
  path: ["weather", 0],
  ...more,
});

/** A stated leg. */
export const leg = (
  from: Id,
  to: Id,
  likelyMinutes: number,
  badMinutes: number | null,
  more: Partial<Leg> = {},
): Leg => ({
  from,
  to,
  likelyMinutes,
  badMinutes,
  km: null,
  range: null,
  basis: "stated",
  noSignal: false,
  path: null,
  ...more,
});

export const byId = <T extends { readonly id: Id }>(...entries: readonly T[]): ReadonlyMap<Id, T> =>
  new Map(entries.map((entry) => [entry.id, entry]));

/** 20 January 2027 on Chicago's clock. */
export const plan = (more: Partial<Plan> = {}): Plan => ({
  file: "day.yaml",
  id: null,
  title: null,
  date: "2027-01-20",
  clock: CHICAGO,
  zone: CHICAGO,
  revision: null,
  untilDays: 0,
  labels: new Map(),
  follows: null,
  history: new Map(),
  crew: new Map(),
  vehicles: new Map(),
  places: new Map(),
  roads: [],
  hits: new Map(),
  tasks: new Map(),
  runs: new Map(),
  rides: new Map(),
  kit: new Map(),
  packs: new Map(),
  chargers: new Map(),
  paths: new Map(),
  lines: new Map(),
  permits: new Map(),
  weather: [],
  rules: HOUSE,
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
  ...more,
});

/** What really happened, with all that is not stated left open. */
export interface Went {
  readonly people?: ReadonlyMap<Id, Partial<ActualPerson>>;
  readonly activities?: ReadonlyMap<Id, Partial<ActualActivity>>;
  readonly stops?: ReadonlyMap<Id, Partial<ActualStop>>;
  readonly packs?: ReadonlyMap<Id, Partial<ActualPack>>;
  readonly vehicles?: ReadonlyMap<Id, Partial<ActualVehicle>>;
}

const filled = <V extends object>(map: ReadonlyMap<Id, Partial<V>> | undefined, blank: V): ReadonlyMap<Id, V> =>
  new Map([...(map ?? [])].map(([id, one]) => [id, { ...blank, ...one }]));

export const actual = (went: Went): Actual => ({
  people: filled(went.people, { call: null, released: null, asleepMinutes: null, up: null, inBed: [], note: null }),
  activities: filled(went.activities, { at: null, end: null, signalPath: null, note: null, done: true }),
  stops: filled(went.stops, { arrived: null, left: null, driver: null, note: null }),
  packs: filled(went.packs, { charge: null, at: null, in: null, note: null }),
  vehicles: filled(went.vehicles, {
    place: null,
    since: null,
    odometerKm: null,
    fuel: null,
    fuelAt: null,
    engineHours: null,
    note: null,
  }),
  pieces: new Map(),
});

/** What is logged of a hit or task, of a stop: what is not said was not. */
export const happened = (parts: Partial<ActualActivity>): ActualActivity => ({
  ...{ at: null, end: null, signalPath: null, note: null, done: true },
  ...parts,
});

export const stopped = (parts: Partial<ActualStop>): ActualStop => ({
  ...{ arrived: null, left: null, driver: null, note: null },
  ...parts,
});
