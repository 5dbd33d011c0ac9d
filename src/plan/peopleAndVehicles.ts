/** People, what is known of them from before, and vehicles, as a checked plan has them. */
import type { PlanPath } from "../findings/finding.ts";
import type { RuleSetId } from "../hours/rules/index.ts";
import type { SpanKind } from "../hours/rules/rule.ts";
import type { Instant, Interval } from "../time/units.ts";
import type { Entity, Id, OpenInterval } from "./terms.ts";

/** What is known of a person from before the plan, where there is no earlier file. */
export interface History {
  readonly released: Instant | null;
  readonly asleepMinutes: number | null;
  /** Duty and driving minutes before the plan, per elapsed day where stated (`totals`), most recent last. */
  readonly totals: readonly { readonly date: string; readonly dutyMinutes: number; readonly drivingMinutes: number }[];
  readonly spans: readonly HistorySpan[];
  readonly path: PlanPath;
}

/** A span from before the plan. */
export interface HistorySpan extends Interval {
  readonly is: SpanKind;
  readonly in: "commercial" | "light";
  /** Whether a bunk or couchette was at hand; false unless stated, and false for what is no `ferry`. */
  readonly bunk: boolean;
}

/** A person of the crew. */
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

/** A vehicle: kg, seats, km, W, °C; `fuel` 0 to 1. */
export interface Vehicle extends Entity {
  readonly name: string | null;
  readonly grossKg: number | null;
  readonly seats: number | null;
  readonly towingKg: number | null;
  /** Legal rule sets that bind whoever drives it, besides the house rules: `us-property` … */
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
