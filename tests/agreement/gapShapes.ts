/** Plans of one car between hits, and whether what is planned in them fits. */

import type { Case } from "../cases/judged.ts";
import { random } from "../day/random.ts";

/** What a plan of one car between hits consists of. */
export interface Shape {
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

/** The plan; `stay` is one more task in a gap. */
export function textOf(
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
/** What does not fit. */
export const missed = ({ findings }: Case): readonly string[] =>
  findings.filter(({ code }) => MISSED.has(code)).map(({ code }) => code);

/** Every road between the places. */
export const ROADS = ["[a, b]", "[b, c]", "[a, c]", "[b, d]", "[c, d]", "[a, d]"];

/** A shape by its seed. */
export function randomShape(seed: number): Shape {
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
