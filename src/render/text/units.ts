/** A number keeps its unit on the line, and a telephone number its groups. */

const UNITS = "min|h|s|km/h|mph|km|mi|m|cm|mm|ft|in|kg|lb|°C|°F|Wh|W|V|A|%|MHz|GHz|Mbit/s|dB";
const NUMBER_AND_UNIT = new RegExp(`(\\p{N}) (?=(?:${UNITS})(?![\\p{L}\\p{N}]))`, "gu");
const TELEPHONE = /\+\p{N}[\p{N} ]*\p{N}/gu;
const NO_BREAK = "\u00a0";

/** The same text with blanks at which no line may break. */
export const bound = (text: string): string =>
  text.replace(NUMBER_AND_UNIT, `$1${NO_BREAK}`).replace(TELEPHONE, (number) => number.replaceAll(" ", NO_BREAK));

/** The text again with plain blanks, for a form in which lines are broken already. */
export const unbound = (text: string): string => text.replaceAll(NO_BREAK, " ");
