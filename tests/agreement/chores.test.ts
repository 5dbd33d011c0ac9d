/** Work with packs is somebody's time, and is done where the pack, the hands and the charger are together. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Judged, judge, readPlan, solveDay } from "../../src/index.ts";
import { type Instant, instant } from "../../src/time/units.ts";
import { random } from "../day/random.ts";
import { runs } from "../fuzz.ts";
import { same } from "./days.ts";
import { FILES, read } from "./fixtures.ts";
import { choresInSpans, choresWhereDone, movesTogether, powerOf, rotationOf } from "./packLaws.ts";
import { type Entries, randomTeamWithPacks } from "./randomPlan.ts";
import { twoDays } from "./twoDays.ts";

const WITH_PACKS = FILES.filter((file) => /^packs:/m.test(readFileSync(file, "utf8")));
const FIRST = Number(process.env["DAYWRIGHT_FUZZ_SEED"] ?? 1);
const COUNT = runs(12, Number(process.env["DAYWRIGHT_FUZZ_DAYS"] ?? 1000));

async function powered(text: string, file: string, now: number | null = null): Promise<Judged> {
  const reading = await readPlan(text, { file, files: { read } });
  if (!reading.ok) throw new Error(`${file} is no plan`);
  const solved = await solveDay(reading, { now: now === null ? null : instant(now) });
  if (!solved.ok) throw new Error(`${file} has no day`);
  return judge(solved, { topics: ["power"] });
}

describe.each(WITH_PACKS)("%s", (file) => {
  it("has every chore in its person's spans, and nobody asleep at it", async () => {
    choresInSpans(await powered(readFileSync(file, "utf8"), file));
  });

  it("has the pack, the piece or charger and the hands of every move at one place", async () => {
    const judged = await powered(readFileSync(file, "utf8"), file);
    movesTogether(judged);
    choresWhereDone(judged);
  });
});

it("is asked of days that have such work", async () => {
  const all = await Promise.all(WITH_PACKS.map((file) => powered(readFileSync(file, "utf8"), file)));
  expect(all.flatMap(({ day }) => day.people.flatMap(({ chores }) => chores)).length).toBeGreaterThan(10);
});

const reversed = (value: unknown): unknown =>
  typeof value === "object" && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).toReversed())
    : value;

describe("random days with packs", () => {
  it("hold to the same where one once did not: a charge found in the middle of a change of packs made it another", async () => {
    await held(twoDays(950_315, true).first, 950_315);
  });

  it("hold to the same, and are powered alike at any minute and with their vehicles in another order", async () => {
    const broken: string[] = [];
    let moves = 0;
    for (let seed = FIRST; seed < FIRST + COUNT; seed++) {
      try {
        moves += await held(twoDays(seed, true).first, seed);
      } catch (error) {
        broken.push(`seed ${seed}: ${error instanceof Error ? error.message : String(error)}`);
      }
    }
    if (COUNT > 100) process.stdout.write(`packs: seeds ${FIRST} to ${FIRST + COUNT - 1}, ${moves} moves\n`);
    expect(broken).toEqual([]);
    expect(moves).toBeGreaterThan(COUNT);
  }, 3_600_000);
});

describe("random teams that sleep aboard beside their packs", () => {
  it("hold to the same", async () => {
    const broken: string[] = [];
    let moves = 0;
    for (let seed = FIRST; seed < FIRST + COUNT; seed++) {
      try {
        moves += await held(randomTeamWithPacks(seed), seed);
      } catch (error) {
        broken.push(`seed ${seed}: ${error instanceof Error ? error.message : String(error)}`);
      }
    }
    if (COUNT > 100) process.stdout.write(`teams' packs: seeds ${FIRST} to ${FIRST + COUNT - 1}, ${moves} moves\n`);
    expect(broken).toEqual([]);
    expect(moves).toBeGreaterThan(0);
  }, 3_600_000);
});

/** Throws what contradicts a law; gives the number of moves. */
async function held(entries: Entries, seed: number): Promise<number> {
  const dice = random(seed);
  const text = JSON.stringify(entries);
  const judged = await powered(text, "day.yaml");
  choresInSpans(judged);
  movesTogether(judged);
  choresWhereDone(judged);
  const { from, to } = judged.day.span;
  const now = from + dice(Math.max(1, to - from));
  same(rotationOf(await powered(text, "day.yaml", now)), rotationOf(judged), `now ${now}`);
  await pastStands(judged, entries, instant(now), dice);
  const other = { ...entries, vehicles: reversed(entries["vehicles"]), runs: reversed(entries["runs"]) };
  const turned = powerOf(await powered(JSON.stringify(other), "day.yaml")).solution;
  const { solution } = powerOf(judged);
  same(turned.rotation.covered, solution.rotation.covered, "vehicles in another order");
  return solution.moveCount;
}

/** What is found or seen of a pack at a moment changes nothing of the work that had begun by then. */
async function pastStands(planned: Judged, entries: Entries, now: Instant, dice: (below: number) => number) {
  const { model } = powerOf(planned).solution;
  const pack = model.packs[dice(model.packs.length)]?.id ?? "";
  const holder = model.bays[dice(model.bays.length)] ?? "";
  const at = new Date(now * 60_000).toISOString();
  const begun = (judged: Judged) => rotationOf(judged).chores.filter(({ begins }) => begins < now);
  const swapped = (judged: Judged) => {
    const { built, solution } = powerOf(judged);
    const { chores, moves } = solution.rotation;
    const before = new Set(chores.flatMap(({ begins, touch }) => (begins < now ? [touch] : [])));
    const touchAt = (touch: string) => built.touches.find(({ id }) => id === touch)?.at;
    return moves.flatMap(({ touch, ...move }) => (before.has(touch) ? [{ ...move, at: touchAt(touch) }] : []));
  };
  // Seen elsewhere in the middle of the very work that moves it, a pack cannot have been in that work.
  const underWay = powerOf(planned).solution.rotation.chores.filter(({ begins, ends }) => begins < now && now < ends);
  const moving = powerOf(planned).solution.rotation.moves.some(
    (move) => move.pack === pack && underWay.some(({ touch }) => touch === move.touch),
  );
  for (const fact of [{ charge: `${dice(101)}%` }, ...(moving ? [] : [{ in: holder }])]) {
    const found = await powered(JSON.stringify({ ...entries, actual: { [pack]: { ...fact, at } } }), "day.yaml");
    const what = `${pack} ${JSON.stringify(fact)} at ${at}`;
    same([begun(found), swapped(found)], [begun(planned), swapped(planned)], what);
  }
}
