/** Which combinations of steps are worth a judgement, by what each step does alone. */
import type { Day } from "../day/day.ts";
import type { PlanPath } from "../findings/finding.ts";
import { dotted } from "../plan/text/pathtext.ts";
import { findingKeys } from "./likeness.ts";
import type { Candidate, JudgedPlan, ShorterLength } from "./outcome.ts";

/** What some steps do against what is to be repaired. */
export interface Effect {
  readonly steps: readonly number[];
  /** Keys of what is gone. */
  readonly cleared: ReadonlySet<string>;
  /** Minutes by which less is short, by key. */
  readonly saved: ReadonlyMap<string, number>;
}

/** What is to be cleared, and how many minutes each of it is short in the plan as it is. */
export interface Goal {
  readonly keys: readonly string[];
  readonly start: ReadonlyMap<string, number>;
}

/** Whether something is gone, or less is short. */
export const gains = ({ cleared, saved }: Effect): boolean => cleared.size > 0 || saved.size > 0;

/** At most so many steps to make pairs and threes of: for each finding the first three that clear or lessen it, then those that clear most. */
export function promisingSteps(effects: ReadonlyMap<number, Effect>, goal: Goal, most: number): readonly number[] {
  const sorted = [...effects].sort(
    ([first, a], [second, b]) => b.cleared.size - a.cleared.size || sumOf(b) - sumOf(a) || first - second,
  );
  const each = goal.keys.flatMap((key) =>
    sorted.filter(([, { cleared, saved }]) => cleared.has(key) || saved.has(key)).slice(0, 3),
  );
  const steps = new Set([...each, ...sorted].map(([step]) => step));
  return [...steps].slice(0, most).sort((a, b) => a - b);
}

const sumOf = ({ saved }: Effect): number => [...saved.values()].reduce((sum, minutes) => sum + minutes, 0);

/** Every two of `steps`, in their order. */
export const stepPairs = (steps: readonly number[]): readonly (readonly number[])[] =>
  steps.flatMap((first, at) => steps.slice(at + 1).map((second) => ascending([first, second])));

/** Each of `pairs` with one more of `steps`, each three once. */
export function stepThrees(
  pairs: readonly (readonly number[])[],
  steps: readonly number[],
): readonly (readonly number[])[] {
  const all = pairs.flatMap((pair) =>
    steps.filter((step) => !pair.includes(step)).map((step) => ascending([...pair, step])),
  );
  return [...new Map(all.map((one) => [one.join(" "), one])).values()];
}

const ascending = (steps: readonly number[]): readonly number[] => steps.toSorted((a, b) => a - b);

/**
 * Those first that promise to clear most: what each step clears alone, and what all of them shorten enough together; of equal
 * ones the fewest steps. Without combinations that promise no more than one of their steps does.
 */
export function inPromisedOrder(
  all: readonly (readonly number[])[],
  alone: ReadonlyMap<number, Effect>,
  goal: Goal,
): readonly (readonly number[])[] {
  const rated = all.map((steps) => {
    const each = steps.flatMap((step) => alone.get(step) ?? []);
    const single = Math.max(0, ...each.map(({ cleared }) => cleared.size));
    return { steps, single, promised: promisedOf(each, goal) };
  });
  return rated
    .filter(({ steps, single, promised }) => steps.length === 1 || promised > single)
    .sort((a, b) => b.promised - a.promised || a.steps.length - b.steps.length)
    .map(({ steps }) => steps);
}

/** How much is gone if what each does adds up. */
const promisedOf = (each: readonly Effect[], goal: Goal): number =>
  goal.keys.filter((key) => {
    if (each.some(({ cleared }) => cleared.has(key))) return true;
    const was = goal.start.get(key) ?? 0;
    const saved = each.reduce((minutes, effect) => minutes + (effect.saved.get(key) ?? 0), 0);
    return was > 0 && saved >= was;
  }).length;

/** The longest length below `was` that still does, by halving, where what is shorter does, too; each is asked at most once. */
export async function leastCut(
  { was, minutes }: ShorterLength,
  does: (minutes: number) => Promise<boolean>,
): Promise<void> {
  let [works, fails] = [minutes, was];
  while (fails - works > 1) {
    const middle = Math.floor((works + fails) / 2);
    if (await does(middle)) works = middle;
    else fails = middle;
  }
}

/**
 * Lengths from `least` to below `was` with which a vehicle sets out at the minute at which a bad road ends: whoever sets out
 * before it may be home later. Those first that differ least. `day` has the value at `path` as `minutes`.
 */
export function lengthsAtRoadEnds(
  { plan, activities, stops }: Day,
  path: PlanPath,
  { was, minutes }: ShorterLength,
  least: number,
): readonly number[] {
  const owner = dotted(path.slice(0, -1));
  const task = [...plan.tasks.values()].find((one) => dotted(one.path) === owner);
  const from =
    task === undefined
      ? stops.find(({ stop }) => dotted(stop.path) === owner)?.arrive
      : activities.find(({ id }) => id === task.id)?.start;
  const leaves = stops.flatMap(({ leave }) => (leave === null || from == null || leave <= from ? [] : [leave]));
  const ends = plan.weather.flatMap(({ road, to }) => (road === null || to === null ? [] : [to]));
  const lengths = leaves.flatMap((leave) => ends.map((end) => minutes + end - leave));
  return [...new Set(lengths)]
    .filter((length) => length >= least && length < was && length !== minutes)
    .sort((a, b) => Math.abs(a - minutes) - Math.abs(b - minutes) || a - b);
}

/** How many minutes each of `keys` is short. */
export function shortOf({ findings }: JudgedPlan, keys: readonly string[]): ReadonlyMap<string, number> {
  const short = new Map<string, number>();
  for (const one of findings)
    for (const key of findingKeys(one).filter((own) => keys.includes(own)))
      short.set(key, (short.get(key) ?? 0) + (one.shortMinutes ?? 0));
  return short;
}

/** By how many minutes less is short, where it is less. */
export const savedOf = (
  was: ReadonlyMap<string, number>,
  is: ReadonlyMap<string, number>,
): ReadonlyMap<string, number> =>
  new Map(
    [...was].map(([key, minutes]): [string, number] => [key, minutes - (is.get(key) ?? 0)]).filter(([, n]) => n > 0),
  );

/** Two steps that write one value, or one inside the other, exclude each other. */
export function stepsFit(candidates: readonly Candidate[], steps: readonly number[]): boolean {
  const paths = steps.map((step) => (candidates[step]?.edits ?? []).map(({ path }) => path.join("\u0000")));
  const clash = (a: string, b: string): boolean => a === b || a.startsWith(`${b}\u0000`) || b.startsWith(`${a}\u0000`);
  return paths.every((own, at) =>
    paths.slice(at + 1).every((others) => !own.some((a) => others.some((b) => clash(a, b)))),
  );
}
