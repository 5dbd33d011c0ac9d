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
  ["short-ten-packs.yaml", 790_000],
  ["short-eight-packs.yaml", 830_000],
  ["short-six-packs.yaml", 1_400_000],
  ["short-three-packs.yaml", 835_000],
  ["touches-655.yaml", 710_000],
] as const)("%s takes no more than %i labels", (file, most) => workOf(["power", "day.yaml"], file, most));

// Margins were not counted: 5 s, most of it for more margin, once for each of four lessons about how long chores take.
it("touches-655.yaml in other zones, where chores take longer than was counted on, covers all in no more than 1,400,000 labels", async () => {
  const text = readFileSync("fixtures/cases/hostile/touches-655.yaml", "utf8")
    .replace("clock: America/Chicago", "clock: Pacific/Apia")
    .replace("zone: America/Chicago", "zone: Pacific/Chatham");
  const { out, labels } = await counted(["power", "day.yaml"], text);
  expect(out).not.toMatch(/hit-left-out|hit-unpowered|standby-unpowered|power-undecided/u);
  expect(labels).toBeLessThanOrEqual(1_400_000);
});

// Eight edits gain nothing alone, and pairs of them, at 71,720 each, would pass what may pass without a gain: 28 were judged before.
it("a repair of such a day judges each edit alone, in no more than 400,000 labels", async () => {
  const text = readFileSync("fixtures/cases/hostile/short-eight-packs-repair.yaml", "utf8");
  const { out, labels } = await counted(["repair", "day.yaml", "--json"], text);
  expect(JSON.parse(out).data.proof).toMatchObject({ candidates: 8, judged: 8, completeTo: 1 });
  expect(labels).toBeLessThanOrEqual(400_000);
});

async function workOf(argv: readonly string[], file: string, most: number): Promise<void> {
  const { labels } = await counted(argv, readFileSync(`fixtures/cases/hostile/${file}`, "utf8"));
  expect(labels).toBeLessThanOrEqual(most);
}

async function counted(argv: readonly string[], text: string) {
  const run = await ran(argv, { files: { "day.yaml": text } });
  expect(run.code).toBeLessThanOrEqual(1);
  const labels = Math.round([...desks.all].reduce((sum, { work }) => sum + work, 0));
  return { out: run.out, labels };
}
