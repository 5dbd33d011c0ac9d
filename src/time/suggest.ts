/** "Did you mean" for a zone name that the table does not know. */
import { zone, zoneNames } from "./zone.ts";

/**
 * What people call their clocks, in summer, in winter and without saying which. `IST` is not among them: India, Ireland and
 * Israel use it.
 */
const SPOKEN = [
  ["newfoundland nt nst ndt", "America/St_Johns"],
  ["atlantic at ast adt", "America/Halifax"],
  ["eastern et est edt", "America/New_York"],
  ["central ct cst cdt", "America/Chicago"],
  ["mountain mt mst mdt", "America/Denver"],
  ["pacific pt pst pdt", "America/Los_Angeles"],
  ["alaska akt akst akdt", "America/Anchorage"],
  ["hawaii ht hst", "Pacific/Honolulu"],
  ["british uk bst", "Europe/London"],
  // `CET`, `EET` and `WET` are zones of the database themselves; their summer names are not.
  ["wet west", "Europe/Lisbon"],
  ["cet cest", "Europe/Brussels"],
  ["eet eest", "Europe/Athens"],
  ["msk", "Europe/Moscow"],
  ["jst", "Asia/Tokyo"],
  ["sast", "Africa/Johannesburg"],
  ["aet aest aedt", "Australia/Sydney"],
  ["nzt nzst nzdt", "Pacific/Auckland"],
] as const;

/**
 * `EST` and `MST` are in the tz database for places without summer time (Panama, Arizona). Whoever writes them means the
 * clocks of New York or Denver, and would be an hour off from March on.
 */
export const isWinterAlone = (name: string): boolean => name === "EST" || name === "MST";

/** The zone that a spoken name such as `PT` stands for; null for other names. */
export const spokenZone = (name: string): string | null => {
  const typed = fold(name).replace(/ time$/, "");
  return SPOKEN.find(([words]) => words.split(" ").includes(typed))?.[1] ?? null;
};

/** `UTC-6`, `-06:00`: an offset is on no place's clock, and the signs of `Etc/GMT+6` are the other way round. */
const OFFSET = /^(?:utc|gmt)? ?[+-]\d/;

const fold = (name: string): string =>
  name
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/g, " ");

const city = (name: string): string => name.slice(name.lastIndexOf("/") + 1);

/** Pairs of neighbouring letters, with marks at both ends. */
const pairs = (word: string): ReadonlySet<string> =>
  new Set(Array.from({ length: word.length + 1 }, (_, i) => ` ${word} `.slice(i, i + 2)));

/** Dice's coefficient over letter pairs: 1 for words with the same pairs, 0 for words that share none. */
function alike(a: ReadonlySet<string>, b: ReadonlySet<string>): number {
  let shared = 0;
  for (const pair of a) if (b.has(pair)) shared++;
  return (2 * shared) / (a.size + b.size);
}

/** More than half of the letter pairs must agree: at half, `UK` is like Nuuk and `Sweden` like Aden. */
const LEAST_ALIKE = 0.5;

/**
 * Up to `most` known zones that `name` may stand for, the likeliest first: another spelling of the whole name, a spoken
 * name (`CT`), a city (`chicago`), then names written alike. Empty where nothing is near.
 */
export function zonesLike(name: string, most = 3): readonly string[] {
  const typed = fold(name).slice(0, 64);
  if (OFFSET.test(typed)) return [];
  const known = zoneNames();
  const spoken = spokenZone(typed) ?? [];
  const exact = known.filter((id) => fold(id) === typed);
  const cities = known.filter((id) => fold(city(id)) === fold(city(typed)));
  const letters = { whole: pairs(typed), city: pairs(city(typed)) };
  const near = known
    .map((id) => ({
      id,
      near: Math.max(alike(letters.whole, pairs(fold(id))), alike(letters.city, pairs(fold(city(id))))),
    }))
    .filter((candidate) => candidate.near > LEAST_ALIKE)
    .sort((a, b) => b.near - a.near);
  const ranked = [...exact, ...[spoken].flat(), ...cities, ...near.map((candidate) => candidate.id)];
  return [...new Set(ranked)].filter((id) => zone(id) !== null && !isWinterAlone(id)).slice(0, most);
}
