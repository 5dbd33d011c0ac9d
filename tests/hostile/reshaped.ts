/**
 * The fourth generator, of another kind than the others: a sound plan stays one in shape and is taken to an edge in meaning. All
 * times move over midnight or a change of clocks, quantities go to the ends of their ranges, everything is called what breaks
 * programs, there are ten of each, nothing is left of each, or every optional key is there.
 */
import { parseDocument, stringify } from "yaml";
import type { Json } from "../../src/reports/shared/view.ts";
import { Grower } from "./grown.ts";
import { type Dice, pick } from "./mutants.ts";

type Tree = string | number | boolean | null | Tree[] | TreeMap;
type TreeMap = { [key: string]: Tree };

const isMap = (tree: unknown): tree is TreeMap => typeof tree === "object" && tree !== null && !Array.isArray(tree);

/** Keys of a plan whose entries have names of one's own. */
const NAMED = ["crew", "vehicles", "places", "hits", "tasks", "paths", "packs", "kit", "runs", "chargers", "devices"];
/** Names that a plan may use, and that programs stumble over. */
const NAMES: readonly string[] = [
  ...["constructor", "toString", "valueOf", "hasOwnProperty", "isPrototypeOf", "then", "length", "name", "prototype"],
  ...[
    "a1",
    "e1",
    "1e3x",
    "x-0",
    "null-1",
    "nan",
    "infinity",
    "undefined",
    "é",
    "e\u0301",
    "İ",
    "ı",
    "ß",
    "ﬁ",
    "Å",
    "日本",
  ],
  ...[
    "مرحبا",
    "שלום",
    "🎥",
    "👩‍👩‍👧",
    "q".repeat(40),
    "i".repeat(39),
    "wren",
    "WREN",
    "Wren",
    "default",
    "self",
    "call",
  ],
];
/** Texts that mean something to whatever shows them. */
export const HOSTILE_TEXTS: readonly string[] = [
  '=HYPERLINK("http://x","ZQTEXT")',
  "+1+cmd|' /C calc'!A0",
  "-2+3",
  "@SUM(1)",
  "</script><script>ZQTEXT()</script>",
  "<img src=x onerror=ZQTEXT()>",
  '" onmouseover=ZQTEXT() x="',
  "javascript:ZQTEXT()",
  "[x](javascript:ZQTEXT())",
  "# ZQTEXT | a | b",
  "`ZQTEXT` **x** _y_ ~~z~~ <@123> @everyone &#64;here",
  "ZQTEXT\nBEGIN:VALARM\nACTION:AUDIO\nEND:VALARM",
  "ZQTEXT\r\nATTENDEE:mailto:x@example.org",
  "ZQTEXT;X=1,2:3\\n\\",
  "ZQTEXT\u202egpj.exe\u2066",
  "\u001b]52;c;WlE=\u0007ZQTEXT",
  "\u009b31mZQTEXT",
  "ZQTEXT\u2028\u2029\u0085x",
  "日本語".repeat(40),
  "x".repeat(300),
  "👩‍👩‍👧‍👦".repeat(30),
  "a\u0301".repeat(100),
  "..%2f..%2fetc",
  "%s%n%d {0} $1 $& $'",
  "|",
  "\\",
  "'",
  '"',
];
const UNITS = [
  "min",
  "h",
  "d",
  "s",
  "km",
  "mi",
  "m",
  "ft",
  "km/h",
  "mph",
  "m/s",
  "kt",
  "W",
  "Wh",
  "kWh",
  "V",
  "A",
  "lb",
  "kg",
  "t",
  "%",
  "C",
  "F",
  "l",
  "gal",
  "mm",
  "in",
  "Mbit/s",
];
const FIGURES = [
  "0",
  "0.001",
  "0.5",
  "1",
  "2",
  "7",
  "10",
  "24",
  "59",
  "60",
  "99",
  "100",
  "359",
  "999",
  "9999",
  "100000",
  "999999999",
  "-1",
  "-40",
];

const DATES = [
  "2027-03-14",
  "2027-11-07",
  "2027-03-28",
  "2027-10-31",
  "2028-02-29",
  "2027-12-31",
  "2027-01-01",
  "2030-04-07",
  "2026-10-04",
];
const ZONES = [
  ...[
    "Australia/Lord_Howe",
    "Pacific/Chatham",
    "Pacific/Apia",
    "Asia/Kathmandu",
    "Africa/Casablanca",
    "Antarctica/Troll",
  ],
  ...[
    "America/Sao_Paulo",
    "Africa/Cairo",
    "America/St_Johns",
    "Pacific/Kiritimati",
    "Etc/GMT+12",
    "UTC",
    "Europe/London",
  ],
];
const ENDS_OF_THE_EARTH = [
  [90, 0],
  [-90, 0],
  [89.99, 179.99],
  [0, 180],
  [0, -180],
  [0, 0],
  [-77.8, 166.7],
  [71.3, -156.8],
];

