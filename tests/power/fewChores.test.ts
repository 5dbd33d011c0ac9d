/** Chores of random days against the counts of the search before it saved chores, which are frozen in fewChores.json. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { solve } from "../../src/power/proof/solve.ts";
import { DAY, randomModel } from "./days.ts";

interface Frozen {
  readonly chores: readonly number[];
  readonly covered: readonly number[];
}

const before: Frozen = JSON.parse(readFileSync("tests/power/fewChores.json", "utf8"));

describe("chores of 200 random days", () => {
  it("are never more than before, with nothing less covered, and a fifth fewer in all", async () => {
    const more: string[] = [];
    let all = 0;
    for (const [n, old] of before.chores.entries()) {
      const model = { ...randomModel(n + 1, { ...DAY, easy: true }), enoughWh: 15 };
      const { rotation } = await solve(model, { patience: 1 });
      const chores = new Set(rotation.moves.map(({ touch }) => touch)).size;
      all += chores;
      if (chores > old) more.push(`day ${n + 1}: ${old} before, ${chores} now`);
      if (rotation.covered.length < (before.covered[n] ?? 0)) more.push(`day ${n + 1}: less is covered`);
    }
    expect(more).toEqual([]);
    // 1024 before.
    expect(all).toBeLessThanOrEqual(0.8 * before.chores.reduce((sum, chores) => sum + chores, 0));
  }, 600_000);
});
