/** Makes untrusted text inert: for a terminal, as one line without markup, and with words from right to left kept apart. */
import { once } from "../../lists.ts";

/** Signs of plain English text, none of which needs care: most texts hold no others. */
const PLAIN = /^[ -~]*$/;

/** C0, DEL, C1, line separators and the marks that turn the reading direction. */
const unsafe = once(() => /[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}]/gu);
/** Soft hyphen, zero-width space and byte order mark: invisible, and measured differently by every terminal. */
const INVISIBLE = /[\u00AD\u200B\uFEFF]/gu;

const mark = (character: string): string =>
  `<${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(2, "0")}>`;

/** Replaces control and bidi characters with visible `<1B>` marks, so that text cannot drive a terminal. Doing it twice changes nothing. */
export const printable = (text: string): string =>
  PLAIN.test(text) ? text : text.replace(/\t/gu, " ").replace(INVISIBLE, "").normalize("NFC").replace(unsafe(), mark);

/** Joins lines by spaces and takes out what no eye sees: controls and marks that turn the reading direction. */
export const plainLine = (text: string): string =>
  text
    .replace(/[\s\p{Zl}\p{Zp}]+/gu, " ")
    .replace(/[\p{Cc}\p{Bidi_Control}]/gu, "")
    .trim();

/** Letters of Hebrew, Arabic, Syriac, Thaana, N'Ko and their kin. */
const LETTER = "[\\u0590-\\u08ff\\ufb1d-\\ufdff\\ufe70-\\ufefc\\u{10800}-\\u{10fff}\\u{1e800}-\\u{1efff}]";

/** Words with one sign between two of them; a wider gap parts two cells of a table. */
export const rightToLeft = once(() => new RegExp(`(${LETTER}+(?:[ \\u00a0'’-]${LETTER}+)*)`, "u"));

const every = once(() => new RegExp(rightToLeft().source, "gu"));

/** Inert text with FIRST STRONG ISOLATE and POP DIRECTIONAL ISOLATE (UAX 9) around such words: two marks without a width. */
export const isolate = (text: string): string => (PLAIN.test(text) ? text : text.replace(every(), "\u2068$1\u2069"));
