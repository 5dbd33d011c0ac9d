/** A charger of a single watt, and less, counts: ten hours of it are the ten Wh that a use lacks. By hand. */
import { expect, it } from "vitest";
import { coverAll } from "../../src/power/fast/fast.ts";
import { randomFrom } from "../../src/power/fast/random.ts";
import { marginOf } from "../../src/power/fast/seats.ts";
import { solve } from "../../src/power/proof/solve.ts";
import { caseOf } from "../../src/power/question.ts";
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

it("a way over a charger of 1 W leaves what it charged, also where it is gone again with another use", () => {
  const model = day(1, 20);
  const { paths } = caseOf(model, model.demands);
  const found = coverAll({ paths, marginWh: 0, random: randomFrom(1), rounds: 5 });
  expect(found === null ? null : marginOf(found)).toBeCloseTo(0, 9);
  const [path] = found ?? [];
  if (path === undefined) throw new RangeError("no way");
  const again = (wh: number) => {
    const other = { ...model, demands: [useOf(700, 760, wh)] };
    return caseOf(other, other.demands).paths.again(path, 0);
  };
  expect(again(15)?.marginWh).toBeCloseTo(0, 9);
  expect(again(14)?.marginWh).toBeCloseTo(1, 9);
  expect(again(16)).toBeNull();
});
