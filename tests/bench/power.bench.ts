/**
 * The batteries of random days: what the fast way settles alone against the solver on the same days of the same run. The share
 * settled stands in the first name: covered for certain and the margin proved best, without the solver.
 */

import { coverRounds } from "../../src/power/fast/effort.ts";
import type { Model } from "../../src/power/model.ts";
import { solve } from "../../src/power/proof/solve.ts";
import { ask, askExactly, askFast, caseOf, SAME_WH } from "../../src/power/question.ts";
import { DAY, randomModel } from "../power/days.ts";
import type { Bench } from "./bench.ts";

const EFFORT = { patience: 1 } as const;

/** Days of three to eight packs; `enough` as the house rule has it. */
const random: readonly Model[] = Array.from({ length: 60 }, (_, seed) => ({
  ...randomModel(seed + 1, { ...DAY, easy: true }),
  enoughWh: 15,
}));

/** Those that can be covered at all: by the fast way, or else by the solver. */
const days: Model[] = [];
for (const model of random) if ((await ask(caseOf(model, model.demands), 0, EFFORT)).kind === "yes") days.push(model);

/** Asks for the best margin there can be: the ceiling, or as much as is sought. */
function settle(model: Model): boolean {
  const one = caseOf(model, model.demands);
  return askFast(one, Math.min(one.ceilingWh, model.enoughWh) - SAME_WH, coverRounds(EFFORT)).kind === "yes";
}

const settled = days.filter(settle);
const share = Math.round((100 * settled.length) / Math.max(1, days.length));

/** The first of them, with what each goal is asked of: the search as it is used, and with the solver's proof. */
const few = days.slice(0, 10);
const eachCase = few.map((model) => caseOf(model, model.demands));

interface Goal {
  readonly name: string;
  readonly search: () => unknown;
  readonly exact: () => Promise<unknown>;
}

async function inTurn<T>(all: readonly T[], work: (one: T) => Promise<unknown>): Promise<unknown[]> {
  const results: unknown[] = [];
  for (const one of all) results.push(await work(one));
  return results;
}

const goals: readonly Goal[] = [
  {
    name: "coverage",
    search: () => eachCase.map((one) => askFast(one, 0, coverRounds(EFFORT)).kind),
    exact: () => inTurn(eachCase, (one) => askExactly(one, 0, EFFORT)),
  },
  {
    name: "margin",
    search: () => few.map(settle),
    exact: () => inTurn(eachCase, (one) => askExactly(one, Math.min(one.ceilingWh, 15) - SAME_WH, EFFORT)),
  },
  {
    name: "chores and moves",
    search: () => inTurn(few, (model) => solve(model, EFFORT)),
    exact: () => inTurn(few, (model) => solve(model, { patience: 2 })),
  },
];

/** How many times as long the solver takes, measured once. */
async function ratioOf({ search, exact }: Goal): Promise<string> {
  const begin = performance.now();
  await search();
  const middle = performance.now();
  await exact();
  return ((performance.now() - middle) / Math.max(0.01, middle - begin)).toFixed(1);
}

const byGoal: Bench[] = [];
for (const goal of goals) {
  const times = await ratioOf(goal);
  byGoal.push({
    name: `${goal.name} by the search (the solver takes ${times} times as long), a day`,
    units: few.length,
    run: goal.search,
  });
}

export const benches: readonly Bench[] = [
  ...byGoal,
  {
    name: `rotations by the fast way, which settles ${share} % of ${days.length} coverable days (of ${random.length}) alone, a day`,
    units: days.length,
    run: () => days.map(settle),
  },
  {
    name: "the same days asked of the solver, a day",
    units: days.length,
    run: async () => {
      const answers: string[] = [];
      for (const model of days) {
        const one = caseOf(model, model.demands);
        answers.push((await askExactly(one, Math.min(one.ceilingWh, model.enoughWh) - SAME_WH, EFFORT)).kind);
      }
      return answers;
    },
  },
];
