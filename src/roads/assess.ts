/** Judges the drives of a day: the chance of every hit, the fuel, the waits, places that are closed, and what rests on an estimate. */

import { type Wait, waitsOf } from "../cautions/waits.ts";
import type { Day, Move } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { JudgeInput, Judgement } from "../findings/judgement.ts";
import { implausibleBetween, implausibleDrive, leastKm } from "../legs/plausible.ts";
import type { Id, Road } from "../plan/plan.ts";
import { greatCircleKm, isTooFarApart } from "../plan/sense/coordinates.ts";
import type { Instant } from "../time/units.ts";
import { type Chain, chainOf, type Dark, type PositionTarget } from "./chance/chain.ts";
import { chancesOf, type GateChance, type Passes, passesOf, type TargetChance } from "./chance/chance.ts";
import { cutShare } from "./chance/percent.ts";
import { closedPlaces } from "./closed.ts";
import { chanceLow, driveImplausible, roadEstimated, waitOutside } from "./findings.ts";
import { type FuelState, fuelStates } from "./fuel.ts";
import { fuelFindings } from "./fuelFindings.ts";

/** The next hit that a move's lateness reaches, and the chance of being there in time by that way. */
export interface Onward {
  readonly target: PositionTarget;
  readonly chance: GateChance;
}

/** What is known of the drives of a day: chances, fuel, waits. */
export interface RoadsResult {
  /** By the id of the move; null where no later hit depends on it. */
  readonly onward: ReadonlyMap<Id, Onward>;
  readonly hits: readonly TargetChance[];
  readonly fuel: readonly FuelState[];
  readonly waits: readonly Wait[];
  /** For questions asked later, such as when to leave for a wanted chance. */
  readonly chain: Chain;
  readonly passes: Passes;
}

/** A firm hit with less than this is warned of (common practice, no source). */
export const LOW_CHANCE = 0.8;

/** For every departure the first hit, by time, that it can make late. */
function onwardOf(chain: Chain, hits: readonly TargetChance[]): ReadonlyMap<Id, Onward> {
  const onward = new Map<Id, Onward>();
  const inOrder = [...hits].sort((a, b) => a.target.deadline - b.target.deadline);
  for (const { target, gates } of inOrder) {
    for (const chance of gates) {
      const open = [chance.gate.departure];
      for (let next = open.pop(); next !== undefined; next = open.pop()) {
        const departure = chain.departures[next];
        if (departure === undefined || onward.has(departure.move.id)) continue;
        onward.set(departure.move.id, { target, chance });
        open.push(...departure.gates.map((gate) => gate.departure));
      }
    }
  }
  return onward;
}

/** No one is warned of a lower bound: where vehicles share a road, the worst of them is judged by itself. */
const judgedChance = ({ lowerBound, gates, printed }: TargetChance): number =>
  lowerBound ? Math.min(...gates.map((gate) => gate.printed)) : printed;

const lowChances = (day: Day, hits: readonly TargetChance[]): readonly Finding[] =>
  hits
    .filter((hit) => hit.target.firm && judgedChance(hit) < LOW_CHANCE)
    .map((hit) => {
      const { target } = hit;
      const path = day.plan.hits.get(target.hit)?.path ?? ["hits", target.hit];
      const atMost = hit.atMost === null ? null : cutShare(hit.atMost, 4);
      const facts = { hit: target.hit, chance: cutShare(hit.printed, 4), atMost, wanted: LOW_CHANCE };
      return chanceLow.raise(facts, { path, span: day.plan.source.locate(path), at: target.deadline });
    });

/** One for a road, whichever way it is driven and however often. */
function estimates(day: Day): readonly Finding[] {
  const raised = new Set<string>();
  return day.moves.flatMap(({ leg, leave }: Move): readonly Finding[] => {
    const key = [leg.from, leg.to].sort().join(" ");
    if (leg.basis !== "estimated" || leg.range === null || raised.has(key)) return [];
    raised.add(key);
    const [low, likely] = [Math.floor(leg.range.lowMinutes), Math.ceil(leg.likelyMinutes)];
    const facts = { from: leg.from, to: leg.to, low, likely, high: Math.ceil(leg.range.highMinutes) };
    return [roadEstimated.raise(facts, { at: leave, path: leg.path ?? ["roads"] })];
  });
}

