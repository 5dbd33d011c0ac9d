/**
 * Reads what a place's `hazards` say: words, and what is known of them: `lines 138 kV`, `white ice 20 cm`, `roadside 65 mph`.
 *
 * One entry may name several; a word of no kind is printed as it stands, so that nothing that somebody wrote is lost.
 */
import { editDistance } from "../findings/nearest.ts";

/** The hazards that have words of their own; `other` is printed as it is written. */
export type HazardKind = "ice" | "lines" | "mast" | "roadside" | "water" | "generator" | "other";

/** A hazard of a place with its figures: kilovolts of power lines, inches of ice. */
export interface Hazard {
  readonly kind: HazardKind;
  readonly kilovolts: number | null;
  /** Of ice, the least that is stated. */
  readonly inches: number | null;
  readonly white: boolean;
  readonly mph: number | null;
  /** As stated. */
  readonly text: string;
}

type Known = Exclude<HazardKind, "other">;

/** The words of each kind: the first is its name, the rest are near it. */
const WORDS: readonly (readonly [Known, readonly string[]])[] = [
  ["ice", ["ice", "icy"]],
  ["lines", ["lines", "line", "cables", "cable", "wires", "wire", "powerline", "powerlines", "catenary", "voltage"]],
  ["mast", ["mast", "masts", "boom"]],
  ["roadside", ["roadside", "road", "highway", "shoulder", "verge", "traffic", "street", "motorway", "freeway"]],
  ["water", ["water", "lake", "river", "quay", "waves", "surf", "tide"]],
  ["generator", ["generator", "generators", "genset"]],
];

/** Shorter words have too many others one letter away. */
const SHORTEST_TYPO = 5;

function kindOf(word: string): Known | null {
  const exact = WORDS.find(([, words]) => words.includes(word));
  if (exact !== undefined) return exact[0];
  if (word.length < SHORTEST_TYPO) return null;
  const isNear = (own: string): boolean => own.length >= SHORTEST_TYPO - 1 && editDistance(word, own) <= 1;
  return WORDS.find(([, words]) => words.some(isNear))?.[0] ?? null;
}

/** All numbers before one of these units, times what one is worth; of `12-17 in` both. */
function figures(said: string, units: Readonly<Record<string, number>>): readonly number[] {
  return Object.entries(units).flatMap(([unit, worth]) => {
    const number = "(\\d{1,6}(?:[.,]\\d{1,3})?)";
    const pattern = new RegExp(`${number}(?:\\s?(?:-|–|to)\\s?${number})?\\s?${unit}`, "gi");
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

const leastOf = (values: readonly number[]): number | null => (values.length === 0 ? null : Math.min(...values));
const mostOf = (values: readonly number[]): number | null => (values.length === 0 ? null : Math.max(...values));

/** The hazards that one entry of the plan names, in the order of its words; at least one. */
export function readHazards(said: string): readonly Hazard[] {
  const text = said.slice(0, 64);
  const words: readonly string[] = text.toLowerCase().match(/\p{L}+/gu) ?? [];
  const figure = {
    kilovolts: mostOf(figures(text, { "kv\\b": 1, "(?:v|volts?)\\b": 1 / 1000 })),
    inches: leastOf(figures(text, INCHES)),
    white: words.includes("white") || words.includes("snow"),
    mph: mostOf(figures(text, { "mph\\b": 1, "km/h": 1 / 1.609344, "kph\\b": 1 / 1.609344 })),
    text: text.trim(),
  };
  const kinds = new Set(words.flatMap((word) => kindOf(word) ?? []));
  return kinds.size === 0 ? [{ kind: "other", ...figure }] : [...kinds].map((kind) => ({ kind, ...figure }));
}
