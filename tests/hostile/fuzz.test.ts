/**
 * Any plan or log, any command line: the program ends with a promised exit status, in time, without a raw control character, a
 * number that is none, broken JSON or a secret. `npm run fuzz` runs far more; `DAYWRIGHT_FUZZ_FIRST` is the first seed.
 */
import { expect, it } from "vitest";
import { schema } from "../../src/index.ts";
import { ran } from "../cli/fakeIo.ts";
import { random } from "../day/random.ts";
import { runs } from "../fuzz.ts";
import { commandLine, soundLine } from "./commandLines.ts";
import { filesWith, type Sample, sampleOf, soundSample } from "./corpus.ts";
import { crossed } from "./crossed.ts";
import { Grower } from "./grown.ts";
import { hide, wrongs } from "./judged.ts";
import { type Dice, mutant, pick } from "./mutants.ts";
import { reshaped } from "./reshaped.ts";
import { distorted, spliced } from "./spliced.ts";

const FIRST = Number(process.env["DAYWRIGHT_FUZZ_FIRST"] ?? 1);
/** Longer texts take longer than they teach: one in twenty of the fuzz, none in the usual run. */
const largest = (dice: Dice): number => (dice(20) === 0 ? runs(SHORT, 100_000) : SHORT);
const SHORT = 3000;
/** On a busy machine the usual run takes minutes. */
const TIMEOUT = { timeout: runs(600_000, 14_400_000) };
const [plan, log] = [await schema("plan"), await schema("log")];

const wordsOf = (text: string): readonly string[] => text.match(/[\p{L}\p{N}-]+/gu) ?? ["wren"];

/** Runs one command line over a text, and says what was wrong with it. */
async function tried(seed: number, sample: Sample, made: string, argv: readonly string[]): Promise<readonly string[]> {
  const text = argv.includes("--redact") ? hide(made) : made;
  const timed = async () => {
    const begin = process.cpuUsage();
    const run = await ran(argv, { files: filesWith(sample, text) });
    const { user, system } = process.cpuUsage(begin);
    return { run, cpuMs: (user + system) / 1000 };
  };
  const { run, cpuMs } = await timed();
  // A second time where it is long: the first may have compiled what no run before it needed.
  const least = cpuMs < 500 ? cpuMs : Math.min(cpuMs, (await timed()).cpuMs);
  // A second for each plan that is named: one that is named twice is judged twice.
  const named = Math.max(1, argv.filter((word) => word === sample.name).length);
  return wrongs(argv, text, run, least / named).map((wrong) => `${seed}: ${wrong}: ${argv.join(" ")}`);
}

async function fuzzed(count: number, make: (dice: Dice, sample: Sample) => string | null): Promise<readonly string[]> {
  const found: string[] = [];
  for (let seed = FIRST; seed < FIRST + count && found.length < 20; seed++) {
    const dice = random(seed);
    const sample = sampleOf(dice, largest(dice));
    const text = make(dice, sample);
    if (text === null) continue;
    found.push(...(await tried(seed, sample, text, commandLine(dice, sample.name, wordsOf(text)))));
  }
  return found;
}

it("mutated plans and logs", TIMEOUT, async () => {
  expect(await fuzzed(runs(1500, 100_000), (dice, sample) => mutant(dice, sample.text))).toEqual([]);
});

it("plans and logs grown from the schema", TIMEOUT, async () => {
  const made = await fuzzed(runs(500, 50_000), (dice) => new Grower(dice(4) === 0 ? log : plan, dice).text());
  expect(made).toEqual([]);
});

it("plans crossed with others: the second generator", TIMEOUT, async () => {
  expect(
    await fuzzed(runs(500, 50_000), (dice, sample) => crossed(dice, sample.text, sampleOf(dice, largest(dice)).text)),
  ).toEqual([]);
});

it("texts spliced and bytes turned over, under distorted command lines: the third generator", TIMEOUT, async () => {
  const found: string[] = [];
  for (let seed = FIRST; seed < FIRST + runs(500, 50_000) && found.length < 20; seed++) {
    const dice = random(seed);
    const sample = sampleOf(dice, SHORT);
    const made = spliced(dice, [sample.text, sampleOf(dice, SHORT).text, sampleOf(dice, SHORT).text]);
    const argv = commandLine(dice, sample.name, wordsOf(made));
    found.push(...(await tried(seed, sample, made, dice(2) === 0 ? argv : distorted(dice, argv))));
  }
  expect(found).toEqual([]);
});

it("sound plans taken to an edge: the fourth generator", TIMEOUT, async () => {
  const found: string[] = [];
  for (let seed = FIRST; seed < FIRST + runs(300, 50_000) && found.length < 20; seed++) {
    const dice = random(seed);
    const sample = soundSample(dice);
    const made = sample.text.length > SHORT ? null : reshaped(dice, sample.text, plan);
    if (made === null) continue;
    const argv = soundLine(dice, sample.name, wordsOf(made));
    found.push(...(await tried(seed, sample, made, argv)));
  }
  expect(found).toEqual([]);
});

it("random signs", TIMEOUT, async () => {
  const signs = [
    ..."abc07: -{}[],#'\"&*|>%@`!?\n\r\t",
    "\u0000",
    "\u202e",
    "\ud83c",
    "daywright: 1\n",
    "hits:\n",
    "  ",
  ];
  const any = (dice: Dice): string => Array.from({ length: dice(60) }, () => pick(dice, signs)).join("");
  expect(await fuzzed(runs(500, 50_000), any)).toEqual([]);
});
