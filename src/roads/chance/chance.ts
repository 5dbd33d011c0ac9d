/**
 * The chance of being in position, forward from the call: arrive = leave + drive, leave = max(planned leave, ready).
 *
 * Twice: with every drive independent, by convolution on 15-second cells (a lower and an upper bound), and with the same
 * luck on every drive, by bisection over that luck. Links of one road are correlated (Arroyo & Kornhauser reject their
 * independence), so both are kept and the smaller is printed.
 */
import { type Instant, instant } from "../../time/units.ts";
import type { Chain, Gate, PositionTarget } from "./chain.ts";
import { forward, openBy, type Pass, type Start, sameLuck } from "./delayModel.ts";

/** Bounds of a chance, 0 to 1. */
export interface Chance {
  /** Independent drives: the truth of the model lies between these two. `high` is worked out when it is asked for. */
  readonly low: number;
  readonly high: number;
  readonly sameLuck: number;
  /** The smaller of `low` and `sameLuck`. */
  readonly printed: number;
}

/** The chance that what one move brings to a hit is there in time. */
export interface GateChance extends Chance {
  readonly gate: Gate;
}

/** The chance to be in position for a hit. */
export interface TargetChance extends Chance {
  readonly target: PositionTarget;
  readonly gates: readonly GateChance[];
  /** True where several arrivals are multiplied that share a drive or a road: `printed` is then a lower bound. */
  readonly lowerBound: boolean;
  /** `printed`, or above a lower bound the worst arrival by itself; null where that one is only a lower bound as well. */
  readonly atMost: number | null;
}

/** The distributions of a chain, rounded up and down. */
export interface Passes {
  readonly up: Pass;
  readonly down: Pass;
}

/** Computes both. */
export const passesOf = (chain: Chain): Passes => ({ up: forward(chain, "up"), down: forward(chain, "down") });

/** A road is shared whichever way it is driven. */
const roadOf = (chain: Chain, departure: number): string => {
  const move = chain.departures[departure]?.move;
  return move === undefined ? "" : [move.from, move.to].sort().join(" ");
};

/** The departures behind a gate, its own included. */
function departuresBefore(chain: Chain, gates: readonly Gate[]): ReadonlySet<number> {
  const seen = new Set<number>();
  const open = gates.map(({ departure }) => departure);
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    if (seen.has(next)) continue;
    seen.add(next);
    for (const gate of chain.departures[next]?.gates ?? []) open.push(gate.departure);
  }
  return seen;
}

/** Whether two of these gates have driven a road in common. */
function meet(chain: Chain, gates: readonly Gate[]): boolean {
  if (gates.length < 2) return false;
  const seen = new Set<string>();
  for (const gate of gates) {
    const own = new Set([...departuresBefore(chain, [gate])].map((departure) => roadOf(chain, departure)));
    if ([...own].some((road) => seen.has(road))) return true;
    for (const road of own) seen.add(road);
  }
  return false;
}

/** Whether arrivals that are multiplied at a departure before these gates have driven a road in common. */
const meetBefore = (chain: Chain, gates: readonly Gate[]): boolean =>
  [...departuresBefore(chain, gates)].some((departure) => meet(chain, chain.departures[departure]?.gates ?? []));

function gateChance(chain: Chain, { up, down }: Passes, gate: Gate, deadline: Instant): GateChance {
  const [low, luck] = [openBy(up, gate, deadline), sameLuck(chain, gate, deadline)];
  return {
    gate,
    low,
    get high() {
      return Math.max(low, openBy(down, gate, deadline));
    },
    sameLuck: luck,
    printed: Math.min(low, luck),
  };
}

function targetChance(chain: Chain, passes: Passes, target: PositionTarget): TargetChance {
  const gates = target.gates.map((gate) => gateChance(chain, passes, gate, target.deadline));
  const low = gates.reduce((all, gate) => all * gate.low, 1);
  const luck = Math.min(1, ...gates.map((gate) => gate.sameLuck));
  const printed = Math.min(low, luck);
  const [shared, sharedBefore] = [meet(chain, target.gates), meetBefore(chain, target.gates)];
  const worst = shared ? Math.min(...gates.map((gate) => gate.printed)) : printed;
  return {
    target,
    gates,
    low,
    get high() {
      return gates.reduce((all, gate) => all * gate.high, 1);
    },
    sameLuck: luck,
    printed,
    lowerBound: shared || sharedBefore,
    atMost: sharedBefore ? null : worst,
  };
}

/** The chance of every hit of a day. */
export const chancesOf = (chain: Chain, passes: Passes): readonly TargetChance[] =>
  chain.targets.map((target) => targetChance(chain, passes, target));

/** Departures earlier than this before the deadline are not tried. */
const EARLIEST_MINUTES = 48 * 60;

/**
 * The latest minute at which a departure keeps the wanted chance of being in time for a hit, what follows it as planned;
 * null where leaving earlier does not help, because a later departure of the chain is planned too late. A ferry has its own
 * time: that one, or null.
 */
export function leaveByFor(
  chain: Chain,
  { up }: Passes,
  departure: number,
  aim: { target: PositionTarget; gate: Gate },
  wanted: number,
): Instant | null {
  const upTo: Chain = { ...chain, departures: chain.departures.slice(0, aim.gate.departure + 1) };
  const keeps = (leave: number): boolean => {
    const start: Start = { departure, leave: instant(leave) };
    if (sameLuck(upTo, aim.gate, aim.target.deadline, start) < wanted) return false;
    return openBy(forward(upTo, "up", { ...start, base: up }), aim.gate, aim.target.deadline) >= wanted;
  };
  const sail = chain.departures[departure]?.move.leg.ferry?.sail;
  if (sail !== undefined) return keeps(sail) ? sail : null;
  let [good, bad] = [aim.target.deadline - EARLIEST_MINUTES, aim.target.deadline + 1];
  if (!keeps(good)) return null;
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (keeps(middle)) good = middle;
    else bad = middle;
  }
  return instant(good);
}
