/** How much the search looks at on fixed days, counted: what is cut off for nothing worth looking at must stay cut off. */
import { expect, it } from "vitest";
import { firstAlike } from "../../src/power/fast/alike.ts";
import { coverAll, withFewerMoves, withMoreMargin } from "../../src/power/fast/fast.ts";
import { Paths } from "../../src/power/fast/paths.ts";
import { randomFrom } from "../../src/power/fast/random.ts";
import { marginOf } from "../../src/power/fast/seats.ts";
import { solveMaster } from "../../src/power/proof/columnGeneration.ts";
import { loadSolver } from "../../src/power/proof/solver.ts";
import { type Case, caseOf } from "../../src/power/question.ts";
import { DAY, dice, randomModel } from "./days.ts";

/** Days of three to eight packs and up to 24 touches, asked for all that is wanted. */
const cases = (): readonly Case[] =>
  Array.from({ length: 12 }, (_, n) => {
    const model = randomModel(n + 1, { ...DAY, easy: true });
    return caseOf(model, model.demands);
  });

// The limits are what the search took when these tests were written, 5,703 labels in the first, and about a twentieth more: a demand
// on what it costs, not on what it finds.
it("of ways of one pack with random prices", () => {
  let labels = 0;
  for (const { board, wanted } of cases()) {
    const roll = dice(board.spans);
    const size = board.spots.length * board.spans;
    for (const pack of board.model.packs.keys()) {
      const paths = new Paths(board, wanted);
      const gain = new Float64Array(size).map(() => roll(-2, 2) * 100);
      for (const at of wanted.needs) {
        const [place, k] = [Math.floor(at / board.spans), at % board.spans];
        gain[(board.firstSpot[place] ?? 0) * board.spans + k] = 1000 * roll(0, 3);
      }
      const moveCost = new Float64Array(board.spans).fill(50);
      paths.best({ pack, marginWh: 0, open: new Uint8Array(size).fill(1), gain, moveCost });
      labels += paths.desk.size;
    }
  }
  expect(labels).toBeLessThanOrEqual(6000);
});

it("of packs put back until all is covered, with fewer moves, with more margin", () => {
  let [cover, fewer, more] = [0, 0, 0];
  for (const one of cases()) {
    const { paths } = one;
    const query = { paths, marginWh: 0, random: randomFrom(5), rounds: 12 };
    const found = coverAll(query);
    cover += paths.desk.work;
    if (found === null) continue;
    let before = paths.desk.work;
    withFewerMoves(query, found);
    fewer += paths.desk.work - before;
    before = paths.desk.work;
    withMoreMargin({ ...query, marginWh: marginOf(found) + 5 }, found);
    more += paths.desk.work - before;
  }
  expect(cover).toBeLessThanOrEqual(26_500);
  expect(fewer).toBeLessThanOrEqual(35_000);
  expect(more).toBeLessThanOrEqual(16_000);
});

it("of the linear program", async () => {
  const openLp = await loadSolver();
  let [rounds, work] = [0, 0];
  for (const one of cases().slice(0, 6)) {
    const { desk } = one.paths;
    const before = desk.work;
    const budget = { rounds: 60, until: before + 1e7 };
    const fixed = one.board.model.packs.map(() => null);
    const alike = firstAlike(one.board.model);
    const query = {
      paths: one.paths,
      marginWh: 0,
      openLp,
      alike,
      fixed,
      budget,
      enoughMoves: Number.POSITIVE_INFINITY,
    };
    solveMaster({ ...query, moveCost: 1, pool: [] });
    rounds += 60 - budget.rounds;
    work += desk.work - before;
  }
  expect(rounds).toBeLessThanOrEqual(95);
  expect(work).toBeLessThanOrEqual(360_000);
});
