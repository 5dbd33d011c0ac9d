/**
 * A random day, edited while it is under way: what had begun stands at its minute, and what the edit brings is not before now.
 */
import { expect, it } from "vitest";
import { computeChain } from "../../src/day/chain.ts";
import type { Day } from "../../src/day/day.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { readChain } from "../../src/plan/index.ts";
import { instant } from "../../src/time/units.ts";
import { random } from "../day/random.ts";
import { runs } from "../fuzz.ts";
import { type Solved, solved } from "./days.ts";
import { type Entries, randomPlan, unlistedPlan } from "./randomPlan.ts";

type Json = Entries[string];
type Dice = (below: number) => number;
const FIRST = Number(process.env["DAYWRIGHT_FUZZ_SEED"] ?? 1);
const MEAL = { kind: "meal", for: "30 min", who: "all" };

const asObject = (value: Json | undefined): Readonly<Record<string, Json>> => Object(value ?? {});
const changed = (all: Json | undefined, id: string, one: Json): Json => ({ ...asObject(all), [id]: one });
const stopsOf = (run: Json | undefined): readonly Json[] => [...Object(asObject(run)["stops"] ?? [])];
const without = (value: Json, id: string): Json =>
  JSON.parse(JSON.stringify(value), (_, one) => (Array.isArray(one) ? one.filter((other) => other !== id) : one));

/** A meal at some stop of some run: listed there, or left to be found. */
function withMeal(entries: Entries, dice: Dice): Entries | null {
  const vehicle = Object.keys(asObject(entries["runs"]))[0];
  if (vehicle === undefined) return null;
  const run = asObject(entries["runs"])[vehicle];
  const stops = stopsOf(run);
  const index = dice(stops.length);
  const stop = stops[index] ?? "";
  const place = typeof stop === "string" ? stop : (asObject(stop)["place"] ?? "");
  const tasks = changed(entries["tasks"], "late", { ...MEAL, place });
  if (dice(2) === 0) return { ...entries, tasks };
  const doing = [...Object(asObject(typeof stop === "string" ? {} : stop)["do"] ?? []), "late"];
  const listed = stops.with(index, { ...asObject(typeof stop === "string" ? { place } : stop), do: doing });
  return { ...entries, tasks, runs: changed(entries["runs"], vehicle, { ...asObject(run), stops: listed }) };
}

/** Some hit or task taken out. */
function withLess(entries: Entries, dice: Dice): Entries | null {
  const section = dice(2) === 0 ? "hits" : "tasks";
  const ids = Object.keys(asObject(entries[section]));
  const id = ids[dice(Math.max(1, ids.length))];
  if (id === undefined) return null;
  const { [id]: _, ...others } = asObject(entries[section]);
  return { ...entries, [section]: others, runs: without(entries["runs"] ?? {}, id) };
}

async function editedAt(one: Solved, entries: Entries, now: number): Promise<Day | null> {
  const { plan } = await readChain(JSON.stringify(entries), { file: "day.yaml" });
  if (plan === null) return null;
  const unedited = { plan: one.plan, legs: one.legs };
  return computeChain([{ plan, legs: await legsOf(plan) }], { now: instant(now), unedited }).days[0] ?? null;
}

/** What is wrong with the edited day. */
function wrongIn(before: Day, after: Day, now: number): readonly string[] {
  const leaving = ["walkAround", "loading", "leave", "unload"];
  const left = new Set(
    [...before.instants].flatMap(([name, at]) => {
      const dot = name.lastIndexOf(".");
      return at < now && leaving.includes(name.slice(dot + 1)) ? [name.slice(0, dot)] : [];
    }),
  );
  return [...after.instants].flatMap(([name, at]) => {
    const was = before.instants.get(name);
    const stop = name.slice(0, name.lastIndexOf("."));
    if (was !== undefined && was < now) return at === was ? [] : [`${name} was at ${was} and is at ${at}`];
    // A call is on five whole minutes. A stop that is being left has nothing more to come.
    return at >= now - (name.endsWith(".call") ? 4 : 0) || (left.has(stop) && at >= before.span.from)
      ? []
      : [`${name} is at ${at}`];
  });
}

