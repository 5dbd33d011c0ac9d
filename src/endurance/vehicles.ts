/** How long each vehicle can roll on from a moment: by law until a break and with breaks, by the house, by fuel. */

import { aboardOf, type Day, type Move } from "../day/day.ts";
import { sumOf } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import { type FuelState, rangeAt } from "../roads/fuel.ts";
import { after, type Instant } from "../time/units.ts";
import { bestOrder, cutAt, FARTHEST, longest, turnsOf } from "./order.ts";
import type { Aboard, Rolled, Rolling } from "./rolling.ts";

/** What ends a figure: whose limit, and which. */
export interface EnduranceLimit {
  readonly who: Id;
  readonly limit: string;
  /** The limit in words. */
  readonly title: string;
  readonly clause: string | null;
}

/** How long a vehicle may go on: people, fuel, next stops. */
export interface VehicleEndurance {
  readonly vehicle: Id;
  readonly who: readonly Id[];
  /** By law, without stopping: then a break must be taken. */
  readonly breakBy: Instant;
  readonly breakBecause: EnduranceLimit | null;
  /** By law, with every break taken as late as allowed. */
  readonly lawUntil: Instant;
  readonly lawBecause: EnduranceLimit | null;
  /** Until when the same drivers keep the house rules; equals `lawUntil` where they keep them that long. */
  readonly houseUntil: Instant;
  readonly houseBecause: EnduranceLimit | null;
  /** Who drives when, and the breaks between. */
  readonly order: readonly Rolled[];
  readonly proven: boolean;
  /** Range above the reserve, km, and how long that lasts at the fastest of the plan's drives; null where no range is known. */
  readonly fuelKm: number | null;
  readonly fuelUntil: Instant | null;
  /** No level is known: a full tank at the start is assumed. */
  readonly fuelAssumed: boolean;
  /** Minutes at the wheel in all. */
  readonly wheelMinutes: number;
}

/** Breaks that are tried, shortest first, minutes: those of the rule sets, and what none is shorter than. */
const BREAKS = [10, 15, 20, 30, 45, 60];

/** A break that wins less than this is none, minutes. */
const WORTH = 15;

/** Without a known drive, km/h. */
const UNKNOWN_KMH = 85;

/** The last leg of a vehicle that has begun, else its first. */
function legAt(day: Day, vehicle: Id, at: Instant): Move | undefined {
  const legs = day.moves.filter((move) => move.vehicle === vehicle);
  return legs.findLast((move) => move.leave <= at) ?? legs[0];
}

/** When a vehicle may roll at the earliest: at once, or when the ferry that it is on lands. */
const ashore = ({ moves }: Day, vehicle: Id, at: Instant): Instant =>
  moves.find((move) => move.vehicle === vehicle && move.leg.ferry !== undefined && move.leave <= at && at < move.arrive)
    ?.arrive ?? at;

/** Who is in each vehicle that the day drives. */
export function aboardAt(day: Day, at: Instant): readonly Aboard[] {
  return [...day.plan.vehicles.values()].flatMap((vehicle): readonly Aboard[] => {
    const from = ashore(day, vehicle.id, at);
    const leg = legAt(day, vehicle.id, from);
    if (leg === undefined) return [];
    const who = aboardOf(leg);
    const drivers = [...day.plan.crew.values()].filter(
      ({ id, drives }) => who.includes(id) && drives.includes(vehicle.id),
    );
    if (drivers.length === 0) return [];
    return [{ vehicle: vehicle.id, berth: vehicle.berth, who, drivers: drivers.map(({ id }) => id), from, leg }];
  });
}

/** The limit of law that another minute by any driver would break, of whoever drives last first; null where one may go on. */
function because(rolling: Rolling, aboard: Aboard, tail: readonly Rolled[], at: Instant): EnduranceLimit | null {
  const last = tail.findLast(({ driver }) => driver !== null)?.driver ?? null;
  const from = tail.at(-1)?.to ?? at;
  const drivers = aboard.drivers.toSorted((a, b) => Number(b === last) - Number(a === last));
  const found = drivers.map((driver) => {
    const more = turnsOf([...tail, { from, to: after(from, 1), driver }]);
    return aboard.drivers.flatMap((who) => rolling.of(aboard, who, more).breaches).find(({ law }) => law);
  });
  const [first] = found;
  if (first === undefined || found.includes(undefined)) return null;
  return { who: first.who, limit: first.limit, title: first.title, clause: first.clause };
}

