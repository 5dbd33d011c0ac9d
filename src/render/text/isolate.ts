/**
 * Words that are read from right to left, and the marks that let them keep to themselves where a form has no element for
 * it: without them a terminal, an editor or a chat that knows both directions takes the time behind a name with the name.
 */

/** Letters of Hebrew, Arabic, Syriac, Thaana, N'Ko and their kin. */
const LETTER = "[\\u0590-\\u08ff\\ufb1d-\\ufdff\\ufe70-\\ufefc\\u{10800}-\\u{10fff}\\u{1e800}-\\u{1efff}]";

/** Words with one sign between two of them; a wider gap parts two cells of a table. */
export const RIGHT_TO_LEFT = new RegExp(`(${LETTER}+(?:[ \\u00a0'’-]${LETTER}+)*)`, "u");

const EVERY = new RegExp(RIGHT_TO_LEFT.source, "gu");

/** Inert text with FIRST STRONG ISOLATE and POP DIRECTIONAL ISOLATE (UAX 9) around such words: two marks without a width. */
export const isolate = (text: string): string => text.replace(EVERY, "\u2068$1\u2069");
