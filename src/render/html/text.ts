/** The one escape function of HTML and SVG: untrusted text becomes text, in content and in quoted attributes. */
import { printable } from "../text/printable.ts";

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ["&", "&amp;"],
  ["<", "&lt;"],
  [">", "&gt;"],
  ['"', "&quot;"],
  ["'", "&#39;"],
]);

/** Escapes text for HTML content and quoted attributes; control and bidi characters show as `<1B>`. */
export const htmlText = (text: string): string =>
  printable(text).replace(/[&<>"']/gu, (character) => ENTITIES.get(character) ?? "");

/** Letters that are read from right to left: Hebrew, Arabic, Syriac, Thaana, N'Ko and their kin. */
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;

/** Escaped text whose parts between commas, dots and brackets keep their own direction, so that none turns its neighbours. */
export const isolated = (text: string): string =>
  text
    .split(/(\s*[,;:·()→–]\s*)/u)
    .map((part) => (RIGHT_TO_LEFT.test(part) ? `<bdi>${htmlText(part)}</bdi>` : htmlText(part)))
    .join("");

/** Text inside a quoted string of a style sheet: everything but letters and digits as a number. */
export const cssText = (text: string): string =>
  printable(text).replace(/[^\p{L}\p{N} ]/gu, (character) => `\\${(character.codePointAt(0) ?? 0).toString(16)} `);

/** Schemes that a link may have; anything else stays plain text. */
const SAFE_LINK = /^(?:https?:\/\/|tel:|mailto:|geo:)[^\s<>"']*$/u;

/** The address escaped for an attribute, or null where its scheme is not one that a sheet may carry. */
export const htmlLink = (address: string): string | null => (SAFE_LINK.test(address) ? htmlText(address) : null);
