/** What was probably meant by a value of the wrong kind: booleans in other words, lists and pairs without brackets. */
import { slipOf } from "../../findings/nearest.ts";
import type { ListNode, MapNode, PlanNode } from "../text/tree.ts";
import { type Axis, LATITUDE, LONGITUDE, parseDegrees } from "../values/degrees.ts";
import { plainSigns, plainWord, signedDegrees } from "../values/signs.ts";

const YES = ["true", "yes", "y", "on", "1"];
const NO = ["false", "no", "n", "off", "0", "none"];

/** `yes` and `treu` as `true`. */
export function flagMeant(text: string): string | null {
  const said = plainWord(text).toLowerCase();
  if (YES.includes(said)) return "true";
  return NO.includes(said) ? "false" : slipOf(said, ["true", "false"]);
}

/** Where a pair may be cut: at a comma or the like, at a blank, and behind or before the letter of a side. */
const CUTS = /[\s,;/]+|(?<=[NSEW])(?=\d)|(?<=[^NSEW\s])(?=[NSEW]\s?\d)/gi;

/** Two numbers with decimal commas, whose halves something else than a comma divides. */
const DECIMAL_COMMAS = /^([-+]?\d{1,3}), ?(\d+) ?[;/ ] ?([-+]?\d{1,3}), ?(\d+)$/;

/**
 * `46.7, -92.1`, `(46.7, -92.1)`, `46,7; -92,1`, `46.7N 92.1W` and `46°42'N 92°06'W` as `[46.7, -92.1]`; longitude may come first if
 * letters say so. Null if several cuts would do.
 */
