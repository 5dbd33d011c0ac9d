/** A charger of a single watt, and less, counts: ten hours of it are the ten Wh that a use lacks. By hand. */
import { expect, it } from "vitest";
import { solve } from "../../src/power/proof/solve.ts";
import { benchOf, packOf, smallDay, touchOf, useOf } from "./small.ts";

/** 20 Wh; ten hours on the bench; 15 W for an hour are 15 Wh; 15 Wh stay in reserve. */
const day = (watts: number, startWh: number) =>
  smallDay(900, {
    packs: [packOf("one", { startWh })],
    chargers: [benchOf(100, 700, { watts })],
    touches: [touchOf(100), touchOf(700)],
    demands: [useOf(700, 760, 15)],
  });

it.each([
  [1, 20, 0],
  [1, 19.9, null],
  [0.5, 25, 0],
  [0.5, 24.9, null],
] as const)("%f W for ten hours on %f Wh leave %s", async (watts, startWh, left) => {
  const { replay, rotation, proof } = await solve(day(watts, startWh), { patience: 2 });
  expect(rotation.covered).toEqual(left === null ? [] : ["use700"]);
  if (left === null) expect([replay.leastMarginWh, proof.coverage]).toEqual([null, "impossible"]);
  else expect(replay.leastMarginWh).toBeCloseTo(left, 9);
});
