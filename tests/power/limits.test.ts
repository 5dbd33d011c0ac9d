/**
 * What the search for a rotation may cost and what it must find on fixed days, day by day: the most labels, which are the same on
 * every machine, and the least that was found. Both are a seventh and more from what was measured, and only one way: whoever
 * searches less or finds more changes nothing here.
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

/** At most so many labels for coverage and margin, and for saving chores; then uses covered, chores, moves, Wh left at the tightest. */
type Row = readonly [keyof typeof KINDS, number, number, number, number, number, number, number];

async function costs(model: Model, patience: number) {
  const left = searchWork({ patience });
  const before = { ...left };
  const { rotation, moveCount, replay } = await solve(model, { patience, left });
  const found = [rotation.covered.length, -rotation.chores.length, -moveCount, replay.leastMarginWh ?? 0];
  return { labels: before.labels - left.labels, saving: before.chores - left.chores, found };
}

async function compare(rows: readonly Row[], patience: number): Promise<void> {
  for (const [kind, seed, mostLabels, mostSaving, covered, chores, moves, margin] of rows) {
    const { labels, saving, found } = await costs(KINDS[kind](seed), patience);
    expect(labels, `${kind} ${seed}`).toBeLessThanOrEqual(mostLabels);
    expect(saving, `${kind} ${seed}`).toBeLessThanOrEqual(mostSaving);
    const least = [covered, -chores, -moves, margin];
    expect(isWorse(found, least), `${kind} ${seed} finds ${found}`).toBe(false);
  }
}

/** Fewer uses covered; of as many more chores; of as many more moves; of as many a smaller margin. */
function isWorse(found: readonly number[], least: readonly number[]): boolean {
  const more = found.map((value, n) => value - (least[n] ?? 0)).find((by) => Math.abs(by) > 0.01);
  return more !== undefined && more < 0;
}

const QUICK: readonly Row[] = [
  ["easy", 1, 2300, 3800, 3, 4, 6, 23.31],
  ["easy", 2, 2400, 106_900, 9, 5, 18, 6.81],
  ["easy", 3, 1300, 69_400, 8, 4, 18, 14.93],
  ["easy", 4, 1000, 22_300, 6, 3, 10, 19.13],
  ["easy", 5, 620, 55_600, 6, 4, 8, 22.54],
  ["easy", 6, 3600, 21_000, 5, 3, 7, 4.55],
  ["easy", 9, 4800, 76_700, 11, 4, 18, 17.4],
  ["easy", 11, 4000, 45_600, 7, 7, 19, 2.2],
  ["hard", 1, 6200, 71_700, 9, 4, 12, 3.42],
  ["hard", 2, 5200, 60_000, 6, 4, 11, 4.03],
  ["hard", 3, 4100, 57_000, 8, 4, 14, 17.25],
  ["hard", 4, 2200, 15_700, 4, 3, 9, 7.92],
  ["hard", 6, 7800, 72_500, 8, 2, 9, 14.23],
  ["hard", 9, 4500, 132_900, 11, 5, 13, 8.54],
  ["hard", 10, 41_900, 39_000, 6, 3, 7, 11.25],
  ["hard", 12, 10_900, 64_900, 6, 6, 20, 7.21],
  ["rich", 1, 2700, 4000, 3, 4, 6, 22.96],
  ["rich", 2, 126_600, 130_100, 9, 5, 14, 0.81],
  ["rich", 3, 1700, 157_600, 8, 4, 19, 14.93],
  ["rich", 6, 4000, 22_500, 5, 3, 5, 4.55],
  ["rich", 7, 1800, 23_700, 4, 4, 13, 23.77],
  ["rich", 11, 6100, 77_700, 7, 6, 16, 1.34],
  ["rich", 13, 110_900, 24_900, 6, 6, 17, 0.05],
  ["rich", 14, 8800, 154_000, 9, 6, 26, 9.24],
  ["mid", 2, 4000, 8400, 3, 2, 6, 1.03],
  ["mid", 3, 560, 5900, 1, 2, 6, 32.7],
  ["mid", 7, 500, 8800, 3, 3, 5, 18.41],
  ["mid", 8, 360, 14_700, 5, 3, 6, 14.7],
  ["mid", 14, 2200, 8100, 2, 2, 5, 37.2],
  ["mid", 15, 240, 1800, 1, 2, 2, 10.73],
  ["mid", 16, 710, 7100, 2, 2, 5, 15.33],
  ["mid", 17, 410, 360, 1, 0, 0, 10.1],
  ["mid", 18, 1700, 3700, 4, 1, 3, 30.73],
  ["mid", 19, 1300, 5000, 2, 2, 4, 1.46],
  ["mid", 20, 420, 5200, 3, 3, 4, 41.06],
];

const PATIENT: readonly Row[] = [
  ["easy", 1, 26_300, 28_000, 3, 2, 8, 34.33],
  ["easy", 4, 8300, 94_900, 6, 3, 10, 19.13],
  ["easy", 5, 4800, 173_000, 6, 4, 8, 22.54],
  ["easy", 6, 7400, 125_900, 5, 3, 7, 4.55],
  ["easy", 8, 4800, 224_700, 6, 6, 11, 15.57],
  ["easy", 10, 9200, 75_000, 6, 2, 8, 14.44],
  ["hard", 2, 17_600, 100_300, 6, 4, 10, 4.79],
  ["hard", 3, 82_900, 96_800, 8, 4, 15, 19.58],
  ["hard", 5, 115_100, 51_800, 4, 4, 11, 15.61],
  ["hard", 6, 41_100, 81_300, 8, 2, 9, 14.23],
  ["hard", 11, 4800, 17_200, 3, 1, 2, 22.11],
  ["rich", 4, 28_300, 102_900, 6, 3, 10, 19.13],
  ["rich", 5, 6900, 122_800, 6, 4, 9, 22.54],
  ["rich", 6, 6400, 122_800, 5, 3, 5, 4.55],
  ["rich", 8, 4900, 207_900, 6, 6, 11, 15.57],
  ["rich", 10, 9600, 67_200, 6, 2, 9, 14.43],
  ["rich", 12, 2600, 36_100, 4, 3, 6, 21.4],
  ["mid", 1, 2100, 32_500, 4, 3, 5, 3.61],
  ["mid", 2, 36_700, 58_900, 3, 2, 6, 1.03],
  ["mid", 3, 1700, 16_100, 1, 2, 6, 32.7],
  ["mid", 7, 30_800, 62_900, 3, 3, 5, 18.41],
  ["mid", 13, 2100, 10_900, 2, 2, 3, 9.88],
  ["mid", 14, 65_800, 13_700, 2, 2, 3, 37.04],
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
