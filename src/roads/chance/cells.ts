/**
 * Distributions of instants on a grid of 15-second cells, and the three things that happen to them on the way:
 * a drive is added, one waits for a planned time, one waits for somebody else.
 *
 * Every drive is rounded to the grid twice. Rounded up, everything is late: chances are lower bounds, and mass cut off a
 * far tail never arrives. Rounded down, everything is early: chances are upper bounds, and cut mass arrives at the cut.
 */

import type { DriveTime } from "../../legs/times.ts";
import { convolved } from "./convolve.ts";
import { normalBelow } from "./normal.ts";

/** Cells in a minute. */
export const PER_MINUTE = 4;

/** Whether a probability is rounded up or down, so that bounds stay bounds. */
export type Rounding = "up" | "down";

/** Mass at whole cells, counted from any fixed origin; what is missing to 1 comes later than every cell. */
export interface Cells {
  /** The cell of `mass[0]`. */
  readonly from: number;
  readonly mass: Float64Array;
}

/** All mass at one cell. */
export const point = (cell: number): Cells => ({ from: cell, mass: Float64Array.of(1) });

/** Standard deviations of the logarithm at which a drive's tail is cut: 3e-7 of it. */
const CUT = 5;

const DUST = 1e-9;

/** The cells that a drive takes, up to `most` of them: what takes longer is in time for nothing, so it never arrives. */
export function driveCells({ median, spread }: DriveTime, rounding: Rounding, most = Number.POSITIVE_INFINITY): Cells {
  const exact = median * PER_MINUTE;
  if (spread === 0 || median <= 0) return point(rounding === "up" ? Math.ceil(exact - DUST) : Math.floor(exact + DUST));
  const below = (cell: number): number => (cell <= 0 ? 0 : normalBelow(Math.log(cell / exact) / spread));
  const far = Math.ceil(exact * Math.exp(CUT * spread));
  const last = Math.min(far, Math.max(0, most + 1));
  // What ends before `first` is counted as one cell at its early end when rounding down, at its late end when rounding up.
  const first = Math.floor(exact * Math.exp(-CUT * spread));
  const shift = rounding === "up" ? 1 : 0;
  const mass = new Float64Array(last + 1);
  let reached = below(Math.min(first, last));
  if (first <= last) mass[rounding === "up" ? Math.max(0, first - 1) : 0] = reached;
  for (let cell = first; cell < last; cell++) {
    const next = below(cell + 1);
    mass[cell] = (mass[cell] ?? 0) + next - reached;
    reached = next;
  }
  if (rounding === "down" && last === far) mass[last] = 1 - reached;
  return { from: shift, mass };
}

/** Adds an independent drive to a departure. */
export const plus = (departure: Cells, drive: Cells): Cells => ({
  from: departure.from + drive.from,
  mass: convolved(departure.mass, drive.mass),
});

/** The same distribution some cells later. */
export const later = ({ from, mass }: Cells, cells: number): Cells => ({ from: from + cells, mass });

/** The chance of being there by a cell. */
export function by({ from, mass }: Cells, cell: number): number {
  const end = Math.min(mass.length, cell - from + 1);
  let sum = 0;
  for (let i = 0; i < end; i++) sum += mass[i] ?? 0;
  return Math.min(1, sum);
}

/** What comes later than `cell` never comes: a ferry has sailed, or there is nothing left to be in time for. */
export function notAfter(cells: Cells, cell: number): Cells {
  const { from, mass } = cells;
  const kept = cell - from + 1;
  if (kept >= mass.length) return cells;
  return kept < 1 ? { from, mass: Float64Array.of(0) } : { from, mass: mass.slice(0, kept) };
}

/** Waits until `cell`: what is earlier happens then. */
export function notBefore(cells: Cells, cell: number): Cells {
  if (cell <= cells.from) return cells;
  const drop = cell - cells.from;
  const mass = new Float64Array(Math.max(1, cells.mass.length - drop));
  mass.set(cells.mass.subarray(Math.min(drop, cells.mass.length)));
  let early = 0;
  for (let i = 0; i < Math.min(drop, cells.mass.length); i++) early += cells.mass[i] ?? 0;
  mass[0] = (mass[0] ?? 0) + early;
  return { from: cell, mass };
}

/** The later of two independent instants. */
export function laterOf(a: Cells, b: Cells): Cells {
  const from = Math.max(a.from, b.from);
  const [x, y] = [notBefore(a, from), notBefore(b, from)];
  const mass = new Float64Array(Math.max(x.mass.length, y.mass.length));
  let [belowX, belowY, reached] = [0, 0, 0];
  for (let i = 0; i < mass.length; i++) {
    belowX += x.mass[i] ?? 0;
    belowY += y.mass[i] ?? 0;
    mass[i] = Math.max(0, belowX * belowY - reached);
    reached = belowX * belowY;
  }
  return { from, mass };
}

/** Tails lighter than this are cut so that a chain of forty legs stays as cheap as forty legs. */
const LIGHT = 1e-9;

/** Cuts a far tail: rounded up its mass is lost, rounded down it arrives at the cut. */
export function trimmed({ from, mass }: Cells, rounding: Rounding): Cells {
  let [end, tail] = [mass.length, 0];
  while (end > 1 && tail + (mass[end - 1] ?? 0) < LIGHT) tail += mass[--end] ?? 0;
  const kept = mass.slice(0, end);
  if (rounding === "down") kept[end - 1] = (kept[end - 1] ?? 0) + tail;
  return { from, mass: kept };
}
