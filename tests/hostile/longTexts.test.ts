/**
 * No pattern takes time that grows faster than the text: the same sign thousands of times, in every kind of value, as a key, as a
 * bare line and on the command line.
 */
import { expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { runs } from "../fuzz.ts";

const HEAD = "daywright: 1\ndate: 2027-01-20\nclock: America/Chicago\n";
/** `V` is the long text. */
const PLACES: readonly string[] = [
  "title: V",
  "date: V",
  'zone: "V"',
  "places: { pier: { at: V } }",
  'places: { pier: { at: "V" } }',
  'places: { pier: { address: "V", name: "V" } }',
  'rules: { wheelBreak: "V", turnaround: "V" }',
  'hits: { dawn: { at: "V", for: "V", place: "V" } }',
  'crew: { wren: { phone: "V", role: "V", drives: "V" } }',
  'vehicles: { wagon: { gross: "V", tank: "V", plate: "V" } }',
  'tasks: { talk: { window: "V", for: "V", who: "V" } }',
  'runs: { wagon: "V" }',
  'legs: [{ from: "V", to: "V", drive: "V", km: "V" }]',
  "accept: [{ code: V, why: V }]",
  "V: 1",
  "V",
  "crew:\n  V",
  "crew:\n  wren V",
  "crew: V",
  'routing: { url: "http://V" }',
  'uses: "V"',
  "follows: V",
  "hits: { dawn: { at: V, needs: [V], path: V, note: 'V' } }",
  "labels: { V: V }",
  "actual: { V: V, wren: { released: V } }",
  "weather: [{ temp: V, wind: V, note: V }]",
  "paths: { up: { kind: V, windows: [V], booking: 'V' } }",
  "packs: { brick: { wh: V, count: V, charge: V } }",
  "history: { wren: { released: V, asleep: V } }",
  "# V",
];
const SIGNS = [
  " ",
  "\t",
  "0",
  "a",
  "/",
  "-",
  " - ",
  "a,",
  "0.",
  "1 ",
  "a: ",
  "°",
  "'",
  "1 h ",
  "[",
  "every ",
  "\u00a0",
  "#",
  ...[
    "\r",
    "\n",
    "\\",
    "{",
    "}",
    "]",
    "(",
    ".",
    ":",
    ",",
    ", ",
    "? ",
    "!",
    "&a ",
    "*a ",
    "1:",
    "00:00 ",
    "N ",
    "w ",
    "e",
    "é",
  ],
  ...[
    "\u{1d4b3}",
    "\u202f",
    "\u2028",
    '"',
    "_",
    "|",
    "<",
    "+",
    "1,",
    "a/",
    "@",
    "%",
    "`",
    "=",
    ";",
    "\u2013 ",
    "* ",
    "to ",
  ],
];
/** What a command line takes: its words are cut by no rule for plans. */
const WORDS: readonly (readonly string[])[] = [
  ["compare", "day.yaml", "--with", "V"],
  ["calls", "day.yaml", "--set", "V"],
  ["calls", "day.yaml", "--set", "hits.dawn.at=V"],
  ["log", "day.yaml", "wagon", "fuel", "V"],
  ["log", "day.yaml", "wagon", "at", "V"],
  ["log", "day.yaml", "wren", "slept", "V"],
  ["check", "day.yaml", "--set", "V=V"],
  ["calls", "day.yaml", "--for", "V"],
  ["sheet", "day.yaml", "-o", "V"],
  ["calls", "day.yaml", "--now", "V"],
  ["calls", "day.yaml", "--clock", "V"],
  ["log", "day.yaml", "wren", "V"],
  ["log", "day.yaml", "dish", "V", "V"],
  ["explain", "V"],
  ["V"],
];
/** A twelfth of what a plan may hold; a pattern of quadratic cost reads it in seconds. */
const LONG = 20_000;
/** Far above what a linear reading takes, milliseconds of one core. */
const MOST_MS = 1500;

async function slow(argv: readonly string[], text: string): Promise<string | null> {
  const timed = async (): Promise<number> => {
    const begin = process.cpuUsage();
    await ran(argv, { files: { "day.yaml": text } });
    const { user, system } = process.cpuUsage(begin);
    return (user + system) / 1000;
  };
  const first = await timed();
  const least = first < MOST_MS ? first : Math.min(first, await timed());
  return least < MOST_MS ? null : `${Math.round(least)} ms`;
}

const drawn = <T>(all: readonly T[], n: number): readonly T[] =>
  all.filter((_, i) => i % runs(7, 1) === n % runs(7, 1));

it("in a plan", { timeout: 600_000 }, async () => {
  const found: string[] = [];
  for (const [n, sign] of SIGNS.entries())
    for (const place of drawn(PLACES, n))
      for (const around of ["aVx"]) {
        const long = around.replace("V", () => sign.repeat(LONG / sign.length));
        const took = await slow(["check", "day.yaml"], `${HEAD}${place.replaceAll("V", () => long)}\n`);
        if (took !== null) found.push(`${took}: ${JSON.stringify(sign)} in ${around} in ${place}`);
      }
  expect(found).toEqual([]);
});

it("on a command line", { timeout: 600_000 }, async () => {
  const found: string[] = [];
  for (const [n, sign] of SIGNS.entries())
    for (const words of drawn(WORDS, n)) {
      const long = `a${sign.repeat(LONG / sign.length)}x`;
      const took = await slow(
        words.map((word) => word.replace("V", () => long)),
        `${HEAD}crew: { wren: {} }\n`,
      );
      if (took !== null) found.push(`${took}: ${JSON.stringify(sign)} in ${words.join(" ")}`);
    }
  expect(found).toEqual([]);
});
