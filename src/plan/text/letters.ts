/** Patterns for words in any script. */

/**
 * A test for `anyScript`, whose matches of plain ASCII `ascii` gives as well, and is asked first: V8 builds its tables of
 * letters when the first `\p{…}` runs, which takes as long as reading a whole plan.
 */
export const wordTest =
  (ascii: RegExp, anyScript: RegExp) =>
  (text: string): boolean =>
    ascii.test(text) || anyScript.test(text);
