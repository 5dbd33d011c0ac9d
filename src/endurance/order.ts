/**
 * The best order of drivers from a moment on: the one that rolls longest without a break and without a breach of law.
 *
 * Drivers change at every so many minutes, and where somebody's hours run out. Searched depth first with what is already
 * broken cut off, since no one's hours get better by driving more; exact within a counted budget, else the best found.
 */
import type { Id } from "../plan/plan.ts";
import { after, type Instant, joined } from "../time/units.ts";
import type { Aboard, Rolled, Rolling } from "./rolling.ts";

/** Who drives when, and until when that is lawful. */
export interface DrivingOrder {
  readonly stretches: readonly Rolled[];
  readonly until: Instant;
  /** False where the budget ran out before everything was tried. */
  readonly proven: boolean;
}

/** No one asks farther than this, minutes. */
export const FARTHEST = 2880;

/** Neighbouring stretches of one driver as one. */
export const turnsOf = (stretches: readonly Rolled[]): readonly Rolled[] =>
  joined(stretches, (a, b) => a.driver === b.driver);

/** Stretches up to an end. */
export const cutAt = (order: readonly Rolled[], end: Instant): readonly Rolled[] =>
  order.flatMap((stretch) => (stretch.from >= end ? [] : [{ ...stretch, to: stretch.to < end ? stretch.to : end }]));

/** The most minutes, up to `most`, for which something holds that does not hold again once it fails. */
export function longest(most: number, holds: (minutes: number) => boolean): number {
  if (holds(most)) return most;
  let [yes, no] = [0, most];
  while (no - yes > 1) {
    const middle = (yes + no) >> 1;
    if (holds(middle)) yes = middle;
    else no = middle;
  }
  return yes;
}

/** Rolls on with whoever still may, so that no figure is a minute short where the budget ran out. */
function extended(
  order: DrivingOrder,
  drivers: readonly Id[],
  from: Instant,
  most: number,
  lawful: (tail: readonly Rolled[]) => boolean,
): DrivingOrder {
  let { stretches, until } = order;
  for (let more = true; more && until - from < most; ) {
    more = false;
    for (const driver of drivers) {
      const left = most - (until - from);
      const add = (m: number): readonly Rolled[] => [...stretches, { from: until, to: after(until, m), driver }];
      const minutes = longest(left, (m) => m === 0 || lawful(add(m)));
      if (minutes === 0) continue;
      [stretches, until, more] = [add(minutes), after(until, minutes), true];
    }
  }
  return { ...order, stretches, until };
}

/** From when, after what, in what steps, with how many verdicts, and how many minutes at the most. */
interface Asked {
  readonly from: Instant;
  readonly before: readonly Rolled[];
  readonly every: number;
  readonly budget: number;
  readonly most: number;
}

/** The order that rolls longest after what has been rolled (`before`), from `from` on. */
export function bestOrder(
  rolling: Rolling,
  aboard: Aboard,
  { from, before, every, budget, most }: Asked,
): DrivingOrder {
  let best: DrivingOrder = { stretches: [], until: from, proven: true };
  const limit = rolling.asked + budget;
  let spent = false;
  const lawful = (tail: readonly Rolled[]): boolean => rolling.law(aboard, turnsOf([...before, ...tail])) === 0;
  const first = (current: Id | null): readonly Id[] =>
    current === null ? aboard.drivers : [current, ...aboard.drivers.filter((who) => who !== current)];
  const descend = (tail: readonly Rolled[], at: Instant): void => {
    if (at - from >= most || best.until - from >= most) return;
    for (const driver of first(tail.at(-1)?.driver ?? null)) {
      if (rolling.asked >= limit && best.until > from) {
        spent = true;
        return;
      }
      const whole = [...tail, { from: at, to: after(at, every), driver }];
      if (lawful(whole)) {
        if (after(at, every) > best.until) best = { stretches: whole, until: after(at, every), proven: true };
        descend(whole, after(at, every));
        continue;
      }
      const minutes = longest(every - 1, (m) => m === 0 || lawful([...tail, { from: at, to: after(at, m), driver }]));
      if (minutes === 0) continue;
      // Where hours run out somebody else may take over.
      const part = [...tail, { from: at, to: after(at, minutes), driver }];
      if (after(at, minutes) > best.until) best = { stretches: part, until: after(at, minutes), proven: true };
      descend(part, after(at, minutes));
    }
  };
  descend([], from);
  best = extended(best, aboard.drivers, from, most, lawful);
  return { ...best, stretches: turnsOf(best.stretches), proven: !spent };
}
