/**
 * What the search for a rotation costs and what it finds on fixed days, day by day. The counts are of labels and not of time, so
 * they are the same on every machine. Whatever makes the search look longer, shorter or elsewhere changes some of them: that is
 * read, and where it is meant, the counts are set anew. What is found is a least: a change may only better it.
 */
import { expect, it } from "vitest";
import { searchWork } from "../../src/power/fast/effort.ts";
import type { Model } from "../../src/power/model.ts";
import { solve } from "../../src/power/proof/solve.ts";
import { DAY, randomModel, type Shape, TINY } from "./days.ts";
import { richModel } from "./everything.ts";

const EASY: Shape = { ...DAY, easy: true };
const SMALL: Shape = { ...TINY, packs: [2, 5], touches: [4, 9], minutes: 600, easy: true };

/** Most of a day can be covered; much of it cannot; with all that a model can have; the same with few packs. */
const KINDS = {
  easy: (seed: number) => randomModel(seed, EASY),
  hard: (seed: number) => randomModel(seed, DAY),
  rich: (seed: number) => richModel(seed, EASY),
  mid: (seed: number) => richModel(seed, SMALL),
} as const;

/** Labels of coverage and margin, and of saving chores; then uses covered, chores, moves, and the Wh left at the tightest. */
type Row = readonly [keyof typeof KINDS, number, number, number, number, number, number, number];

async function costs(model: Model, patience: number) {
  const left = searchWork({ patience });
  const before = { ...left };
  const { rotation, moveCount, replay } = await solve(model, { patience, left });
  const found = [rotation.covered.length, -rotation.chores.length, -moveCount, replay.leastMarginWh ?? 0];
  return { labels: [before.labels - left.labels, before.chores - left.chores].map(Math.round), found };
}

async function compare(rows: readonly Row[], patience: number): Promise<void> {
  const counts: Row[] = [];
  for (const [kind, seed, , , ...least] of rows) {
    const { labels, found } = await costs(KINDS[kind](seed), patience);
    const [covered, chores, moves, margin] = least;
    counts.push([kind, seed, labels[0] ?? 0, labels[1] ?? 0, ...least]);
    expect(isWorse(found, [covered, -chores, -moves, margin]), `${kind} ${seed} finds ${found}`).toBe(false);
  }
  expect(counts).toEqual(rows);
}

/** Fewer uses covered; of as many more chores; of as many more moves; of as many a smaller margin. */
function isWorse(found: readonly number[], least: readonly number[]): boolean {
  const more = found.map((value, n) => value - (least[n] ?? 0)).find((by) => Math.abs(by) > 0.01);
  return more !== undefined && more < 0;
}

