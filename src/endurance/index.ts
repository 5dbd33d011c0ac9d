/**
 * How long, and how far, can the crew go on from here? Each vehicle by law, by the house and by fuel, each person, the
 * packs, and what must happen next, from where everybody and everything is at a moment.
 *
 * Assumed: no one sleeps but in a berth, roads are at their bad time, breaks are taken as late as allowed.
 */
import type { Day } from "../day/day.ts";
import type { HoursResult } from "../hours/index.ts";
import type { RoutedAnswers } from "../legs/legs.ts";
import type { Id } from "../plan/plan.ts";
import type { PowerResult } from "../power/index.ts";
import type { RoadsResult } from "../roads/assess.ts";
import type { Instant } from "../time/units.ts";
import { type PackEndurance, packEndurance } from "./packs.ts";
import { type PersonEndurance, peopleEndurance } from "./people.ts";
import { type Next, nextOf, type PlaceReach, reachOf } from "./reach.ts";
import { Rolling } from "./rolling.ts";
import { aboardAt, type VehicleEndurance, vehicleEndurance } from "./vehicles.ts";

export type { PackEndurance } from "./packs.ts";
export type { PersonEndurance } from "./people.ts";
export type { Next, PlaceReach } from "./reach.ts";
export type { VehicleEndurance } from "./vehicles.ts";

/** What ends first. */
export interface FirstEnd {
  readonly kind: "law" | "house" | "fuel";
  readonly vehicle: Id;
  readonly who: Id | null;
  readonly limit: string | null;
  /** The limit in words. */
  readonly title: string | null;
  readonly until: Instant;
}

/** How long and how far a crew can go on, and what ends it first. */
export interface Endurance {
  readonly at: Instant;
  /** Null where nothing is driven. */
  readonly binding: FirstEnd | null;
  readonly vehicles: readonly VehicleEndurance[];
  readonly people: readonly PersonEndurance[];
  readonly packs: readonly PackEndurance[];
  readonly reach: readonly PlaceReach[];
  readonly next: readonly Next[];
}

/** Drivers change at every so many minutes. */
export const DRIVER_CHANGE_MINUTES = 120;

/** Verdicts on one person's hours for each search within one unit of patience. */
const BUDGET = 400;

function bindingOf(vehicles: readonly VehicleEndurance[]): FirstEnd | null {
  const ends = vehicles.flatMap((own): readonly FirstEnd[] => {
    const { vehicle, lawUntil, lawBecause, houseUntil, houseBecause, fuelUntil } = own;
    return [
      ...(lawBecause === null
        ? []
        : [
            {
              kind: "law",
              vehicle,
              who: lawBecause.who,
              limit: lawBecause.limit,
              title: lawBecause.title,
              until: lawUntil,
            } as const,
          ]),
      ...(houseBecause === null
        ? []
        : [
            {
              kind: "house",
              vehicle,
              who: houseBecause.who,
              limit: houseBecause.limit,
              title: houseBecause.title,
              until: houseUntil,
            } as const,
          ]),
      ...(fuelUntil === null
        ? []
        : [{ kind: "fuel", vehicle, who: null, limit: null, title: null, until: fuelUntil } as const]),
    ];
  });
  return ends.toSorted((a, b) => a.until - b.until)[0] ?? null;
}

/** A day with its judged topics and the moment from which to count. */
export interface EnduranceInput {
  readonly days: readonly Day[];
  readonly at: Instant;
  readonly hours?: HoursResult | undefined;
  readonly power?: PowerResult | undefined;
  readonly roads?: RoadsResult | undefined;
  readonly routed: RoutedAnswers;
  /** Multiplies the counted budgets. */
  readonly patience: number;
}

/** The endurance of the last of `days` at a moment. Throws a RangeError without days. */
export async function enduranceOf({
  days,
  at,
  hours,
  power,
  roads,
  routed,
  patience,
}: EnduranceInput): Promise<Endurance> {
  const day = days.at(-1);
  if (day === undefined) throw new RangeError("no day to go on from");
  const rolling = new Map<Instant, Rolling>();
  const rolled = aboardAt(day, at).map((aboard) => {
    const { vehicle, from } = aboard;
    const own = rolling.get(from) ?? new Rolling(days, from);
    rolling.set(from, own);
    const fuel = roads?.fuel.find((state) => state.vehicle === vehicle);
    const options = { at: from, every: DRIVER_CHANGE_MINUTES, budget: BUDGET * patience };
    return { aboard, rolling: own, found: vehicleEndurance(own, day, aboard, fuel, options) };
  });
  const vehicles = rolled.map(({ found }) => found);
  return {
    at,
    binding: bindingOf(vehicles),
    vehicles,
    people: peopleEndurance(days, hours, rolled, at),
    packs: packEndurance(day, power, at),
    reach: await reachOf(day, vehicles, at, routed),
    next: nextOf(day, vehicles, at),
  };
}
