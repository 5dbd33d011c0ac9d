/** Days far short of power, found by the random plans: what the solver does for them is counted, and stays small. */
import { readFileSync } from "node:fs";
import { beforeEach, expect, it, vi } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { wrongs } from "./judged.ts";

const solver = vi.hoisted(() => ({ columns: 0 }));

vi.mock("../../src/power/proof/solver.ts", async (importOriginal) => {
  const own = await importOriginal<typeof import("../../src/power/proof/solver.ts")>();
  const loadSolver: typeof own.loadSolver = async () => {
    const open = await own.loadSolver();
    return (rows) => {
      const lp = open(rows);
      let columns = 0;
      const add: typeof lp.add = (more) => {
        columns += more.length;
        lp.add(more);
      };
      const solve: typeof lp.solve = () => {
        solver.columns += columns;
        return lp.solve();
      };
      return { add, solve, dispose: () => lp.dispose() };
    };
  };
  return { ...own, loadSolver };
});

beforeEach(() => {
  solver.columns = 0;
});

// They took 2,442 and 11,160 columns, most of the labels of the search with them, and the solver proved nothing by it.
it.each([
  ["short-eight-packs.yaml", 800],
  ["short-eight-packs-b.yaml", 3000],
] as const)("%s", async (file, most) => {
  const text = readFileSync(`fixtures/cases/hostile/${file}`, "utf8");
  const argv = ["power", "day.yaml"];
  const run = await ran(argv, { files: { "day.yaml": text } });
  expect(wrongs(argv, text, run, 0)).toEqual([]);
  expect(solver.columns).toBeLessThan(most);
});
