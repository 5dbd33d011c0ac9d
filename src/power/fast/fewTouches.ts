/**
 * The touches, and the shelves, that a search has to look at: where nothing happens between two of them, what one can do the other can do as well.
 *
 * Between two neighbours nothing happens if no use is on, no charger that is reached is on, no piece changes its bay and no pack
 * goes out of service. Whatever is moved at one may then be moved at the other: loads keep what they have, shelves hold any number,
 * and charge is nowhere less. After the last use a move powers nothing.
 */
import { bayAt, type Model, type Touch, workSpan } from "../model.ts";
import { type Board, hoursOn } from "../proof/searchState.ts";
import type { PackPath } from "./packPath.ts";

/** A path on the board of a day with few touches, on the board with all: each move is made at the touch of its name. */
export function onAllTouches(few: Board, all: Board, { spots, ...path }: PackPath): PackPath {
  const number = new Map(few.model.touches.map(({ id }, n) => [id, n + 1]));
  const shift = few.spots.map(({ place }, spot) => {
    const same = all.places.findIndex(({ id }) => id === few.places[place]?.id);
    return (all.firstSpot[same] ?? 0) + spot - (few.firstSpot[place] ?? 0);
  });
  let at = 0;
  const spread = [0, ...all.model.touches.map(({ id }) => (at = number.get(id) ?? at))];
  return { ...path, spots: Int16Array.from(spread, (k) => shift[spots[k] ?? 0] ?? 0) };
}

/** The model with only those touches and shelves that coverage and margin can depend on. */
export function withFewTouches(model: Model): Model {
  const last = Math.max(model.from, ...model.demands.map(({ to }) => to));
  const kept: Touch[] = [];
  for (const touch of model.touches) {
    if (touch.at >= last && touch.reach.length > 0) continue;
    let isNew = true;
    for (let before = kept.at(-1); before !== undefined && isNew; before = kept.at(-1)) {
      const [earlier, later] = [canStandFor(model, before, touch), canStandFor(model, touch, before)];
      if (earlier && !(later && (touch.burden ?? 0) < (before.burden ?? 0))) isNew = false;
      else if (later) kept.pop();
      else break;
    }
    if (isNew) kept.push(touch);
  }
  return { ...model, touches: kept, bays: shelvesOf(model) };
}

/** The bays on whose shelf a pack may have to lie: no other one is in reach whenever they are, or a pack lies there at first. */
function shelvesOf({ bays, touches, packs }: Model): Model["bays"] {
  const kept = [...bays];
  for (const bay of bays) {
    if (packs.some(({ at }) => at === bay)) continue;
    const reached = touches.filter(({ reach }) => reach.includes(bay));
    const isSpare = kept.some((other) => other !== bay && reached.every(({ reach }) => reach.includes(other)));
    if (isSpare) kept.splice(kept.indexOf(bay), 1);
  }
  return kept;
}

/** Whether each move at `other`, the next touch before or after, could as well be made at `one`. */
function canStandFor(model: Model, one: Touch, other: Touch): boolean {
  if (other.reach.length === 0 || !other.reach.every((bay) => one.reach.includes(bay))) return false;
  const [from, to] = one.at < other.at ? [one.at, other.at] : [other.at, one.at];
  if (model.demands.some((demand) => demand.from < to && from < demand.to)) return false;
  if (model.loads.some((load) => bayAt(load, one.at) !== bayAt(load, other.at))) return false;
  if (model.packs.some(({ broken = [] }) => broken.some((gone) => gone.from <= to && from <= gone.to))) return false;
  return model.chargers.every(
    ({ bay, on }) => !other.reach.includes(bay) || hoursOn(on, ...lostAt(model, one, other)) === 0,
  );
}

/** When a pack that is moved at `one` and not at `other` does not charge though it could. */
function lostAt({ swapMinutes }: Model, one: Touch, other: Touch): readonly [number, number] {
  const span = (touch: Touch) => workSpan(touch, swapMinutes * (touch.moves ?? 1));
  const [own, others] = [span(one), span(other)];
  return one.at < other.at
    ? [Math.min(own.from, others.from), other.at]
    : [others.to, Math.max(own.to, one.warm ?? own.to)];
}
