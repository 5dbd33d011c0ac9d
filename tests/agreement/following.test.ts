/**
 * A day that follows another: the same if the first is logged as planned, at any moment of now, and with what the two share in
 * a file of its own; a level that the shared file states is the first day's only.
 */
import { expect, it } from "vitest";
import { computeChain } from "../../src/day/chain.ts";
import { type Judged, judge, readPlan, solveDay } from "../../src/index.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { readChain } from "../../src/plan/index.ts";
import { instant } from "../../src/time/units.ts";
import { random } from "../day/random.ts";
import { runs } from "../fuzz.ts";
import { everythingLogged, figures, logging, same } from "./days.ts";
import type { Entries } from "./randomPlan.ts";
import { twoDays } from "./twoDays.ts";

const FIRST = Number(process.env["DAYWRIGHT_FUZZ_SEED"] ?? 1);
const seeds = (count: number): readonly number[] => Array.from({ length: count }, (_, index) => FIRST + index);

const reader = (files: Readonly<Record<string, Entries>>) => (path: string) => {
  const found = Object.entries(files).find(([name]) => path.endsWith(name));
  return found === undefined
    ? ({ kind: "missing", near: [] } as const)
    : ({ kind: "text", text: JSON.stringify(found[1]) } as const);
};

const picked = (entries: Entries, ...keys: readonly string[]): Entries =>
  Object.fromEntries(Object.entries(entries).filter(([key]) => keys.includes(key)));

/** The two days with what both state in a file of its own, and the range of each tank there. */
function shared(seed: number) {
  const { first, second } = twoDays(seed, false);
  const level = { range: `${300 + random(seed)(300)} km`, fuel: "90%" };
  const vehicles = Object.fromEntries(
    Object.entries(Object(first["vehicles"])).map(([id, one]) => [id, { ...Object(one), ...level }]),
  );
  const roads = Object(first["roads"]).map((road: object) => ({ ...road, km: 30 }));
  const own = { uses: ["shared.yaml"] };
  const files: Readonly<Record<"shared.yaml" | "first.yaml", Entries>> = {
    "shared.yaml": { ...picked(first, "crew", "places", "paths", "clock", "zone"), roads, vehicles },
    "first.yaml": { ...picked(first, "daywright", "date", "history", "hits", "tasks", "runs"), ...own },
  };
  return { files, second: { ...picked(second, "daywright", "date", "follows", "hits", "tasks", "runs"), ...own } };
}

async function judged(entries: Entries, files: Readonly<Record<string, Entries>>): Promise<Judged> {
  const reading = await readPlan(JSON.stringify(entries), { file: "day.yaml", files: { read: reader(files) } });
  if (!reading.ok) throw new Error(reading.findings.map(({ code }) => code).join());
  const made = await solveDay(reading);
  if (!made.ok) throw new Error(made.findings.map(({ code }) => code).join());
  return judge(made, { topics: ["roads"] });
}

it("is the same after a day that is logged as planned, and at any moment of now", async () => {
  for (const seed of seeds(runs(25, 2000))) {
    const { first, second } = twoDays(seed, false);
    const { plans } = await readChain(JSON.stringify(second), {
      file: "day.yaml",
      files: { read: reader({ "first.yaml": first }) },
    });
    const [one, two] = plans ?? [];
    if (one === undefined || two === undefined) throw new Error(`seed ${seed} has no two days`);
    const legs = await Promise.all([legsOf(one), legsOf(two)]);
    const links = (before = one) => [
      { plan: before, legs: legs[0] },
      { plan: two, legs: legs[1] },
    ];
    const [day, next] = computeChain(links()).days;
    if (day === undefined || next === undefined) throw new Error(`seed ${seed} has no days`);
    const logged = computeChain(links(logging(one, everythingLogged(day)))).days[1];
    same(logged && figures(logged), figures(next), `after seed ${seed}, logged`);
    const now = instant(next.span.from + random(seed)(next.span.to - next.span.from));
    const later = computeChain(links(), { now, unedited: null }).days[1];
    same(later && figures(later), figures(next), `seed ${seed} at ${now}`);
  }
}, 3_600_000);

it("is the same with what both share in one file, but for the tank, which is as it was left", async () => {
  let driven = 0;
  for (const seed of seeds(runs(10, 500))) {
    const { files, second } = shared(seed);
    const apart = await judged(second, files);
    const whole = twoDays(seed, false);
    same(
      figures(apart.day).instants,
      figures((await judged(whole.second, { "first.yaml": whole.first })).day).instants,
      `seed ${seed} with a shared file`,
    );
    const before = await judged(files["first.yaml"], files);
    const restated = await judged({ ...second, vehicles: { v0: { fuel: "50%" } } }, files);
    const tank = ({ results }: Judged) => results.roads?.fuel.find(({ vehicle }) => vehicle === "v0");
    const [evening, morning, own] = [tank(before), tank(apart), tank(restated)];
    if (evening === undefined || morning === undefined || own === undefined) throw new Error(`seed ${seed}: no tank`);
    same(morning.startKm, evening.endKm, `tank of seed ${seed}`);
    // Its own file says half of the range that the shared file states.
    const range = 300 + random(seed)(300);
    same(own.startKm, range / 2, `tank of seed ${seed}, restated`);
    same(
      restated.findings.some(({ code }) => code === "fuel-restated"),
      true,
      `seed ${seed} says so`,
    );
    if (evening.endKm < range * 0.9) driven += 1;
  }
  expect(driven).toBeGreaterThan(3);
}, 3_600_000);
