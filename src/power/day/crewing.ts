/**
 * Who does the chores of a rotation: for each touch with moves somebody who is there, awake and free for all of it, and whose
 * rest stays what binds it; of several the one who loses least. Where that cannot be had, the touches that stand in the way.
 */
import type { Id } from "../../plan/plan.ts";
import type { Interval } from "../../time/units.ts";
import { type PackMove, type TouchWork, workSpan } from "../model.ts";
import type { Rests } from "./rests.ts";
import { type Hand, type HandMoment, isGearInHand } from "./touches.ts";

/** Everybody who can do the chores, or sets of touches of each of which one has to go. */
export type Crewing =
  | { readonly kind: "crewed"; readonly chores: readonly TouchWork[] }
  | { readonly kind: "refused"; readonly touches: readonly Id[] };

/** What crewing the moves of a rotation needs. */
export interface CrewQuery {
  /** In time order. */
  readonly touches: readonly HandMoment[];
  readonly rests: Rests;
  readonly swapMinutes: number;
  /** Whether a person may touch all places of these moves. */
  mayAll(who: Id, moves: readonly PackMove[]): boolean;
}

/** Assignments tried before the touches are refused. */
const TRIES = 400;

interface Work extends Interval {
  readonly touch: Id;
}

interface Choice {
  readonly who: readonly Id[];
  readonly work: Work;
}

/** Crews the moves of a rotation. */
export function crewMoves(query: CrewQuery, moves: readonly PackMove[]): Crewing {
  const jobs = query.touches.flatMap((touch) => {
    const mine = moves.filter((move) => move.touch === touch.id);
    return mine.length === 0 ? [] : [{ touch, moves: mine }];
  });
  const held = new Map<Id, Work[]>();
  const chores: TouchWork[] = [];
  let tries = TRIES;
  let furthest = -1;
  const place = (n: number): boolean => {
    const job = jobs[n];
    if (job === undefined) return true;
    for (const { who, work } of choicesFor(query, job.touch, job.moves)) {
      if (tries-- <= 0) return false;
      if (!who.every((id) => fits(query.rests, id, held.get(id) ?? [], work))) continue;
      for (const id of who) held.set(id, [...(held.get(id) ?? []), work]);
      chores[n] = { touch: job.touch.id, begins: work.from, ends: work.to, who };
      if (place(n + 1)) return true;
      for (const id of who) held.set(id, (held.get(id) ?? []).slice(0, -1));
    }
    if (n > furthest) {
      furthest = n;
      blocked = [job.touch.id, ...inTheWay(query, job.touch, held)];
    }
    return false;
  };
  let blocked: readonly Id[] = [];
  return place(0) ? { kind: "crewed", chores } : { kind: "refused", touches: [...new Set(blocked)] };
}

/** Those who can do all of it, the least burden first; where no one may touch everything, all of them together. */
function choicesFor(query: CrewQuery, touch: HandMoment, moves: readonly PackMove[]): readonly Choice[] {
  const minutes = moves.length * query.swapMinutes;
  const workOf = (hand: Hand): Work => ({ touch: touch.id, ...workSpan({ ...touch, free: hand }, minutes) });
  const able = touch.hands.filter(({ who }) => query.mayAll(who, moves));
  if (able.length === 0) {
    const works = touch.hands.map(workOf);
    const from = works.map((one) => one.from).toSorted((a, b) => b - a)[0] ?? touch.at;
    const to = works.map((one) => one.to).toSorted((a, b) => a - b)[0] ?? touch.at;
    return [{ who: touch.hands.map(({ who }) => who), work: { touch: touch.id, from, to } }];
  }
  return able
    .map((hand) => {
      const work = workOf(hand);
      return { who: [hand.who], work, cost: costOf(query.rests, hand, work, minutes) };
    })
    .toSorted((a, b) => a.cost - b.cost);
}

/** A minute of rest lost weighs more than any wait; work that does not fit into the time there is weighs most. */
function costOf(rests: Rests, hand: Hand, work: Interval, minutes: number): number {
  return 1e6 * Math.max(0, minutes - (work.to - work.from)) + burdenOf(rests, hand, work);
}

/** How unwelcome packs are to someone: nothing in a wait, a little with gear in hand, then the rest that they cost. */
export function burdenOf(rests: Rests, hand: Hand, work: Interval): number {
  const rest = rests.restAt(hand.who, work);
  if (rest === null) return isGearInHand(hand.doing) ? 1 : 0;
  return 2 + (rests.joins(rest, work) ? 0 : APART) + (rest.to - rest.from - rests.kept(rest, [work])) / 60;
}

/** The least burden of a chore apart from any duty. */
export const APART = 10;

/** Whether someone can also do this: not two things at once, and the rest that binds stays. */
function fits(rests: Rests, who: Id, held: readonly Work[], work: Work): boolean {
  if (held.some((other) => other.from < work.to && work.from < other.to)) return false;
  const rest = rests.restAt(who, work);
  if (rest === null) return true;
  const inIt = [...held.filter((other) => rests.restAt(who, other)?.from === rest.from), work];
  return rests.kept(rest, inIt) >= rests.needed(who, rest);
}

/** The chores that those who could do this one have close to it or in the same rest. */
function inTheWay({ rests }: CrewQuery, touch: HandMoment, held: ReadonlyMap<Id, readonly Work[]>): readonly Id[] {
  return touch.hands.flatMap((hand) => {
    const rest = rests.restAt(hand.who, hand);
    return (held.get(hand.who) ?? [])
      .filter(
        (other) =>
          (rest !== null && rests.restAt(hand.who, other)?.from === rest.from) ||
          (other.from < touch.at && touch.at < other.to) ||
          (other.from < hand.to && hand.from < other.to && Math.abs(other.to - touch.at) < NEAR),
      )
      .map((other) => other.touch);
  });
}

/** Chores of one person closer than this may be in each other's way, minutes. */
const NEAR = 30;
