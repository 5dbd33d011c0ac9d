/**
 * Proposes who drives which stretch of every leg: no breach, then the largest smallest time left over people and binding
 * limits, then the fewest changes, then plan order.
 *
 * Exact over the finite choice (stops, and every so many planned minutes in a leg) within a counted budget, else the best
 * found with its bound; where every assignment breaks a limit, the one with the fewest breach minutes and what it breaks.
 */

import type { Day, Move } from "../../day/day.ts";
import type { PlanPath } from "../../findings/finding.ts";
import { sumOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/units.ts";
import type { Breach, PersonVerdict, Problem, Score } from "./problem.ts";
import { driversOf } from "./problem.ts";
import { dayFor, dayWith } from "./rewrite.ts";
import { type Budget, bestAssignment, type Found } from "./search.ts";
import { type DayStretch, groupsOf, stretchesOf } from "./stretches.ts";

/** Judges the hours of one person of a day. Pure. */
export type HoursJudge = (day: Day, who: Id) => PersonVerdict;

export interface ReliefOptions {
  /** Drivers may change at stops and at every multiple of this many planned minutes of a leg. */
  readonly everyMinutes: number;
  /** Multiplies the counted budget. */
  readonly patience: number;
  /** What has begun before this stays as it is. */
  readonly now: Instant | null;
  readonly judge: HoursJudge;
}

/** One leg as proposed; `wheel` tiles its driving. */
export interface ReliefLeg {
  readonly move: Move;
  readonly wheel: Move["wheel"];
  readonly asleep: readonly Id[];
}

/** A value to put into the plan. */
export interface ReliefEdit {
  readonly path: PlanPath;
  readonly value: string | readonly string[] | readonly { readonly after: string; readonly driver: string }[];
}

export interface ReliefProposal {
  /** `exact`: nothing is better. `best-found`: the budget ran out. `impossible`: every assignment breaks a limit. */
  readonly status: "exact" | "best-found" | "impossible";
  readonly legs: readonly ReliefLeg[];
  readonly changes: number;
  /** The smallest time left over people and binding limits; null where no limit binds. */
  readonly leftMinutes: number | null;
  /** What no assignment can exceed; equals `leftMinutes` where proven. */
  readonly boundMinutes: number | null;
  readonly breachMinutes: number;
  readonly breaches: readonly Breach[];
  readonly edits: readonly ReliefEdit[];
  /** The day as it would be. */
  readonly day: Day;
}

/** Two hours, as the house rule for a break at the wheel. */
export const EVERY_MINUTES = 120;

/** One group of vehicles within one unit of patience. */
const BUDGET: Budget = { verdicts: 3000, nodes: 60_000 };

const problemOf = (day: Day, stretches: readonly DayStretch[], judge: HoursJudge): Problem => ({
  stretches,
  verdict: (who, driven) => judge(dayFor(day, who, stretches, driven), who),
});

interface GroupFound extends Found {
  readonly stretches: readonly DayStretch[];
}

/** Every group at its best; then those that have more left than the tightest one spend it on fewer changes. */
function solve(
  problems: readonly { readonly problem: Problem; readonly stretches: readonly DayStretch[] }[],
  budget: Budget,
): readonly GroupFound[] {
  const first = problems.map(({ problem, stretches }) => ({ ...bestAssignment(problem, budget), stretches }));
  const enough = Math.min(...first.map(({ score }) => score.leftMinutes));
  return first.map((found, index): GroupFound => {
    const problem = problems[index]?.problem;
    if (problem === undefined || found.score.leftMinutes <= enough || found.score.changes === 0) return found;
    return { ...bestAssignment(problem, budget, enough), stretches: found.stretches };
  });
}

const finite = (minutes: number): number | null => (Number.isFinite(minutes) ? minutes : null);

function statusOf(found: readonly Found[]): ReliefProposal["status"] {
  if (found.some(({ proven, score }) => proven && score.breachMinutes > 0)) return "impossible";
  return found.every(({ proven }) => proven) ? "exact" : "best-found";
}

/** Changes at the wheel in the plan's words, `after` planned minutes into the leg. */
function relieveOf({ wheel }: Move): readonly { readonly after: string; readonly driver: Id }[] {
  let driven = 0;
  return wheel.flatMap(({ from, to, driver }, index) => {
    const at = driven;
    driven += to - from;
    return index > 0 && wheel[index - 1]?.driver !== driver ? [{ after: `${at} min`, driver }] : [];
  });
}

interface Stated {
  readonly relieve: boolean;
  readonly asleep: boolean;
}

/** One leg in the plan's words. What a stop states holds for later legs too, so each states its own. */
function editsOf(after: Move, path: PlanPath, stated: Stated): readonly ReliefEdit[] {
  const relieve = relieveOf(after);
  // Nothing else cancels the relief of the leg before: the driver takes over from themselves.
  const own = relieve.length > 0 ? relieve : [{ after: "0 min", driver: after.driver }];
  return [
    { path: [...path, "driver"], value: after.driver },
    ...(stated.relieve ? [{ path: [...path, "relieve"], value: own }] : []),
    ...(stated.asleep ? [{ path: [...path, "asleep"], value: after.asleep }] : []),
  ];
}

const sameLeg = (a: Move, b: Move): boolean =>
  a.driver === b.driver && JSON.stringify([a.wheel, a.asleep]) === JSON.stringify([b.wheel, b.asleep]);

/** Edits for every leg of each vehicle in which anything changes. */
function allEdits(day: Day, after: Day): readonly ReliefEdit[] {
  return [...day.plan.runs.keys()].flatMap((vehicle) => {
    const [was, is] = [day, after].map(({ moves }) => moves.filter((move) => move.vehicle === vehicle));
    if (was === undefined || is === undefined || was.every((move, index) => sameLeg(move, is[index] ?? move)))
      return [];
    const both = [...was, ...is];
    const stated = {
      relieve: both.some((move) => move.wheel.some(({ driver }) => driver !== move.driver)),
      asleep: both.some((move) => move.asleep.length > 0),
    };
    return is.flatMap((move) => {
      const stop = day.stops.find((own) => own.stop.id === move.id)?.stop;
      return stop === undefined ? [] : editsOf(move, stop.path, stated);
    });
  });
}

/** Proposes drivers for all legs of a day on which anybody has a choice; null where nobody has. */
export function proposeRelief(day: Day, options: ReliefOptions): ReliefProposal | null {
  const stretches = stretchesOf(day, options.everyMinutes, options.now);
  const groups = groupsOf(stretches).filter((group) => group.some(({ drivers }) => drivers.length > 1));
  if (groups.length === 0) return null;
  const budget = { verdicts: BUDGET.verdicts * options.patience, nodes: BUDGET.nodes * options.patience };
  const found = solve(
    groups.map((group) => ({ stretches: group, problem: problemOf(day, group, options.judge) })),
    budget,
  );
  const after = found.reduce((made, { stretches: group, assignment }) => dayWith(made, group, assignment), day);
  const verdicts = found.flatMap(({ stretches: group }) => driversOf(group).map((who) => options.judge(after, who)));
  const scores: readonly Score[] = found.map(({ score }) => score);
  return {
    status: statusOf(found),
    legs: after.moves.map((move) => ({ move, wheel: move.wheel, asleep: move.asleep })),
    changes: sumOf(scores, ({ changes }) => changes),
    leftMinutes: finite(Math.min(...scores.map(({ leftMinutes }) => leftMinutes))),
    boundMinutes: finite(Math.min(...found.map(({ bound }) => bound.leftMinutes))),
    breachMinutes: sumOf(scores, ({ breachMinutes }) => breachMinutes),
    breaches: verdicts.flatMap(({ breaches }) => breaches),
    edits: allEdits(day, after),
    day: after,
  };
}
