/** The meals that a stretch of work without one needs, and when the waits in it leave room for them. */
import { type Instant, type Interval, instant } from "../../time/units.ts";

/** Work without a meal for longer than a rule allows. */
export interface MealGap {
  readonly since: Instant;
  /** When the next meal has to begin at the latest. */
  readonly due: Instant;
  /** The end of the work without one. */
  readonly until: Instant;
  /** Minutes from one meal to the next. */
  readonly allows: number;
}

/** What someone does from one instant to another: `wait`, `drive` … */
interface Doing extends Interval {
  readonly doing: string;
}

/** What is followed by parking, if anything is to be done. */
const ON_THE_WAY: ReadonlySet<string> = new Set(["drive", "ride"]);

/** What would close a gap. */
export interface Meals {
  /** How many meals, so that no piece is longer than the rule allows. */
  readonly count: number;
  /** When one may begin that is enough, in the first wait with room for it, earliest and latest; null where none has. */
  readonly room: Interval | null;
  /** When two may begin where two are needed; null where no waits have room for them. */
  readonly pair: readonly [Instant, Instant] | null;
}

/** Minutes of the house: of a meal, and to park before one where so far nothing was done. */
interface MealRules {
  readonly mealFor: number;
  readonly park: number;
}

/** The meals that a gap needs among what someone does. */
export function mealsFor({ mealFor, park }: MealRules, spans: readonly Doing[], gap: MealGap): Meals {
  const { since, due, until, allows } = gap;
  const waits = spans.flatMap(({ doing, from, to }, index): readonly Interval[] => {
    const arrives = ON_THE_WAY.has(spans[index - 1]?.doing ?? "");
    const [first, last] = [Math.max(arrives ? from + park : from, since), to - mealFor];
    return doing === "wait" && first <= last ? [{ from: instant(first), to: instant(last) }] : [];
  });
  const rooms = waits.flatMap(({ from, to }): readonly Interval[] => {
    const [first, last] = [Math.max(from, until - allows - mealFor), Math.min(to, due)];
    return first <= last ? [{ from: instant(first), to: instant(last) }] : [];
  });
  const count = Math.ceil((until - since - allows) / (allows + mealFor));
  return { count, room: rooms[0] ?? null, pair: count === 2 ? pairIn(waits, gap, allows + mealFor) : null };
}

/** A step of five minutes. */
const STEP = 5;

/** Two beginnings in the waits, `apart` at most, each in the middle of its room if both are then still enough. */
function pairIn(
  waits: readonly Interval[],
  { due, until }: MealGap,
  apart: number,
): readonly [Instant, Instant] | null {
  const latest = (by: number): number =>
    Math.max(...waits.map(({ from, to }) => (from <= by ? Math.min(to, by) : -Infinity)));
  const earliest = (at: number): number =>
    Math.min(...waits.map(({ from, to }) => (to >= at ? Math.max(from, at) : Infinity)));
  const fits = ([first, second]: readonly [number, number]): boolean =>
    first <= due &&
    second <= first + apart &&
    until <= second + apart &&
    [first, second].every((at) => waits.some(({ from, to }) => from <= at && at <= to));
  const lastOne = latest(due);
  const late = [lastOne, latest(lastOne + apart)] as const;
  const soonTwo = earliest(until - apart);
  const early = [earliest(soonTwo - apart), soonTwo] as const;
  const between = (n: 0 | 1): number => Math.floor((early[n] + late[n]) / 2 / STEP) * STEP;
  const found = [[between(0), between(1)] as const, late].find(fits);
  return found === undefined ? null : [instant(found[0]), instant(found[1])];
}
