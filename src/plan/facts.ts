/** What really happened, as a checked plan has it. */
import type { Instant } from "../time/units.ts";
import type { Id, OpenInterval } from "./terms.ts";

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

/** What was logged of a person. */
export interface ActualPerson {
  readonly call: Instant | null;
  readonly released: Instant | null;
  readonly asleepMinutes: number | null;
  readonly up: Instant | null;
  /** As of a person of the crew. */
  readonly inBed: readonly OpenInterval[];
  readonly note: string | null;
}

/** What was logged of a hit or task. */
export interface ActualActivity {
  readonly at: Instant | null;
  readonly end: Instant | null;
  /** The path it went out on. */
  readonly signalPath: Id | null;
  readonly note: string | null;
  /** False where it fell through. */
  readonly done: boolean;
}

/** What was logged of a stop. */
export interface ActualStop {
  readonly arrived: Instant | null;
  readonly left: Instant | null;
  readonly driver: Id | null;
  readonly note: string | null;
}

/** What was logged of a pack; `charge` 0 to 1. */
export interface ActualPack {
  readonly charge: number | null;
  /** When the charge was found; null holds from the last release on. */
  readonly at: Instant | null;
  readonly in: Id | null;
  readonly note: string | null;
}

/** What was logged of a vehicle; `fuel` 0 to 1. */
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
