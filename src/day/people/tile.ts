/** One thing at a time: overlapping stretches of a person's time cut into tiles, and what is left between them a wait. */
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/units.ts";
import { type Fit, wentOtherwise } from "../facts/fit.ts";
import type { TimelineStretch } from "./timeline.ts";

/**
 * What someone does where two stretches overlap: the weightier, else the one that began later, since a hit's clear gives way
 * to the next in position; of what begins at once the shorter, then by name, whatever the order of the file.
 */
function isOver(one: TimelineStretch, other: TimelineStretch): boolean {
  const over = one.weight - other.weight || one.from - other.from || other.to - one.to;
  return over !== 0 ? over > 0 : one.name < other.name;
}

/** One stretch at a time; what is left between them is a wait at the place they are. */
export function tile(
  stretches: readonly TimelineStretch[],
  placeAt: (at: Instant) => Id | null,
  fit: Fit,
): readonly TimelineStretch[] {
  const cuts = [...new Set(stretches.flatMap((stretch) => [stretch.from, stretch.to]))].sort((a, b) => a - b);
  const tiles: TimelineStretch[] = [];
  cuts.slice(0, -1).forEach((from, index) => {
    const to = cuts[index + 1] ?? from;
    let top: TimelineStretch | null = null;
    for (const one of stretches) if (one.from <= from && one.to >= to && (top === null || isOver(one, top))) top = one;
    const made: TimelineStretch =
      top === null ? waiting(from, to, placeAt(from), fit) : asItWent({ ...top, from, to }, fit);
    const before = tiles.at(-1);
    if (before !== undefined && sameDoing(before, made)) tiles[tiles.length - 1] = { ...before, to };
    else tiles.push(made);
  });
  return tiles;
}

/** A preparation that lasted otherwise than planned is as it went; drives, hits and tasks keep their names. */
const asItWent = (stretch: TimelineStretch, fit: Fit): TimelineStretch => {
  const named = stretch.name === stretch.activity || stretch.is !== "duty" || stretch.ends[0] === "";
  if (named || !wentOtherwise(fit, stretch, stretch.ends)) return stretch;
  return { ...stretch, name: "as it went", where: null, vehicle: null, activity: null };
};

const waiting = (from: Instant, to: Instant, place: Id | null, fit: Fit): TimelineStretch => ({
  name: wentOtherwise(fit, { from, to }, ["", ""]) ? "as it went" : "wait",
  from,
  to,
  is: "duty",
  weight: 0,
  where: null,
  place,
  vehicle: null,
  activity: null,
  ends: ["", ""],
});

const sameDoing = (a: TimelineStretch, b: TimelineStretch): boolean =>
  a.name === b.name && a.is === b.is && a.activity === b.activity && a.place === b.place && a.vehicle === b.vehicle;
