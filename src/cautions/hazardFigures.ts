/** Reads the figures in what somebody wrote about a hazard: thickness of ice in inches, voltage in kilovolts. */

const GLYPHS: Readonly<Record<string, string>> = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅓": "1/3",
  "⅔": "2/3",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};

/** Up to three decimals, so that the pattern of a figure reads the whole. */
const decimal = (value: number): string => String(Math.round(value * 1000) / 1000);

/** Fractions, feet with inches and thousands as plain decimal numbers: `4 1/2 in` is `4.5 in`, `1 ft 2 in` is `14 in`. */
export const tidyNumbers = (text: string): string =>
  text
    .replace(/[½¼¾⅓⅔⅛⅜⅝⅞]/g, (glyph) => ` ${GLYPHS[glyph] ?? glyph}`)
    .replace(
      /(?:(?<![\d.,])(\d{1,3})\s{1,2})?(?<![\d.,])(\d{1,2})\/(\d{1,2})(?=\s?(?:in\b|inch|ft\b|feet\b|foot\b|"))/gi,
      (all, whole, top, bottom) =>
        Number(bottom) === 0 ? all : decimal(Number(whole ?? 0) + Number(top) / Number(bottom)),
    )
    .replace(
      /(\d{1,2})\s?(?:ft|foot|feet|')\s?(\d{1,2}(?:\.\d{1,3})?)\s?(?:inches|inch|in\b|")/gi,
      (_, feet, inches) => `${decimal(Number(feet) * 12 + Number(inches))} in`,
    )
    .replace(/(?<![\d.,])(\d{1,3})[ ,.'’](\d{3})(?=\s?(?:v|volts?|mm)\b)/gi, "$1$2");

/** What may stand behind a figure that says how far away or how deep, not how thick. */
const ELSEWHERE =
  "(?!\\s{0,2}(?:from|off|away|out|offshore|long|wide|deep\\s+water|high|tall|ahead|north|south|east|west|(?:of|above|below|over|under)\\s+(?:water|snow|the)))";

/** All numbers before one of these units, times what one is worth; of `12-17 in` both. */
function figures(said: string, units: Readonly<Record<string, number>>, unless = ""): readonly number[] {
  return Object.entries(units).flatMap(([unit, worth]) => {
    const number = "(?<![\\d.,])(\\d{1,6}(?:[.,]\\d{1,3})?)";
    const pattern = new RegExp(`${number}(?:\\s?(?:-|–|to)\\s?${number})?\\s?${unit}${unless}`, "gi");
    return [...said.matchAll(pattern)].flatMap(([, first, second]) =>
      [first, second].flatMap((text) => (text === undefined ? [] : [Number(text.replace(",", ".")) * worth])),
    );
  });
}

const INCHES = {
  "cm\\b": 1 / 2.54,
  "mm\\b": 1 / 25.4,
  "(?:m|met(?:er|re)s?)\\b": 100 / 2.54,
  '(?:(?:in|inch|inches)\\b|")': 1,
  "(?:(?:ft|foot|feet)\\b|')": 12,
};

/** Thicker than this, inches, no lake freezes: the figure is about something else. */
const THICKEST = 120;

/** Every thickness that a text states, inches. */
export const thicknessesIn = (text: string): readonly number[] =>
  figures(text, INCHES, ELSEWHERE).filter((inches) => inches <= THICKEST);

/** Every voltage that a text states, kV. */
export const kilovoltsIn = (text: string): readonly number[] =>
  figures(text, { "(?:kv|kilovolts?)\\b": 1, "(?:v|volts?)\\b": 1 / 1000 });
