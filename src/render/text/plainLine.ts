/** Untrusted text as one line of plain text, for forms that have no markup: the calendar and the chat message. */

/** Joins lines by spaces and takes out what no eye sees: controls and marks that turn the reading direction. */
export const plainLine = (text: string): string =>
  text
    .replace(/[\s\p{Zl}\p{Zp}]+/gu, " ")
    .replace(/[\p{Cc}\p{Bidi_Control}]/gu, "")
    .trim();
