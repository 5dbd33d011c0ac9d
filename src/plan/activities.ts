/** Hits, tasks, runs and rides, as a checked plan has them. */
import type { PlanPath } from "../findings/finding.ts";
import type { Instant, Interval } from "../time/units.ts";
import type { Entity, Id } from "./terms.ts";

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

/** A hit: an appearance at a fixed time, lengths in minutes. */
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

/** What kind of thing a task is. */
export type TaskKind = "work" | "feed" | "meal" | "rest" | "standby" | "standdown" | "fuel";

/** A task: all that is not a hit, lengths in minutes. */
export interface Task extends Activity {
  readonly kind: TaskKind;
  readonly what: string | null;
  readonly window: Interval | null;
  readonly by: Instant | null;
  /** Size of a feed in megabytes, against its path's rate. */
  readonly sizeMegabytes: number | null;
}

/** A change at the wheel, in planned minutes after the leg begins. */
export interface Relief {
  /** Planned minutes into the leg at which the driver changes. */
  readonly afterMinutes: number;
  readonly driver: Id;
}

/** A stop of a run: where, what is done there, its fixed times. */
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

/** A crossing of a vehicle to its next stop. */
export interface Ferry {
  readonly sail: Instant;
  readonly land: Instant;
  /** Whether a bunk or couchette is at the drivers' disposal (561/2006 Art 9(1)). */
  readonly bunk: boolean;
}

/** What a vehicle does, stop by stop. */
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
