/** The plans and logs that the fuzz starts from: every fixture, each with the files of its folder. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Dice } from "./mutants.ts";

/** A text of the fixtures. */
export interface Sample {
  /** Its path below `fixtures`. */
  readonly name: string;
  readonly text: string;
  /** All files of its folder, itself too, by path. */
  readonly files: Readonly<Record<string, string>>;
}

const ROOT = "fixtures";

function samplesIn(folder: string): readonly Sample[] {
  const entries = readdirSync(join(ROOT, folder), { withFileTypes: true });
  const texts = entries.filter((one) => one.isFile() && one.name.endsWith(".yaml"));
  const files = Object.fromEntries(
    texts.map(({ name }) => [join(folder, name), readFileSync(join(ROOT, folder, name), "utf8")]),
  );
  const own = Object.entries(files).map(([name, text]): Sample => ({ name, text, files }));
  return [...own, ...entries.filter((one) => one.isDirectory()).flatMap(({ name }) => samplesIn(join(folder, name)))];
}

const ALL = samplesIn("");
const BY_SIZE = ALL.toSorted((a, b) => a.text.length - b.text.length);

/** One of them, the short ones far more often: what they break is the same, and they take a hundredth of the time. */
export function sampleOf(dice: Dice, largest: number): Sample {
  const low = Math.min(dice(BY_SIZE.length), dice(BY_SIZE.length), dice(BY_SIZE.length));
  const sample = BY_SIZE[low];
  if (sample === undefined) throw new Error("no fixtures");
  return sample.text.length <= largest ? sample : (BY_SIZE[0] ?? sample);
}

const SOUND = BY_SIZE.filter(({ name, text }) => !name.startsWith("errors/") && /^daywright: 1$/mu.test(text));

/** One that is a plan and has no mistake, the short ones more often. */
export function soundSample(dice: Dice): Sample {
  const sample = SOUND[Math.min(dice(SOUND.length), dice(SOUND.length))];
  if (sample === undefined) throw new Error("no fixtures");
  return sample;
}

/** A text in the place of a sample's own, with the files beside it. */
export const filesWith = ({ name, files }: Sample, text: string): Record<string, string> => ({
  ...files,
  [name]: text,
});