/** The fastest of a vehicle's drives, km an hour: the one that burns most in a minute. */
function fastest(day: Day, vehicle: Id): number {
  const speeds = day.moves.flatMap((move) =>
    move.vehicle !== vehicle || move.leg.km === null || move.likelyMinutes <= 0
      ? []
      : [(move.leg.km * 60) / move.likelyMinutes],
  );
  return speeds.length === 0 ? UNKNOWN_KMH : Math.max(...speeds);
}

/** From when on drivers are rolled on, how often they change (minutes), and how many orders may be tried. */
export interface RollOptions {
  readonly at: Instant;
  readonly every: number;
  readonly budget: number;
}

/** What a row of phases with breaks between them comes to. */
function phases(rolling: Rolling, aboard: Aboard, { at, every, budget }: RollOptions) {
  const first = bestOrder(rolling, aboard, { from: at, before: [], every, budget, most: FARTHEST });
  let order: readonly Rolled[] = first.stretches;
  let [until, proven] = [first.until, first.proven];
  while (order.length > 0 && until - at < FARTHEST) {
    const breaks = BREAKS.map((length) => ({ from: until, to: after(until, length), driver: null }));
    const tried = breaks.find((pause) => {
      const next = { from: pause.to, to: after(pause.to, WORTH) };
      return aboard.drivers.some((driver) => rolling.law(aboard, [...order, pause, { ...next, driver }]) === 0);
    });
    if (tried === undefined) break;
    const more = bestOrder(rolling, aboard, {
      from: tried.to,
      before: [...order, tried],
      every,
      budget,
      most: FARTHEST - (tried.to - at),
    });
    if (more.until <= tried.to) break;
    order = [...order, tried, ...more.stretches];
    until = more.until;
    proven &&= more.proven;
  }
  return { first, order, until, proven };
}

/** How long one vehicle can roll on. */
export function vehicleEndurance(
  rolling: Rolling,
  day: Day,
  aboard: Aboard,
  fuel: FuelState | undefined,
  options: RollOptions,
): VehicleEndurance {
  const { at } = options;
  const { first, order, until, proven } = phases(rolling, aboard, options);
  const house = longest(until - at, (m) => m === 0 || rolling.house(aboard, cutAt(order, after(at, m))) === 0);
  const houseUntil = after(at, Math.max(0, house));
  const fuelKm = fuel === undefined ? null : rangeAt(day, fuel, at) - fuel.reserveKm;
  const fuelMinutes = fuelKm === null ? null : Math.max(0, Math.floor((fuelKm / fastest(day, aboard.vehicle)) * 60));
  const kept = cutAt(order, houseUntil);
  const beyond = houseUntil < until ? cutAt(order, after(houseUntil, 1)) : kept;
  const houseBreach = aboard.drivers
    .flatMap((who) => rolling.of(aboard, who, beyond).breaches)
    .find((breach) => !breach.law);
  return {
    vehicle: aboard.vehicle,
    who: aboard.who,
    breakBy: first.until,
    breakBecause: because(rolling, aboard, first.stretches, at),
    lawUntil: until,
    lawBecause: because(rolling, aboard, order, at),
    houseUntil,
    houseBecause:
      houseUntil < until && houseBreach !== undefined
        ? { who: houseBreach.who, limit: houseBreach.limit, title: houseBreach.title, clause: houseBreach.clause }
        : null,
    order,
    proven,
    fuelKm,
    fuelUntil: fuelMinutes === null ? null : after(at, fuelMinutes),
    fuelAssumed: fuel?.assumedFull ?? false,
    wheelMinutes: sumOf(order, ({ from, to, driver }) => (driver === null ? 0 : to - from)),
  };
}