export function coordinatesMeant(text: string): string | null {
  const whole = plainSigns(text)
    .trim()
    .replace(/^geo:/i, "")
    .replace(/^[[("']+|[\])]+$/g, "")
    .replace(/\s+/g, " ")
    .replace(DECIMAL_COMMAS, "$1.$2 $3.$4");
  const cuts = [...whole.matchAll(CUTS)];
  const commas = cuts.filter(([cut]) => /[,;/]/.test(cut));
  const pairs = (commas.length === 1 ? commas : cuts).flatMap((cut) => {
    const [first, second] = [whole.slice(0, cut.index), whole.slice(cut.index + cut[0].length)];
    return pairOf(first, second) ?? (/[EW]/i.test(first) ? pairOf(second, first) : null) ?? [];
  });
  const [pair, another] = new Set(pairs);
  return another === undefined ? (pair ?? null) : null;
}

/** `[46.7, -92.1]` of a latitude and a longitude that can be read; null of any other two texts. */
function pairOf(north: string, east: string): string | null {
  const [latitude, longitude] = [meantOn(LATITUDE, north), meantOn(LONGITUDE, east)];
  return latitude === null || longitude === null ? null : `[${latitude}, ${longitude}]`;
}

/** Decimals as they were typed; minutes and seconds to a hundred-thousandth of a degree, about a metre. */
function meantOn(axis: Axis, text: string): string | null {
  const said = sided(text);
  const degrees = parseDegrees(said, axis);
  if (!degrees.ok) return null;
  return /^[-+]?[\d.]+$/.test(said) ? said : String(Number(degrees.value.toFixed(5)));
}

/** `N46.7` and `46.7 N` as `46.7`; minutes and seconds as they stand. */
const sided = (text: string): string => signedDegrees(text.trim().replace(/^([NSEW]) ?([\d.]+)$/i, "$2$1"));

const TIMES =
  /^(\d{1,2}:?\d{2}(?:\s(?!to\b)[\w/+]+)?(?:\s-\d+d)?)\s?(?:-|,|;|to\b)\s?(\d{1,2}:?\d{2}(?:\s[\w/+]+|\s-\d+d)*)$/i;

/** `07:30-11:00` as `["07:30", "11:00"]`. */
export function timesMeant(text: string): string | null {
  const [, from, to] = TIMES.exec(plainWord(text)) ?? [];
  return from === undefined || to === undefined ? null : `["${from.trim()}", "${to}"]`;
}

/** `lodge, pier` as `[lodge, pier]`. */
export function listMeant(text: string): string | null {
  const parts = plainSigns(text).split(/\s*[,;]\s*|\s+-\s+/);
  return parts.length > 1 && parts.every((part) => /^[^\s[\]{}:"']+$/.test(part)) ? `[${parts.join(", ")}]` : null;
}

/** `lodge pier lodge` and `lodge -> pier` as `[lodge, pier, …]`. */
function wordsMeant(text: string): string | null {
  const parts = plainSigns(text).split(/\s*(?:->|→)\s*|\s+/);
  return parts.length > 1 && parts.every((part) => /^[A-Za-z][\w.-]*$/.test(part)) ? `[${parts.join(", ")}]` : null;
}

/** The value that a form wants in the words `wanted`, made of what stands there; null where that is unclear. */
export function kindMeant(node: PlanNode, wanted: string): string | null {
  if (node.kind === "map") return wanted.includes("list") ? (setMeant(node) ?? dashed(node, wanted)) : null;
  if (node.kind === "list") return listedMeant(node, wanted);
  if (wanted.startsWith("`true` or")) return flagMeant(node.text);
  if (wanted.includes("latitude")) return coordinatesMeant(node.text);
  const times = timesMeant(node.text);
  if (times !== null) return wanted.includes("windows") ? `[${times}]` : times;
  return /\blist\b|\bpair\b|^two /.test(wanted) ? (listMeant(node.text) ?? wordsMeant(node.text)) : null;
}

/** `{ wren, ilse }` as `[wren, ilse]`: keys without values are the items of a list; two times under `from` and `to` are a pair. */
function setMeant({ entries }: MapNode): string | null {
  const [from, to] = ["from", "to"].map((key) => entries.get(key)?.value);
  if (entries.size === 2 && from?.kind === "scalar" && to?.kind === "scalar")
    return timesMeant(`${from.text}, ${to.text}`);
  const bare = [...entries.values()].every(({ value }) => value.kind === "scalar" && value.value === null);
  return bare && entries.size > 0 ? `[${[...entries.keys()].join(", ")}]` : null;
}

/** Longer than this a line is not repeated in what to write. */
const LONGEST_LINE = 100;

/** A map between braces where a list of such is wanted: the same with a dash. */
function dashed({ source, start, end }: MapNode, wanted: string): string | null {
  const text = source.text.slice(start, end).trim();
  return wanted.includes("{") && /^\{[^\n]*\}$/.test(text) && text.length <= LONGEST_LINE ? `- ${text}` : null;
}

/** `[46,81, -90,82]` and `[46,81, -90.82]` with decimal commas as `[46.81, -90.82]`; a list of one word, where one is wanted, as the word. */
function listedMeant(node: ListNode, wanted: string): string | null {
  const texts = node.items.flatMap((item) => (item.kind === "scalar" ? [item.text] : []));
  if (wanted.startsWith("two ") && texts.length === 1) return wordsMeant(texts[0] ?? "");
  if (texts.length !== node.items.length) return null;
  const [first, second, third, fourth] = texts;
  if (wanted.includes("pairs of times")) return pairsMeant(texts);
  if (wanted.includes("latitude")) {
    const isWhole = (text: string | undefined): boolean => /^-?\d{1,6}$/.test(text ?? "");
    if (texts.length === 4 && texts.every(isWhole)) return coordinatesMeant(`${first}.${second} ${third}.${fourth}`);
    if (texts.length !== 3) return null;
    // One comma of the two: the number that has a point is whole already.
    if (isWhole(first) && isWhole(second) && !isWhole(third)) return coordinatesMeant(`${first}.${second} ${third}`);
    return isWhole(second) && isWhole(third) && !isWhole(first)
      ? coordinatesMeant(`${first} ${second}.${third}`)
      : null;
  }
  return wanted.startsWith("text") && texts.length === 1 ? (first ?? null) : null;
}

/** `06:15-07:30` and so on as `["06:15", "07:30"]`, each; two times as one pair. */
export function pairsMeant(texts: readonly string[]): string | null {
  const pairs = texts.map(timesMeant);
  if (pairs.every((pair) => pair !== null)) return `[${pairs.join(", ")}]`;
  return texts.length === 2 ? `[[${texts.map((text) => `"${text}"`).join(", ")}]]` : null;
}

/** A value that a comma tore apart, in the order of its parts; `close` where nothing stands behind any comma. */
export function tornMeant(parts: readonly string[], close: boolean): string {
  const whole = parts.join(", ").replace(/^\((.*)\)$/, "$1");
  const [first = "", ...others] = parts;
  if (close && /^[-+]?\d{1,3}$/.test(first) && others.every((part) => /^\d{3}(?!\d)/.test(part))) return parts.join("");
  if (close && /^[-+]?\d+$/.test(first) && others.length === 1 && /^\d{1,2}(?![\d.])/.test(others[0] ?? ""))
    return parts.join(".");
  if (parts.every((part) => /^[-+]?\d[\d.]*\s?[A-Za-z%°/]{0,6}$/.test(part)) && coordinatesMeant(whole) === null)
    return `[${whole}]`;
  return coordinatesMeant(whole) ?? listMeant(whole) ?? `"${whole.replaceAll('"', "'")}"`;
}
