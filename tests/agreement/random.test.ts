/** Random days, each solved once and held to every law; what contradicts one is listed with its seed. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Day } from "../../src/day/day.ts";
import { runs } from "../fuzz.ts";
import { solved } from "./days.ts";
import { LAWS } from "./laws.ts";
import { type Entries, randomPlan, unlistedPlan } from "./randomPlan.ts";

const FIRST = Number(process.env["DAYWRIGHT_FUZZ_SEED"] ?? 1);
const COUNT = runs(100, Number(process.env["DAYWRIGHT_FUZZ_DAYS"] ?? 20_000));
/** So many of them leave out what their stops do and who takes part. */
const UNLISTED = Math.ceil(COUNT / 3);
const counts = { days: 0, refused: 0, missed: 0, standdowns: 0, teams: 0, meetings: 0, ferries: 0, nights: 0 };
const broken = new Map<string, string[]>(LAWS.map(({ name }) => [name, []]));

function count({ activities, stops, plan }: Day): void {
  if (stops.some(({ stop }) => stop.ferry !== null)) counts.ferries++;
  if ([...plan.crew.values()].some(({ up, inBed }) => up !== null || inBed.length > 0)) counts.nights++;
  if (activities.some(({ state }) => state === "missed")) counts.missed++;
  if (activities.some(({ activity }) => activity.kind === "standdown")) counts.standdowns++;
  if (activities.some((activity) => activity.stops.length > 1)) counts.meetings++;
  if (stops.some(({ stop }) => (stop.asleep?.length ?? 0) > 0)) counts.teams++;
}

/** Holds one day to every law; says whether the plan can be computed. */
async function isHeld(seed: number, what: string, on: (date?: string) => Entries): Promise<boolean> {
  const entries = on();
  const one = await solved(entries);
  if (one === null) return false;
  count(one.day);
  for (const { name, check } of LAWS) {
    try {
      await check({ ...one, entries, seed, on });
    } catch (error) {
      broken.get(name)?.push(`${what}${seed}: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  return true;
}

beforeAll(async () => {
  for (let seed = FIRST; seed < FIRST + COUNT; seed++) {
    counts.days++;
    if (!(await isHeld(seed, "seed ", (date) => randomPlan(seed, date)))) counts.refused++;
    // Where it is open which visit is meant, the plan is refused, as it should be.
    if (seed < FIRST + UNLISTED) await isHeld(seed, "unlisted, seed ", (date) => unlistedPlan(seed, date));
  }
}, 3_600_000);

afterAll(() => {
  if (COUNT > 100)
    process.stdout.write(`agreement: seeds ${FIRST} to ${FIRST + COUNT - 1}, ${JSON.stringify(counts)}\n`);
});

describe("random days", () => {
  it("are of every kind", () => {
    expect(counts.refused).toBeLessThan(counts.days / 10);
    const { days: _, refused: __, ...kinds } = counts;
    expect(Math.min(...Object.values(kinds))).toBeGreaterThan(0);
  });

  it.each(LAWS)("$name", ({ name }) => {
    expect(broken.get(name)).toEqual([]);
  });
});
