/** What `--redact` takes out of a plan's free text, for every report alike. */

/** Runs of digits that may be a telephone number, and mail addresses. */
const NUMBER = /\+?\d(?:[\s().\-/]{0,2}\d){6,}/gu;
const MAIL = /[^\s@<>]+@[^\s@<>]+/gu;

/** The text without telephone numbers and mail addresses. */
export const withoutContacts = (text: string): string => text.replace(MAIL, "[left out]").replace(NUMBER, "[left out]");
