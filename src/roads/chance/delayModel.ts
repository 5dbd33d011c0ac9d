/** The two ways through a chain of departures: as distributions on the grid, and with one luck for all drives. */

import type { DriveTime } from "../../legs/times.ts";
import type { Instant } from "../../time/units.ts";
import {
  by,
  type Cells,
  driveCells,
  later,
  laterOf,
  notAfter,
  notBefore,
  PER_MINUTE,
  plus,
  point,
  type Rounding,
  trimmed,
} from "./cells.ts";
import type { Chain, Departure, Gate } from "./chain.ts";
import { normalBelow } from "./normal.ts";

/** A departure made at another time than the day plans: what follows is computed from it. */
export interface Start {
  readonly departure: number;
  readonly leave: Instant;
}

interface Spread {
  readonly leave: Cells;
  readonly arrive: Cells;
}

/** Departures and arrivals in distribution up to the last deadline; each is worked out when it is first asked for. */
export interface Pass {
  readonly chain: Chain;
  readonly rounding: Rounding;
  /** The cell of the last deadline: whatever comes later is in time for nothing. */
  readonly last: number;
  /** Null for an index without a departure. */
  spread(departure: number): Spread | null;
}

const partOf = (time: DriveTime, share: number): DriveTime => ({ ...time, median: time.median * share });

/** When a gate opens. */
function opens(pass: Pass, gate: Gate): Cells | null {
  const spread = pass.spread(gate.departure);
  const departure = pass.chain.departures[gate.departure];
  if (spread === null || departure === undefined) return null;
  if (gate.share === 1) {
    const open = later(spread.arrive, gate.workMinutes * PER_MINUTE);
    return gate.until === null ? open : notAfter(open, gate.until * PER_MINUTE);
  }
  return driven(pass, spread.leave, partOf(departure.time, gate.share));
}

function leaveOf(pass: Pass, departure: Departure): Cells {
  let leave = point(departure.move.leave * PER_MINUTE);
  for (const gate of departure.gates) {
    const ready = opens(pass, gate);
    if (ready !== null) leave = laterOf(leave, notBefore(ready, leave.from));
  }
  return trimmed(notAfter(leave, pass.last), pass.rounding);
}

/** When a drive that begins at `leave` ends, up to the last deadline. */
const driven = ({ rounding, last }: Pass, leave: Cells, time: DriveTime): Cells =>
  notAfter(plus(leave, driveCells(time, rounding, last - leave.from)), last);

function spreadOf(pass: Pass, departure: Departure, leave: Cells): Spread {
  const arrive = later(driven(pass, leave, departure.time), departure.haltMinutes * PER_MINUTE);
  return { leave, arrive: trimmed(arrive, pass.rounding) };
}

/** A pass over the chain, linear in its departures; with a `start`, what does not depend on it is taken from `base`. */
export function forward(chain: Chain, rounding: Rounding, start?: Start & { readonly base: Pass }): Pass {
  const known: (Spread | undefined)[] = [];
  const pass: Pass = {
    chain,
    rounding,
    last: Math.max(...chain.targets.map(({ deadline }) => deadline)) * PER_MINUTE,
    spread(index) {
      const departure = chain.departures[index];
      if (departure === undefined) return null;
      if (start !== undefined && index < start.departure) return start.base.spread(index);
      const leave = index === start?.departure ? point(start.leave * PER_MINUTE) : null;
      known[index] ??= spreadOf(pass, departure, leave ?? leaveOf(pass, departure));
      return known[index] ?? null;
    },
  };
  return pass;
}

/** The chance that a gate is open by a deadline. */
export function openBy(pass: Pass, gate: Gate, deadline: Instant): number {
  const open = opens(pass, gate);
  return open === null ? 1 : by(open, deadline * PER_MINUTE);
}

/** When a gate opens if every drive comes out at the same `z` of its distribution, minutes; only what leads to it is driven. */
function opensWithLuck(chain: Chain, gate: Gate, z: number, start: Start | undefined): number {
  const leaves: number[] = [];
  const leaveOfLucky = (index: number, departure: Departure): number => {
    if (start?.departure === index) return start.leave;
    let leave: number = departure.move.leave;
    for (const own of departure.gates) leave = Math.max(leave, open(own));
    return leave;
  };
  const open = ({ departure: index, workMinutes, share, until }: Gate): number => {
    const departure = chain.departures[index];
    if (departure === undefined) return Number.NEGATIVE_INFINITY;
    leaves[index] ??= leaveOfLucky(index, departure);
    const drive = departure.time.median * Math.exp(z * departure.time.spread) * share;
    const opened = (leaves[index] ?? 0) + drive + (share === 1 ? departure.haltMinutes + workMinutes : 0);
    return until !== null && opened > until + 1e-9 ? Number.POSITIVE_INFINITY : opened;
  };
  return open(gate);
}

/** Beyond six standard deviations (1e-9) there is no luck left to try. */
const FARTHEST = 6;
/** Leaves less than 1e-10 of a standard deviation. */
const HALVINGS = 38;

/** The same-luck chance: the largest share of all luck, the same on every drive, with which a gate is open by a deadline. */
export function sameLuck(chain: Chain, gate: Gate, deadline: Instant, start?: Start): number {
  const fits = (z: number): boolean => opensWithLuck(chain, gate, z, start) <= deadline + 1e-9;
  if (fits(FARTHEST)) return 1;
  if (!fits(-FARTHEST)) return 0;
  let [low, high] = [-FARTHEST, FARTHEST];
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return normalBelow(low);
}
