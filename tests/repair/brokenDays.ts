/** Random days of `tests/agreement`, each broken in one place, with the edit that undoes it. */
import type { Edit } from "../../src/plan/index.ts";
import { type Entries, randomPlan } from "../agreement/randomPlan.ts";
import { random } from "../day/random.ts";

type Json = Entries[string];
type Dice = (below: number) => number;

export interface Broken {
  readonly what: string;
  readonly text: string;
  /** What takes the fault back. */
  readonly undo: readonly Edit[];
}

/** A plan as one entry a line, each in flow style, so that edits have lines to stand on. */
export const planText = (entries: Entries): string =>
  Object.entries(entries)
    .map(([key, value]) => `${key}: ${JSON.stringify(value)}\n`)
    .join("");

const isMap = (value: Json | undefined): value is { readonly [key: string]: Json } =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const mapOf = (value: Json | undefined): { readonly [key: string]: Json } => (isMap(value) ? value : {});

const listOf = (value: Json | undefined): readonly Json[] => (Array.isArray(value) ? value : []);

/** One of a list; undefined if it is empty. */
const pick = <T>(dice: Dice, all: readonly T[]): T | undefined =>
  all.length === 0 ? undefined : all[dice(all.length)];

/** A random day to break: with fuel, a piece that a task needs, and a path with signal everywhere. */
export function soundDay(seed: number): Entries {
  const plan = randomPlan(seed);
  const places = Object.fromEntries(
    Object.entries(mapOf(plan["places"])).map(([id, place]) => [id, { ...mapOf(place), signal: "good" }]),
  );
  const vehicles = Object.fromEntries(
    Object.entries(mapOf(plan["vehicles"])).map(([id, vehicle]) => [
      id,
      { ...mapOf(vehicle), range: "900 km", fuel: "100%" },
    ]),
  );
  const roads = listOf(plan["roads"]).map((road) => ({ ...mapOf(road), km: 20 }));
  const hits = Object.fromEntries(
    Object.entries(mapOf(plan["hits"])).map(([id, hit]) => [id, { ...mapOf(hit), path: "cell" }]),
  );
  const kit: Record<string, Json> = {};
  const tasks = Object.fromEntries(
    Object.entries(mapOf(plan["tasks"])).map(([id, task]) => {
      const run = Object.entries(mapOf(plan["runs"])).find(([, one]) => JSON.stringify(one).includes(`"${id}"`));
      if (run === undefined || mapOf(task)["kind"] !== undefined) return [id, task];
      kit[`k${id}`] = { in: run[0] };
      return [id, { ...mapOf(task), needs: [`k${id}`] }];
    }),
  );
  return { ...plan, places, vehicles, roads, hits, tasks, kit, paths: { cell: { kind: "cellular" } } };
}

const withEntry = (plan: Entries, section: string, id: string, entry: Json): Entries => ({
  ...plan,
  [section]: { ...mapOf(plan[section]), [id]: entry },
});

type Breaker = (plan: Entries, dice: Dice) => { readonly plan: Entries; readonly undo: readonly Edit[] } | null;

/** Where a run's stops are lists with a task among what is done there. */
function busyStop(plan: Entries, dice: Dice, least: number) {
  const stops = Object.entries(mapOf(plan["runs"])).flatMap(([vehicle, run]) =>
    listOf(mapOf(run)["stops"]).flatMap((stop, at) => {
      const doing = listOf(mapOf(stop)["do"]).map(String);
      return doing.length >= least ? [{ vehicle, at, stop: mapOf(stop), doing }] : [];
    }),
  );
  return pick(dice, stops);
}

function withStop(plan: Entries, vehicle: string, at: number, stop: Json): Entries {
  const run = mapOf(mapOf(plan["runs"])[vehicle]);
  return withEntry(plan, "runs", vehicle, { ...run, stops: listOf(run["stops"]).with(at, stop) });
}

/** What the house asks of a meal (`rules.mealFor`, which these days leave as it is). */
const MEAL_MINUTES = 30;

