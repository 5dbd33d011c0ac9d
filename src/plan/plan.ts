/**
 * The checked plan: what a day's YAML file says, with every value resolved, typed and traceable to its place in the text.
 *
 * Times are instants, lengths whole minutes, energies Wh, powers W, distances km, temperatures °C, shares 0 to 1.
 * Maps keep the order of the file. What the plan leaves out is null or an empty list, never a silent guess.
 */
import type { PlanPath, Span } from "../findings/finding.ts";
import type { RuleSetId } from "../hours/rules/index.ts";
import type { SpanKind } from "../hours/rules/rule.ts";
import type { Instant, Interval, ZoneId } from "../time/units.ts";
import type { HouseRules } from "./houseRules.ts";

export type { RuleSetId } from "../hours/rules/index.ts";
export type { SpanKind } from "../hours/rules/rule.ts";
export type { HouseRules } from "./houseRules.ts";

export type Id = string;

export interface Plan {
  /** As the user named it, `/` as separator; null for standard input without `--name`. */
  readonly file: string | null;
  /** The day's own name for calendars and versions, `ice-20`; never from a shared file. */
  readonly id: Id | null;
  readonly title: string | null;
  /** `2027-01-20`: the day on `clock`. */
  readonly date: string;
  /** The control room's clock: a time with no zone is on this one. */
  readonly clock: ZoneId;
  readonly zone: ZoneId;
  readonly revision: number | null;
  /** Days beyond `date` that the plan runs on (`until: +3d` is 3). */
  readonly untilDays: number;
  readonly labels: ReadonlyMap<string, ZoneId>;
  readonly follows: string | null;
  readonly history: ReadonlyMap<Id, History>;
  readonly crew: ReadonlyMap<Id, Person>;
  readonly vehicles: ReadonlyMap<Id, Vehicle>;
  readonly places: ReadonlyMap<Id, Place>;
  readonly roads: readonly Road[];
  readonly hits: ReadonlyMap<Id, Hit>;
  readonly tasks: ReadonlyMap<Id, Task>;
  readonly runs: ReadonlyMap<Id, Run>;
  readonly rides: ReadonlyMap<Id, Ride>;
  readonly kit: ReadonlyMap<Id, Piece>;
  readonly packs: ReadonlyMap<Id, Pack>;
  readonly chargers: ReadonlyMap<Id, Charger>;
  readonly paths: ReadonlyMap<Id, SignalPath>;
  readonly lines: ReadonlyMap<Id, Line>;
  /** Keyed by a word of the plan's own, which may be a place's id as well. */
  readonly permits: ReadonlyMap<string, Permit>;
  readonly weather: readonly Weather[];
  readonly rules: HouseRules;
  readonly contracts: ReadonlyMap<Id, Contract>;
  readonly accept: readonly Acceptance[];
  readonly routing: Routing | null;
  readonly actual: Actual;
  /** Ids that stand for several (`dawn` for `dawn.1` …, `brick` for its packs), in order. */
  readonly groups: ReadonlyMap<Id, readonly Id[]>;
  readonly source: PlanSource;
}

/** Finds the text behind a value. */
export interface PlanSource {
  /** The span of the value at `path`, else of its nearest ancestor that the text has; null for a plan without text. */
  locate(path: PlanPath): Span | null;
}

export interface Entity {
  readonly id: Id;
  readonly path: PlanPath;
}

export interface Coordinates {
  /** Degrees, north and east positive. */
  readonly latitude: number;
  readonly longitude: number;
}

/** What is known of a person from before the plan, where there is no earlier file. */
export interface History {
  readonly released: Instant | null;
  readonly asleepMinutes: number | null;
  /** Duty and driving minutes before the plan, per elapsed day where stated (`totals`), most recent last. */
  readonly totals: readonly { readonly date: string; readonly dutyMinutes: number; readonly drivingMinutes: number }[];
  readonly spans: readonly HistorySpan[];
  readonly path: PlanPath;
}

export interface HistorySpan extends Interval {
  readonly is: SpanKind;
  readonly in: "commercial" | "light";
  /** Whether a bunk or couchette was at hand; false unless stated, and false for what is no `ferry`. */
  readonly bunk: boolean;
}

/** From a moment on, until another or, where `to` is null, for good. */
export interface OpenInterval {
  readonly from: Instant;
  readonly to: Instant | null;
}

