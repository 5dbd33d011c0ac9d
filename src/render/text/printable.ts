/** Makes untrusted text inert for a terminal: controls and bidi marks become visible, the rest is NFC. */

/** C0, DEL, C1, line separators and the marks that turn the reading direction. */
const UNSAFE = /[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}]/gu;
/** Soft hyphen, zero-width space and byte order mark: invisible, and measured differently by every terminal. */
const INVISIBLE = /[\u00AD\u200B\uFEFF]/gu;

const mark = (character: string): string =>
  `<${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(2, "0")}>`;

/** Replaces control and bidi characters with visible `<1B>` marks, so that text cannot drive a terminal. Doing it twice changes nothing. */
export const printable = (text: string): string =>
  text.replace(/\t/gu, " ").replace(INVISIBLE, "").normalize("NFC").replace(UNSAFE, mark);
