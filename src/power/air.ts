/**
 * Which packs may fly with passengers, where and how many: the common rule of the United States and of the ICAO Technical
 * Instructions. Airlines may be stricter; nothing here replaces asking them.
 */

import type { Source } from "../findings/finding.ts";
import { groupBy } from "../lists.ts";
import type { Id, Plan } from "../plan/plan.ts";

/** How packs up to some Wh may fly. */
export interface Carriage {
  /** Rated energy up to and including this, Wh; Infinity for the last. */
  readonly upToWh: number;
  /** In few words, as a table prints it. */
  readonly how: string;
  readonly where: string;
  /** Spare packs a person; null where the rule sets no number for them. */
  readonly perPerson: number | null;
  readonly source: Source;
  /** Since when, ISO date; null where the rule is older than this table. */
  readonly since: string | null;
}

const US: Source = { title: "49 CFR 175.10", clause: "(a)(18)" };

const CARGO: Carriage = {
  upToWh: Number.POSITIVE_INFINITY,
  how: "not as passenger baggage",
  where: "as cargo, declared",
  perPerson: 0,
  source: US,
  since: null,
};

/** Spare lithium-ion packs by their rated energy, smallest first. Terminals are covered, spares never in checked baggage. */
export const CARRIAGE: readonly Carriage[] = [
  {
    upToWh: 100,
    how: "carry-on, no approval",
    where: "cabin, terminals covered",
    perPerson: null,
    source: US,
    since: null,
  },
  {
    upToWh: 160,
    how: "carry-on, max 2 spares, operator approval",
    where: "cabin, terminals covered",
    perPerson: 2,
    source: US,
    since: null,
  },
  CARGO,
];

/** Power banks, as spares in the cabin; not recharged on board. */
export const POWER_BANKS: Carriage = {
  upToWh: 100,
  how: "carry-on, max 2 a person, not recharged on board",
  where: "cabin",
  perPerson: 2,
  source: { title: "ICAO Technical Instructions 2025-2026, Addendum No. 1", clause: null },
  since: "2026-03-27",
};

/** How a spare pack of this rated energy may fly. */
export function carriageOf(wh: number): Carriage {
  return CARRIAGE.find((one) => wh <= one.upToWh) ?? CARGO;
}

/** Packs that fly: how many, Wh each, and how they may be carried. */
export interface FlyingPacks {
  readonly group: Id;
  readonly count: number;
  readonly wh: number;
  readonly carriage: Carriage;
  /** How many of them these people may carry together. */
  readonly allowed: number;
}

/** Each group of packs with its rule; `people` is how many fly. Packs of one energy class share the number a person may carry. */
export function flyingPacks(plan: Plan, people: number): FlyingPacks[] {
  const groups = groupBy(plan.packs.values(), (pack) => `${pack.group} ${pack.wh}`);
  const left = new Map<Carriage, number>(
    CARRIAGE.map((one) => [one, one.perPerson === null ? Number.POSITIVE_INFINITY : one.perPerson * people]),
  );
  return [...groups.values()].map((packs) => {
    const [{ group, wh }] = packs;
    const carriage = carriageOf(wh);
    const allowed = Math.min(packs.length, left.get(carriage) ?? 0);
    left.set(carriage, (left.get(carriage) ?? 0) - allowed);
    return { group, count: packs.length, wh, carriage, allowed };
  });
}

/** Everyone on a ride by air. */
export const flyers = (plan: Plan): readonly Id[] => [
  ...new Set([...plan.rides.values()].filter((ride) => ride.by === "air").flatMap((ride) => ride.who)),
];
