/** Reads what a place's `hazards` say: a word, and what is known of it: `lines 138 kV`, `white ice 20 cm`, `roadside 65 mph`. */

export type HazardKind = "ice" | "lines" | "mast" | "roadside" | "water" | "generator";

export interface Hazard {
  readonly kind: HazardKind;
  readonly kilovolts: number | null;
  readonly inches: number | null;
  readonly white: boolean;
  readonly mph: number | null;
}

const KINDS: readonly (readonly [RegExp, HazardKind])[] = [
  [/\bice\b/i, "ice"],
  [/\b(?:power ?|overhead ?)?lines?\b/i, "lines"],
  [/\bmast\b/i, "mast"],
  [/\b(?:road ?side|road|highway|shoulder|verge)\b/i, "roadside"],
  [/\bwater\b/i, "water"],
  [/\bgenerator\b/i, "generator"],
];

/** The number before one of these units, times what one is worth; null where the text has none. */
function figure(said: string, units: Readonly<Record<string, number>>): number | null {
  for (const [unit, worth] of Object.entries(units)) {
    const found = new RegExp(`(\\d{1,5}(?:\\.\\d{1,3})?)\\s?${unit}\\b`, "i").exec(said);
    if (found !== null) return Number(found[1]) * worth;
  }
  return null;
}

/** One hazard as the plan words it; null for a word that raises no caution of ours. */
export function readHazard(said: string): Hazard | null {
  const text = said.slice(0, 64);
  const kind = KINDS.find(([word]) => word.test(text))?.[1];
  if (kind === undefined) return null;
  return {
    kind,
    kilovolts: figure(text, { kv: 1 }),
    inches: figure(text, { cm: 1 / 2.54, "(?:in|inch|inches)": 1, mm: 1 / 25.4 }),
    white: /\bwhite\b/i.test(text),
    mph: figure(text, { mph: 1, "km/h": 1 / 1.609344 }),
  };
}
