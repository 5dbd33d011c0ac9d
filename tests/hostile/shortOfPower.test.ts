/** Days short of power, and one of 655 touches, found by the random plans: what the search does for them is counted, and stays small. */
import { readFileSync } from "node:fs";
import { beforeEach, expect, it, vi } from "vitest";
import { ran } from "../cli/fakeIo.ts";

const desks = vi.hoisted(() => ({ all: new Set<{ readonly work: number }>() }));

vi.mock("../../src/power/fast/desk.ts", async (importOriginal) => {
  const own = await importOriginal<typeof import("../../src/power/fast/desk.ts")>();
  class Counted extends own.Desk {
    constructor() {
      super();
      desks.all.add(this);
    }
  }
  return { ...own, Desk: Counted };
});

beforeEach(() => {
  desks.all.clear();
});

// A label takes about a microsecond while the code is cold. Before, the first question alone took up to 800,000 of them, besides
// programs that were not counted, and the questions after it found nothing.
it.each([
  ["short-ten-packs.yaml", 380_000],
  ["short-eight-packs.yaml", 410_000],
  ["short-six-packs.yaml", 950_000],
  ["short-three-packs.yaml", 450_000],
  ["touches-655.yaml", 710_000],
] as const)("%s takes no more than %i labels", (file, most) => workOf(["power", "day.yaml"], file, most));

it("a repair of such a day, which judges it again and again, takes no more than 660,000 labels", () =>
  workOf(["repair", "day.yaml"], "short-eight-packs-repair.yaml", 660_000));

async function workOf(argv: readonly string[], file: string, most: number): Promise<void> {
  const text = readFileSync(`fixtures/cases/hostile/${file}`, "utf8");
  const run = await ran(argv, { files: { "day.yaml": text } });
  expect(run.code).toBeLessThanOrEqual(1);
  expect(Math.round([...desks.all].reduce((sum, { work }) => sum + work, 0))).toBeLessThanOrEqual(most);
}
