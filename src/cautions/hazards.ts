/**
 * Reads what a place's `hazards` say: words, and what is known of them: `lines 138 kV`, `white ice 20 cm`, `roadside 65 mph`.
 *
 * One entry may name several. A word that belongs to no kind makes the entry be printed as it stands, so that nothing
 * that somebody wrote is lost.
 */
import { editDistance } from "../findings/nearest.ts";
import { leastOf, mostOf } from "../lists.ts";
import { kilovoltsIn, thicknessesIn, tidyNumbers } from "./hazardFigures.ts";

/** The hazards that have words of their own; `other` is printed as it is written. */
export type HazardKind = Known | "other";

/** A hazard of which a table says more. */
export type Known = "ice" | "lines" | "mast" | "roadside" | "water" | "generator";

/** The words of each kind: the first is its name, the rest are near it. */
const WORDS: readonly (readonly [Known, readonly string[]])[] = [
  ["ice", ["ice", "icy", "frozen"]],
  [
    "lines",
    [
      "lines",
      "line",
      "cables",
      "cable",
      "wires",
      "wire",
      "powerline",
      "powerlines",
      "catenary",
      "pylon",
      "pylons",
      "voltage",
    ],
  ],
  ["mast", ["mast", "masts", "boom"]],
  [
    "roadside",
    ["roadside", "road", "roads", "highway", "shoulder", "verge", "traffic", "street", "motorway", "freeway"],
  ],
  ["water", ["water", "lake", "river", "quay", "waves", "surf", "tide", "canal", "harbor", "harbour"]],
  ["generator", ["generator", "generators", "genset", "gensets"]],
];

/** With one of these words and no thickness, ice is what people slip on, not what bears them. */
const SLIPPERY: ReadonlySet<string> = new Set(
  "black road roads street highway steps stairs ramp path sidewalk pavement parking lot deck bridge roof driveway yard".split(
    " ",
  ),
);

/** Words that say where, how much or what sort; an entry of known words and these needs no line of its own. */
const FILLER: readonly string[] = [
  "a an the and or of on at in by to near under over above beside along around with without from about some very not no only is are",
  "mm cm m meter meters metre metres in inch inches ft foot feet kg t lb kv v kilovolt kilovolts volt volts mph km h kph kmh",
  "overhead power electric electrical high low medium open deep cold busy fast thin thick clear new old white snow black live",
  "work working vehicle vehicles people foot place side edge tower towers telescopic",
  "pier dock bank shore shoreline bay pond beach bridge town city country",
].flatMap((line) => line.split(" "));

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

/** Shorter words have too many others one letter away. */
const SHORTEST_TYPO = 5;
/** As much of an entry is searched for words and figures; all of it is printed. */
const LONGEST_READ = 240;

const isNear = (word: string, words: readonly string[]): boolean =>
  word.length >= SHORTEST_TYPO &&
  words.some(
    (own) => own.length >= SHORTEST_TYPO - 1 && Math.abs(own.length - word.length) <= 1 && editDistance(word, own) <= 1,
  );

/** The kind that a word names; an exact word comes before one with a letter wrong. */
const kindOf = (word: string): Known | null =>
  (WORDS.find(([, words]) => words.includes(word)) ?? WORDS.find(([, words]) => isNear(word, words)))?.[0] ?? null;

const isFiller = (word: string): boolean => FILLER.includes(word) || isNear(word, FILLER);

/** Ice underfoot or on a road, not on a lake: nothing that bears a load. */
const isSlippery = (words: readonly string[], inches: number | null): boolean =>
  inches === null &&
  words.some((word) => kindOf(word) === "ice") &&
  !words.some((word) => kindOf(word) === "water") &&
  words.some((word) => SLIPPERY.has(word));

const MPH = /(\d{1,3})\s?(mph|km\/h|kph|kmh)/gi;
const speedsIn = (text: string): readonly number[] =>
  [...text.matchAll(MPH)].map(([, digits, unit]) => Number(digits) / (unit?.toLowerCase() === "mph" ? 1 : 1.609344));

/** The kinds that free text names, such as the name of a piece of kit: `powerGenerator`, `12 m mast`. */
export function kindsIn(text: string): ReadonlySet<Known> {
  const words = text
    .slice(0, LONGEST_READ)
    .replace(/(\p{Ll})(\p{Lu})/gu, "$1 $2")
    .toLowerCase()
    .match(/\p{L}+/gu);
  return new Set((words ?? []).flatMap((word) => kindOf(word) ?? []));
}

/** A number without a unit behind it, or as the end of a range: no table can take it. */
const WITHOUT_UNIT = /(?<![\d.,])\d+(?:[.,]\d+)?(?![.,]?\d)(?!\s?(?:(?:-|–|to\b)\s?\d|\p{L}|["'%]))/u;

/** The hazards that one entry of the plan names, in the order of its words; at least one. */
export function readHazards(said: string): readonly Hazard[] {
  const text = tidyNumbers(said.slice(0, LONGEST_READ));
  const words: readonly string[] = text.toLowerCase().match(/\p{L}+/gu) ?? [];
  const inches = leastOf(thicknessesIn(text));
  const figure = {
    kilovolts: mostOf(kilovoltsIn(text)),
    inches,
    white: words.includes("white") || words.includes("snow"),
    mph: mostOf(speedsIn(text)),
    text: said.trim(),
  };
  const slippery = isSlippery(words, inches);
  const kinds = new Set(words.flatMap((word) => kindOf(word) ?? []));
  if (slippery) kinds.delete("ice");
  if ((figure.kilovolts ?? 0) >= 1) kinds.add("lines");
  const hasUnknown =
    slippery ||
    said.length > LONGEST_READ ||
    WITHOUT_UNIT.test(text) ||
    words.some((word) => kindOf(word) === null && !isFiller(word));
  const known = [...kinds].map((kind) => ({ kind, ...figure }));
  return hasUnknown || known.length === 0 ? [...known, { kind: "other", ...figure }] : known;
}