const QUICK: readonly Row[] = [
  ["easy", 1, 1900, 3176, 3, 4, 6, 23.31],
  ["easy", 2, 1959, 92_882, 9, 5, 18, 6.81],
  ["easy", 3, 1034, 60_224, 8, 4, 18, 14.93],
  ["easy", 4, 820, 19_337, 6, 3, 10, 19.13],
  ["easy", 5, 490, 48_304, 6, 4, 8, 22.54],
  ["easy", 6, 3076, 18_164, 5, 3, 7, 4.55],
  ["easy", 9, 4102, 66_581, 11, 4, 18, 17.4],
  ["easy", 11, 3353, 39_597, 7, 7, 19, 2.2],
  ["hard", 1, 5291, 62_250, 9, 4, 12, 3.42],
  ["hard", 2, 4471, 52_111, 6, 4, 11, 4.03],
  ["hard", 3, 3486, 49_474, 8, 4, 14, 17.25],
  ["hard", 4, 1841, 13_532, 4, 3, 9, 7.92],
  ["hard", 6, 6653, 62_942, 8, 2, 9, 14.23],
  ["hard", 9, 3832, 115_511, 11, 5, 13, 8.54],
  ["hard", 10, 28_328, 33_865, 6, 3, 7, 11.25],
  ["hard", 12, 9350, 56_307, 6, 6, 20, 7.21],
  ["rich", 1, 2228, 3369, 3, 4, 6, 22.96],
  ["rich", 2, 9057, 113_060, 9, 5, 14, 0.81],
  ["rich", 3, 1428, 136_948, 8, 4, 19, 14.93],
  ["rich", 6, 3396, 19_478, 5, 3, 5, 4.55],
  ["rich", 7, 1493, 20_505, 4, 4, 13, 23.77],
  ["rich", 11, 5207, 67_462, 7, 6, 16, 1.34],
  ["rich", 13, 50_867, 21_563, 6, 6, 17, 0.05],
  ["rich", 14, 7532, 133_821, 9, 6, 26, 9.24],
  ["mid", 2, 3363, 7232, 3, 2, 6, 1.03],
  ["mid", 3, 443, 5049, 1, 2, 6, 32.7],
  ["mid", 7, 384, 7579, 3, 3, 5, 18.41],
  ["mid", 8, 263, 12_668, 5, 3, 6, 14.7],
  ["mid", 14, 1819, 6954, 2, 2, 5, 37.2],
  ["mid", 15, 163, 1475, 1, 2, 2, 10.73],
  ["mid", 16, 568, 6061, 2, 2, 5, 15.33],
  ["mid", 17, 306, 267, 1, 0, 0, 10.1],
  ["mid", 18, 1352, 3151, 4, 1, 3, 30.73],
  ["mid", 19, 1052, 4284, 2, 2, 4, 1.46],
  ["mid", 20, 315, 4423, 3, 3, 4, 41.06],
];

const PATIENT: readonly Row[] = [
  ["easy", 1, 22_797, 24_298, 3, 2, 8, 34.33],
  ["easy", 4, 7140, 82_426, 6, 3, 10, 19.13],
  ["easy", 5, 4115, 150_337, 6, 4, 8, 22.54],
  ["easy", 6, 6311, 109_362, 5, 3, 7, 4.55],
  ["easy", 8, 4046, 195_345, 6, 6, 11, 15.57],
  ["easy", 10, 7950, 65_156, 6, 2, 8, 14.44],
  ["hard", 2, 15_210, 87_158, 6, 4, 10, 4.79],
  ["hard", 3, 72_043, 84_056, 8, 4, 15, 19.58],
  ["hard", 5, 100_019, 44_986, 4, 4, 11, 15.61],
  ["hard", 6, 35_626, 70_566, 8, 2, 9, 14.23],
  ["hard", 11, 4114, 14_872, 3, 1, 2, 22.11],
  ["rich", 4, 24_548, 89_358, 6, 3, 10, 19.13],
  ["rich", 5, 5906, 106_731, 6, 4, 9, 22.54],
  ["rich", 6, 5482, 106_693, 5, 3, 5, 4.55],
  ["rich", 8, 4176, 180_663, 6, 6, 11, 15.57],
  ["rich", 10, 8293, 58_314, 6, 2, 9, 14.43],
  ["rich", 12, 2131, 31_329, 4, 3, 6, 21.4],
  ["mid", 1, 1725, 28_182, 4, 3, 5, 3.61],
  ["mid", 2, 31_864, 51_132, 3, 2, 6, 1.03],
  ["mid", 3, 1417, 13_946, 1, 2, 6, 32.7],
  ["mid", 7, 26_691, 34_825, 3, 3, 5, 1.29],
  ["mid", 13, 1719, 9363, 2, 2, 3, 9.88],
  ["mid", 14, 57_129, 11_846, 2, 2, 3, 37.04],
];

it.each([0, 1, 2, 3])("of a quick search (part %i)", (part) =>
  compare(
    QUICK.filter((_, n) => n % 4 === part),
    1,
  ),
);

it.each([0, 1])("of a patient one (part %i)", (part) =>
  compare(
    PATIENT.filter((_, n) => n % 2 === part),
    2,
  ),
);
