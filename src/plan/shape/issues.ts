/** Zod's issues as our findings, each at the spot in the text that it is about; and a text that is no map of keys at all. */
import type * as z from "zod";
import type { Finding, PlanPath } from "../../findings/finding.ts";
import { nearest, slipOf } from "../../findings/nearest.ts";
import {
  commaInValue,
  keyMissing,
  keyUnknown,
  planEmpty,
  planNotMap,
  valueBad,
  valueKind,
  valueMissing,
  wordUnknown,
  yamlNoColon,
  yamlNoSpaceAfterColon,
  yamlOddSign,
} from "../findings.ts";
import type { Item } from "../text/items.ts";
import { dotted } from "../text/pathtext.ts";
import { tornApart } from "../text/planTree.ts";
import type { SourceText } from "../text/source.ts";
import { keySpan, type MapEntry, nodeAt, type PlanNode, pointAt, raw, spanOf } from "../text/tree.ts";
import { oddSignIn } from "../values/signs.ts";
import type { Form, Zod } from "./kind.ts";
import { kindMeant, pairsMeant, timesMeant } from "./meant.ts";
import { keyMeant } from "./synonyms.ts";

type Issue = z.core.$ZodIssue;

/** Sections of the plan whose entries have a key; empty where none or too many have it to say where it was meant to stand. */
export type HomesOf = (key: string) => readonly string[];

/** Checks the kinds and keys below `node`, which stands at `path` of the tree `root`. */
export function shapeMistakes(
  z: Zod,
  root: PlanNode,
  { node, path }: Item,
  form: Form,
  homesOf: HomesOf,
): readonly Finding[] {
  const result = form.schema(z, false).safeParse(raw(node));
  if (result.success) return [];
  const issues = result.error.issues.flatMap((issue) => narrowed(issue, path));
  return paired(root, issues).flatMap((issue) => findingsOf(root, issue, homesOf));
}

/** An issue with its whole path, or an unknown key together with the missing one that it was meant to be. */
interface Located {
  readonly issue: Issue;
  readonly path: PlanPath;
  readonly pairs?: ReadonlyMap<string, string>;
}

/** Follows a union into the branch whose kind the value has, so that its own mistakes are reported, not the union's. */
function narrowed(issue: Issue, base: PlanPath): readonly Located[] {
  const path = [...base, ...issue.path.filter((step) => typeof step !== "symbol")];
  if (issue.code !== "invalid_union") return [{ issue, path }];
  const fitting = issue.errors.filter(kindFits).sort((a, b) => a.length - b.length)[0];
  return fitting === undefined ? [{ issue, path }] : fitting.flatMap((inner) => narrowed(inner, path));
}

const kindFits = (issues: readonly Issue[]): boolean =>
  issues.length > 0 &&
  issues.every((issue) => {
    if (issue.path.length > 0) return true;
    return issue.code === "invalid_union" ? issue.errors.some(kindFits) : issue.code !== "invalid_type";
  });

const pathKey = (path: PlanPath): string => JSON.stringify(path);

/** Takes a missing key out where the same map has an unknown one near to it. */
function paired(root: PlanNode, issues: readonly Located[]): readonly Located[] {
  const taken = new Set<string>();
  // A key with a mistake in its value is there.
  const all = new Set(issues.filter(({ path }) => nodeAt(root, path) === null).map(({ path }) => pathKey(path)));
  const joined = issues.map((located) => {
    const { issue, path } = located;
    if (issue.code !== "unrecognized_keys") return located;
    const missing = issue.message.split(" ").filter((key) => all.has(pathKey([...path, key])));
    const pairs = new Map<string, string>();
    for (const key of issue.keys) {
      const alone = issue.keys.length === 1 && missing.length === 1 ? missing[0] : undefined;
      const meant = keyMeant(key, missing) ?? alone ?? null;
      if (meant === null || taken.has(pathKey([...path, meant]))) continue;
      taken.add(pathKey([...path, meant]));
      pairs.set(key, meant);
    }
    return { issue, path, pairs };
  });
  return joined.filter(({ path, issue }) => issue.code === "unrecognized_keys" || !taken.has(pathKey(path)));
}

