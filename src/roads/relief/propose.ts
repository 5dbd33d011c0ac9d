/**
 * Proposes who drives which stretch of every leg: fewest minutes of law broken, then of the house's rules, then the
 * longest sleep aboard of whoever sleeps least, then the fewest changes, then plan order.
 *
 * Exact over the finite choice (stops, and every so many planned minutes in a leg) within a counted budget, else the best
 * found. What is broken whoever drives is listed apart and not summed.
 */

import type { Day, Move } from "../../day/day.ts";
import type { PlanPath } from "../../findings/finding.ts";
import { leastOf, sumOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/units.ts";
import type { Assignment, PersonVerdict, ReliefBreach, ReliefProblem } from "./problem.ts";
import { driversOf } from "./problem.ts";
import { dayFor, dayWith } from "./rewrite.ts";
import { type Budget, bestAssignment, type Found, USUAL_STRETCHES } from "./search.ts";
import { type DayStretch, drivingStretches, groupsOf } from "./stretches.ts";
import { beyond, personVerdict } from "./verdict.ts";

/** Judges the hours of one person of a day. Pure. */
export interface HoursJudge {
  judge(day: Day, who: Id): PersonVerdict;
  /** The least that any limit leaves at the end of any of their drives; null where none binds. */
  leastLeft(day: Day, who: Id): number | null;
}

/** How often drivers may change (minutes), and how long to search. */
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

/** Proposed drivers and what they cost. */
export interface ReliefProposal {
  /** `exact`: nothing is better. `best-found`: the budget ran out. `impossible`: every assignment breaks a law. */
  readonly status: "exact" | "best-found" | "impossible";
  readonly legs: readonly ReliefLeg[];
  readonly changes: number;
  /** The least time that a limit leaves anybody over the whole day; null where no limit binds. */
  readonly leftMinutes: number | null;
  /** The same where the proposal is proved to be the best, else null. */
  readonly boundMinutes: number | null;
  /** Minutes of law and of house rules that are broken and that drivers could change; their sum is the third. */
  readonly lawMinutes: number;
  readonly houseMinutes: number;
  readonly breachMinutes: number;
  /** The longest sleep aboard of whoever of the drivers has the shortest; null where no one has a berth. */
  readonly sleepMinutes: number | null;
  readonly breaches: readonly ReliefBreach[];
  /** What is broken whoever drives. */
  readonly unavoidable: readonly ReliefBreach[];
  readonly edits: readonly ReliefEdit[];
  /** The day as it would be. */
  readonly day: Day;
}

/** Two hours, as the house rule for a break at the wheel. */
export const RELIEF_EVERY_MINUTES = 120;

/** One group of vehicles within one unit of patience. */
const BUDGET: Budget = { verdicts: 3000, nodes: 60_000 };

interface Group {
  readonly stretches: readonly DayStretch[];
  readonly problem: ReliefProblem;
  /** What their drivers break if others drive everything. */
  readonly unavoidable: readonly ReliefBreach[];
}

/** A choice of drivers, judged by what each breaks beyond what they break without driving at all. */
function groupOf(day: Day, stretches: readonly DayStretch[], { judge }: HoursJudge): Group {
  const none = "0".repeat(stretches.length);
  const free = new Map(driversOf(stretches).map((who) => [who, judge(dayFor(day, who, stretches, none), who)]));
  const problem: ReliefProblem = {
    stretches,
    verdict(who, driven) {
      const base = free.get(who);
      const found = driven === none && base !== undefined ? base : judge(dayFor(day, who, stretches, driven), who);
      // Whoever cannot sleep aboard even as a passenger does not count.
      const sleep = (base?.sleepMinutes ?? 0) > 0 ? found.sleepMinutes : Number.POSITIVE_INFINITY;
      return personVerdict(beyond(found.breaches, base?.breaches ?? []), sleep);
    },
  };
  return { stretches, problem, unavoidable: [...free.values()].flatMap(({ breaches }) => breaches) };
}

const finite = (minutes: number): number | null => (Number.isFinite(minutes) ? minutes : null);

function statusOf(found: readonly Found[]): ReliefProposal["status"] {
  if (found.some(({ proven, score }) => proven && score.lawMinutes > 0)) return "impossible";
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

/** Proposes drivers for all legs of a day on which anybody has a choice; null where no one has. */
export function proposeRelief(day: Day, options: ReliefOptions): ReliefProposal | null {
  const stretches = drivingStretches(day, options.everyMinutes, options.now);
  const groups = groupsOf(stretches)
    .filter((group) => group.some(({ drivers }) => drivers.length > 1))
    .map((group) => groupOf(day, group, options.judge));
  if (groups.length === 0) return null;
  const found = groups.map((group) => ({ ...bestIn(day, group, options), group }));
  const after = found.reduce((made, { group, assignment }) => dayWith(made, group.stretches, assignment), day);
  const drivers = [...new Set(groups.flatMap(({ stretches: own }) => driversOf(own)))];
  const unavoidable = groups.flatMap((group) => group.unavoidable);
  const breaches = drivers.flatMap((who) => beyond(options.judge.judge(after, who).breaches, unavoidable));
  const [lawMinutes, houseMinutes] = [true, false].map((law) =>
    sumOf(breaches, (breach) => (breach.law === law ? breach.minutes : 0)),
  );
  const status = statusOf(found);
  const leftMinutes = leastOf(drivers.flatMap((who) => options.judge.leastLeft(after, who) ?? []));
  return {
    status,
    legs: after.moves.map((move) => ({ move, wheel: move.wheel, asleep: move.asleep })),
    changes: sumOf(found, ({ score }) => score.changes),
    leftMinutes,
    boundMinutes: status === "best-found" ? null : leftMinutes,
    lawMinutes: lawMinutes ?? 0,
    houseMinutes: houseMinutes ?? 0,
    breachMinutes: (lawMinutes ?? 0) + (houseMinutes ?? 0),
    sleepMinutes: finite(Math.min(...found.map(({ score }) => score.sleepMinutes))),
    breaches,
    unavoidable,
    edits: allEdits(day, after),
    day: after,
  };
}

/** The best drivers of a group; where there are many stretches, what the usual ones lead to is tried first. */
function bestIn(day: Day, group: Group, options: ReliefOptions): Found {
  const { stretches } = group;
  const whole = { verdicts: BUDGET.verdicts * options.patience, nodes: BUDGET.nodes * options.patience };
  if (stretches.length <= USUAL_STRETCHES) return bestAssignment(group.problem, whole, plannedIn(stretches));
  const half = { verdicts: whole.verdicts / 2, nodes: whole.nodes / 2 };
  const vehicles = new Set(stretches.map(({ vehicle }) => vehicle));
  const usual = drivingStretches(day, RELIEF_EVERY_MINUTES, options.now).filter(({ vehicle }) => vehicles.has(vehicle));
  const { assignment } = bestAssignment(groupOf(day, usual, options.judge).problem, half, plannedIn(usual));
  const from = stretches.map((stretch): Id => {
    const at = usual.findIndex(
      ({ move, from: start, to }) => move === stretch.move && start <= stretch.from && stretch.from < to,
    );
    const driver = assignment[at] ?? "";
    return stretch.drivers.includes(driver) ? driver : (stretch.drivers[0] ?? "");
  });
  return bestAssignment(group.problem, half, [...plannedIn(stretches), from]);
}

/** The plan's own drivers, where each may drive: no proposal is worse. */
function plannedIn(stretches: readonly DayStretch[]): readonly Assignment[] {
  const planned = stretches.map((stretch) => stretch.planned);
  return stretches.every(({ drivers }, index) => drivers.includes(planned[index] ?? "")) ? [planned] : [];
}
