/** Gaps: what they promise fits when it is planned to the minute, and a minute more does not. */
import { describe, expect, it } from "vitest";
import { gapsOf } from "../../src/roads/gaps.ts";
import { type Case, judgedFile, judgedText } from "../cases/judged.ts";
import { random } from "../day/random.ts";

/** What a plan of one car between hits consists of. */
interface Shape {
  readonly roads: readonly string[];
  readonly hits: readonly { readonly id: string; readonly at: string; readonly place: string; readonly more: string }[];
  /** Tasks at the place of the hit before them, by its id. */
  readonly tasks: readonly { readonly id: string; readonly after: string; readonly minutes: number }[];
  readonly rules: string;
  readonly weather: string;
}

/** The stops of the run: one for each visit, and a stay after a hit where one is planned. */
function stopsOf({ hits, tasks }: Shape, stay: { readonly after: string; readonly place: string } | null): string {
  const stops: { place: string; done: string[] }[] = [];
  for (const { id, place } of hits) {
    const last = stops.at(-1);
    const own = tasks.filter(({ after }) => after === id).map((task) => task.id);
    if (last?.place === place) last.done.push(id, ...own);
    else stops.push({ place, done: [id, ...own] });
    if (stay?.after === id) stops.push({ place: stay.place, done: ["stay"] });
  }
  return ["a", ...stops.map(({ place, done }) => `{ place: ${place}, do: [${done.join(", ")}] }`), "a"].join(", ");
}

function textOf(
  shape: Shape,
  stay: { readonly after: string; readonly place: string; readonly minutes: number } | null = null,
) {
  const tasks = shape.tasks.map(({ id, after, minutes }) => {
    const place = shape.hits.find((hit) => hit.id === after)?.place ?? "b";
    return `  ${id}: { place: ${place}, for: ${minutes} min, who: [wren, bo] }`;
  });
  if (stay !== null) tasks.push(`  stay: { place: ${stay.place}, for: ${stay.minutes} min, who: [wren, bo] }`);
  return `daywright: 1
date: 2027-05-10
clock: UTC
crew: { wren: { role: camera, drives: [car] }, bo: { role: engineer } }
vehicles: { car: {} }
places: { a: { zone: UTC, kind: lodging }, b: { zone: UTC }, c: { zone: UTC }, d: { zone: UTC } }
paths: { dish: { kind: satellite, vehicle: car, slot: 101 west } }
roads: [ ${shape.roads.join(", ")} ]
hits:
${shape.hits.map(({ id, at, place, more }) => `  ${id}: { at: "${at}", for: 5 min, place: ${place}${more} }`).join("\n")}
${tasks.length === 0 ? "" : `tasks:\n${tasks.join("\n")}\n`}runs: { car: { driver: wren, aboard: [wren, bo], stops: [${stopsOf(shape, stay)}] } }
rules: { ${shape.rules} }
${shape.weather}`;
}

const MISSED: ReadonlySet<string> = new Set(["hit-missed", "task-missed", "day-impossible", "run-unfixed"]);
const missed = ({ findings }: Case): readonly string[] =>
  findings.filter(({ code }) => MISSED.has(code)).map(({ code }) => code);

const ROADS = ["[a, b]", "[b, c]", "[a, c]", "[b, d]", "[c, d]", "[a, d]"];

