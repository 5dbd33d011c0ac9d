/** Random days: whatever the search prints must stand two simulators that know nothing of it. */
import { describe, expect, it } from "vitest";
import { solve } from "../../src/power/proof/solve.ts";
import { replay } from "../../src/power/replay.ts";
import { runs } from "../fuzz.ts";
import { DAY, randomModel, type Shape } from "./days.ts";
import { replayByMinute } from "./minuteReplay.ts";

const HARD: Shape = { packs: [2, 5], touches: [3, 8], demands: [1, 5], loads: [1, 2], minutes: 600 };
const EASY: Shape = { packs: [3, 6], touches: [3, 9], demands: [1, 5], loads: [1, 2], minutes: 600, easy: true };
/** The minute replay integrates; at the knee it is off by this much at most. */
const STEP_WH = 0.2;

describe("rotations of random days", () => {
  it.each([0, 1, 2, 3])(
    "stand both replays, with the margin printed and inside the bound (block %i)",
    async (block) => {
      const count = runs(1250, 5000);
      for (let seed = 1 + block * count; seed <= (block + 1) * count; seed++) {
        const model = randomModel(seed, seed % 10 === 0 ? HARD : EASY);
        const { rotation, proof } = await solve(model, { patience: 1 });
        const mine = replayByMinute(model, rotation);
        const theirs = replay(model, rotation);
        const wrong = [...mine.faults, ...theirs.faults];
        const [a, b] = [mine.leastMarginWh, theirs.leastMarginWh];
        if ((a === null) !== (b === null) || Math.abs((a ?? 0) - (b ?? 0)) > STEP_WH)
          wrong.push(`margins ${a} and ${b}`);
        if ((b ?? 0) > (proof.marginBoundWh ?? 0) + 1e-6)
          wrong.push(`margin ${b} over its bound ${proof.marginBoundWh}`);
        if (wrong.length > 0) expect.fail(`day ${seed}: ${wrong.join("; ")}`);
      }
    },
    3_600_000,
  );

  it("on larger days the margin lies within its bound, moves within theirs, and proofs are not contradicted", async () => {
    const count = runs(25, 300);
    for (let seed = 1; seed <= count; seed++) {
      const model = randomModel(seed, DAY);
      const { rotation, proof, moveCount, replay: played } = await solve(model, { patience: 2 });
      expect(replayByMinute(model, rotation).faults, `day ${seed}`).toEqual([]);
      expect(proof.movesBound).toBeLessThanOrEqual(moveCount);
      if (played.leastMarginWh !== null)
        expect(played.leastMarginWh).toBeLessThanOrEqual((proof.marginBoundWh ?? 0) + 1e-6);
      if (proof.margin === "exhausted" && played.leastMarginWh !== null) {
        const bound = Math.min(proof.marginBoundWh ?? 0, model.enoughWh);
        expect(Math.min(played.leastMarginWh, model.enoughWh)).toBeGreaterThanOrEqual(bound - model.grainWh - 1e-6);
      }
    }
  });

  it("is the same when it is run again", async () => {
    for (let seed = 1; seed <= 10; seed++) {
      const once = await solve(randomModel(seed, DAY), { patience: 2 });
      const again = await solve(randomModel(seed, DAY), { patience: 2 });
      expect(again.rotation).toEqual(once.rotation);
      expect(again.proof).toEqual(once.proof);
    }
  });
});
