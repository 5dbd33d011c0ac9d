/**
 * The third generator, of another kind than the other two: it knows neither YAML nor the schema. Stretches of several texts are
 * put one behind the other, bytes are turned over, and what results is read as UTF-8 again.
 */
import { type Dice, pick } from "./mutants.ts";

/** A stretch of a text: of signs, or of whole words. */
function stretch(dice: Dice, text: string): string {
  if (dice(2) === 0) {
    const from = dice(text.length + 1);
    return text.slice(from, from + dice(200));
  }
  const words = text.split(/(?<=[\s:,{}[\]])/u);
  const from = dice(words.length + 1);
  return words.slice(from, from + dice(30)).join("");
}

function turned(dice: Dice, text: string): string {
  const bytes = new TextEncoder().encode(text);
  if (bytes.length === 0) return text;
  for (let left = 1 + dice(4); left > 0; left--) {
    const at = dice(bytes.length);
    bytes[at] = (bytes[at] ?? 0) ^ (1 << dice(8));
  }
  return new TextDecoder("utf-8").decode(bytes);
}

/** One text from several, the first of which keeps its head more often than not. */
export function spliced(dice: Dice, texts: readonly string[]): string {
  const [first = ""] = texts;
  const at = dice(first.length + 1);
  const middle = Array.from({ length: dice(4) }, () => stretch(dice, pick(dice, texts))).join("");
  const whole = first.slice(0, at) + middle + first.slice(at + dice(40));
  return dice(2) === 0 ? whole : turned(dice, whole);
}

/** Words of any kind where a flag or an argument stood: numbers, names that every object has, the words of other flags. */
const WORDS = [
  "constructor",
  "__proto__",
  "-",
  "--",
  "--json",
  "-1",
  "1e999",
  "NaN",
  "",
  " ",
  "a=b",
  "a.b=c",
  "9".repeat(300),
];

/** A command line with a word left out, put twice, exchanged or replaced. */
export function distorted(dice: Dice, argv: readonly string[]): readonly string[] {
  const line = [...argv];
  const at = dice(line.length);
  const turn = dice(4);
  if (turn === 0 && line[at + 1] !== "--json") line.splice(at, 1);
  // A form asked for twice or as the value of another flag is hard to judge: its words stay where they are.
  else if (turn === 1) line.splice(at, 0, pick(dice, ["check", ...argv.filter((word) => word !== "--json")]));
  else if (turn === 2) line[at] = pick(dice, WORDS);
  else line.push(pick(dice, WORDS));
  return line;
}
