/**
 * What a first plan is made from, said in a few words each: a person `wren camera drives wagon`, a vehicle `truck 16000 lb
 * us-property`, a drive `lodge pier 35 min 50 min`, a hit `dawn 07:00 pier 3 min`. Values are checked when the written plan is read.
 */
import type { Finding } from "../findings/finding.ts";
import { startUnclear } from "./findings.ts";

/** A person as answered for a first plan. */
export interface StartPerson {
  readonly id: string;
  readonly roles: readonly string[];
  readonly drives: readonly string[];
  /** The vehicle they ride; null for the one they drive, else the first. */
  readonly rides: string | null;
}

/** A vehicle as answered for a first plan; the weight stays as it was typed. */
export interface StartVehicle {
  readonly id: string;
  readonly gross: string | null;
  readonly rules: string | null;
}

/** A drive between two places as answered, its times as typed. */
export interface StartDrive {
  readonly from: string;
  readonly to: string;
  readonly likely: string;
  readonly bad: string | null;
}

/** A hit as answered: its time and length as typed. */
export interface StartHit {
  readonly id: string;
  readonly at: string;
  readonly place: string;
  readonly length: string;
}

/** All answers from which a first plan is written. */
export interface FirstPlan {
  readonly date: string;
  readonly clock: string;
  readonly zone: string;
  readonly title: string | null;
  readonly bed: string;
  /** When everyone was released last; null where it is not known, which breaks the law for a truck's driver. */
  readonly released: string | null;
  readonly people: readonly StartPerson[];
  readonly vehicles: readonly StartVehicle[];
  readonly drives: readonly StartDrive[];
  readonly hits: readonly StartHit[];
}

/** An answer understood, or the finding that says what is wrong with it. */
export type Said<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly finding: Finding };

const ID = /^[A-Za-z](?:[A-Za-z0-9]|-(?=[A-Za-z0-9]))*$/;
const LENGTH_TEXT = String.raw`(?:\d{1,4} ?min|\d{1,3} ?h(?: ?\d{1,2} ?min)?|\d{1,3}h\d{2})`;
const LENGTH = new RegExp(`^${LENGTH_TEXT}$`);
const DRIVE = new RegExp(String.raw`^([A-Za-z][\w-]*)\s+([A-Za-z][\w-]*)\s+(${LENGTH_TEXT})(?:\s+(${LENGTH_TEXT}))?$`);

const said = <T>(value: T): Said<T> => ({ ok: true, value });
const unclear = (text: string, what: string, example: string): Said<never> => ({
  ok: false,
  finding: startUnclear.raise({ said: text, what, example }),
});

/** The words of a list, by blanks or commas; `and` only joins them. */
const wordsOf = (text: string): readonly string[] =>
  text
    .trim()
    .split(/[\s,]+/)
    .filter((word) => word !== "and");

/** `wren camera lead drives wagon`, `ilse reporter in wagon`. */
export function personAnswer(text: string): Said<StartPerson> {
  const [id = "", ...words] = wordsOf(text);
  const after = (word: string): readonly string[] => {
    const from = words.indexOf(word);
    const rest = from < 0 ? [] : words.slice(from + 1);
    const end = rest.findIndex((one) => one === "drives" || one === "in");
    return end < 0 ? rest : rest.slice(0, end);
  };
  const roles = words.slice(
    0,
    Math.min(...["drives", "in"].map((word) => (words.includes(word) ? words.indexOf(word) : words.length))),
  );
  const all = [id, ...roles, ...after("drives"), ...after("in")];
  if (!all.every((word) => ID.test(word)))
    return unclear(
      text,
      "who (one word of letters and digits), what they do and what they drive",
      "wren camera drives wagon",
    );
  return said({ id, roles, drives: after("drives"), rides: after("in")[0] ?? null });
}

/** `wagon`, `truck 16000 lb us-property`. */
export function vehicleAnswer(text: string): Said<StartVehicle> {
  const match = /^([A-Za-z][A-Za-z0-9-]*)(?:\s+(\d{1,6}(?:\.\d{1,3})? ?(?:lb|kg|t)))?(?:\s+([a-z-]+))?$/.exec(
    text.trim(),
  );
  if (match === null)
    return unclear(
      text,
      "a vehicle (one word of letters and digits), its weight and its rules",
      "truck 16000 lb us-property",
    );
  return said({ id: match[1] ?? "", gross: match[2] ?? null, rules: match[3] ?? null });
}