export interface Person extends Entity {
  readonly name: string | null;
  /** Words of the crew's own; `camera`, `reporter`, `producer`, `engineer` have a meaning for lines and cautions. */
  readonly roles: readonly string[];
  readonly drives: readonly Id[];
  /** Stated beds; where null the Day takes the first and last stop of what they ride. */
  readonly slept: Id | null;
  readonly sleeps: Id | null;
  readonly contract: Id | null;
  readonly phone: string | null;
  /** When they got up for this day; beats every estimate. Null where not stated. */
  readonly up: Instant | null;
  /** When they slept before or in this day, in time order; `to` is null where only going to bed is stated. */
  readonly inBed: readonly OpenInterval[];
  /** Rule sets that bind them even where they drive nothing. */
  readonly rules: readonly RuleSetId[];
  /** Not there in this stretch. */
  readonly away: OpenInterval | null;
}

export interface Vehicle extends Entity {
  readonly name: string | null;
  readonly grossKg: number | null;
  readonly seats: number | null;
  readonly towingKg: number | null;
  /** Legal rule sets that bind whoever drives it, beside the house rules: `us-property` … */
  readonly rules: readonly RuleSetId[];
  /** `week: 70/8`, and other options of the rule sets, as stated. */
  readonly week: string | null;
  readonly claims: readonly string[];
  /** 2 is a claim: two people share the wheel. Null where not stated. */
  readonly drivers: 1 | 2 | null;
  /** Minutes after midnight at which the carrier's days begin; null where not stated. */
  readonly dayStarts: number | null;
  /** By weight, towing or seats; `commercialBecause` says by which. */
  readonly commercial: boolean;
  readonly commercialBecause: string | null;
  readonly rangeKm: number | null;
  /** Share of a full tank at the start, 0 to 1. */
  readonly fuel: number | null;
  /** Multiplies every drive, 1 where not stated. */
  readonly slower: number;
  readonly inverterWatts: number | null;
  readonly shoreWatts: number | null;
  readonly berth: boolean;
  /** Temperature inside while it runs. */
  readonly insideCelsius: number | null;
  readonly due: { readonly place: Id | null; readonly at: Instant | null; readonly fuel: number | null } | null;
  /** Out of service in this stretch. */
  readonly broken: OpenInterval | null;
  /** Where its keys are, for the handover; never shown where names are redacted. */
  readonly keys: string | null;
}

/** A stretch of the local clock, minutes after midnight, `from` below 1440; `to` is 1440 at midnight and more after it, at most 2880. */
export interface ClockWindow {
  readonly fromMinute: number;
  readonly toMinute: number;
}

export interface Obstacle {
  /** True bearings, degrees, clockwise from `from` to `to`. */
  readonly from: number;
  readonly to: number;
  /** Everything lower than this many degrees is hidden. */
  readonly below: number;
}

export interface Place extends Entity {
  readonly name: string | null;
  readonly at: Coordinates | null;
  readonly zone: ZoneId;
  readonly kind: string | null;
  readonly mains: boolean;
  readonly shelter: boolean;
  readonly signal: "good" | "weak" | "none" | null;
  readonly blocked: readonly Obstacle[];
  /** Local opening hours of every day, in the order of the file; empty where none are stated. */
  readonly open: readonly ClockWindow[];
  readonly checkInMinute: number | null;
  readonly checkOutMinute: number | null;
  readonly roadSpeedKmh: number | null;
  readonly address: string | null;
  readonly hospital: Hospital | null;
  readonly rooms: readonly Room[];
  /** Degrees that a compass needle points east of true north there, west negative; null where not stated. */
  readonly declination: number | null;
  readonly parking: string | null;
  readonly note: string | null;
  /** Conditions under foot or overhead that raise cautions: `ice`, `mast`, `lines`, `roadside`, `water`, …, as stated. */
  readonly hazards: readonly string[];
}

export interface Hospital {
  /** The text where the plan has one text for all. */
  readonly name: string;
  readonly km: number | null;
  readonly phone: string | null;
  readonly address: string | null;
}

/** Beds booked at a place. */
export interface Room {
  readonly who: readonly Id[];
  /** The dates of the evenings, `2027-01-20`, in order. */
  readonly nights: readonly string[];
  readonly booking: string | null;
  readonly path: PlanPath;
}

/** What allows a stay; a stay outside it is a finding. */
export interface Permit {
  readonly id: string;
  readonly path: PlanPath;
  readonly what: string | null;
  readonly place: Id | null;
  /** Null ends are open. */
  readonly from: Instant | null;
  readonly to: Instant | null;
  readonly holder: string | null;
  readonly number: string | null;
}

export interface Road {
  readonly link: readonly [Id, Id];
  readonly oneWay: boolean;
  /** The likely (median) time; null where only km is stated. */
  readonly driveMinutes: number | null;
  /** The time that 19 of 20 drives beat. */
  readonly badMinutes: number | null;
  readonly km: number | null;
  readonly noSignal: boolean;
  readonly path: PlanPath;
}

