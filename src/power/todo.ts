/** The hand moves of a rotation as a to-do list: moment by moment, with the slot each pack goes into. */
import type { Id } from "../plan/plan.ts";
import type { Instant } from "../time/units.ts";
import type { DayModel } from "./day/build.ts";
import type { Model } from "./model.ts";
import type { Solution } from "./solve.ts";

export interface PackStep {
  readonly pack: Id;
  readonly from: Id;
  readonly to: Id;
  /** The slots it leaves and takes, from 1; null where the place is no charger. */
  readonly fromSlot: number | null;
  readonly toSlot: number | null;
}

export interface HandTask {
  readonly at: Instant;
  /** The place, or the vehicle on the road. */
  readonly where: Id;
  /** Anyone of these can do it: they are there, and may touch the chargers concerned. */
  readonly who: readonly Id[];
  readonly steps: readonly PackStep[];
}

/** Every moment at which hands are needed, in time order. */
export function todoOf(built: DayModel, { rotation }: Solution): HandTask[] {
  const { touches, model } = built;
  const slots = new Slots(model);
  return touches.flatMap(({ id, at, where, who }) => {
    const moves = rotation.moves.filter((move) => move.touch === id);
    if (moves.length === 0) return [];
    const out = moves.map((move) => slots.leave(move.from, move.pack));
    const steps = moves.map((move, n): PackStep => {
      const { pack, from, to } = move;
      return { pack, from, to, fromSlot: out[n] ?? null, toSlot: slots.take(to, pack) };
    });
    return [{ at, where, who: allowed(built, who, steps), steps }];
  });
}

/** Those of `who` that may touch every place of these steps; where nobody may alone, those that may touch some of them. */
function allowed({ handBays, around }: DayModel, who: readonly Id[], steps: readonly PackStep[]): readonly Id[] {
  const handsAt = (place: Id): readonly Id[] | null =>
    around.day.plan.chargers.get(place)?.hands ?? handBays.find((bay) => bay.id === place)?.hands ?? null;
  const may = (person: Id) => (place: Id) => handsAt(place)?.includes(person) ?? true;
  const whole = who.filter((id) => steps.every(({ from, to }) => [from, to].every(may(id))));
  return whole.length > 0 ? whole : who.filter((id) => steps.some(({ from, to }) => [from, to].every(may(id))));
}

/** Which pack is in which slot; a pack takes the first that is free. */
class Slots {
  private readonly held = new Map<Id, (Id | null)[]>();

  constructor(model: Model) {
    for (const charger of model.chargers) this.held.set(charger.id, new Array<Id | null>(charger.slots).fill(null));
    for (const pack of model.packs) this.take(pack.at, pack.id);
  }

  take(place: Id, pack: Id): number | null {
    const row = this.held.get(place);
    const free = row?.indexOf(null) ?? -1;
    if (row === undefined || free < 0) return null;
    row[free] = pack;
    return free + 1;
  }

  leave(place: Id, pack: Id): number | null {
    const row = this.held.get(place);
    const at = row?.indexOf(pack) ?? -1;
    if (row === undefined || at < 0) return null;
    row[at] = null;
    return at + 1;
  }
}
