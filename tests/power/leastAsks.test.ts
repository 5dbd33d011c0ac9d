/** What any rotation needs at least, by hand and against every joint state of small days. */
import { expect, it } from "vitest";
import { leastAsks } from "../../src/power/fast/leastAsks.ts";
import type { Model } from "../../src/power/model.ts";
import { caseOf } from "../../src/power/question.ts";
import { instant } from "../../src/time/units.ts";
import { randomModel, TINY } from "./days.ts";
import { truth } from "./oracle.ts";

/** Two uses of one hour at 40 W on one load, touches before, between and after, two packs of 60 Wh with a reserve of 9. */
function day(at: string, wh = 60): Model {
  const pack = (id: string, place: string) => ({ id, mount: "v", wh, startWh: wh, reserveWh: 9, at: place });
  const use = (id: string, from: number) => ({
    ...{ id, kind: "firm" as const, from: instant(from), to: instant(from + 60) },
    watts: new Map([["lamp", 40]]),
  });
  return {
    ...{ from: instant(0), to: instant(400), bays: ["van"], grainWh: 1, swapMinutes: 0, enoughWh: 0 },
    touches: [50, 180, 350].map((minute) => ({ id: `at${minute}`, at: instant(minute), reach: ["van"] })),
    packs: [pack("first", at), pack("second", "van")],
    chargers: [],
    loads: [{ id: "lamp", mount: "v", bay: [{ from: instant(0), bay: "van" }] }],
    demands: [use("one", 100), use("two", 200)],
  };
}

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

it("is never more than the fewest moves of any rotation of a small day", () => {
  let judged = 0;
  for (let seed = 1; seed <= 300; seed++) {
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
  expect(judged).toBeGreaterThan(150);
});
