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

/** Schemes that a link may have; anything else stays plain text. */
const SAFE_LINK = /^(?:https?:\/\/|tel:|mailto:|geo:)[^\s<>"']*$/u;

/** The address escaped for an attribute, or null where its scheme is not one that a sheet may carry. */
export const htmlLink = (address: string): string | null => (SAFE_LINK.test(address) ? htmlText(address) : null);
