/** What an edit is, the one stretch of text that it changes, and the edit that changes it back. */
import type { PlanPath } from "../../findings/finding.ts";
import { child, type MapEntry, type MapNode, nodeAt, type PlanNode } from "../text/tree.ts";

/** A piece of a text and what replaces it; `start` and `end` are offsets. */
export interface Splice {
  readonly start: number;
  readonly end: number;
  readonly text: string;
  readonly undo: Edit;
}

const PLAIN_KEY = /^[\p{L}\p{N}_](?:[\p{L}\p{M}\p{N}_.-]*[\p{L}\p{M}\p{N}_])?$/u;

const keyText = (key: string): string => (PLAIN_KEY.test(key) ? key : JSON.stringify(key));

/** The entry that a path ends with, where it ends with a key. */
function entryAt(root: MapNode, path: PlanPath): MapEntry | null {
  const parent = nodeAt(root, path.slice(0, -1));
  return parent?.kind === "map" ? (parent.entries.get(String(path.at(-1))) ?? null) : null;
}

/** Where a value begins with the blanks before it: right behind its key's colon, or at an item of a list. */
function valueStart(text: string, root: MapNode, path: PlanPath, node: PlanNode): number {
  const entry = entryAt(root, path);
  return entry === null ? node.start : text.indexOf(":", entry.key.end) + 1;
}

/** Puts a new value where an old one stands. */
export function replaced(text: string, root: MapNode, path: PlanPath, value: string, exact: boolean): Splice {
  const node = nodeAt(root, path) ?? root;
  const start = valueStart(text, root, path, node);
  const end = Math.max(start, node.end);
  const old = text.slice(start, end);
  const undo: Edit = { path, value: old, exact: true };
  if (exact) return { start, end, text: value, undo };
  const blanks = /^[ \t]*(?=[^\s])/.exec(old)?.[0] ?? (start === node.start ? "" : " ");
  return { start, end, text: `${blanks}${quotedAlike(value, old.trim())}`, undo };
}