const BREAKERS: Readonly<Record<string, Breaker>> = {
  "a task that takes too long": (plan, dice) => {
    const [id, task] = pick(dice, Object.entries(mapOf(plan["tasks"]))) ?? [];
    const { for: length, kind } = mapOf(task);
    if (id === undefined || typeof length !== "string") return null;
    // No repair makes a meal shorter than the house asks for, so such a one cannot be undone.
    if (kind === "meal" && Number.parseInt(length, 10) < MEAL_MINUTES) return null;
    return {
      plan: withEntry(plan, "tasks", id, { ...mapOf(task), for: `${120 + dice(240)} min` }),
      undo: [{ path: ["tasks", id, "for"], value: length }],
    };
  },
  "a departure that is too late": (plan, dice) => {
    const [vehicle, run] = pick(dice, Object.entries(mapOf(plan["runs"]))) ?? [];
    const [first] = listOf(mapOf(run)["stops"]);
    if (vehicle === undefined || typeof first !== "string") return null;
    const leave = `${8 + dice(6)}:30`.padStart(5, "0");
    return {
      plan: withStop(plan, vehicle, 0, { place: first, leave }),
      undo: [{ path: ["runs", vehicle, "stops", 0, "leave"], value: null }],
    };
  },
  "an order that cannot be": (plan, dice) => {
    const stop = busyStop(plan, dice, 2);
    if (stop === undefined) return null;
    const at = dice(stop.doing.length - 1);
    const swapped = stop.doing.with(at, stop.doing[at + 1] ?? "").with(at + 1, stop.doing[at] ?? "");
    return {
      plan: withStop(plan, stop.vehicle, stop.at, { ...stop.stop, do: swapped }),
      undo: [{ path: ["runs", stop.vehicle, "stops", stop.at, "do"], value: `[${stop.doing.join(", ")}]` }],
    };
  },
  "a task more that does not fit": (plan, dice) => {
    const stop = busyStop(plan, dice, 1);
    if (stop === undefined) return null;
    const place = String(stop.stop["place"]);
    const aboard = listOf(mapOf(mapOf(plan["runs"])[stop.vehicle])["aboard"]).slice(0, 1);
    const task = { place, for: `${90 + dice(200)} min`, who: aboard };
    const at = dice(stop.doing.length + 1);
    return {
      plan: withStop(withEntry(plan, "tasks", "extra", task), stop.vehicle, stop.at, {
        ...stop.stop,
        do: stop.doing.toSpliced(at, 0, "extra"),
      }),
      undo: [
        { path: ["runs", stop.vehicle, "stops", stop.at, "do"], value: `[${stop.doing.join(", ")}]` },
        { path: ["tasks", "extra"], value: null },
      ],
    };
  },
  "a hit more that does not fit": (plan, dice) => {
    const stop = busyStop(plan, dice, 1);
    if (stop === undefined) return null;
    const place = String(stop.stop["place"]);
    const at = `${5 + dice(14)}:${10 + dice(50)}`.padStart(5, "0");
    const who = listOf(mapOf(mapOf(plan["runs"])[stop.vehicle])["aboard"]).slice(0, 1);
    return {
      plan: withStop(
        withEntry(plan, "hits", "extra", { at, for: "3 min", place, path: "cell", who, firm: false }),
        stop.vehicle,
        stop.at,
        { ...stop.stop, do: [...stop.doing, "extra"] },
      ),
      undo: [
        { path: ["runs", stop.vehicle, "stops", stop.at, "do"], value: `[${stop.doing.join(", ")}]` },
        { path: ["hits", "extra"], value: null },
      ],
    };
  },
  "a piece in the wrong vehicle": (plan, dice) => {
    const [id, piece] = pick(dice, Object.entries(mapOf(plan["kit"]))) ?? [];
    const own = String(mapOf(piece)["in"]);
    const other = pick(
      dice,
      Object.keys(mapOf(plan["vehicles"])).filter((one) => one !== own),
    );
    if (id === undefined || other === undefined) return null;
    return {
      plan: withEntry(plan, "kit", id, { in: other }),
      undo: [{ path: ["kit", id, "in"], value: own }],
    };
  },
  "a fill-up left out": (plan, dice) => {
    const [id, run] = pick(dice, Object.entries(mapOf(plan["runs"]))) ?? [];
    const [first] = listOf(mapOf(run)["stops"]);
    if (id === undefined || typeof first !== "string") return null;
    const fill = `{ kind: fuel, place: ${first}, for: 15 min, who: [${String(mapOf(run)["driver"])}] }`;
    return {
      plan: withEntry(plan, "vehicles", id, { ...mapOf(mapOf(plan["vehicles"])[id]), fuel: `${1 + dice(4)}%` }),
      undo: [
        { path: ["tasks", "fill"], value: fill },
        { path: ["runs", id, "stops", 0], value: `{ place: ${first}, do: [fill] }` },
      ],
    };
  },
  "a path without signal": (plan, dice) => {
    const [id, hit] = pick(dice, Object.entries(mapOf(plan["hits"]))) ?? [];
    if (id === undefined) return null;
    const dish = { kind: "satellite", vehicle: "v0", slot: "10 east" };
    return {
      plan: withEntry(withEntry(plan, "paths", "dish", dish), "hits", id, { ...mapOf(hit), path: "dish" }),
      undo: [{ path: ["hits", id, "path"], value: "cell" }],
    };
  },
};

/** The day of a seed before it is broken, and after. Null where it has nothing of the kind to break. */
export function brokenDay(seed: number): { readonly sound: string; readonly broken: Broken } | null {
  const dice = random(seed * 7919 + 13);
  const plan = soundDay(seed);
  const kinds = Object.entries(BREAKERS);
  const first = dice(kinds.length);
  for (const [what, breaks] of [...kinds.slice(first), ...kinds.slice(0, first)]) {
    const made = breaks(plan, dice);
    if (made !== null) return { sound: planText(plan), broken: { what, text: planText(made.plan), undo: made.undo } };
  }
  return null;
}
