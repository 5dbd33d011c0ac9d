/**
 * Growth: whole checks of a day against its hits, people, legs and days of history, each at a size and at four times as much. The
 * name holds the exponent, the logarithm of how many times as long it takes to the base of four: 1 is in proportion, below 1 is less.
 */
import { judge } from "../../src/index.ts";
import { daysOf } from "../power/plans.ts";
import type { Bench } from "./bench.ts";

/** How much of everything there is in a day. */
interface Size {
  readonly hits?: number;
  readonly people?: number;
  readonly stops?: number;
  readonly history?: number;
}

/** A day with so many hits in a row at one pier, people in one wagon, places between lodge and pier, and days before it of each. */
function planOf({ hits = 2, people = 2, stops = 1, history = 0 }: Size): string {
  const numbers = (count: number): readonly number[] => Array.from({ length: count }, (_, n) => n + 1);
  const places = ["lodge", ...numbers(stops).map((n) => `stop${n}`), "pier"];
  const clock = (n: number): string => {
    const minutes = 600 + Math.floor((480 * n) / hits);
    return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
  };
  const worked = numbers(history).map((n) => {
    const date = new Date(Date.UTC(2027, 0, 20 - n)).toISOString().slice(0, 10);
    return `${date}: { duty: 9 h, driving: 2 h }`;
  });
  return [
    "daywright: 1",
    "date: 2027-01-20",
    "clock: America/Chicago",
    "zone: America/Chicago",
    ...(history === 0 ? [] : ["history:"]),
    ...(history === 0 ? [] : numbers(people).map((n) => `  hand${n}: { totals: { ${worked.join(", ")} } }`)),
    "crew:",
    ...numbers(people).map((n) => `  hand${n}: { role: camera${n === 1 ? ", drives: wagon" : ""} }`),
    "vehicles: { wagon: { seats: 15 } }",
    "places:",
    ...places.map((place, n) => `  ${place}: { at: [${(46.6 + 0.01 * n).toFixed(2)}, -90.88] }`),
    "roads:",
    ...places.slice(1).map((place, n) => `  - { link: [${places[n]}, ${place}], drive: 4 min, bad: 5 min }`),
    "hits:",
    ...numbers(hits).map((n) => `  hit${n}: { at: "${clock(n)}", for: 2 min, place: pier }`),
    `runs: { wagon: [${[...places, "lodge"].join(", ")}] }`,
  ]
    .join("\n")
    .replace(/^roads:\n/m, `roads:\n  - { link: [pier, lodge], drive: 30 min, bad: 40 min }\n`);
}

async function millisecondsOf(text: string): Promise<number> {
  const times: number[] = [];
  for (let round = 0; round < 7; round++) {
    const from = performance.now();
    await judge({ days: await daysOf(text), now: null });
    times.push(performance.now() - from);
  }
  return times.toSorted((a, b) => a - b)[3] ?? 0;
}

const GROWING = [
  { name: "40 hits", few: { hits: 10 }, many: { hits: 40 } },
  { name: "12 people", few: { people: 3 }, many: { people: 12 } },
  { name: "40 legs", few: { stops: 9 }, many: { stops: 39 } },
  { name: "24 days of history", few: { history: 6 }, many: { history: 24 } },
] as const;

/** By what is made four times as much. */
export const benches: Bench[] = [];
for (const { name, few, many } of GROWING) {
  const [small, large] = [planOf(few), planOf(many)];
  const exponent = Math.log((await millisecondsOf(large)) / (await millisecondsOf(small))) / Math.log(4);
  benches.push({
    name: `a check with ${name}, exponent ${exponent.toFixed(2)} from a quarter as many`,
    units: 1,
    run: async () => judge({ days: await daysOf(large), now: null }),
  });
}
