import type { Legs } from "../legs/leg.ts";
import type { Plan } from "../plan/plan.ts";
import type { DayBefore } from "./day.ts";
import { asItWent } from "./facts/asItWent.ts";
import { impossibleFacts } from "./facts/contradictions.ts";
import { type GivenPast, type Solved, solvedInTurn } from "./facts/inTurn.ts";
import { overrideNotes } from "./facts/notes.ts";
import type { Completed } from "./facts/openFacts.ts";
import { pinsOf } from "./facts/pins.ts";
import { AS_IN_PLAN } from "./facts/vehiclesStood.ts";
import { type DayResult, dayOf, refusedDay } from "./makeDay.ts";
import { placeInWeather } from "./network/inWeather.ts";
import { resolveOrder } from "./order/resolveOrder.ts";
import { placedInstant } from "./people/timeline.ts";

/** Nothing is past. */
export const NO_PAST: GivenPast = { ...AS_IN_PLAN, pins: new Map(), now: null, findings: [] };

/** Solves a plan after the day before it, given what is past. */
export function dayFrom(written: Plan, legs: Legs, before: DayBefore, past: GivenPast): DayResult {
  const {
    order,
    timed: day,
    placed,
    findings,
  } = solvedInTurn(written, past, (completed, given) => solve(completed, legs, before, given));
  if (placed === null || day === null) return refusedDay(written, findings);
  const notes = [
    ...past.findings,
    ...overrideNotes(written, order.plan, {
      fit: day.admitted.fit,
      instantOf: (name) => placedInstant(placed, name),
      isMissed: (stop) => day.admitted.missed.has(stop),
    }),
  ];
  return dayOf(order, placed, { timed: day, before, notes, actual: written.actual, chores: [] });
}

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
