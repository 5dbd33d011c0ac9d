/** Whether the cost of a pattern grows faster than the text it is read over. */

const SIGNS = [
  ...[
    "a",
    " ",
    "0",
    "-",
    ".",
    ":",
    ",",
    "1 ",
    "a ",
    "a,",
    "0.",
    "(",
    "[",
    "{",
    '"',
    "'",
    "\\",
    "\n",
    "\t",
    "/",
    "a/",
    "+",
  ],
  ...["1 h ", "#", "@", "_", "a: ", "1°", "\u00a0", "\r", "é", "|", "`", "$", "%", "<"],
];
const BEFORE = ["", "a", "1", '"'];
const AFTER = ["!", "x\n"];
const SHORT = 500;
const LONG = 4 * SHORT;

/** Milliseconds to read a text once, the least of some. */
function cost(pattern: RegExp, text: string, times: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let n = 0; n < times; n++) {
    const begin = process.hrtime.bigint();
    // A pattern with `g` goes on behind each find, as `replace` does.
    if (pattern.global) text.replace(pattern, "");
    else pattern.test(text);
    least = Math.min(least, Number(process.hrtime.bigint() - begin) / 1e6);
  }
  return least;
}

/** The row over which it grows so; null for a pattern that keeps in step with its text. */
export function growing(pattern: RegExp): string | null {
  for (const sign of SIGNS)
    for (const before of BEFORE)
      for (const after of AFTER) {
        const row = (length: number): string => before + sign.repeat(length / sign.length) + after;
        // What is read in a moment has not grown; the ratio of what takes longer is 4 by the line, 16 by the square.
        if (cost(pattern, row(LONG), 1) < 0.5 || cost(pattern, row(LONG), 4) < 0.5) continue;
        // A machine that is busy elsewhere for a moment makes one look too long, never each of five.
        const grows = (): boolean => cost(pattern, row(LONG), 6) > 8 * cost(pattern, row(SHORT), 6);
        if ([1, 2, 3, 4, 5].every(grows)) return JSON.stringify(sign);
      }
  return null;
}