/** Where something happens. `aboard` is inside a rolling vehicle; `onRoad` a spot between two stops that follows from the time. */
export type Location =
  | { readonly kind: "place"; readonly place: Id }
  | { readonly kind: "aboard"; readonly vehicle: Id }
  | { readonly kind: "onRoad"; readonly from: Id; readonly to: Id };

/** What hits and tasks have in common. */
export interface Activity extends Entity {
  readonly location: Location;
  readonly forMinutes: number | null;
  /** Null: everyone aboard the vehicles that list it. */
  readonly who: readonly Id[] | null;
  readonly after: readonly Id[];
  readonly before: readonly Id[];
  /** The id of its path, for a hit or a feed. */
  readonly signalPath: Id | null;
  readonly needs: readonly Id[];
}

export interface Hit extends Activity {
  readonly kind: "hit";
  readonly at: Instant;
  readonly forMinutes: number;
  readonly firm: boolean;
  readonly lateMinutes: number | null;
  /** Stated on the hit; null takes the house rule after a visit's last hit and nothing after an earlier one. */
  readonly clearMinutes: number | null;
  readonly spare: Id | null;
  /** True bearing of the camera, degrees. */
  readonly facing: number | null;
  readonly show: string | null;
  readonly run: { readonly cableMeters: number; readonly crosses: string | null } | null;
  readonly fallback: { readonly place: Id | null; readonly path: Id | null; readonly decideBy: Instant | null } | null;
}

export type TaskKind = "work" | "feed" | "meal" | "rest" | "standby" | "standdown" | "fuel";

export interface Task extends Activity {
  readonly kind: TaskKind;
  readonly what: string | null;
  readonly window: Interval | null;
  readonly by: Instant | null;
  /** Size of a feed in megabytes, against its path's rate. */
  readonly sizeMegabytes: number | null;
}

export interface Relief {
  /** Planned minutes into the leg at which the driver changes. */
  readonly afterMinutes: number;
  readonly driver: Id;
}

export interface Stop {
  /** `truck.1` is the first stop of the run of `truck`. */
  readonly id: Id;
  readonly path: PlanPath;
  readonly place: Id;
  /** Ids of hits and tasks, groups expanded; null where the plan leaves it out. */
  readonly do: readonly Id[] | null;
  readonly leave: Instant | null;
  readonly arriveBy: Instant | null;
  readonly stayMinutes: number | null;
  readonly waitHere: boolean;
  readonly setUpMinutes: number | null;
  /** Orders the departure of this stop after hits, tasks or stops, where the chain of rides alone does not. */
  readonly after: readonly Id[];
  /** The next four hold from this stop's departure on; null keeps what held before. */
  readonly driver: Id | null;
  readonly aboard: readonly Id[] | null;
  readonly asleep: readonly Id[] | null;
  readonly relieve: readonly Relief[];
  /** Piece id to the vehicle it moves into at this stop. */
  readonly moves: ReadonlyMap<Id, Id>;
  /** The vehicle crosses from here to the next stop by ferry. */
  readonly ferry: Ferry | null;
}

export interface Ferry {
  readonly sail: Instant;
  readonly land: Instant;
  /** Whether a bunk or couchette is at the drivers' disposal (561/2006 Art 9(1)). */
  readonly bunk: boolean;
}

export interface Run extends Entity {
  readonly vehicle: Id;
  readonly driver: Id | null;
  readonly aboard: readonly Id[] | null;
  readonly stops: readonly Stop[];
}

/** A leg by others: flight, taxi, shuttle, ferry. */
export interface Ride extends Entity {
  readonly from: Id;
  readonly to: Id;
  readonly leave: Instant;
  readonly arrive: Instant;
  readonly who: readonly Id[];
  /** To be there this long before `leave`. */
  readonly leadMinutes: number;
  /** Words of the crew's own; `air` and `ferry` have a meaning. */
  readonly by: string | null;
  /** Whether those who ride have a bunk. */
  readonly bunk: boolean;
}

export interface Piece extends Entity {
  readonly name: string | null;
  /** Where it is, or where the first of them are. */
  readonly in: Id;
  /** How many are in which vehicle or at which place, `in` first; they add up to `count`. */
  readonly bays: ReadonlyMap<Id, number>;
  readonly count: number;
  readonly watts: number | null;
  readonly mount: string | null;
  /** `hits`, `tasks`, `dark`, ids of hits, tasks, groups or paths. */
  readonly during: readonly string[];
  readonly standbyWatts: number | null;
  readonly needs: readonly Id[];
  readonly broken: OpenInterval | null;
  /** When and where a rented one goes back. */
  readonly due: { readonly place: Id | null; readonly at: Instant | null } | null;
}

