/** Places, what is allowed and booked there, and the roads between them, as a checked plan has them; a hospital in words. */
import type { PlanPath } from "../findings/finding.ts";
import type { Instant, ZoneId } from "../time/units.ts";
import type { Coordinates, Entity, Id } from "./terms.ts";

/** A stretch of the local clock, minutes after midnight, `from` below 1440; `to` is 1440 at midnight and more after it, at most 2880. */
export interface ClockWindow {
  readonly fromMinute: number;
  readonly toMinute: number;
}

/** A stretch of the skyline: true bearings and height in degrees. */
export interface Obstacle {
  /** True bearings, degrees, clockwise from `from` to `to`. */
  readonly from: number;
  readonly to: number;
  /** Everything lower than this many degrees is hidden. */
  readonly below: number;
}

/** A place: coordinates, zone, opening hours, what is there. */
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

/** A hospital: its name, and where stated kilometres, telephone and address. */
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

/** A road between two places: minutes and kilometres, null where not stated. */
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

/** A hospital in one line of words; null where none is stated. */
export function hospitalText(hospital: Hospital | null): string | null {
  if (hospital === null) return null;
  const { name, address, km, phone } = hospital;
  return [name, address, km === null ? null : `${km} km`, phone].filter((part) => part !== null).join(", ");
}
