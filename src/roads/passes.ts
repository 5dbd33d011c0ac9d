/** The two ways through a chain of departures: as distributions on the grid, and with one luck for all drives. */
import type { Instant } from "../time/units.ts";
import {
  by,
  type Cells,
  driveCells,
  later,
  latest,
  notBefore,
  PER_MINUTE,
  plus,
  point,
  type Rounding,
  trimmed,
} from "./cells.ts";
import type { Chain, Departure, Gate } from "./chain.ts";
import { normalBelow } from "./normal.ts";
import type { DriveTime } from "./times.ts";

/** A departure made at another time than the day plans: what follows is computed from it. */
export interface Start {
  readonly departure: number;
  readonly leave: Instant;
}

interface Spread {
  readonly leave: Cells;
  readonly arrive: Cells;
}

/** Departures and arrivals in distribution, by index of the departure. */
export interface Pass {
  readonly chain: Chain;
  readonly rounding: Rounding;
  readonly spreads: readonly Spread[];
}

const partOf = (time: DriveTime, share: number): DriveTime => ({ ...time, median: time.median * share });

/** When a gate opens. */
function opens(pass: Pass, gate: Gate): Cells | null {
  const spread = pass.spreads[gate.departure];
  const departure = pass.chain.departures[gate.departure];
  if (spread === undefined || departure === undefined) return null;
  if (gate.share === 1) return later(spread.arrive, gate.workMinutes * PER_MINUTE);
  return plus(spread.leave, driveCells(partOf(departure.time, gate.share), pass.rounding));
}

function leaveOf(pass: Pass, departure: Departure): Cells {
  let leave = point(departure.move.leave * PER_MINUTE);
  for (const gate of departure.gates) {
    const ready = opens(pass, gate);
    if (ready !== null) leave = latest(leave, notBefore(ready, leave.from));
  }
  return trimmed(leave, pass.rounding);
}

function spreadOf(departure: Departure, leave: Cells, rounding: Rounding): Spread {
  const drive = driveCells(departure.time, rounding);
  return { leave, arrive: trimmed(later(plus(leave, drive), departure.haltMinutes * PER_MINUTE), rounding) };
}

/** All departures and arrivals; with a `start`, those before it as in `base`. Linear in the departures. */
export function forward(chain: Chain, rounding: Rounding, start?: Start & { readonly base: Pass }): Pass {
  const spreads = start === undefined ? [] : start.base.spreads.slice(0, start.departure);
  const pass = { chain, rounding, spreads };
  for (const departure of chain.departures.slice(spreads.length)) {
    const isStart = start !== undefined && spreads.length === start.departure;
    const leave = isStart ? point(start.leave * PER_MINUTE) : leaveOf(pass, departure);
    spreads.push(spreadOf(departure, leave, rounding));
  }
  return pass;
}

/** The chance that a gate is open by a deadline. */
export function openBy(pass: Pass, gate: Gate, deadline: Instant): number {
  const open = opens(pass, gate);
  return open === null ? 1 : by(open, deadline * PER_MINUTE);
}

/** When a gate opens if every drive comes out at the same `z` of its distribution, minutes. */
function opensWithLuck(chain: Chain, gate: Gate, z: number, start: Start | undefined): number {
  const leaves: number[] = [];
  const drive = ({ time }: Departure): number => time.median * Math.exp(z * time.spread);
  const open = ({ departure, workMinutes, share }: Gate): number => {
    const from = chain.departures[departure];
    if (from === undefined) return Number.NEGATIVE_INFINITY;
    return (leaves[departure] ?? 0) + drive(from) * share + (share === 1 ? from.haltMinutes + workMinutes : 0);
  };
  for (const [index, departure] of chain.departures.slice(0, gate.departure + 1).entries()) {
    const own = start?.departure === index ? start.leave : Math.max(departure.move.leave, ...departure.gates.map(open));
    leaves.push(own);
  }
  return open(gate);
}

/** Beyond eight standard deviations there is no luck left to try. */
const FARTHEST = 8;
const HALVINGS = 60;

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
