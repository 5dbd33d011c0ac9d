/** Parts of plans for the sheet's tests, with everything a test does not name left empty. */
import type {
  Hit,
  HouseRules,
  Id,
  Line,
  Location,
  Person,
  Place,
  Plan,
  SignalPath,
  Stop,
  Task,
  Vehicle,
} from "../../src/plan/plan.ts";
import type { ZoneId } from "../../src/time/units.ts";

const entity = (section: string, id: Id) => ({ id, path: [section, id] });

export const person = (id: Id, more: Partial<Person> = {}): Person => ({
  ...entity("crew", id),
  ...{ name: null, roles: [], drives: [], slept: null, sleeps: null, contract: null, phone: null },
  ...more,
});

export const vehicle = (id: Id, more: Partial<Vehicle> = {}): Vehicle => ({
  ...entity("vehicles", id),
  ...{ name: null, grossKg: null, seats: null, towingKg: null, rules: [], week: null, claims: [], commercial: false },
  ...{ commercialBecause: null, rangeKm: null, fuel: null, slower: 1, inverterWatts: null, shoreWatts: null },
  ...{ berth: false, insideCelsius: null, due: null },
  ...more,
});

export const place = (id: Id, more: Partial<Place> = {}): Place => ({
  ...entity("places", id),
  ...{
    name: null,
    at: null,
    zone: "America/Chicago" as ZoneId,
    kind: null,
    mains: false,
    shelter: false,
    signal: null,
  },
  ...{ blocked: [], open: null, checkInMinute: null, checkOutMinute: null, roadSpeedKmh: null, address: null },
  ...{ hospital: null, parking: null, note: null, hazards: [] },
  ...more,
});

const activity = (section: string, id: Id, location: Location) => ({
  ...entity(section, id),
  ...{ location, who: null, after: [], before: [], signalPath: null, needs: [] },
});

export const hit = (id: Id, where: Id, more: Pick<Hit, "at"> & Partial<Hit>): Hit => ({
  ...activity("hits", id, { kind: "place", place: where }),
  ...{ kind: "hit", forMinutes: 3, firm: true, lateMinutes: null, clearMinutes: null, spare: null, facing: null },
  ...{ show: null, run: null, fallback: null },
  ...more,
});

export const task = (id: Id, where: Id, more: Partial<Task> = {}): Task => ({
  ...activity("tasks", id, { kind: "place", place: where }),
  ...{ kind: "work", forMinutes: 40, what: null, window: null, by: null, sizeMegabytes: null },
  ...more,
});

export const stop = (id: Id, where: Id): Stop => ({
  ...{ id, path: ["runs"], place: where, do: null, leave: null, arriveBy: null, stayMinutes: null, waitHere: false },
  ...{ setUpMinutes: null, after: [], driver: null, aboard: null, asleep: null, relieve: [], moves: new Map() },
});

export const path = (id: Id, more: Partial<SignalPath> = {}): SignalPath => ({
  ...entity("paths", id),
  ...{ kind: "satellite", vehicle: null, slotEast: null, aboveDegrees: null, windows: [], lineUpMinutes: null },
  ...{ dishMeters: null, bandGigahertz: null, booking: null, polarisation: null, phone: null, reelMeters: [] },
  ...{ rateMegabits: null, uplinkWatts: null },
  ...more,
});

export const line = (id: Id, more: Partial<Line> = {}): Line => ({
  ...entity("lines", id),
  ...{ number: null, who: [], spare: null },
  ...more,
});

/** The defaults of the design's table of house rules, in minutes and shares. */
export const RULES: HouseRules = {
  ...{ walkAround: 15, postTrip: 10, loading: 15, loadingCheckOut: 30, park: 5, setUp: 30, dishUp: 25, lineCheck: 10 },
  ...{ inPosition: 10, clear: 10, strike: 20, unload: 10, turnaround: 600, dutyDay: 840, mealEvery: 360, mealFor: 30 },
  ...{
    wheelDay: 600,
    wheelBreak: 15,
    wheelBreakEvery: 120,
    wheelAwake: 840,
    reserveShare: 0.15,
    reserveColdShare: 0.25,
  },
  ...{ swap: 2, upBefore: 45, upBeforeOnCamera: 75, bedAfter: 90, planDrivesAt: "bad-into-firm", roundCalls: 5 },
  ...{ enoughWh: 15, shelterAfter: 30, dayRate: 600, stated: new Set() },
};

export const byId = <T extends { readonly id: Id }>(things: readonly T[]): ReadonlyMap<Id, T> =>
  new Map(things.map((thing) => [thing.id, thing]));

/** A plan for 20 January 2027 on New York's clock, with places on Chicago's. */
export const plan = (more: Partial<Plan> = {}): Plan => ({
  ...{ file: "2027-01-20.yaml", title: "The ore freighter in the ice", date: "2027-01-20", revision: 2, untilDays: 0 },
  ...{ clock: "America/New_York" as ZoneId, zone: "America/Chicago" as ZoneId, labels: new Map(), follows: null },
  ...{ history: new Map(), crew: new Map(), vehicles: new Map(), places: new Map(), roads: [], hits: new Map() },
  ...{ tasks: new Map(), runs: new Map(), rides: new Map(), kit: new Map(), packs: new Map(), chargers: new Map() },
  ...{ paths: new Map(), lines: new Map(), weather: [], rules: RULES, contracts: new Map(), accept: [], routing: null },
  actual: {
    ...{ people: new Map(), activities: new Map(), stops: new Map() },
    ...{ packs: new Map(), vehicles: new Map(), pieces: new Map() },
  },
  groups: new Map(),
  source: { locate: () => null },
  ...more,
});