function findingsOf(root: PlanNode, { issue, path, pairs }: Located, homesOf: HomesOf): readonly Finding[] {
  switch (issue.code) {
    case "unrecognized_keys":
      return once(
        issue.keys.map((key) => {
          const known = issue.message.split(" ");
          return unknownKey(root, [...path, key], known, pairs?.get(key) ?? null, homesOf);
        }),
      );
    case "invalid_value":
      return [unknownWord(root, path, issue)];
    case "invalid_type":
    case "invalid_union":
    case "invalid_key":
    case "invalid_element":
    case "too_small":
    case "too_big":
      if (isTorn(nodeAt(root, path))) return [];
      return loosePair(root, path, issue.message) ?? [wrongKind(root, path, issue.message)];
    case "invalid_format":
    case "not_multiple_of":
    case "custom":
      return [unreadable(root, path, issue.message)];
    default:
      return impossible(issue);
  }
}

/** `["05:15", "09:15"]` for a list of windows: one mistake, said at the list. Null where it is another. */
function loosePair(root: PlanNode, path: PlanPath, wanted: string): readonly Finding[] | null {
  const at = path.at(-1);
  const list = nodeAt(root, path.slice(0, -1));
  if (typeof at !== "number" || list?.kind !== "list" || !wanted.startsWith("a pair of times")) return null;
  const texts = list.items.flatMap((item) => (item.kind === "scalar" ? [item.text] : []));
  if (texts.length !== 2 || list.items.length !== 2) return null;
  if (at > 0) return [];
  const own = path.slice(0, -1);
  const dashed = texts.some((text) => timesMeant(text) !== null);
  const found = dashed ? "a list of texts" : "one pair";
  const facts = { key: shownKey(own), wanted: "a list of pairs of times", found, fix: pairsMeant(texts) };
  return [valueKind.raise(facts, { span: pointAt(root, own), path: own })];
}

const isTorn = (node: PlanNode | null): boolean => node?.kind === "list" && node.torn;

const impossible = (issue: never): never => {
  throw new Error(`an issue of a kind unknown to this program: ${JSON.stringify(issue)}`);
};

/** A path as people read it: `hits.dawn.at` in backticks, or "the plan". */
export const whereText = (path: PlanPath): string => (path.length === 0 ? "the plan" : `\`${dotted(path)}\``);

/** The finding for a key that an entry does not have; `at:7:00` without a space is a key to YAML, but not to people. */
export function unknownKey(
  root: PlanNode,
  path: PlanPath,
  known: readonly string[],
  missing: string | null,
  homesOf: HomesOf,
): Finding {
  const key = String(path.at(-1));
  const span = keySpan(root, path);
  const odd = oddSignIn(key);
  if (odd !== null) return yamlOddSign.raise({ name: odd.name, plain: odd.plain }, { span, path });
  const [, name, rest] = /^([A-Za-z][\w-]*):(.+)$/s.exec(key) ?? [];
  if (name !== undefined && rest !== undefined)
    return yamlNoSpaceAfterColon.raise({ key: name, rest: rest.trim() }, { span, path });
  const [, bare, value] = /^([A-Za-z][\w-]*)(?:\s*=\s*|\s+)(.+)$/s.exec(key) ?? [];
  if (bare !== undefined && value !== undefined && known.includes(bare))
    return yamlNoColon.raise({ key: bare, rest: value }, { span, path });
  const torn = tornBefore(root, path, known);
  if (torn !== null) return torn;
  const near = missing ?? keyMeant(key, known);
  const facts = { key, where: whereText(path.slice(0, -1)), near, missing, known, elsewhere: homesOf(key) };
  return keyUnknown.raise(facts, { span, path });
}

/**
 * `stops: lodge, pier, lodge` between braces is `stops: lodge` and keys `pier` and `lodge`: one finding, the same for each
 * of them. Null where the key is only mistyped or has a value.
 */