it.each([
  ["with a meal more", withMeal],
  ["with a hit or task less", withLess],
])(
  "%s",
  async (_, edit) => {
    const found: string[] = [];
    let edited = 0;
    for (let seed = FIRST; seed < FIRST + runs(40, 3000); seed++) {
      for (const make of [randomPlan, unlistedPlan]) {
        const entries = make(seed);
        const one = await solved(entries);
        const dice = random(seed);
        const made = one === null ? null : edit(entries, dice);
        if (one === null || made === null) continue;
        const instants = [...one.day.instants.values()];
        const now = (instants[dice(instants.length)] ?? one.day.span.from) + dice(3) - 1;
        const after = await editedAt(one, made, now);
        if (after === null) continue;
        edited++;
        found.push(...wrongIn(one.day, after, now).map((wrong) => `${make.name} ${seed} at ${now}: ${wrong}`));
      }
    }
    expect(found).toEqual([]);
    expect(edited).toBeGreaterThan(20);
  },
  3_600_000,
);

/** From the lodge to the pier and on to the inn, an hour each. */
const wayWith = (stops: readonly Json[], more: Entries): Entries => ({
  ...{ daywright: 1, date: "2027-01-20", clock: "UTC", zone: "UTC" },
  crew: { wren: { role: "engineer", drives: ["van"], slept: "lodge", sleeps: "inn" } },
  history: { wren: { released: "2027-01-19T18:00Z" } },
  vehicles: { van: { gross: "3000 kg" } },
  places: {
    lodge: { kind: "lodging", at: [46.5, -87.4] },
    inn: { kind: "lodging", at: [46.9, -87.4] },
    pier: { at: [46.7, -87.4] },
  },
  roads: [
    { link: ["lodge", "pier"], drive: "1h", bad: "1h" },
    { link: ["pier", "inn"], drive: "1h", bad: "1h" },
  ],
  runs: { van: { driver: "wren", stops: [...stops, "inn"] } },
  ...more,
});

const clockOf = (day: Day | null, name: string): string | null => {
  const at = day?.instants.get(name);
  return at === undefined ? null : new Date(at * 60_000).toISOString().slice(11, 16);
};

async function dayOf(entries: Entries): Promise<Solved> {
  const one = await solved(entries);
  if (one === null) throw new Error("no day");
  return one;
}

it("begins a meal, by hand, where they stand since 10:00, once they have parked: 5 min from now", async () => {
  const [first, stop] = [
    { place: "lodge", leave: "09:00" },
    { place: "pier", leave: "14:00" },
  ];
  const one = await dayOf(wayWith([first, stop], {}));
  expect([clockOf(one.day, "van.2.arrive"), clockOf(one.day, "wren.call")]).toEqual(["10:00", "08:30"]);
  const meal = wayWith([first, { ...stop, do: ["eat"] }], { tasks: { eat: { ...MEAL, place: "pier" } } });
  const after = await editedAt(one, meal, Date.UTC(2027, 0, 20, 12) / 60_000);
  const clocks = ["van.2.arrive", "eat.start", "eat.end", "van.2.leave"].map((name) => clockOf(after, name));
  expect(clocks).toEqual(["10:00", "12:05", "12:35", "14:00"]);
});

it("leaves a call where it was, by hand, though what it was for is put off", async () => {
  const hitAt = (at: string): Entries =>
    wayWith(["lodge", { place: "pier", do: ["noon"] }], { hits: { noon: { at, place: "pier", for: "5 min" } } });
  const one = await dayOf(hitAt("14:03"));
  const call = one.day.instants.get("wren.call") ?? 0;
  // Calls are on whole five minutes: a minute after this one nobody has begun to load.
  const after = await editedAt(one, hitAt("18:03"), call + 1);
  expect(after?.instants.get("wren.call")).toBe(call);
  expect((after?.instants.get("van.1.leave") ?? 0) - (one.day.instants.get("van.1.leave") ?? 0)).toBe(240);
});
