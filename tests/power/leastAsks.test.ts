/** What any rotation needs at least, by hand and against every joint state of small days. */
import { expect, it } from "vitest";
import { leastAsks } from "../../src/power/fast/leastAsks.ts";
import type { Model } from "../../src/power/model.ts";
import { caseOf } from "../../src/power/question.ts";
import { randomModel, TINY } from "./days.ts";
import { truth } from "./oracle.ts";
import { packOf, smallDay, touchOf, useOf } from "./small.ts";

/** Two uses of one hour at 40 W on one load, touches before, between and after, two packs of 60 Wh with a reserve of 9. */
const day = (at: string, wh = 60): Model =>
  smallDay(400, {
    touches: [50, 180, 350].map((minute) => touchOf(minute)),
    packs: [
      packOf("first", { wh, startWh: wh, reserveWh: 9, at }),
      packOf("second", { wh, startWh: wh, reserveWh: 9 }),
    ],
    demands: [useOf(100, 160, 40), useOf(200, 260, 40)],
  });

const least = (model: Model, marginWh: number) => {
  const { board, wanted } = caseOf(model, model.demands);
  return leastAsks(board, wanted, marginWh);
};

// 60 - 9 = 51 Wh serve one use of 40 Wh and not two: a pack before the first, another between them.
it("counts a swap wherever one pack cannot last", () => {
  expect(least(day("van"), 0)).toEqual({ chores: 2, moves: 2 });
  expect(least(day("lamp"), 0)).toEqual({ chores: 1, moves: 1 });
});

// 100 - 9 = 91 Wh serve both (80 Wh) with 11 left, not with 12.
it("counts none where one pack lasts, with the margin that is asked", () => {
  expect(least(day("lamp", 100), 11)).toEqual({ chores: 0, moves: 0 });
  expect(least(day("lamp", 100), 12)).toEqual({ chores: 1, moves: 1 });
});

it.each([0, 1, 2])("is never more than the fewest moves of any rotation of a small day (block %i)", (block) => {
  let judged = 0;
  for (let seed = 1 + 100 * block; seed <= 100 + 100 * block; seed++) {
    const model = randomModel(seed, TINY);
    const best = truth(model, 3000);
    if (best === null || best.margin === null || best.covered.length === 0) continue;
    const demands = model.demands.filter(({ id }) => best.covered.includes(id));
    const { board, wanted } = caseOf(model, demands);
    const { chores, moves } = leastAsks(board, wanted, Math.min(best.margin, model.enoughWh) - model.grainWh);
    expect(moves, `day ${seed}`).toBeLessThanOrEqual(best.moves);
    expect(chores, `day ${seed}`).toBeLessThanOrEqual(best.moves);
    judged++;
  }
  expect(judged).toBeGreaterThan(50);
});
