/**
 * The checked plan: what a day's YAML file says, with every value resolved, typed and traceable to its place in the text.
 *
 * Times are instants, lengths whole minutes, energies Wh, powers W, distances km, temperatures °C, shares 0 to 1.
 * Maps keep the order of the file. What the plan leaves out is null or an empty list, never a silent guess.
 */
import type { PlanPath, Span } from "../findings/finding.ts";
import type { RuleSetId } from "../hours/rules/index.ts";
import type { Instant, ZoneId } from "../time/units.ts";
import type { Hit, Ride, Run, Task } from "./activities.ts";
import type { Actual } from "./facts.ts";
import type { Charger, Line, Pack, Piece, SignalPath } from "./gear.ts";
import type { HouseRules } from "./houseRules.ts";
import type { History, Person, Vehicle } from "./peopleAndVehicles.ts";
import type { Permit, Place, Road } from "./placesAndRoads.ts";
import type { Entity, Id } from "./terms.ts";

export type { RuleSetId } from "../hours/rules/index.ts";
export type { SpanKind } from "../hours/rules/rule.ts";
export type * from "./activities.ts";
export type * from "./facts.ts";
export type * from "./gear.ts";
export type { HouseRules } from "./houseRules.ts";
export type * from "./peopleAndVehicles.ts";
export type * from "./placesAndRoads.ts";
export type * from "./terms.ts";

/** A checked plan: everything stated, in the units of the program. */
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

/** The weather expected in a stretch: °C, km/h, humidity 0 to 1. */
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

/** The state of the roads. */
export type RoadState = "dry" | "wet" | "heavy-rain" | "snow" | "heavy-snow" | "ice" | "fog";

/** What a timecard pays by: minutes, and the contract's own currency. */
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

/** A finding that the lead takes knowingly, with the reason. */
export interface Acceptance {
  readonly code: string;
  readonly who: readonly Id[];
  readonly why: string;
  readonly path: PlanPath;
}

/** A routing server that the plan names. */
export interface Routing {
  readonly url: string;
  /** File beside the plan that keeps the answers. */
  readonly keep: string | null;
  readonly path: PlanPath;
}