const CLOCK = /^(\d{1,2}):(\d\d)(.*)$/su;
const QUANTITY = /^([-+]?\d+(?:\.\d+)?) ?([A-Za-z/%°]+)$/u;
const ZONE = /^[A-Z][A-Za-z]+\/[A-Z]\w+$/u;
const DATE = /^\d{4}-\d\d-\d\d$/u;

/** The same tree with every scalar through `turn`, which is told its key. */
function mapped(tree: Tree, turn: (leaf: Tree, key: string) => Tree, key = ""): Tree {
  if (Array.isArray(tree)) return tree.map((item) => mapped(item, turn, key));
  if (!isMap(tree)) return turn(tree, key);
  return Object.fromEntries(Object.entries(tree).map(([name, item]) => [name, mapped(item, turn, name)]));
}

const two = (n: number): string => String(n).padStart(2, "0");

/** Every clock time so many minutes later, on the day before or after where it has to be. */
function moved(tree: Tree, minutes: number): Tree {
  return mapped(tree, (leaf) => {
    const [, hour, minute, rest = ""] = typeof leaf === "string" ? (CLOCK.exec(leaf) ?? []) : [];
    if (hour === undefined) return leaf;
    const at = Number(hour) * 60 + Number(minute) + minutes;
    const [day, left] = [Math.floor(at / 1440), ((at % 1440) + 1440) % 1440];
    const was = /^ ([+-]\d)d$/u.exec(rest)?.[1];
    if (rest !== "" && was === undefined) return leaf;
    const now = Number(was ?? 0) + day;
    return `${two(Math.floor(left / 60))}:${two(left % 60)}${now === 0 ? "" : ` ${now > 0 ? "+" : ""}${now}d`}`;
  });
}

/** Quantities, some or all, with another figure or another unit. */
function measured(dice: Dice, tree: Tree): Tree {
  const one = pick(dice, [1, 4, 12, 40]);
  const figure = dice(3) === 0 ? pick(dice, FIGURES) : null;
  return mapped(tree, (leaf) => {
    const [, was, unit] = typeof leaf === "string" ? (QUANTITY.exec(leaf) ?? []) : [];
    if (was === undefined || dice(one) !== 0) return typeof leaf === "number" && dice(one * 3) === 0 ? dice(100) : leaf;
    return dice(4) === 0 ? `${was} ${pick(dice, UNITS)}` : `${figure ?? pick(dice, FIGURES)} ${unit}`;
  });
}

/** All quantities of one unit so many times as large. */
function scaled(dice: Dice, tree: Tree): Tree {
  const found: string[] = [];
  mapped(tree, (leaf) => {
    const unit = typeof leaf === "string" ? QUANTITY.exec(leaf)?.[2] : undefined;
    if (unit !== undefined) found.push(unit);
    return leaf;
  });
  if (found.length === 0) return tree;
  const [chosen, factor, one] = [pick(dice, found), pick(dice, [0.01, 0.1, 0.5, 2, 5, 10, 30, 100, 1000]), 1 + dice(3)];
  return mapped(tree, (leaf) => {
    const [, was, unit] = typeof leaf === "string" ? (QUANTITY.exec(leaf) ?? []) : [];
    if (was === undefined || unit !== chosen || dice(one) !== 0) return leaf;
    const now = Number(was) * factor;
    return `${unit === "min" || unit === "h" ? Math.ceil(now) : Number(now.toPrecision(6))} ${unit}`;
  });
}

/** Names of one's own, each exchanged everywhere for another. */
function renamed(dice: Dice, tree: TreeMap): Tree {
  const own = NAMED.flatMap((key) => (isMap(tree[key]) ? Object.keys(tree[key]) : []));
  const start = dice(NAMES.length);
  const names = new Map(
    [...new Set(own)].map((name, n) => [name, NAMES[(start + n * (1 + dice(2))) % NAMES.length] ?? "x"]),
  );
  const named = (at: Tree): Tree => {
    if (Array.isArray(at)) return at.map(named);
    if (isMap(at))
      return Object.fromEntries(Object.entries(at).map(([key, item]) => [names.get(key) ?? key, named(item)]));
    return typeof at === "string" ? (names.get(at) ?? at) : at;
  };
  return named(tree);
}

/** One kind of thing, each of it several times. */
function multiplied(dice: Dice, tree: TreeMap): Tree {
  const kinds = NAMED.filter((key) => isMap(tree[key]));
  if (kinds.length === 0) return tree;
  const [kind, times] = [pick(dice, kinds), pick(dice, [2, 2, 3, 10])];
  const all = isMap(tree[kind]) ? Object.entries(tree[kind]) : [];
  const copies = Array.from({ length: times }, (_, n) =>
    all.map(([key, value]) => [n === 0 ? key : `${key}x${n}`, value]),
  );
  return { ...tree, [kind]: Object.fromEntries(copies.flat()) };
}

