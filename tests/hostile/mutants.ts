/** Plans and logs with a few words, lines or signs changed: the first generator of the fuzz. */

/** A whole number from 0 to below `below`. */
export type Dice = (below: number) => number;

/** One of some items. */
export function pick<T>(dice: Dice, items: readonly T[]): T {
  const item = items[dice(items.length)];
  if (item === undefined) throw new RangeError("nothing to pick from");
  return item;
}

/** Values that have broken programs before, as YAML writes them. */
export const VALUES: readonly string[] = [
  ...["", "~", "null", "true", "no", "off", "none", "here", "all", "aboard", "[]", "{}", "[[]]", "[,]", "{ a: }"],
  ...["0", "-1", "00", "0x1F", "1e400", "1e-320", ".nan", ".inf", "-.inf", "9".repeat(40), "1_000", "1,5", "٣"],
  ...["0 min", "-5 min", "99999 h", "1 h 90 min", "PT1H", "1e9 km", "0 km/h", "100 km/h", "900 m", "61 C", "-273 C"],
  ...["100%", "101%", "0%", "1000 W", "0 W", "5/1 W", "70/8", "26000 lb", "0 Wh", "1 s", "every 0 min"],
  ...["24:00", "23:59:60", '"02:30"', '"01:30"', "25:61", "7", "7am", "12:00 pm", "now", '"00:00 +9d"', '"23:59 -1d"'],
  ...["2027-03-14", "2027-11-07T01:30", "2027-02-29", "9999-12-31", "0000-00-00", "2037-12-31", "1999-12-31"],
  ...["90, 0", "-90, 180", "90.1, 0", "0, 0", "46°48'N 90°49'W", "[46.8, -90.8]"],
  ...[
    "constructor",
    "__proto__",
    "toString",
    "*a",
    "&a x",
    "<<: *a",
    "!!js/function x",
    "!!binary AA==",
    "|",
    ">-",
    "'",
  ],
  ...[
    '"\\u0007\\e[31m\\u202e"',
    '"\\0"',
    '"\\ud800"',
    '"a\\nb"',
    "\u202eabc",
    "\u0000",
    "\ufeff",
    "é",
    "🎥",
    '"',
    "\t",
  ],
  ...["America/New_York", "Asia/Kathmandu", "Etc/GMT+12", "UTC", "Nowhere/City", "http://user:pass@x/", "../../x.yaml"],
];

const WORD = /[\p{L}\p{N}_.+%/-]+(?::\d\d)?/gu;

const spans = (text: string): readonly (readonly [from: number, to: number])[] =>
  [...text.matchAll(WORD)].map((found) => [found.index, found.index + found[0].length] as const);

function withWord(dice: Dice, text: string): string {
  const all = spans(text);
  if (all.length === 0) return pick(dice, VALUES);
  const [from, to] = pick(dice, all);
  const [a, b] = pick(dice, all);
  const old = text.slice(from, to);
  const fresh = [
    () => pick(dice, VALUES),
    () => text.slice(a, b),
    () => old.replace(/\d+/u, (digits) => String(Number(digits) + pick(dice, [-1, 1, 10, -60, 1000]))),
    () => old + old,
    () => `-${old}`,
  ];
  return text.slice(0, from) + pick(dice, fresh)() + text.slice(to);
}

function withLine(dice: Dice, text: string): string {
  const lines = text.split("\n");
  const at = dice(lines.length);
  const line = lines[at] ?? "";
  const other = lines[dice(lines.length)] ?? "";
  const fresh: (() => readonly string[])[] = [
    () => [],
    () => [line, line],
    () => [line, other],
    () => [`  ${line}`],
    () => [line.replace(/^ {1,2}/u, "")],
    () => [`# ${line}`],
    () => [line.slice(0, dice(line.length + 1))],
    () => [line.replace(/:.*$/su, `: ${pick(dice, VALUES)}`)],
  ];
  lines.splice(at, 1, ...pick(dice, fresh)());
  return lines.join("\n");
}

function withSign(dice: Dice, text: string): string {
  const at = dice(text.length + 1);
  const signs = ["{", "}", "[", "]", ":", ",", "#", "'", '"', "&", "*", "|", ">", "\n", "\r", "\t", " ", "-", "\u0000"];
  return text.slice(0, at) + pick(dice, [...signs, ""]) + text.slice(at + dice(2));
}

/** Every place of one id gets another word. */
function withName(dice: Dice, text: string): string {
  const all = spans(text);
  if (all.length === 0) return text;
  const [from, to] = pick(dice, all);
  const [a, b] = pick(dice, all);
  return text.replaceAll(text.slice(from, to), () => text.slice(a, b));
}

/** One to four changes; the text stays below a hundred thousand signs. */
export function mutant(dice: Dice, text: string): string {
  let now = text;
  for (let left = 1 + dice(4); left > 0; left--) {
    const change = pick(dice, [withWord, withWord, withWord, withLine, withLine, withSign, withName]);
    const next = change(dice, now);
    if (next.length < 100_000) now = next;
  }
  return now;
}
