/** Signs that phones, mail and word processors put in place of those on the keyboard. */

const DASHES = /[\u2010-\u2015\u2212]/g;
const CURLY_DOUBLE = /[\u00ab\u00bb\u201c-\u201f]/g;
const CURLY_SINGLE = /[\u2018-\u201b]/g;
const SPACES = /[\u00a0\u2000-\u200a\u202f\u3000]/g;

/** The text as a keyboard would have it. */
export const plainSigns = (text: string): string =>
  text
    .replace(DASHES, "-")
    .replace(CURLY_DOUBLE, '"')
    .replace(CURLY_SINGLE, "'")
    .replace(SPACES, " ")
    .replaceAll("\uff1a", ":");

/** As `plainSigns`, without quotes around the whole. */
export const plainWord = (text: string): string =>
  plainSigns(text)
    .replace(/^["']\s*|\s*["']$/g, "")
    .trim();
