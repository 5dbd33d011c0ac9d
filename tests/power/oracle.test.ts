/** The search against every joint state of all packs (oracle.ts) on small days: coverage, margin and moves. */
import { describe, expect, it } from "vitest";
import type { Model } from "../../src/power/model.ts";
import { solve } from "../../src/power/proof/solve.ts";
import { runs } from "../fuzz.ts";
import { randomModel, type Shape, TINY } from "./days.ts";
import { truth } from "./oracle.ts";

const FEW: Shape = { ...TINY, touches: [1, 3], demands: [1, 4] };
const MORE: Shape = { ...TINY, touches: [2, 5], demands: [1, 5] };
const FOUR: Shape = { packs: [4, 4], touches: [2, 3], demands: [2, 4], loads: [1, 2], minutes: 480 };

async function agree(model: Model, told: string): Promise<boolean> {
  const best = truth(model, 3000);
  if (best === null) return false;
  const { rotation, proof, moveCount, spareMoves, replay } = await solve(model, { patience: 2 });
  if (proof.coverage !== "simulated") expect(rotation.covered, told).toEqual(best.covered);
  for (const id of best.covered.slice(0, 1)) expect(rotation.covered, told).toContain(id);
  if (rotation.covered.join() !== best.covered.join() || best.margin === null || replay.leastMarginWh === null)
    return true;
  const enough = Math.min(best.margin, model.enoughWh);
  expect(replay.leastMarginWh, told).toBeLessThanOrEqual(best.margin + 1e-6);
  expect(Math.max(proof.marginBoundWh ?? 0, model.enoughWh), told).toBeGreaterThanOrEqual(enough - 1e-6);
  expect(proof.movesBound, told).toBeLessThanOrEqual(best.moves);
  if (proof.margin === "exhausted")
    expect(Math.min(replay.leastMarginWh, model.enoughWh), told).toBeGreaterThanOrEqual(enough - model.grainWh - 1e-6);
  if (proof.moves === "exhausted" && proof.margin === "exhausted")
    expect(moveCount - spareMoves, told).toBe(best.moves);
  return true;
}

describe("against every joint state", () => {
  it("agrees on tiny days of one to three packs", async () => {
    let judged = 0;
    for (let seed = 1; seed <= runs(480, 20_000); seed++)
      if (await agree(randomModel(seed, seed % 5 === 0 ? MORE : FEW), `tiny ${seed}`)) judged++;
    expect(judged).toBeGreaterThan(runs(474, 19_000));
  }, 3_600_000);

  it("agrees on small days of four packs", async () => {
    let judged = 0;
    for (let seed = 1; seed <= runs(40, 2000); seed++)
      if (await agree(randomModel(seed, FOUR), `four ${seed}`)) judged++;
    expect(judged).toBeGreaterThan(runs(25, 1000));
  }, 3_600_000);
});
