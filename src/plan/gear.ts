/** Kit, packs, chargers, signal paths and lines, as a checked plan has them. */
import type { Instant, Interval } from "../time/units.ts";
import type { Entity, Id, OpenInterval } from "./terms.ts";

/** A piece of kit: where it is, how many, what it draws (W). */
export interface Piece extends Entity {
  readonly name: string | null;
  /** Where it is, or where the first of them are. */
  readonly in: Id;
  /** How many are in which vehicle or at which place, `in` first; they add up to `count`. */
  readonly bays: ReadonlyMap<Id, number>;
  readonly count: number;
  /** Whether each of the people of a hit or task that uses it needs one, or one serves them all; null: its name says. */
  readonly per: "person" | "crew" | null;
  readonly watts: number | null;
  readonly mount: string | null;
  /** `hits`, `tasks`, `dark`, ids of hits, tasks, groups or paths. */
  readonly during: readonly string[];
  readonly standbyWatts: number | null;
  /** What must be with it; one that is listed twice is needed twice. */
  readonly needs: readonly Id[];
  readonly broken: OpenInterval | null;
  /** When and where a rented one goes back. */
  readonly due: { readonly place: Id | null; readonly at: Instant | null } | null;
}

/** A battery: Wh, charge and health 0 to 1, where it is. */
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

/** A charger: slots, watts a slot, where it is. */
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

/** A way to get the signal out; lengths in minutes or metres, degrees east, GHz, Mbit/s. */
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

/** A telephone line and who is on it. */
export interface Line extends Entity {
  readonly number: string | null;
  readonly who: readonly Id[];
  readonly spare: string | null;
}
