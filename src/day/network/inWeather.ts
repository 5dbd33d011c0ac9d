/** A day placed in the weather that it is driven in, and with its waits in the warm. */
import type { Finding } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { Interval } from "../../time/units.ts";
import { hasPast, NO_PINS, type Pins } from "../facts/pins.ts";
import { cycleFinding } from "../order/cycleMessage.ts";
import type { DayOrder } from "../order/order.ts";
import { placedInstant } from "../people/timeline.ts";
import { type Admitted, admit } from "./applyFixedTimes.ts";
import { vehicleMoves } from "./assemble.ts";
import type { FixedTimes } from "./candidates.ts";
import { type PlacedDay, place } from "./place.ts";
import type { AsPlanned } from "./roomFromFacts.ts";
import { statedWaits, waitsFor } from "./shelter.ts";
import { weatherMatters } from "./timing.ts";

/** A placed network together with what did not fit. */
export interface Timed {
  readonly admitted: Admitted;
  readonly placed: PlacedDay | null;
  readonly findings: readonly Finding[];
  readonly during: ReadonlyMap<Id, Interval>;
  readonly waits: ReadonlySet<Id>;
}

function timed(order: DayOrder, given: FixedTimes, waits: ReadonlySet<Id>, planned: AsPlanned | null): Timed {
  const admitted = admit(order, given, planned);
  const { during } = given;
  if (admitted.contradictions.length > 0)
    return { admitted, placed: null, findings: admitted.contradictions, during, waits };
  if (admitted.cycle !== null) {
    const cycle = cycleFinding(order, admitted.build.timing, admitted.cycle);
    return { admitted, placed: null, findings: [cycle], during, waits };
  }
  const placed = place(admitted.build, waits);
  return { admitted, placed: placed.findings.length > 0 ? null : placed, findings: placed.findings, during, waits };
}

const legSpans = (placed: PlacedDay): ReadonlyMap<Id, Interval> =>
  new Map(vehicleMoves(placed).map((move) => [move.id, { from: move.leave, to: move.arrive }]));

/** Timed dry, once more in the weather of that timing, and once more where a wait is better spent in the warm. */
export function placeInWeather(order: DayOrder, pins: Pins): Timed {
  if (hasPast(pins)) {
    const planned = placeInWeather(order, NO_PINS);
    if (planned.placed !== null) return placeAsItWent(order, pins, planned, planned.placed);
  }
  const stated = statedWaits(order.plan);
  const dry = timed(order, { during: new Map(), pins }, stated, null);
  const during = weatherMatters(order) && dry.placed !== null ? legSpans(dry.placed) : new Map<Id, Interval>();
  const wet = during.size > 0 ? timed(order, { during, pins }, stated, null) : dry;
  if (wet.placed === null) return wet;
  const waits = waitsFor(wet.placed);
  return [...waits].every((id) => stated.has(id)) ? wet : timed(order, { during, pins }, waits, null);
}

/** In the weather and with the waits of the day as planned; a leg that is driven at another time has the weather of that. */
function placeAsItWent(order: DayOrder, pins: Pins, asPlanned: Timed, planned: PlacedDay): Timed {
  const { admitted, during, waits } = asPlanned;
  const given: AsPlanned = { admitted, during, instantOf: (name) => placedInstant(planned, name) };
  const went = timed(order, { during, pins }, waits, given);
  if (went.placed === null || !weatherMatters(order)) return went;
  const before = legSpans(planned);
  const moved = [...legSpans(went.placed)].filter(([id, { from, to }]) => {
    const as = before.get(id);
    return as?.from !== from || as.to !== to;
  });
  return moved.length === 0 ? went : timed(order, { during: new Map([...during, ...moved]), pins }, waits, given);
}
