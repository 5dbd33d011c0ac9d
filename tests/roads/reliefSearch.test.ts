/** The search for drivers against brute force and against a mixed-integer program, on limits simple enough for both. */
import type { Highs } from "highs";
import { describe, expect, it } from "vitest";
import type { Id } from "../../src/plan/plan.ts";
import {
  type Assignment,
  compareOrder,
  compareScores,
  type DrivingStretch,
  type ReliefProblem,
  scoreOf,
} from "../../src/roads/relief/problem.ts";
import { bestAssignment } from "../../src/roads/relief/search.ts";
import { runs } from "../fuzz.ts";

const AMPLE = { verdicts: 1e9, nodes: 1e9 };

interface Limits {
  /** At the wheel in all, and in any `span` stretches in a row, counted in stretches. */
  readonly total: number;
  readonly span: number;
  readonly inSpan: number;
}

/** Each stretch is an hour; a person may drive `total` in all and `inSpan` of any `span` in a row. */
function toy(stretches: readonly DrivingStretch[], limits: ReadonlyMap<Id, Limits>): ReliefProblem {
  const verdict: ReliefProblem["verdict"] = (who, driven) => {
    const own = limits.get(who) ?? { total: 99, span: 1, inSpan: 1 };
    const drives = [...driven].map(Number);
    const windows = drives.map((_, at) => drives.slice(at, at + own.span).reduce((a, b) => a + b, 0));
    const all = drives.reduce((a, b) => a + b, 0);
    const lefts = [own.total - all, ...windows.map((used) => own.inSpan - used)].map((left) => left * 60);
    // What is left stands for the third goal: it, too, only gets less by driving more.
    const lawMinutes = lefts.reduce((sum, left) => sum + Math.max(0, -left), 0);
    return { lawMinutes, houseMinutes: 0, sleepMinutes: Math.min(...lefts), breaches: [] };
  };
  return { stretches, verdict };
}

function allAssignments(stretches: readonly DrivingStretch[]): Assignment[] {
  return stretches.reduce<Id[][]>(
    (made, { drivers }) => made.flatMap((some) => drivers.map((who) => [...some, who])),
    [[]],
  );
}

function bruteForce(problem: ReliefProblem, drivers: readonly Id[]) {
  const [first, ...rest] = allAssignments(problem.stretches).map((assignment) => ({
    assignment,
    score: scoreOf(problem, drivers, assignment),
  }));
  if (first === undefined) throw new Error("nothing to assign");
  return rest.reduce((best, own) => {
    const compared =
      compareScores(own.score, best.score) || compareOrder(problem.stretches, own.assignment, best.assignment);
    return compared < 0 ? own : best;
  }, first);
}

const uniform = (seed: number) => {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4294967296;
  };
};

const TEAM = ["wren", "ilse", "tomas", "bea"];

function randomProblem(seed: number, length: number): { problem: ReliefProblem; limits: ReadonlyMap<Id, Limits> } {
  const next = uniform(seed * 104_729);
  const pick = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
  const limits = new Map(TEAM.map((who) => [who, { total: pick(1, length), span: pick(2, 4), inSpan: pick(1, 3) }]));
  const stretches = Array.from({ length }, () => {
    const vehicle = next() < 0.5 ? "truck" : "wagon";
    const able = TEAM.filter(() => next() < 0.55);
    return { vehicle, drivers: able.length === 0 ? ["wren"] : able };
  });
  return { problem: toy(stretches, limits), limits };
}

it.each(Array.from({ length: runs(60, 1500) }, (_, index) => index + 1))(
  "small case %i: as brute force, plan order included",
  (seed) => {
    const { problem } = randomProblem(seed, 3 + (seed % 5));
    const drivers = [...new Set(problem.stretches.flatMap((stretch) => stretch.drivers))];
    const found = bestAssignment(problem, AMPLE);
    const best = bruteForce(problem, drivers);
    expect(found.score).toEqual(best.score);
    expect(found.assignment).toEqual(best.assignment);
    expect(found.proven).toBe(true);
  },
);

