/** Figures and lists for people: rounded, with a real minus sign, joined by a word; programs read the values themselves. */

/** The value with so many decimals: `−14`, `0`, `7.5`; zero has no sign. */
export const figureText = (value: number, digits = 0): string =>
  value
    .toFixed(digits)
    .replace(/^-(?=[0.]+$)/u, "")
    .replace("-", "−");

/** `1 error`, `3 errors`; `many` where it is not `one` with an s. */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** `truck`, `truck and car`, `truck, car and van`; with `or` a choice. */
export const wordList = (words: readonly string[], last: "and" | "or"): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;
