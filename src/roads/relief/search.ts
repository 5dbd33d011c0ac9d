/**
 * The best assignment of drivers: patterns and small improvements first, then branch and bound over the whole finite set.
 *
 * A partial assignment is judged as if everyone only rode from there on; since no one's hours get better by driving more,
 * that bounds all its completions. Work is counted in verdicts asked for, so every machine stops at the same point.
 */
import type { Id } from "../../plan/plan.ts";
import {
  type Assignment,
  compareOrder,
  compareScores,
  type Driven,
  driversOf,
  type PersonVerdict,
  type ReliefProblem,
  type Score,
  scoreOf,
} from "./problem.ts";

/** The best assignment found, and whether it is proved best. */
export interface Found {
  readonly assignment: Assignment;
  readonly score: Score;
  /** True where the whole set has been searched or ruled out. */
  readonly proven: boolean;
  /** What no assignment beats; the score itself where proven. */
  readonly bound: Score;
}

/** How many verdicts and nodes may still be used. */
export interface Budget {
  /** Verdicts on one person's hours, of a usual number of stretches; where there are more, each verdict takes longer and counts for more. */
  readonly verdicts: number;
  /** Partial assignments looked at. */
  readonly nodes: number;
}

interface Search {
  readonly problem: ReliefProblem;
  readonly drivers: readonly Id[];
  readonly spent: { verdicts: number; nodes: number };
  readonly budget: Budget;
  best: { assignment: Assignment; score: Score } | null;
}

/** Stretches that a verdict judges for one unit of the budget. */
export const USUAL_STRETCHES = 16;

/** The problem with every verdict asked for once and counted. */
function counted(problem: ReliefProblem, spent: { verdicts: number }): ReliefProblem {
  const known = new Map<string, PersonVerdict>();
  const units = Math.ceil(problem.stretches.length / USUAL_STRETCHES);
  const verdict = (who: Id, driven: Driven): PersonVerdict => {
    const key = `${driven} ${who}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    spent.verdicts += units;
    const made = problem.verdict(who, driven);
    known.set(key, made);
    return made;
  };
  return { ...problem, verdict };
}

const isSpent = ({ spent, budget }: Search): boolean =>
  spent.verdicts >= budget.verdicts || spent.nodes >= budget.nodes;

/** Keeps an assignment that is better, or as good and earlier in plan order. */
function offer(search: Search, assignment: Assignment): boolean {
  const score = scoreOf(search.problem, search.drivers, assignment);
  const { best, problem } = search;
  const better =
    best === null ||
    compareScores(score, best.score) < 0 ||
    (compareScores(score, best.score) === 0 && compareOrder(problem.stretches, assignment, best.assignment) < 0);
  if (better) search.best = { assignment: [...assignment], score };
  return better;
}

/** Everyone in turn for blocks of the same number of stretches, from every possible start: the longest blocks first. */
function tryPatterns(search: Search): void {
  const { stretches } = search.problem;
  const blocks = new Set(stretches.map((_, at) => Math.ceil(stretches.length / (at + 1))));
  for (let block = stretches.length; block > 0; block--) blocks.add(block);
  for (const block of blocks) {
    for (let first = 0; first < search.drivers.length; first++) {
      if (isSpent(search) && search.best !== null) return;
      const driven = new Map<Id, number>();
      offer(
        search,
        stretches.map(({ vehicle, drivers }) => {
          const at = driven.get(vehicle) ?? 0;
          driven.set(vehicle, at + 1);
          return drivers[(first + Math.floor(at / block)) % drivers.length] ?? "";
        }),
      );
    }
  }
}

/** Hands the wheel on as late as hours allow, to whoever then has slept longest. */
function tryGreedy(search: Search): void {
  const { problem, drivers } = search;
  const assignment: Id[] = [];
  for (const { drivers: able, vehicle } of problem.stretches) {
    if (isSpent(search) && search.best !== null) return;
    const last = problem.stretches.findLastIndex(
      (stretch, index) => index < assignment.length && stretch.vehicle === vehicle,
    );
    const current = assignment[last];
    const options = able.map((who) => ({ who, score: scoreOf(problem, drivers, [...assignment, who]) }));
    const rank = (option: (typeof options)[number]): number => (option.who === current ? 0 : 1);
    options.sort(
      (a, b) =>
        a.score.lawMinutes - b.score.lawMinutes ||
        a.score.houseMinutes - b.score.houseMinutes ||
        rank(a) - rank(b) ||
        b.score.sleepMinutes - a.score.sleepMinutes,
    );
    assignment.push(options[0]?.who ?? "");
  }
  offer(search, assignment);
}

/** Changes one block of stretches at a time for as long as that helps. */
function improve(search: Search): void {
  const { stretches } = search.problem;
  for (let improved = true; improved; ) {
    improved = false;
    for (let length = 1; length <= 4; length++) {
      for (let from = 0; from + length <= stretches.length; from++) {
        if (isSpent(search) || search.best === null) return;
        for (const who of stretches[from]?.drivers ?? []) {
          const changed = search.best.assignment.map((driver, index) =>
            index >= from && index < from + length && stretches[index]?.drivers.includes(who) ? who : driver,
          );
          if (offer(search, changed)) improved = true;
        }
      }
    }
  }
}

/** True where no completion of a partial assignment can beat the best. */
function isHopeless({ best, problem }: Search, partial: Assignment, bound: Score): boolean {
  if (best === null) return false;
  const compared = compareScores(bound, best.score);
  return compared > 0 || (compared === 0 && compareOrder(problem.stretches, partial, best.assignment) > 0);
}

/** The better of two bounds of what is left unsearched. */
const looser = (a: Score | null, b: Score): Score => (a === null || compareScores(b, a) < 0 ? b : a);

/** Searches below a partial assignment; gives the loosest bound of what the budget left unsearched, null for nothing. */
function descend(search: Search, partial: Id[], bound: Score): Score | null {
  const stretch = search.problem.stretches[partial.length];
  if (stretch === undefined) {
    offer(search, partial);
    return null;
  }
  let open: Score | null = null;
  const children = stretch.drivers.map((who) => {
    if (isSpent(search)) return { who, score: bound };
    search.spent.nodes++;
    return { who, score: scoreOf(search.problem, search.drivers, [...partial, who]) };
  });
  children.sort((a, b) => compareScores(a.score, b.score));
  for (const { who, score } of children) {
    const next = [...partial, who];
    if (isHopeless(search, next, score)) continue;
    if (isSpent(search)) open = looser(open, score);
    else {
      const below = descend(search, next, score);
      if (below !== null) open = looser(open, below);
    }
  }
  return open;
}

/** The best assignment within the budget; never worse than any of `known`. */
export function bestAssignment(problem: ReliefProblem, budget: Budget, known: readonly Assignment[] = []): Found {
  const spent = { verdicts: 0, nodes: 0 };
  const search: Search = {
    problem: counted(problem, spent),
    drivers: driversOf(problem.stretches),
    spent,
    budget,
    best: null,
  };
  for (const assignment of known) offer(search, assignment);
  tryPatterns(search);
  tryGreedy(search);
  improve(search);
  const root = scoreOf(search.problem, search.drivers, []);
  const open = descend(search, [], root);
  const best = search.best ?? { assignment: [], score: root };
  return { ...best, proven: open === null, bound: open === null ? best.score : looser(best.score, open) };
}