function tornBefore(root: PlanNode, path: PlanPath, known: readonly string[]): Finding | null {
  const parent = nodeAt(root, path.slice(0, -1));
  if (parent?.kind !== "map") return null;
  const entries = [...parent.entries.values()];
  const isPiece = (entry: MapEntry | undefined): boolean =>
    entry !== undefined && isBare(entry) && !known.includes(entry.key.text);
  const here = entries.findIndex(({ key }) => key.text === String(path.at(-1)));
  const first = entries.findLastIndex((entry, at) => at < here && !isPiece(entry));
  const behind = entries.slice(here + 1);
  const more = behind.findIndex((entry) => !isPiece(entry));
  const pieces = entries.slice(first + 1, more < 0 ? entries.length : here + 1 + more);
  const [value, last] = [entries[first]?.value, pieces.at(-1)];
  const mistyped = entries[here] === undefined || slipOf(entries[here].key.text, known) !== null;
  if (value?.kind !== "scalar" || last === undefined || mistyped || !isPiece(entries[here])) return null;
  const { source, start, end } = value;
  const items = [value, ...pieces.map(({ key }) => key)];
  const gaps = items.slice(1).map((item, at) => source.text.slice(items[at]?.end, item.start));
  if (start === end || !gaps.every((gap) => /^\s*,\s*$/.test(gap))) return null;
  return tornApart({ source, start, end: last.key.end, items });
}

/** A key between braces with neither a colon nor a value. */
const isBare = ({ key, value }: MapEntry): boolean =>
  value.start === value.end && !/^\s*:/.test(value.source.text.slice(key.end));

/** The findings, each once where several keys give the same. */
function once(findings: readonly Finding[]): readonly Finding[] {
  const torn = new Set<number | undefined>();
  return findings.filter(({ code, span }) => {
    if (code !== commaInValue.entry.code) return true;
    const first = !torn.has(span?.column);
    torn.add(span?.column);
    return first;
  });
}

/** A missing key, a key without value, or a value of the wrong kind, as the text has it. */
function wrongKind(root: PlanNode, path: PlanPath, wanted: string): Finding {
  const node = nodeAt(root, path);
  const key = String(path.at(-1) ?? "the plan");
  if (node === null) {
    const where = whereText(path.slice(0, -1));
    return keyMissing.raise({ key, where, example: null }, { span: pointAt(root, path), path });
  }
  if (node.kind === "scalar" && node.value === null) {
    return valueMissing.raise({ key }, { span: keySpan(root, path), path });
  }
  const facts = { key: shownKey(path), wanted, found: foundIn(node, wanted), fix: kindMeant(node, wanted) };
  return valueKind.raise(facts, { span: pointAt(root, path), path });
}

const exampleIn = (wanted: string): string | null => /such as (.+)$/.exec(wanted)?.[1] ?? null;

const shownKey = (path: PlanPath): string => {
  const last = path.at(-1);
  return typeof last === "number" ? dotted(path.slice(-2)) : String(last ?? "the plan");
};

/** What a value is, in words: `a list`, `a number`. */
export function kindOf(node: PlanNode): string {
  if (node.kind === "list") return "a list";
  if (node.kind === "map") return "a map of keys";
  if (node.value === null) return "nothing";
  return typeof node.value === "boolean" ? `\`${node.text}\`` : typeof node.value === "number" ? "a number" : "text";
}

/** A list that is too short or too long is one, so its length is said. */
const foundIn = (node: PlanNode, wanted: string): string =>
  node.kind === "list" && /^(?:\[|two |a pair|a list)/.test(wanted) ? `a list of ${node.items.length}` : kindOf(node);

function unknownWord(root: PlanNode, path: PlanPath, issue: Extract<Issue, { code: "invalid_value" }>): Finding {
  const node = nodeAt(root, path);
  if (node === null || node.kind !== "scalar" || node.value === null) return wrongKind(root, path, issue.message);
  const known = issue.values.map(String);
  const facts = { key: shownKey(path), word: node.text, known, near: nearest(node.text, known) };
  return wordUnknown.raise(facts, { span: spanOf(node), path });
}

function unreadable(root: PlanNode, path: PlanPath, wanted: string): Finding {
  const node = nodeAt(root, path);
  const text = node?.kind === "scalar" ? node.text : String(path.at(-1) ?? "");
  const form = exampleIn(wanted);
  return valueBad.raise(
    { text, what: wanted, example: null, ...(form === null ? {} : { form }) },
    { span: pointAt(root, path), path },
  );
}

/** The finding for a text that is no map of keys. */
export function noMap(tree: PlanNode, source: SourceText): Finding {
  const at = { span: source.span(tree.start, tree.end) };
  return tree.kind === "scalar" && tree.value === null
    ? planEmpty.raise({}, at)
    : planNotMap.raise({ found: kindOf(tree) }, at);
}