/** The straight line between the ends of a road, km; null where one has no coordinates, or they are doubted already. */
function straightKmOf({ plan }: Day, road: Road): number | null {
  const [from = null, to = null] = road.link.map((id) => plan.places.get(id)?.at ?? null);
  if (from === null || to === null) return null;
  const km = greatCircleKm(from, to);
  return isTooFarApart(road, km) ? null : km;
}

/** What is odd about the stated length and the stated times of a road, its length first; null where all may be right. */
function oddityOf(road: Road, straightKm: number | null) {
  const { km, driveMinutes, badMinutes } = road;
  if (km !== null && straightKm !== null && km < leastKm(straightKm))
    return { key: "km", minutes: driveMinutes ?? badMinutes, doubt: "short", km, straight: false, straightKm };
  const length = km ?? straightKm;
  if (length === null) return null;
  for (const [key, minutes] of [
    ["drive", driveMinutes],
    ["bad", badMinutes],
  ] as const) {
    const doubt = minutes === null ? null : (km === null ? implausibleBetween : implausibleDrive)(minutes, length);
    if (minutes !== null && doubt !== null)
      return { key, minutes, doubt, km: length, straight: km === null, straightKm };
  }
  return null;
}

/** Stated times and lengths that no road has, one a road in the order of the file. */
const implausibles = (day: Day): readonly Finding[] =>
  day.plan.roads.flatMap((road): readonly Finding[] => {
    const odd = oddityOf(road, straightKmOf(day, road));
    if (odd === null) return [];
    const [from, to] = road.link;
    return [driveImplausible.raise({ from, to, ...odd }, { path: [...road.path, odd.key] })];
  });

const coldWaits = (day: Day, waits: readonly Wait[]): readonly Finding[] =>
  waits
    .filter((wait) => !wait.sheltered && wait.minutes > day.plan.rules.shelterAfter)
    .map((wait) => {
      const facts = {
        who: wait.who,
        place: wait.place,
        from: { at: wait.from },
        to: { at: wait.to },
        minutes: wait.minutes,
        allowed: day.plan.rules.shelterAfter,
        later: wait.laterMinutes,
      };
      const path = day.plan.places.get(wait.place)?.path ?? ["places"];
      const only = wait.who.length === 1 ? wait.who[0] : undefined;
      return waitOutside.raise(facts, { at: wait.from, path, ...(only === undefined ? {} : { who: only }) });
    });

/** What is read of the sky: the sun's altitude over a place, degrees; null where the place has no coordinates. */
export interface SunAltitude {
  sunAltitude(place: Id, at: Instant): number | null;
}

/** Civil twilight ends here, degrees; below it one drives by headlights alone. */
const DARK_BELOW = -6;

const darkUnder =
  (sky: SunAltitude | null): Dark =>
  (at, place) => {
    const altitude = sky?.sunAltitude(place, at) ?? null;
    return altitude !== null && altitude < DARK_BELOW;
  };

/**
 * Judges the roads of the last of `days`; fuel is carried over from the days before.
 *
 * The dark slows drives in the chance only; without a `sky`, and over places without coordinates, it is taken as light.
 */
export function assess({ days, now }: JudgeInput, sky: SunAltitude | null = null): Judgement<RoadsResult> {
  const day = days.at(-1);
  if (day === undefined) throw new RangeError("no day to judge");
  const chain = chainOf(day, darkUnder(sky), now);
  const passes = passesOf(chain);
  const hits = chancesOf(chain, passes);
  const [fuel, waits] = [fuelStates(days), waitsOf(day)];
  const findings = [
    ...lowChances(day, hits),
    ...fuelFindings(day.plan, fuel),
    ...coldWaits(day, waits),
    ...closedPlaces(day),
    ...estimates(day),
    ...implausibles(day),
  ];
  return {
    result: { onward: onwardOf(chain, hits), hits, fuel, waits, chain, passes },
    findings,
  };
}
