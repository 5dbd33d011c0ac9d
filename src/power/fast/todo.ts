/** The hand moves of a rotation as a to-do list: moment by moment, with the slot each pack goes into. */
import type { Id } from "../../plan/plan.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { DayModel } from "../day/build.ts";
import type { Hand } from "../day/touches.ts";
import type { Model } from "../model.ts";
import type { Solution } from "../proof/solve.ts";

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

/** Every moment at which hands are needed, in time order. */
export function todoOf(built: DayModel, { rotation }: Solution): HandTask[] {
  const { touches, model, around } = built;
  const slots = new Slots(model);
  return touches.flatMap((touch) => {
    const moves = rotation.moves.filter((move) => move.touch === touch.id);
    if (moves.length === 0) return [];
    const out = moves.map((move) => slots.leave(move.from, move.pack));
    const steps = moves.map((move, n): PackStep => {
      const { pack, from, to } = move;
      return { pack, from, to, fromSlot: out[n] ?? null, toSlot: slots.take(to, pack) };
    });
    const workMinutes = steps.length * around.day.plan.rules.swap;
    const last = lastEnd(model, touch.at, steps);
    const spell = (hand: Hand): Spell => ({ who: hand.who, ...spellOf(hand, touch.at, workMinutes, last) });
    const able = touch.hands.filter(({ who }) => mayAll(built, who, steps)).map(spell);
    const [first, ...rest] = able.toSorted((a, b) => b.to - b.from - (a.to - a.from));
    const shared = { where: touch.where, steps, workMinutes };
    if (first === undefined) return [{ ...shared, ...jointly(touch.hands.map(spell)) }];
    const { from, to, who } = first;
    const others = rest.filter((one) => one.from === from && one.to === to).map((one) => one.who);
    return [{ ...shared, from, to, who: [who], others }];
  });
}

type Spell = Interval & { readonly who: Id };

/** The time in which all of them are there. */
const jointly = (spells: readonly Spell[]): Pick<HandTask, "from" | "to" | "who" | "others"> => ({
  from: instant(Math.max(...spells.map((one) => one.from))),
  to: instant(Math.min(...spells.map((one) => one.to))),
  who: spells.map((one) => one.who),
  others: [],
});

/** The steps end at the touch where there is time before it, else as soon after it as they can. */
function spellOf(hand: Hand, at: Instant, workMinutes: number, last: Instant): Interval {
  const from = instant(Math.max(hand.from, at - workMinutes));
  return { from, to: instant(Math.max(at, Math.min(from + workMinutes, hand.to, last))) };
}

/** When the first load that the steps touch is wanted after the touch; the model's end where none is. */
function lastEnd(model: Model, at: Instant, steps: readonly PackStep[]): Instant {
  const loads = new Set(steps.flatMap(({ from, to }) => [from, to]));
  const wanted = model.demands.filter(
    (demand) => demand.from >= at && [...demand.watts.keys()].some((load) => loads.has(load)),
  );
  return instant(Math.min(model.to, ...wanted.map((demand) => demand.from)));
}

/** Whether a person may touch every place of these steps. */
function mayAll({ handBays, around }: DayModel, who: Id, steps: readonly PackStep[]): boolean {
  const handsAt = (place: Id): readonly Id[] | null =>
    around.day.plan.chargers.get(place)?.hands ?? handBays.find((bay) => bay.id === place)?.hands ?? null;
  return steps.every(({ from, to }) => [from, to].every((place) => handsAt(place)?.includes(who) ?? true));
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
