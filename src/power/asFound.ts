/**
 * Packs as they were found: until a moment at which a charge or a place was seen the rotation stands as it was planned, move
 * for move, and from then on it is searched again with what was seen.
 */
import type { Id } from "../plan/plan.ts";
import { type Instant, instant } from "../time/units.ts";
import type { DayModel } from "./day/build.ts";
import type { Effort } from "./fast/effort.ts";
import { bayAt, type ModelPack } from "./model.ts";
import { type Resumed, resumed, whollyOpen } from "./past.ts";
import type { Solution } from "./proof/solve.ts";
import { replay } from "./replay.ts";
import { crewed } from "./rested.ts";

/** A pack that was seen in a vehicle or place. */
interface Sighting {
  readonly pack: Id;
  readonly at: Instant;
  readonly holder: Id;
}

/** `solve` searches a whole day that nothing was seen of. */
export async function asFound(
  built: DayModel,
  effort: Effort,
  solve: (built: DayModel) => Promise<Solution>,
): Promise<Resumed> {
  const { model } = built;
  const sightings = sightingsOf(built);
  const moments = [
    ...new Set([
      ...model.packs.flatMap(({ found = [] }) => found.map(({ at }) => at)),
      ...sightings.map(({ at }) => at),
    ]),
  ].sort((a, b) => a - b);
  const [first] = moments;
  const seen = new Map<Id, NonNullable<ModelPack["seen"]>>();
  const bare = first === undefined ? built : built.knownAt(instant(first - 1));
  let current = whollyOpen(bare, await solve(bare));
  for (const moment of moments) {
    for (const { pack, holder } of sightings.filter(({ at }) => at === moment))
      if (holderOf(current, pack, moment) !== holder)
        seen.set(pack, [...(seen.get(pack) ?? []), { at: moment, place: holder }]);
    const known = withSightings(built.knownAt(moment), seen);
    const next = await resumed(known, current, moment, effort);
    // What was under way and cannot have been so leaves no past to stand: the day is searched as a whole.
    current = next ?? whollyOpen(known, await crewed(known, effort));
  }
  return current;
}

/** Where packs were seen within the model's time. */
function sightingsOf({ model, around }: DayModel): readonly Sighting[] {
  return [...around.day.plan.actual.packs].flatMap(([pack, { at, in: holder }]) =>
    at === null || holder === null || at > model.to || at < model.from ? [] : [{ pack, at, holder }],
  );
}

function withSightings(built: DayModel, seen: ReadonlyMap<Id, NonNullable<ModelPack["seen"]>>): DayModel {
  const packs = built.model.packs.map((pack) => {
    const known = seen.get(pack.id);
    return known === undefined ? pack : { ...pack, seen: known };
  });
  return { ...built, model: { ...built.model, packs } };
}

/** The vehicle or place that a pack is in by the rotation, on a piece or in a charger there as well. */
function holderOf({ built, solution }: Resumed, id: Id, at: Instant): Id | null {
  const steps = replay(built.model, solution.rotation).steps.get(id) ?? [];
  const place = (steps.find((step) => step.from <= at && at < step.to) ?? steps.at(-1))?.at;
  return holderOfSpot(built, place ?? built.model.packs.find((pack) => pack.id === id)?.at ?? "", at);
}

/** The vehicle or place that a bay, a charger or a piece is in at an instant. */
export function holderOfSpot({ model, handBays }: DayModel, spot: Id, at: Instant): Id {
  const load = model.loads.find(({ id }) => id === spot);
  const bay = load === undefined ? (model.chargers.find(({ id }) => id === spot)?.bay ?? spot) : bayAt(load, at);
  return handBays.find(({ id }) => id === bay)?.within ?? bay;
}