/** `lodge pier 35 min 50 min`: likely, and the time that 19 of 20 drives beat. */
export function readDrive(text: string): Said<StartDrive> {
  const [, from = "", to = "", likely = "", bad = null] = DRIVE.exec(text.trim()) ?? [];
  if (from === "") return unclear(text, "from where to where and how long", "lodge pier 35 min 50 min");
  return said({ from, to, likely, bad });
}

/** `dawn 07:00 pier 3 min`; the time may carry a clock: `dawn 07:00 CT pier 3 min`. */
export function readHit(text: string): Said<StartHit> {
  const match =
    /^([A-Za-z][A-Za-z0-9-]*)\s+(\d{1,2}[:.h]?\d{2}(?: (?:local|[A-Z]{1,5}))?(?: \+\d+d)?)\s+([A-Za-z][A-Za-z0-9-]*)\s+(.+)$/.exec(
      text.trim(),
    );
  const [, id = "", at = "", place = "", length = ""] = match ?? [];
  if (match === null || !LENGTH.test(length))
    return unclear(text, "when, where and how long in whole minutes", "dawn 07:00 pier 3 min");
  return said({ id, at, place, length });
}

/** `18:00 -1d`: a bare time would be on the plan's own day, and whoever types one means the evening before. */
export function readReleased(text: string): Said<string> {
  const isBareTime = /^\d{1,2}[:.]?\d{2}\b/.test(text) && !/[+-]\d+d|\d{4}-?\d{2}-?\d{2}/.test(text);
  if (!isBareTime) return said(text);
  const time = text.replace(/,?\s+(?:yesterday|last night|the (?:evening|day|night) before|today|tonight)\b.*$/i, "");
  return unclear(text, "of which day; the evening before is `-1d`", `${time} -1d`);
}

/** A hit as YAML in braces. */
const hitText = (hit: StartHit): string => `{ at: ${JSON.stringify(hit.at)}, for: ${hit.length}, place: ${hit.place} }`;

/** A hit as a line of YAML below `hits:`. */
export const hitLine = (hit: StartHit): string => `  ${hit.id}: ${hitText(hit)}`;

/** A visit of a place with the hits that are made there. */
interface Visit {
  readonly place: string;
  readonly hits: StartHit[];
}

/** A run as the lines of its block in YAML, below `runs:`. */
export const runLines = (vehicle: string, driver: string, aboard: readonly string[], stops: readonly string[]) => [
  `  ${vehicle}:`,
  `    driver: ${driver}`,
  `    aboard: [${aboard.join(", ")}]`,
  "    stops:",
  ...stops.map((stop) => `      - ${stop}`),
];

/**
 * The stops of a run in YAML, from where it begins by way of the hits to the bed. A place that it visits more than once
 * says which hits each visit is for.
 */
export function stopTexts(from: string, hits: readonly StartHit[], bed: string): readonly string[] {
  const visits: Visit[] = [{ place: from, hits: [] }];
  for (const hit of inOrderOfTime(hits)) {
    const last = visits.at(-1);
    if (last?.place === hit.place) last.hits.push(hit);
    else visits.push({ place: hit.place, hits: [hit] });
  }
  // The first and the last stop stay apart where nothing lies between them.
  if (visits.length === 1 || visits.at(-1)?.place !== bed) visits.push({ place: bed, hits: [] });
  return visits.map(({ place, hits: own }) => {
    const isOnce = visits.filter((one) => one.place === place).length === 1;
    return isOnce || own.length === 0 ? place : `{ place: ${place}, do: [${own.map(({ id }) => id).join(", ")}] }`;
  });
}

/** By the time as it was typed; as given where two clocks are named. */
function inOrderOfTime(hits: readonly StartHit[]): readonly StartHit[] {
  const timed = hits.map((hit) => ({ hit, ...timeOf(hit) }));
  if (new Set(timed.map(({ clock }) => clock)).size > 1) return hits;
  return timed.sort((a, b) => a.minute - b.minute).map(({ hit }) => hit);
}

function timeOf({ at }: StartHit): { readonly minute: number; readonly clock: string } {
  const [, hour = "0", minute = "0", clock = "", day = "0"] =
    /^(\d{1,2}):?(\d{2})(?: ([A-Za-z]+))?(?: \+(\d+)d)?$/.exec(at) ?? [];
  return { minute: (Number(day) * 24 + Number(hour)) * 60 + Number(minute), clock };
}
