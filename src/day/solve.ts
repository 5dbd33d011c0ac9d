/** From a plan, its legs and what stands already to a day. */
import type { Finding } from "../findings/finding.ts";
import type { Legs } from "../legs/leg.ts";
import type { Plan } from "../plan/plan.ts";
import type { Instant } from "../time/units.ts";
import type { DayBefore } from "./day.ts";
import { asItWent } from "./facts/asItWent.ts";
import { impossibleFacts } from "./facts/contradictions.ts";
import { overrideNotes } from "./facts/notes.ts";
import { type Completed, completeFacts } from "./facts/openFacts.ts";
import { type Pins, pinsOf } from "./facts/pins.ts";
import { AS_IN_PLAN, type Stood, withArrivals } from "./facts/vehiclesStood.ts";
import { type DayResult, dayOf, refusedDay } from "./makeDay.ts";
import { placeInWeather, type Timed } from "./network/inWeather.ts";
import type { PlacedDay } from "./network/place.ts";
import type { DayOrder } from "./order/order.ts";
import { resolveOrder } from "./order/resolveOrder.ts";
import { placedInstant } from "./people/timeline.ts";

/** What is past and does not follow from the plan itself. */
export interface GivenPast {
  readonly pins: Pins["at"];
  readonly now: Instant | null;
  readonly standing: Pins["standing"];
  /** Arrivals that follow from where a vehicle stood; by stop id. */
  readonly arrived: Stood["arrived"];
  readonly findings: readonly Finding[];
}

/** Nothing is past. */
export const NO_PAST: GivenPast = { ...AS_IN_PLAN, pins: new Map(), now: null, findings: [] };

/** Solves a plan after the day before it, given what is past. */
export function dayFrom(written: Plan, legs: Legs, before: DayBefore, past: GivenPast): DayResult {
  const solved = (completed: Completed): Solved => solve(completed, legs, before, past);
  const completed = completeFacts(withArrivals(written, past.arrived), (known, name) => {
    const { placed } = solved(known);
    return placed === null ? null : placedInstant(placed, name);
  });
  const { order, timed: day, placed, findings } = solved(completed);
  if (placed === null || day === null) return refusedDay(written, findings);
  const notes = [...past.findings, ...overrideNotes(written, order.plan, day.admitted.fit)];
  return dayOf(order, placed, { timed: day, before, notes, actual: written.actual, chores: [] });
}

type Solved =
  | {
      readonly order: DayOrder;
      readonly timed: Timed;
      readonly placed: PlacedDay;
      readonly findings: readonly Finding[];
    }
  | { readonly order: DayOrder; readonly timed: null; readonly placed: null; readonly findings: readonly Finding[] };

function solve(
  { plan: completed, assumed, standing: notLeft }: Completed,
  legs: Legs,
  before: DayBefore,
  past: GivenPast,
): Solved {
  const plan = asItWent(completed);
  const { order, findings } = resolveOrder(plan, legs, before.beds);
  const none = { order, timed: null, placed: null };
  if (findings.length > 0) return { ...none, findings };
  const impossible = impossibleFacts(order, assumed);
  if (impossible.length > 0) return { ...none, findings: impossible };
  const facts = pinsOf(plan, assumed);
  const { now } = past;
  const standing = new Map([...notLeft, ...past.standing]);
  const begun = [...order.attendance.keys()].filter((id) => past.pins.has(`${id}.start`));
  const at = new Map([...past.pins, ...facts.at]);
  const done = new Set([...facts.done, ...begun]);
  const timed = placeInWeather(order, { at, now, standing, done });
  const { placed } = timed;
  return placed === null ? { ...none, findings: timed.findings } : { order, timed, placed, findings: [] };
}
