/** Free words that mean nothing to this program, and are near to one that does: what hangs on it would be lost in silence. */

import type { PlanPath } from "../../findings/finding.ts";
import { slipOf } from "../../findings/nearest.ts";
import { wordNear } from "../findings.ts";
import type { Body } from "../plan.ts";
import type { Reading } from "../read/reading.ts";

interface Vocabulary {
  /** Words with a meaning, and what hangs on them. */
  readonly words: readonly string[];
  readonly for: string;
  /** Other words for them. */
  readonly others?: Readonly<Record<string, string>>;
}

const ROLES: Vocabulary = {
  words: ["reporter", "camera", "producer", "engineer", "driver", "sound", "lead"],
  for: "ear lines and wake-up times",
  others: { correspondent: "reporter", presenter: "reporter", anchor: "reporter", cameraman: "camera" },
};

const PLACE_KINDS: Vocabulary = {
  words: ["lodging"],
  for: "shelter, sleep and charging at night",
  others: { hotel: "lodging", motel: "lodging", hostel: "lodging", inn: "lodging" },
};

const RIDES: Vocabulary = {
  words: ["air", "ferry"],
  for: "rules of batteries and of rest",
  others: { flight: "air", plane: "air", airplane: "air", aeroplane: "air", fly: "air", boat: "ferry", ship: "ferry" },
};

const HAZARDS: Vocabulary = {
  words: ["ice", "lines", "mast", "roadside", "water", "generator"],
  for: "cautions",
  others: { icy: "icy", road: "road", highway: "highway", shoulder: "shoulder", verge: "verge", line: "line" },
};

const CROSSED: Vocabulary = {
  words: [
    "road",
    "street",
    "highway",
    "motorway",
    "avenue",
    "lane",
    "drive",
    "rail",
    "rails",
    "railway",
    "track",
    "tracks",
  ],
  for: "the caution about cables under wheels",
};

/** Findings for words that look like one of ours and are not. */
export function checkWords(reading: Reading, { crew, places, rides, hits }: Body): void {
  for (const { roles, path } of crew.values()) for (const role of roles) check(reading, [...path, "role"], role, ROLES);
  for (const { kind, hazards, path } of places.values()) {
    check(reading, [...path, "kind"], kind, PLACE_KINDS);
    for (const hazard of hazards) check(reading, [...path, "hazards"], hazard, HAZARDS);
  }
  for (const { by, path } of rides.values()) check(reading, [...path, "by"], by, RIDES);
  const raised = new Set<PlanPath>();
  for (const { run, path } of hits.values()) {
    if (raised.has(path)) continue;
    raised.add(path);
    check(reading, [...path, "run", "crosses"], run?.crosses ?? null, CROSSED);
  }
}

/** Any one of several words with a meaning is enough. */
function check(reading: Reading, path: PlanPath, said: string | null, vocabulary: Vocabulary): void {
  const words = (said ?? "").toLowerCase().match(/[a-z]+/g) ?? [];
  const near = words.map((word) => meant(word, vocabulary));
  const at = near.findIndex((one, index) => one !== null && one !== words[index]);
  const word = words[at];
  const meaning = near[at];
  if (word === undefined || meaning == null || near.some((one, index) => one !== null && one === words[index])) return;
  reading.mistake(path, (c) => wordNear.raise({ word, near: meaning, for: vocabulary.for }, c));
}

function meant(word: string, { words, others = {} }: Vocabulary): string | null {
  if (words.includes(word)) return word;
  return Object.hasOwn(others, word) ? (others[word] ?? null) : slipOf(word, words);
}
