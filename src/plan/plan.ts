/**
 * The checked plan: what a day's YAML file says, with every value resolved, typed and traceable to its place in the text.
 *
 * Times are instants, lengths whole minutes, energies Wh, powers W, distances km, temperatures °C, shares 0 to 1.
 * Maps keep the order of the file. What the plan leaves out is null or an empty list, never a silent guess.
 */
import type { PlanPath, Span } from "../findings/finding.ts";
import type { ZoneId } from "../time/units.ts";
import type { HouseRules } from "./houseRules.ts";
import type { Actual } from "./keys/actual.ts";
import type { History } from "./keys/before.ts";
import type { Person } from "./keys/crew.ts";
import type { Hit } from "./keys/hits.ts";
import type { Charger, Pack, Piece } from "./keys/kit.ts";
import type { Acceptance, Contract } from "./keys/money.ts";
import type { Line, SignalPath } from "./keys/paths.ts";
import type { Permit } from "./keys/permits.ts";
import type { Place } from "./keys/places.ts";
import type { Ride } from "./keys/rides.ts";
import type { Road } from "./keys/roads.ts";
import type { Run } from "./keys/runs.ts";
import type { Task } from "./keys/tasks.ts";
import type { Vehicle } from "./keys/vehicles.ts";
import type { Weather } from "./keys/weather.ts";
import type { Id } from "./terms.ts";
import type { Head } from "./text/head.ts";

export type { RuleSetId } from "../hours/rules/index.ts";
export type { SpanKind } from "../hours/rules/rule.ts";
export type { HouseRules } from "./houseRules.ts";
export type { Activity, Location } from "./keys/activity.ts";
export type * from "./keys/actual.ts";
export type { History, HistorySpan } from "./keys/before.ts";
export type { Person } from "./keys/crew.ts";
export type { Hit } from "./keys/hits.ts";
export type { Charger, Pack, Piece } from "./keys/kit.ts";
export type { Acceptance, Contract } from "./keys/money.ts";
export type { Line, SignalPath } from "./keys/paths.ts";
export type { Permit } from "./keys/permits.ts";
export type { ClockWindow, Hospital, Obstacle, Place, Room } from "./keys/places.ts";
export type { Ride } from "./keys/rides.ts";
export type { Road } from "./keys/roads.ts";
export type { Ferry, Relief, Run, Stop } from "./keys/runs.ts";
export type { Task, TaskKind } from "./keys/tasks.ts";
export type { Vehicle } from "./keys/vehicles.ts";
export type { RoadState, Weather } from "./keys/weather.ts";
export type * from "./terms.ts";
export type { Routing } from "./text/head.ts";

/** A checked plan: everything stated, in the units of the program. */
export interface Plan extends Head {
  /** As the user named it, `/` as separator; null for standard input without `--name`. */
  readonly file: string | null;
  readonly zone: ZoneId;
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
  readonly actual: Actual;
  /** Ids that stand for several (`dawn` for `dawn.1` …, `brick` for its packs), in order. */
  readonly groups: ReadonlyMap<Id, readonly Id[]>;
  readonly source: PlanSource;
}

/** What of a plan its sections make, below its head. */
export type Body = Omit<Plan, keyof Head | "file" | "groups" | "source">;

/** Finds the text behind a value. */
export interface PlanSource {
  /** The span of the value at `path`, else of its nearest ancestor that the text has; null for a plan without text. */
  locate(path: PlanPath): Span | null;
}
