/** The one escape function of HTML and SVG: untrusted text becomes text, in content and in quoted attributes. */
import { bound } from "../text/fit.ts";
import { printable, rightToLeft } from "../text/printable.ts";

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

/** Escaped text: a number keeps its unit on the line, and what is read from right to left turns no neighbour. */
export const isolated = (text: string): string =>
  bound(text)
    .split(rightToLeft())
    .map((part, at) => (at % 2 === 1 ? `<bdi>${htmlText(part)}</bdi>` : htmlText(part)))
    .join("");

/** Text inside a quoted string of a style sheet: everything but letters and digits as a number. */
export const cssText = (text: string): string =>
  printable(text).replace(/[^\p{L}\p{N} ]/gu, (character) => `\\${(character.codePointAt(0) ?? 0).toString(16)} `);

/** Schemes that a link may have; anything else stays plain text. */
const SAFE_LINK = /^(?:https?:\/\/|tel:|mailto:|geo:)[^\s<>"']*$/u;

/** The address escaped for an attribute, or null where its scheme is not one that a sheet may carry. */
export const htmlLink = (address: string): string | null => (SAFE_LINK.test(address) ? htmlText(address) : null);
