/**
 * Addresses and number plates in free text, by their usual forms: a number and a street, a street and a number, a post code;
 * groups of capitals and digits. No form is complete, so what must stay private belongs in a key made for it.
 */

const NAMES = "road|street|avenue|lane|boulevard|highway|rd|blvd|hwy";
const KINDS = `${NAMES}|drive|court|place|way|quay|square|terrace|parkway|close|crescent|row|hill|route|pier|st|ave|ln|dr|ct|pl|sq|pkwy`;
/** With either first letter. */
const either = (words: string): string =>
  words
    .split("|")
    .map((word) => `[${word.charAt(0).toUpperCase()}${word.charAt(0)}]${word.slice(1)}`)
    .join("|");
const END = "(?![\\p{L}\\p{N}])";
const HOUSE = "(?<![\\p{L}\\p{N}:.,])\\p{N}{1,5}\\p{L}?,?\\s+";
const PARTICLE = "(?:(?:de|du|des|della|dei|del|la|le|las|los|el)\\s+|[dl]['’]\\s*)*";

const streets = () => [
  // 14 Shore Road, 5 North Hill Dr
  `${HOUSE}(?:\\p{Lu}[\\p{L}\\p{N}'’.-]*\\s+){1,4}(?:${either(KINDS)})${END}`,
  // 14 shore road
  `${HOUSE}\\p{L}+\\s+(?:${either(NAMES)})${END}`,
  // 99 Tasklane, 5 Hospitalroad
  `${HOUSE}\\p{L}{2,}(?:lane|road|street|strasse|straße|weg|straat|gatan)${END}`,
  // Dorfstraße 5, Kirchweg 12a
  `(?<!\\p{L})\\p{L}{2,}(?:straße|strasse|str\\.|weg|gasse|allee|platz|gatan|vägen|veien|katu|straat|laan|plein)\\s+\\p{N}{1,4}\\p{L}?${END}`,
  // 12 rue de la Gare
  `${HOUSE}(?:${either("rue|avenue|boulevard|chemin|place|quai|allée|impasse|route")})\\s+${PARTICLE}[\\p{L}'’-]+`,
  // Calle Mayor 5, via Roma 12
  `(?<!\\p{L})(?:${either("calle|via|avenida|rua|plaza|piazza")})\\s+${PARTICLE}(?:\\p{Lu}[\\p{L}'’-]*,?\\s+){1,4}\\p{N}{1,5}${END}`,
  // WI 54814, AB1 2CD
  `(?<!\\p{L})[A-Z]{2}\\s+\\p{N}{5}(?:-\\p{N}{4})?${END}`,
  `(?<![\\p{L}\\p{N}])[A-Z]{1,2}\\p{N}[A-Z\\p{N}]?\\s+\\p{N}[A-Z]{2}${END}`,
];

const PLATES = [
  // ABC1234, AB-1234-CD: one word of capitals and digits
  "(?=[A-Z\\p{N}-]{0,12}[A-Z]-?[A-Z])(?=[A-Z\\p{N}-]{0,12}\\p{N})[A-Z\\p{N}][A-Z\\p{N}-]{4,12}",
  // ABC 123, AB 1234, not a road of two letters and three digits
  "(?:[A-Z]{3}[ -]\\p{N}{3,4}|[A-Z]{2}[ -]\\p{N}{4})",
  // 1234 ABC, not an hour in universal time
  "\\p{N}{3,4}[ -](?!UTC|GMT)[A-Z]{3}",
  // AB12 CDE
  "[A-Z]{2}\\p{N}{2}[ -][A-Z]{3}",
  // B-MW 1234
  "[A-ZÄÖÜ]{1,3}-[A-Z]{1,2} ?\\p{N}{1,4}",
];

let patterns: readonly RegExp[] | null = null;

/** Made on first use: they take longer to compile than a small plan takes to be read. */
const privatePatterns = (): readonly RegExp[] => [
  new RegExp(streets().join("|"), "gu"),
  new RegExp(PLATES.map((plate) => `(?<![\\p{L}\\p{N}])${plate}${END}`).join("|"), "gu"),
];

/** A text with `mark` in the place of each address and number plate. */
export function withoutPrivateWords(text: string, mark: string): string {
  patterns ??= privatePatterns();
  return patterns.reduce((left, pattern) => left.replace(pattern, mark), text);
}
