/** What of that which is out as planned is made all the same, because what was logged made room for it. */

import type { Instant } from "../../time/units.ts";
import { AS_PLANNED, type Fit, givesNoMore, isBetweenPins, resolve } from "../facts/fit.ts";
import { NO_PINS } from "../facts/pins.ts";
import type { DayOrder } from "../order/order.ts";
import { buildNetwork } from "./build.ts";
import {
  type AdmittedSoFar,
  type Entrant,
  enteredFrom,
  type FixedTimes,
  fitFacts,
  type Given,
  inRank,
  timingWith,
} from "./candidates.ts";
import { feasible, tightestConflict } from "./network.ts";

/** The day as planned, without what was logged, in the weather that it is driven in. */
export interface AsPlanned {
  readonly admitted: AdmittedSoFar;
  readonly during: FixedTimes["during"];
  /** An instant of it by its name; null where it has none. */
  readonly instantOf: (name: string) => Instant | null;
}

/** Tries what is out once more where facts may have made room for it; what facts that change nothing let in only after that. */
export function withTrial(
  order: DayOrder,
  given: Given,
  first: AdmittedSoFar,
  planned: AsPlanned | null,
): AdmittedSoFar {
  const isOpen = first.cycle === null && first.contradictions.length === 0 && given.pins.at.size > 0;
  const isBarred = (id: Entrant): boolean => planned !== null && fitsAsPlanned(order, given, planned, id);
  let best = isOpen ? withMore(order, given, first, isBarred) : first;
  if (best !== first) best = withMore(order, given, best, () => false);
  const { build, fit } = isOpen ? refitted(order, given, best) : best;
  return { ...best, build, fit };
}

/** With what fits of what is out, each as the last to enter. */
function withMore(
  order: DayOrder,
  given: Given,
  first: AdmittedSoFar,
  isBarred: (candidate: Entrant) => boolean,
): AdmittedSoFar {
  let best = first;
  for (const candidate of inRank(order)) {
    if (!best.out.has(candidate.id) || isBarred(candidate)) continue;
    const more = fits(order, given, best, candidate);
    // It may not take its room from what happened.
    if (more !== null && givesNoMore(refitted(order, given, best).fit, refitted(order, given, more).fit)) best = more;
  }
  return best;
}

/** Whether a day in which nothing went otherwise lets something in that it left out: facts that change nothing do not. */
function fitsAsPlanned(order: DayOrder, given: Given, planned: AsPlanned, candidate: Entrant): boolean {
  const { admitted, during, instantOf } = planned;
  if (!admitted.out.has(candidate.id)) return false;
  const arrived = given.arrived.filter(({ to }) => {
    const name = `${to.id}.arrive`;
    return given.pins.at.get(name)?.at === instantOf(name);
  });
  return fits(order, { ...given, arrived, during, pins: NO_PINS }, admitted, candidate) !== null;
}

/** With one more of what is out, what gives way to the facts alone or to what has entered as well; null where that cannot be. */
function fits(order: DayOrder, given: Given, before: AdmittedSoFar, candidate: Entrant): AdmittedSoFar | null {
  const out = new Map([...before.out].filter(([id]) => id !== candidate.id));
  const missed = new Set(out.keys());
  const entered = [...before.entered, candidate];
  const timing = timingWith(order, given, missed);
  for (const fit of [fitFacts(order, given, missed).fit, before.fit]) {
    const build = buildNetwork(order, timing, enteredFrom(entered), { pins: given.pins, fit });
    if (feasible(build.network)) return { ...before, build, entered, out, fit };
  }
  return null;
}

/** With all that has entered less may have to give way to the facts than for them alone: a visit is prepared for its hits. */
function refitted(
  order: DayOrder,
  given: Given,
  { build, entered, out, fit }: AdmittedSoFar,
): Pick<AdmittedSoFar, "build" | "fit"> {
  const timing = timingWith(order, given, new Set(out.keys()));
  const { dropped, turned, unbound } = fit;
  for (let fresh: Fit = { ...AS_PLANNED, dropped, turned, unbound }; ; ) {
    const made = buildNetwork(order, timing, enteredFrom(entered), { pins: given.pins, fit: fresh });
    if (feasible(made.network)) return { build: made, fit: fresh };
    const conflict = tightestConflict(made.network);
    const step =
      conflict === null || !isBetweenPins(made, given.pins, conflict)
        ? null
        : resolve(made, given.pins, fresh, conflict);
    if (step === null || !("fit" in step)) return { build, fit };
    fresh = step.fit;
  }
}
