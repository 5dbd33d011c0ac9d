/** A chain of days along `follows`: each begins where the one before it ended, as it went where that is known, else as planned. */
import type { Finding } from "../findings/finding.ts";
import type { Legs } from "../legs/leg.ts";
import type { Id, Plan } from "../plan/plan.ts";
import type { Instant } from "../time/units.ts";
import type { Chore, Day, DayBefore } from "./day.ts";
import { endsAt } from "./facts/vehiclesStood.ts";
import { computeDay, NOT_UNDER_WAY, NOTHING_BEFORE, type UnderWay } from "./index.ts";

/** A plan with the legs between its places. */
export interface ChainLink {
  readonly plan: Plan;
  readonly legs: Legs;
}

/** The days of a chain in order, and why it ends early if it does. */
export interface ChainResult {
  /** Oldest first. Shorter than the links where a day could not be computed. */
  readonly days: readonly Day[];
  readonly findings: readonly Finding[];
}

/**
 * Computes the links in order (oldest first), the last of them under way if that is said; stops at the first with mistakes,
 * because the next would stand on it. `known`: the days of the first links, if they were computed before.
 */
export function computeChain(
  links: readonly ChainLink[],
  underWay: UnderWay = NOT_UNDER_WAY,
  known: readonly Day[] = [],
): ChainResult {
  const days: Day[] = [];
  let before = NOTHING_BEFORE;
  for (const [index, { plan, legs }] of links.entries()) {
    const ready = known[index];
    if (ready !== undefined) {
      days.push(ready);
      before = carryOver(ready, before);
      continue;
    }
    const { day, findings } = computeDay(plan, legs, before, index === links.length - 1 ? underWay : NOT_UNDER_WAY);
    if (day === null) return { days, findings };
    days.push(day);
    before = carryOver(day, before);
  }
  return { days, findings: [] };
}

/** The days of a chain (oldest first) with the chores of each, which may move a release that the next day begins with. */
export function withChores(days: readonly Day[], chores: readonly (readonly Chore[])[]): readonly Day[] {
  let before = NOTHING_BEFORE;
  return days.map((day, index) => {
    const made = day.withChores(chores[index] ?? [], before);
    before = carryOver(made, before);
    return made;
  });
}

/** Beds, releases and vehicles as this day leaves them; someone without a duty keeps what they had. */
export function carryOver(day: Day, before: DayBefore): DayBefore {
  const beds = new Map<Id, Id>(before.beds);
  const releases = new Map<Id, Instant>(before.releases);
  const evenings = new Map<Id, Instant>(before.evenings);
  for (const person of day.people) {
    const released = person.release ?? person.previousRelease;
    const ends = person.spans.at(-1)?.to ?? null;
    if (released !== null) releases.set(person.id, released);
    if (ends !== null && released !== null && person.release !== null && ends > released) evenings.set(person.id, ends);
    else evenings.delete(person.id);
    if (person.sleeps !== null) beds.set(person.id, person.sleeps);
  }
  const vehicles = new Map<Id, Id>(before.vehicles);
  for (const vehicle of new Set([...day.plan.runs.keys(), ...day.plan.actual.vehicles.keys()])) {
    const last = endsAt(day, vehicle);
    if (last !== null) vehicles.set(vehicle, last);
  }
  return { beds, releases, evenings, vehicles };
}
