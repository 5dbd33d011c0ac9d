/** Chores of random days against the counts of the search before it saved chores, which are frozen in fewChores.json. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { sumOf } from "../../src/lists.ts";
import { solve } from "../../src/power/proof/solve.ts";
import { DAY, randomModel } from "./days.ts";

interface Frozen {
  readonly chores: readonly number[];
  readonly covered: readonly number[];
}

const before: Frozen = JSON.parse(readFileSync("tests/power/fewChores.json", "utf8"));

const BLOCK = 20;
const blocks = Array.from({ length: before.chores.length / BLOCK }, (_, block) => block);

/** The chores of the days of a block, and what is worse than before. */
async function choresOf(block: number) {
  const more: string[] = [];
  let all = 0;
  for (let n = block * BLOCK; n < (block + 1) * BLOCK; n++) {
    const old = before.chores[n] ?? 0;
    const model = { ...randomModel(n + 1, { ...DAY, easy: true }), enoughWh: 15 };
    const { rotation } = await solve(model, { patience: 1 });
    const chores = new Set(rotation.moves.map(({ touch }) => touch)).size;
    all += chores;
    if (chores > old) more.push(`day ${n + 1}: ${old} before, ${chores} now`);
    if (rotation.covered.length < (before.covered[n] ?? 0)) more.push(`day ${n + 1}: less is covered`);
  }
  return { more, all };
}

const known = new Map<number, ReturnType<typeof choresOf>>();
const counted = (block: number): ReturnType<typeof choresOf> => {
  const kept = known.get(block) ?? choresOf(block);
  known.set(block, kept);
  return kept;
};

describe("chores of 200 random days", () => {
  it.each(blocks)("are never more than before, with nothing less covered (block %i)", async (block) => {
    expect((await counted(block)).more).toEqual([]);
  });

  it("are a fifth fewer in all", async () => {
    const all = await Promise.all(blocks.map(async (block) => (await counted(block)).all));
    // 1024 before.
    expect(sumOf(all, (chores) => chores)).toBeLessThanOrEqual(0.8 * sumOf(before.chores, (chores) => chores));
  }, 600_000);
});