function randomShape(seed: number): Shape {
  const below = random(seed);
  const clock = (minute: number): string =>
    `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
  let at = 480 + below(60);
  const hits = Array.from({ length: 2 + below(2) }, (_, index) => {
    at += index === 0 ? 0 : 150 + below(240);
    const more = [
      below(3) === 0 ? ", firm: false" : "",
      below(3) === 0 ? ", path: dish" : "",
      below(4) === 0 ? ", clear: 3 min" : "",
    ];
    return { id: `h${index}`, at: clock(at), place: below(3) === 0 ? "c" : "b", more: more.join("") };
  });
  const tasks = hits
    .slice(0, -1)
    .flatMap(({ id }, index) => (below(2) === 0 ? [] : [{ id: `t${index}`, after: id, minutes: 10 + below(25) }]));
  const roads = ROADS.map((link) => {
    const drive = 5 + below(40);
    return `{ link: ${link}, drive: ${drive} min, bad: ${drive + below(30)} min }`;
  });
  const rules = `planDrivesAt: ${["bad", "drive", "bad-into-firm"][below(3)]}`;
  return { roads, hits, tasks, rules, weather: below(3) === 0 ? "weather: [ { road: snow } ]" : "" };
}

describe("the cases", () => {
  it("gap.yaml: 65 min at c, not 90", async () => {
    // h 12:00 to 12:05, clear 10, strike 20: packed 12:35; 40 min out at `bad`, since g is firm, and 5 to park: 13:20.
    // g at 16:00 less in position 10, line check 10, set-up 30, park 5 is 15:05; 40 min back: 14:25, 65 min later.
    const { day } = await judgedFile("fixtures/cases/world/gap.yaml");
    const c = (await gapsOf(day)).find(({ place }) => place === "c");
    expect(c).toMatchObject({
      from: "h",
      to: "g",
      outMinutes: 40,
      backMinutes: 40,
      stayMinutes: 65,
      plannedMinutes: 0,
    });
  });

  it("gap-does-not-fit.yaml: 90 min there are 25 too many", async () => {
    const day = await judgedFile("fixtures/cases/world/gap-does-not-fit.yaml");
    expect(missed(day)).toEqual(["task-missed"]);
    expect(day.found("task-missed")[0]?.shortMinutes).toBe(25);
  });
});

describe("what is planned in a gap is taken off, and named", () => {
  const shape: Shape = {
    roads: ROADS.map((link) => `{ link: ${link}, drive: 30 min, bad: 40 min }`),
    hits: [
      { id: "h0", at: "12:00", place: "b", more: "" },
      { id: "h1", at: "16:00", place: "b", more: "" },
    ],
    tasks: [{ id: "meal", after: "h0", minutes: 20 }],
    rules: "planDrivesAt: bad",
    weather: "",
  };

  it("20 min of work between two hits leave 45 of 65", async () => {
    const { day } = await judgedText(textOf(shape));
    expect((await gapsOf(day)).find(({ place }) => place === "c")).toMatchObject({
      stayMinutes: 45,
      planned: ["meal"],
      plannedMinutes: 20,
    });
  });

  it("the next stop's own work is kept free as well", async () => {
    const other = {
      ...shape,
      hits: [shape.hits[0], { id: "h1", at: "16:00", place: "c", more: "" }].filter((hit) => hit !== undefined),
      tasks: [],
    };
    const free = (await gapsOf((await judgedText(textOf(other))).day)).find(({ place }) => place === "d");
    // Packed 12:35, 40 out and 5 to park: 13:20; at c by 15:05, 40 back: 14:25.
    expect(free?.stayMinutes).toBe(65);
  });
});

it("on random days every stay fits to the minute, and a minute more does not", { timeout: 300_000 }, async () => {
  let [tried, gaps] = [0, 0];
  for (let seed = 1; seed <= 40; seed++) {
    const shape = randomShape(seed);
    const plain = await judgedText(textOf(shape));
    if (missed(plain).length > 0) continue;
    for (const gap of await gapsOf(plain.day)) {
      if (gap.stayMinutes === null || gap.stayMinutes < 1) continue;
      const { from: after, place, stayMinutes } = gap;
      // A stay where one of the hits is made would be one visit with it.
      const [before, next] = [gap.from, gap.to].map((id) => shape.hits.find((hit) => hit.id === id)?.place);
      if (place === before || place === next) continue;
      gaps++;
      const fits = await judgedText(textOf(shape, { after, place, minutes: stayMinutes }));
      expect([seed, place, missed(fits)]).toEqual([seed, place, []]);
      const over = await judgedText(textOf(shape, { after, place, minutes: stayMinutes + 1 }));
      expect([seed, place, missed(over).length > 0]).toEqual([seed, place, true]);
    }
    tried++;
  }
  expect(tried).toBeGreaterThan(20);
  expect(gaps).toBeGreaterThan(40);
});