/** Stops driven several times over. */
function repeated(dice: Dice, tree: Tree): Tree {
  const times = pick(dice, [2, 3, 8]);
  return mappedMaps(tree, (at) =>
    Array.isArray(at["stops"]) ? { ...at, stops: Array.from({ length: times }, () => at["stops"] ?? []).flat() } : at,
  );
}

function mappedMaps(tree: Tree, turn: (at: TreeMap) => TreeMap): Tree {
  if (Array.isArray(tree)) return tree.map((item) => mappedMaps(item, turn));
  if (!isMap(tree)) return tree;
  return turn(Object.fromEntries(Object.entries(tree).map(([key, item]) => [key, mappedMaps(item, turn)])));
}

/** Lists or maps of some keys with nothing in them. */
function emptied(dice: Dice, tree: Tree): Tree {
  const [bare, one] = [pick<Tree>(dice, [[], {}, null, ""]), 1 + dice(5)];
  return mappedMaps(tree, (at) =>
    Object.fromEntries(
      Object.entries(at).map(([key, item]) => [
        key,
        typeof item === "object" && item !== null && dice(one * 2) === 0 ? bare : item,
      ]),
    ),
  );
}

/** Texts for people, and now and then any other, exchanged for what means something elsewhere. */
function spoken(dice: Dice, tree: Tree): Tree {
  const text = dice(2) === 0 ? pick(dice, HOSTILE_TEXTS) : null;
  const said = mappedMaps(tree, (at) =>
    dice(6) === 0 ? { ...at, [pick(dice, ["name", "note", "title", "role", "why", "phone", "address"])]: "x" } : at,
  );
  return mapped(said, (leaf, key) =>
    /^(?:name|note|notes|title|role|why|for|who|phone|address|booking|keys|permit|plate|desk|text|model|channel|unit|contact)$/u.test(
      key,
    ) && dice(2) === 0
      ? (text ?? pick(dice, HOSTILE_TEXTS))
      : leaf,
  );
}

/** Parts of another plan, grown from the schema, put where there is nothing: all sections, and all keys of an entry. */
function furnished(tree: TreeMap, grown: Tree): Tree {
  if (!isMap(grown)) return tree;
  const filled = (at: TreeMap, from: TreeMap): TreeMap => {
    const own = Object.entries(at).map(([key, item]): [string, Tree] => {
      const other = from[key] ?? (isMap(item) ? Object.values(from).find(isMap) : undefined);
      return [key, isMap(item) && isMap(other) ? filled(item, other) : item];
    });
    const names = Object.keys(tree);
    return {
      ...Object.fromEntries(Object.entries(from).filter(([key]) => !names.includes(key))),
      ...Object.fromEntries(own),
    };
  };
  return filled(tree, grown);
}

function turned(dice: Dice, tree: TreeMap, schema: Json): Tree {
  const turns: readonly (() => Tree)[] = [
    () => moved(tree, pick(dice, [-1440, -720, -421, -60, -1, 1, 60, 300, 719, 1080, 1440, 2880])),
    () => ({ ...tree, date: pick(dice, DATES) }),
    () => mapped(tree, (leaf) => (typeof leaf === "string" && DATE.test(leaf) ? pick(dice, DATES) : leaf)),
    () =>
      mapped(tree, (leaf) => (typeof leaf === "string" && ZONE.test(leaf) && dice(2) === 0 ? pick(dice, ZONES) : leaf)),
    () => mappedMaps(tree, (at) => (Array.isArray(at["at"]) ? { ...at, at: pick(dice, ENDS_OF_THE_EARTH) } : at)),
    () => measured(dice, tree),
    () => scaled(dice, tree),
    () => scaled(dice, tree),
    () => scaled(dice, tree),
    () => renamed(dice, tree),
    () => multiplied(dice, tree),
    () => repeated(dice, tree),
    () => emptied(dice, tree),
    () => spoken(dice, tree),
    () => furnished(tree, treeOf(new Grower(schema, dice).text())),
  ];
  return pick(dice, turns)();
}

function treeOf(text: string): Tree {
  const made: unknown = parseDocument(text, { logLevel: "silent" }).toJS({ maxAliasCount: 10 });
  return isTree(made) ? made : null;
}

const isTree = (value: unknown): value is Tree =>
  value === null ||
  ["string", "number", "boolean"].includes(typeof value) ||
  (Array.isArray(value) ? value.every(isTree) : isMap(value) && Object.values(value).every(isTree));

/** The same plan at an edge, one to three times turned; null where it is none. */
export function reshaped(dice: Dice, text: string, schema: Json): string | null {
  try {
    let tree = treeOf(text);
    for (let left = pick(dice, [1, 1, 1, 2, 3]); left > 0; left--) {
      if (!isMap(tree)) return null;
      tree = turned(dice, tree, schema);
    }
    const made = stringify(tree, dice(3) === 0 ? { collectionStyle: "flow" } : { lineWidth: 0 });
    return made.length < 12_000 ? made : null;
  } catch {
    // What the library does not read or write is no input of this generator.
    return null;
  }
}