/** A plain word takes the quotes of the value it replaces. */
function quotedAlike(value: string, old: string): string {
  const quote = /^(["']).*\1$/s.exec(old)?.[1];
  const plain = /^[^"'[{\\][^"'\\]*$/.test(value);
  return quote !== undefined && plain ? `${quote}${value}${quote}` : value;
}

/** Adds what is missing of a path: `depth` keys of it are there. What lies deeper comes in one flow map. */
export function inserted(
  text: string,
  root: MapNode,
  path: PlanPath,
  depth: number,
  value: string,
  exact: boolean,
): Splice {
  const there = path.slice(0, depth);
  const node = nodeAt(root, there) ?? root;
  const undo: Edit = { path: path.slice(0, depth + 1), value: null };
  const rest = path
    .slice(depth + 1)
    .reduceRight<string>((inner, key) => `{ ${keyText(String(key))}: ${inner} }`, value.trim());
  const key = path[depth];
  if (node.kind === "list") return { ...intoList(text, node, rest), undo };
  const line = `${keyText(String(key))}:${exact && depth + 1 === path.length ? value : ` ${rest}`}`;
  if (node.kind === "map")
    return { ...intoMap(text, node, depth === 0 ? sectionText(text, path, rest, line) : line), undo };
  const start = valueStart(text, root, there, node);
  return {
    start,
    end: Math.max(start, node.end),
    text: ` { ${line} }`,
    undo: { path: there, value: text.slice(start, node.end), exact: true },
  };
}

/** A new section is written as people write one: its entry on a line of its own. */
function sectionText(text: string, path: PlanPath, rest: string, line: string): string {
  const inner = /^\{ (.*) \}$/s.exec(rest)?.[1];
  return path.length < 2 || inner === undefined ? line : `${keyText(String(path[0]))}:${lineEnd(text)}  ${inner}`;
}

const lineEnd = (text: string): string => (text.includes("\r\n") ? "\r\n" : "\n");

type Stretch = Pick<Splice, "start" | "end" | "text">;

const isFlow = (text: string, node: PlanNode): boolean => /[{[]/.test(text.charAt(node.start)) && node.end > node.start;

function intoMap(text: string, node: MapNode, line: string): Stretch {
  const last = [...node.entries.values()].at(-1);
  if (last === undefined) return { start: node.start, end: node.end, text: `{ ${line} }` };
  const end = Math.max(last.value.end, last.key.end);
  if (isFlow(text, node)) return { start: end, end, text: `, ${line}` };
  return newLine(text, end, `${" ".repeat(columnOf(text, firstKey(node)))}${line}`);
}

function intoList(text: string, node: Extract<PlanNode, { kind: "list" }>, item: string): Stretch {
  const last = node.items.at(-1);
  if (last === undefined) return { start: node.start, end: node.end, text: `[${item}]` };
  if (isFlow(text, node)) return { start: last.end, end: last.end, text: `, ${item}` };
  return newLine(text, last.end, `${" ".repeat(columnOf(text, node.start))}- ${item}`);
}

const firstKey = (node: MapNode): number => [...node.entries.values()][0]?.key.start ?? node.start;

const columnOf = (text: string, offset: number): number => offset - (text.lastIndexOf("\n", offset - 1) + 1);

/** A line behind the one that ends at or after `offset`, comments at its end included. */
function newLine(text: string, offset: number, line: string): Stretch {
  const end = text.indexOf("\n", offset);
  if (end < 0) return { start: text.length, end: text.length, text: `${lineEnd(text)}${line}` };
  return { start: end + 1, end: end + 1, text: `${line}${lineEnd(text)}` };
}

/** Takes an entry or item out, with its comma or its lines. */
export function removed(text: string, root: MapNode, path: PlanPath): Splice {
  const parent = nodeAt(root, path.slice(0, -1)) ?? root;
  const index = positionOf(parent, path);
  const parts = partsOf(parent);
  const [before, own, after] = [parts[index - 1], parts[index] ?? { start: 0, end: 0 }, parts[index + 1]];
  const node = child(parent, path.at(-1) ?? "");
  const old = node === null ? "" : text.slice(valueStart(text, root, path, node), Math.max(node.end, own.end));
  const undo: Edit = { path, value: old, exact: true };
  if (isFlow(text, parent)) {
    if (before !== undefined) return { start: before.end, end: own.end, text: "", undo };
    if (after !== undefined) return { start: own.start, end: after.start, text: "", undo };
    return { start: parent.start, end: parent.end, text: parent.kind === "list" ? "[]" : "{}", undo };
  }
  // The first key behind a list's dash shares its line with the dash.
  const dashed = parent.kind === "map" && /\S/.test(text.slice(own.start - columnOf(text, own.start), own.start));
  if (dashed && after !== undefined) return { start: own.start, end: after.start, text: "", undo };
  if (parts.length === 1 && path.length > 1) return { ...emptied(text, root, path.slice(0, -1), parent), undo };
  return { ...withoutLines(text, own.start, own.end), undo };
}

function partsOf(parent: PlanNode): readonly { readonly start: number; readonly end: number }[] {
  if (parent.kind === "list") return parent.items;
  if (parent.kind !== "map") return [];
  return [...parent.entries.values()].map(({ key, value }) => ({
    start: key.start,
    end: Math.max(key.end, value.end),
  }));
}

function positionOf(parent: PlanNode, path: PlanPath): number {
  const last = path.at(-1);
  if (parent.kind === "list") return typeof last === "number" ? last : -1;
  return parent.kind === "map" ? [...parent.entries.keys()].indexOf(String(last)) : -1;
}

/** A block whose only entry goes is left as an empty one. */
function emptied(text: string, root: MapNode, path: PlanPath, parent: PlanNode): Stretch {
  const start = valueStart(text, root, path, parent);
  return { start, end: parent.end, text: parent.kind === "list" ? " []" : " {}" };
}

function withoutLines(text: string, from: number, to: number): Stretch {
  const start = text.lastIndexOf("\n", from - 1) + 1;
  const end = text.indexOf("\n", to);
  if (end >= 0) return { start, end: end + 1, text: "" };
  const before = text.slice(0, start).replace(/\r?\n$/, "").length;
  return { start: before, end: text.length, text: "" };
}

/** One value to be put in, replaced or removed. */
export interface Edit {
  readonly path: PlanPath;
  /** YAML as it would be typed in braces: `12:30`, `[lodge, pier]`, `{ at: lodge }`; null removes the entry. */
  readonly value: string | null;
  /** Put in as it is, with the blanks before it: how an edit is taken back. */
  readonly exact?: boolean;
}

/** The ids that the plan, with all it uses, has in a section. */
export type SectionIds = (section: string) => readonly string[];

/** What edits are made with. */
export interface EditOptions {
  /** For messages. */
  readonly file: string | null;
  /** What the plan knows beyond this text (from the files it uses): those entries may be laid over. */
  readonly ids?: SectionIds;
  /** Entries that no one knows may be made, as `log` makes those of `actual`. */
  readonly create?: boolean;
}
