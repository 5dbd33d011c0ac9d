/** The chores of a rotation as a to-do list: moment by moment, in an order that hands can do, with the slot each pack goes into. */
import type { Id } from "../plan/plan.ts";
import type { Interval } from "../time/units.ts";
import type { DayModel } from "./day/build.ts";
import { burdenOf } from "./day/crewing.ts";
import type { HandMoment } from "./day/touches.ts";
import { type Model, type TouchWork, workSpan } from "./model.ts";
import type { Solution } from "./proof/solve.ts";
import { mayAll } from "./rested.ts";

/** A move of a pack as hands do it. */
export interface PackStep {
  readonly pack: Id;
  readonly from: Id;
  readonly to: Id;
  /** The slots it leaves and takes, from 1; null where the place is no charger. */
  readonly fromSlot: number | null;
  readonly toSlot: number | null;
}

/** A chore: from when to when one person has packs in hand. */
export interface HandTask extends Interval {
  /** The place, or the vehicle on the road. */
  readonly where: Id;
  /** Who does it, each of them there, awake and free all that time: one, or several where no one may touch every charger. */
  readonly who: readonly Id[];
  /** Who could do it as well in the same time. */
  readonly others: readonly Id[];
  readonly steps: readonly PackStep[];
  /** Minutes that the steps take, a swap each; more than there are where it has to go faster, or with more hands. */
  readonly workMinutes: number;
}

/** Every chore, in time order. */
export function todoOf(built: DayModel, { rotation }: Pick<Solution, "rotation">): HandTask[] {
  const slots = new Slots(built.model);
  return rotation.chores.flatMap((chore) => {
    const touch = built.touches.find(({ id }) => id === chore.touch);
    const moves = rotation.moves.filter((move) => move.touch === chore.touch);
    if (touch === undefined) return [];
    // Off before into: what leaves a slot frees it for what comes.
    const out = moves.map((move) => slots.leave(move.from, move.pack));
    const steps = moves.map(
      ({ pack, from, to }, n): PackStep => ({
        ...{ pack, from, to, fromSlot: out[n] ?? null },
        toSlot: slots.take(to, pack),
      }),
    );
    return [
      {
        ...{ from: chore.begins, to: chore.ends, where: touch.where, who: chore.who, steps },
        others: othersFor(built, touch, chore, steps),
        workMinutes: steps.length * built.model.swapMinutes,
      },
    ];
  });
}

/** Who is there for all of it, may touch everything and would mind it no more. */
function othersFor(built: DayModel, touch: HandMoment, chore: TouchWork, steps: readonly PackStep[]): readonly Id[] {
  const { rests, model } = built;
  const [first] = chore.who;
  const doer = touch.hands.find(({ who }) => who === first);
  if (chore.who.length !== 1 || doer === undefined) return [];
  const work = { from: chore.begins, to: chore.ends };
  const most = burdenOf(rests, doer, work);
  return touch.hands
    .filter((hand) => {
      const span = workSpan({ ...touch, free: hand }, steps.length * model.swapMinutes);
      const same = span.from === work.from && span.to === work.to;
      return hand.who !== first && same && mayAll(built, hand.who, steps) && burdenOf(rests, hand, work) <= most;
    })
    .map(({ who }) => who);
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