export interface Pack extends Entity {
  /** The group it was counted from: `brick` for `brick.2`. */
  readonly group: Id;
  readonly wh: number;
  readonly mount: string;
  /** Share of a full charge as of last night's release, or of `chargeAt`. Null where neither the plan nor the day before says. */
  readonly charge: number | null;
  readonly chargeAt: Instant | null;
  readonly health: number;
  readonly in: Id;
  readonly broken: OpenInterval | null;
}

export interface Charger extends Entity {
  readonly mount: string;
  readonly slots: number;
  readonly watts: number;
  readonly taper: number;
  readonly totalWatts: number | null;
  readonly in: Id;
  /** Null: anyone who is there and awake. */
  readonly hands: readonly Id[] | null;
  readonly broken: OpenInterval | null;
}

export interface SignalPath extends Entity {
  readonly kind: "satellite" | "cellular" | "cable" | "backpack" | "wifi";
  readonly vehicle: Id | null;
  /** Longitude of the satellite, degrees east. */
  readonly slotEast: number | null;
  readonly aboveDegrees: number | null;
  readonly windows: readonly Interval[];
  readonly lineUpMinutes: number | null;
  readonly dishMeters: number | null;
  readonly bandGigahertz: number | null;
  readonly booking: string | null;
  readonly polarisation: string | null;
  readonly phone: string | null;
  readonly reelMeters: readonly number[];
  readonly rateMegabits: number | null;
  readonly uplinkWatts: number | null;
  readonly broken: OpenInterval | null;
}

export interface Line extends Entity {
  readonly number: string | null;
  readonly who: readonly Id[];
  readonly spare: string | null;
}

export interface Weather {
  /** Null ends hold for the whole plan. */
  readonly from: Instant | null;
  readonly to: Instant | null;
  /** Empty: everywhere. */
  readonly places: readonly Id[];
  readonly celsius: number | null;
  readonly windKmh: number | null;
  readonly gustKmh: number | null;
  readonly cloud: "clear" | "thin" | "average" | "dark" | null;
  readonly road: RoadState | null;
  readonly humidity: number | null;
  readonly lightning: boolean;
  readonly path: PlanPath;
}

export type RoadState = "dry" | "wet" | "heavy-rain" | "snow" | "heavy-snow" | "ice" | "fog";

export interface Contract extends Entity {
  readonly overtimeAfterMinutes: number | null;
  readonly doubleAfterMinutes: number | null;
  readonly dayRateMinutes: number | null;
  readonly mealPenalty: number | null;
  readonly shortTurnaround: number | null;
  readonly turnaroundMinutes: number | null;
  readonly perDiem: number | null;
  readonly rules: readonly RuleSetId[];
}

export interface Acceptance {
  readonly code: string;
  readonly who: readonly Id[];
  readonly why: string;
  readonly path: PlanPath;
}

export interface Routing {
  readonly url: string;
  /** File beside the plan that keeps the answers. */
  readonly keep: string | null;
  readonly path: PlanPath;
}

/** What really happened, keyed by the id it happened to. What an entry leaves out is null. */
export interface Actual {
  readonly people: ReadonlyMap<Id, ActualPerson>;
  readonly activities: ReadonlyMap<Id, ActualActivity>;
  /** Keyed by the stop: when the vehicle arrived there and left, and who drove from there on. */
  readonly stops: ReadonlyMap<Id, ActualStop>;
  readonly packs: ReadonlyMap<Id, ActualPack>;
  readonly vehicles: ReadonlyMap<Id, ActualVehicle>;
  readonly pieces: ReadonlyMap<Id, { readonly in: Id | null; readonly note: string | null }>;
}

export interface ActualPerson {
  readonly call: Instant | null;
  readonly released: Instant | null;
  readonly asleepMinutes: number | null;
  readonly up: Instant | null;
  /** As of a person of the crew. */
  readonly inBed: readonly OpenInterval[];
  readonly note: string | null;
}

export interface ActualActivity {
  readonly at: Instant | null;
  readonly end: Instant | null;
  /** The path it went out on. */
  readonly signalPath: Id | null;
  readonly note: string | null;
  /** False where it fell through. */
  readonly done: boolean;
}

export interface ActualStop {
  readonly arrived: Instant | null;
  readonly left: Instant | null;
  readonly driver: Id | null;
  readonly note: string | null;
}

export interface ActualPack {
  readonly charge: number | null;
  /** When the charge was found; null holds from the last release on. */
  readonly at: Instant | null;
  readonly in: Id | null;
  readonly note: string | null;
}

export interface ActualVehicle {
  readonly place: Id | null;
  readonly since: Instant | null;
  readonly odometerKm: number | null;
  readonly fuel: number | null;
  /** When the tank was read. */
  readonly fuelAt: Instant | null;
  readonly engineHours: number | null;
  readonly note: string | null;
}
