/**
 * Proposes who drives which stretch of every leg: no breach, then the largest smallest time left over people and binding
 * limits, then the fewest changes, then plan order.
 *
 * Exact over the finite choice (stops, and every so many planned minutes in a leg) within a counted budget, else the best
 * found with its bound; where every assignment breaks a limit, the one with the fewest breach minutes and what it breaks.
 */
import type { Day, Move } from "../../day/day.ts";
import type { PlanPath } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/units.ts";
import type { Breach, PersonVerdict, Problem, Score } from "./problem.ts";
import { driversOf } from "./problem.ts";
import { dayFor, dayWith, spansWith } from "./rewrite.ts";
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
  verdict: (who, driven) => judge(dayFor(day, who, spansWith(day, who, stretches, driven)), who),
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

/** The plan's words for one leg: who starts, who takes over after how long, who may sleep. */
function editsOf(before: Move, after: Move, path: PlanPath): readonly ReliefEdit[] {
  let driven = 0;
  const relieve = after.wheel.flatMap(({ from, to, driver }, index) => {
    const at = driven;
    driven += to - from;
    const isChange = index > 0 && after.wheel[index - 1]?.driver !== driver;
    return isChange ? [{ after: `${at} min`, driver }] : [];
  });
  const hadRelief = before.wheel.some(({ driver }) => driver !== before.driver);
  return [
    { path: [...path, "driver"], value: after.driver },
    ...(relieve.length > 0 || hadRelief ? [{ path: [...path, "relieve"], value: relieve }] : []),
    ...(after.asleep.length > 0 || before.asleep.length > 0
      ? [{ path: [...path, "asleep"], value: after.asleep }]
      : []),
  ];
}

const sameLeg = (a: Move, b: Move): boolean =>
  a.driver === b.driver && JSON.stringify([a.wheel, a.asleep]) === JSON.stringify([b.wheel, b.asleep]);

/** Edits for every leg of each vehicle in which anything changes: what holds from one stop on holds for the next too. */
function allEdits(day: Day, after: Day): readonly ReliefEdit[] {
  const pairs = day.moves.flatMap((move, index) => {
    const made = after.moves[index];
    return made === undefined ? [] : [{ move, made }];
  });
  const touched = new Set(pairs.filter(({ move, made }) => !sameLeg(move, made)).map(({ move }) => move.vehicle));
  return pairs.flatMap(({ move, made }) => {
    const stop = day.stops.find((own) => own.stop.id === move.id)?.stop;
    return stop === undefined || !touched.has(move.vehicle) ? [] : editsOf(move, made, stop.path);
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
    changes: scores.reduce((sum, { changes }) => sum + changes, 0),
    leftMinutes: finite(Math.min(...scores.map(({ leftMinutes }) => leftMinutes))),
    boundMinutes: finite(Math.min(...found.map(({ bound }) => bound.leftMinutes))),
    breachMinutes: scores.reduce((sum, { breachMinutes }) => sum + breachMinutes, 0),
    breaches: verdicts.flatMap(({ breaches }) => breaches),
    edits: allEdits(day, after),
    day: after,
  };
}