describe("the budget", () => {
  it("leaves a bound that the best found does not exceed and the optimum does not beat", () => {
    const { problem } = randomProblem(3, 8);
    const optimum = bestAssignment(problem, AMPLE);
    for (const verdicts of [1, 3, 10, 30, 100]) {
      const found = bestAssignment(problem, { verdicts, nodes: verdicts });
      expect(compareScores(found.score, optimum.score)).toBeGreaterThanOrEqual(0);
      expect(compareScores(found.bound, optimum.score)).toBeLessThanOrEqual(0);
      if (found.proven) expect(found.score).toEqual(optimum.score);
    }
    expect(bestAssignment(problem, { verdicts: 1, nodes: 1 }).proven).toBe(false);
  });
});

/** The package's types describe its CommonJS build; in the module that Node loads the loader is the default itself. */
async function loadHighs(): Promise<Highs> {
  const loader: unknown = (await import("highs")).default;
  if (typeof loader !== "function") throw new Error("the solver package exports no loader");
  return loader();
}

/** The toy limits as a mixed-integer program: first the largest smallest left, then the fewest changes that keep it. */
async function byProgram(problem: ReliefProblem, limits: ReadonlyMap<Id, Limits>) {
  const highs = await loadHighs();
  const { stretches } = problem;
  const x = (at: number, who: Id) => `x_${at}_${who}`;
  const drives = (who: Id, from: number, to: number) =>
    stretches.flatMap(({ drivers }, at) => (at >= from && at < to && drivers.includes(who) ? [x(at, who)] : []));
  const rows: string[] = stretches.map(({ drivers }, at) => `${drivers.map((who) => x(at, who)).join(" + ")} = 1`);
  for (const [who, { total, span, inSpan }] of limits) {
    if (drives(who, 0, stretches.length).length === 0) continue;
    rows.push(`${[...drives(who, 0, stretches.length), "left"].join(" + ")} <= ${total}`);
    for (let at = 0; at < stretches.length; at++)
      rows.push(`${[...drives(who, at, at + span), "left"].join(" + ")} <= ${inSpan}`);
  }
  const changes: string[] = [];
  for (const [at, { vehicle, drivers }] of stretches.entries()) {
    const before = stretches.findLastIndex((stretch, index) => index < at && stretch.vehicle === vehicle);
    if (before < 0) continue;
    changes.push(`c_${at}`);
    for (const who of drivers) {
      const was = stretches[before]?.drivers.includes(who) ? ` - ${x(before, who)}` : "";
      rows.push(`${x(at, who)}${was} - c_${at} <= 0`);
    }
  }
  const binaries = stretches.flatMap(({ drivers }, at) => drivers.map((who) => x(at, who)));
  const text = (goal: string, more: string) =>
    `${goal}\nsubject to\n${[...rows, more]
      .filter((row) => row !== "")
      .map((row, at) => `r${at}: ${row}`)
      .join(
        "\n",
      )}\nbounds\n-99 <= left <= 99\n${changes.map((c) => `0 <= ${c} <= 1`).join("\n")}\nbinary\n${binaries.join(" ")}\nend\n`;
  const left = Math.round(highs.solve(text("maximize\nobj: left", "")).ObjectiveValue);
  if (changes.length === 0) return { left, changes: 0 };
  const fewest = highs.solve(text(`minimize\nobj: ${changes.join(" + ")}`, `left >= ${left}`));
  return { left, changes: Math.round(fewest.ObjectiveValue) };
}

it.each(Array.from({ length: runs(4, 40) }, (_, index) => index + 1))(
  "larger case %i: as a mixed-integer program",
  async (seed) => {
    const length = 14;
    const next = uniform(seed * 31_337);
    const limits = new Map(TEAM.map((who) => [who, { total: 5 + Math.floor(next() * 4), span: 4, inSpan: 3 }]));
    const stretches = Array.from({ length }, (_, at) =>
      at % 2 === 0 ? { vehicle: "truck", drivers: ["tomas", "bea"] } : { vehicle: "wagon", drivers: ["wren", "ilse"] },
    );
    const problem = toy(stretches, limits);
    const found = bestAssignment(problem, AMPLE);
    const program = await byProgram(problem, limits);
    expect(found.score.lawMinutes).toBe(0);
    expect(found.score.sleepMinutes).toBe(program.left * 60);
    expect(found.score.changes).toBe(program.changes);
  },
);
