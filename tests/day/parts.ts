/** The parts of plans made by hand for tests: everything a real one has, not stated unless given. */

import type { Leg } from "../../src/legs/leg.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import { actualForms } from "../../src/plan/keys/actual.ts";
import { personForm } from "../../src/plan/keys/crew.ts";
import { hitForm } from "../../src/plan/keys/hits.ts";
import { lineForm, pathForm } from "../../src/plan/keys/paths.ts";
import { placeForm } from "../../src/plan/keys/places.ts";
import { roadForm } from "../../src/plan/keys/roads.ts";
import { stopForm } from "../../src/plan/keys/runs.ts";
import { taskForm } from "../../src/plan/keys/tasks.ts";
import { vehicleForm } from "../../src/plan/keys/vehicles.ts";
import { rowForm } from "../../src/plan/keys/weather.ts";
import type {
  Actual,
  ActualActivity,
  ActualPack,
  ActualPerson,
  ActualStop,
  ActualVehicle,
  Hit,
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
import { Reading } from "../../src/plan/read/reading.ts";
import { type Declarations, type EntryForm, entry, Fields } from "../../src/plan/shape/entry.ts";
import { sourceText } from "../../src/plan/text/source.ts";
import { zone } from "../../src/time/index.ts";
import type { ZoneId } from "../../src/time/units.ts";

export const zoneNamed = (name: string): ZoneId => {
  const found = zone(name);
  if (found === null) throw new Error(`unknown zone ${name}`);
  return found;
};

export const CHICAGO = zoneNamed("America/Chicago");

/** What an entry of a form says that states nothing: null, empty, or by default. */
function blank<D extends Declarations, M>(form: EntryForm<D, M>) {
  const source = sourceText("day.yaml", "");
  const reading = new Reading({ kind: "map", source, start: 0, end: 0, entries: new Map() });
  const model = new Fields(entry("", {}, form.declarations), reading, { node: null, path: [] }).model();
  if (model === null) throw new Error("an entry without keys that must be stated is whole");
  return model;
}

export const person = (id: Id, more: Partial<Person> = {}): Person => ({
  ...blank(personForm),
  id,
  path: ["crew", id],
  ...more,
});

export const vehicle = (id: Id, more: Partial<Vehicle> = {}): Vehicle => ({
  ...blank(vehicleForm),
  id,
  path: ["vehicles", id],
  commercial: false,
  commercialBecause: null,
  ...more,
});

export const place = (id: Id, more: Partial<Place> = {}): Place => ({
  ...blank(placeForm),
  id,
  path: ["places", id],
  zone: CHICAGO,
  ...more,
});

export const road = (from: Id, to: Id, more: Partial<Road> = {}): Road => ({
  ...blank(roadForm),
  link: [from, to],
  path: ["roads", 0],
  ...more,
});

export const hit = (id: Id, where: Id, more: Pick<Hit, "at"> & Partial<Hit>): Hit => ({
  ...blank(hitForm),
  id,
  path: ["hits", id],
  location: { kind: "place", place: where },
  kind: "hit",
  forMinutes: 3,
  ...more,
});

export const task = (id: Id, where: Id, more: Partial<Task> = {}): Task => ({
  ...blank(taskForm),
  id,
  path: ["tasks", id],
  location: { kind: "place", place: where },
  ...more,
});

/** `wagon.2`: the second stop of the wagon's run, which is written as a bare list of stops. */
export const stop = (id: Id, where: Id, more: Partial<Stop> = {}): Stop => {
  const [run = id, number] = id.split(".");
  return { ...blank(stopForm), id, path: ["runs", run, Number(number) - 1], place: where, ferry: null, ...more };
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
  ...blank(pathForm),
  id,
  path: ["paths", id],
  kind: "cellular",
  ...more,
});

export const line = (id: Id, more: Partial<Line> = {}): Line => ({
  ...blank(lineForm),
  id,
  path: ["lines", id],
  ...more,
});

export const weather = (more: Partial<Weather>): Weather => ({ ...blank(rowForm), path: ["weather", 0], ...more });

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
  rules: houseDefaults(),
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
  people: filled(went.people, blank(actualForms.person)),
  activities: filled(went.activities, blank(actualForms.activity)),
  stops: filled(went.stops, blank(actualForms.stop)),
  packs: filled(went.packs, blank(actualForms.pack)),
  vehicles: filled(went.vehicles, blank(actualForms.vehicle)),
  pieces: new Map(),
});

/** What is logged of a hit or task, of a stop: what is not said was not. */
export const happened = (parts: Partial<ActualActivity>): ActualActivity => ({
  ...blank(actualForms.activity),
  ...parts,
});

export const stopped = (parts: Partial<ActualStop>): ActualStop => ({ ...blank(actualForms.stop), ...parts });
