/** Who drives which stretch, as a finite choice: stretches in time order, who may drive each, and what hours say of it. */
import { sumOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";

/** A limit that an assignment breaks, and by how much. */
export interface ReliefBreach {
  readonly who: Id;
  readonly limit: string;
  /** The limit in words. */
  readonly title: string;
  readonly clause: string | null;
  readonly minutes: number;
  /** Of law, or of the house. */
  readonly law: boolean;
}

/** What the hours of one person come to. */
export interface PersonVerdict {
  /** Minutes of law broken, and of house rules. */
  readonly lawMinutes: number;
  readonly houseMinutes: number;
  /** The longest unbroken time in a berth; Infinity for someone who has none to sleep in. */
  readonly sleepMinutes: number;
  readonly breaches: readonly ReliefBreach[];
}

/** Stretches that one person drives: a `1` at the index of each, `0` elsewhere. */
export type Driven = string;

/** A stretch of driving and who may do it. */
export interface DrivingStretch {
  readonly vehicle: Id;
  /** Who may drive it, in plan order; never empty. */
  readonly drivers: readonly Id[];
}

/** Stretches of driving and how an assignment is judged. */
export interface ReliefProblem {
  /** In time order. */
  readonly stretches: readonly DrivingStretch[];
  /** Pure, and better for no one who drives more: that is what a bound rests on. */
  verdict(who: Id, driven: Driven): PersonVerdict;
}

/** A driver for each stretch. */
export type Assignment = readonly Id[];

/**
 * The goal, in order: fewest minutes of law broken, fewest of the house's rules, the longest sleep aboard of whoever has
 * the shortest, fewest changes. Plan order decides between equals.
 */
export interface Score {
  readonly lawMinutes: number;
  readonly houseMinutes: number;
  readonly sleepMinutes: number;
  readonly changes: number;
}

/** Negative where `a` is better. */
export function compareScores(a: Score, b: Score): number {
  if (a.lawMinutes !== b.lawMinutes) return a.lawMinutes - b.lawMinutes;
  if (a.houseMinutes !== b.houseMinutes) return a.houseMinutes - b.houseMinutes;
  if (a.sleepMinutes !== b.sleepMinutes) return b.sleepMinutes - a.sleepMinutes;
  return a.changes - b.changes;
}

/** Negative where `a` takes someone earlier in plan order at the first stretch in which they differ. */
export function compareOrder(stretches: readonly DrivingStretch[], a: Assignment, b: Assignment): number {
  for (const [index, { drivers }] of stretches.entries()) {
    const [first, second] = [a[index], b[index]];
    if (first !== second && first !== undefined && second !== undefined)
      return drivers.indexOf(first) - drivers.indexOf(second);
  }
  return 0;
}

/** Everyone who may drive something, in order of appearance. */
export const driversOf = (stretches: readonly DrivingStretch[]): readonly Id[] => [
  ...new Set(stretches.flatMap(({ drivers }) => drivers)),
];

/** How often the wheel changes hands within the vehicles, over the first stretches. */
export function changesIn(stretches: readonly DrivingStretch[], assignment: Assignment): number {
  const last = new Map<Id, Id>();
  let changes = 0;
  for (const [index, driver] of assignment.entries()) {
    const vehicle = stretches[index]?.vehicle;
    if (vehicle === undefined) continue;
    const before = last.get(vehicle);
    if (before !== undefined && before !== driver) changes++;
    last.set(vehicle, driver);
  }
  return changes;
}

/** The stretches someone drives in a whole or partial assignment; those not yet assigned count as not driven. */
export const drivenBy = (problem: ReliefProblem, assignment: Assignment, who: Id): Driven =>
  problem.stretches.map((_, index) => (assignment[index] === who ? "1" : "0")).join("");

/** The score of an assignment; of a partial one a bound that no completion beats. */
export function scoreOf(problem: ReliefProblem, drivers: readonly Id[], assignment: Assignment): Score {
  const verdicts = drivers.map((who) => problem.verdict(who, drivenBy(problem, assignment, who)));
  return {
    lawMinutes: sumOf(verdicts, ({ lawMinutes }) => lawMinutes),
    houseMinutes: sumOf(verdicts, ({ houseMinutes }) => houseMinutes),
    sleepMinutes: Math.min(Number.POSITIVE_INFINITY, ...verdicts.map(({ sleepMinutes }) => sleepMinutes)),
    changes: changesIn(problem.stretches, assignment),
  };
}
