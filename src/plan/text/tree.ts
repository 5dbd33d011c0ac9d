/**
 * The plan's text as a tree of our own: every value with its place, free of YAML's many ways to say one thing.
 *
 * Trees of several files can be merged (`uses`), so each node keeps its source. Maps are `Map`s, because a key may be
 * `__proto__`.
 */
import type { Finding, PlanPath, Span } from "../../findings/finding.ts";
import type { SourceText } from "./source.ts";

interface Placed {
  readonly source: SourceText;
  /** Offsets of the value in the text. */
  readonly start: number;
  readonly end: number;
}

/** A word, a number, a text, or nothing. */
export interface ScalarNode extends Placed {
  readonly kind: "scalar";
  /** What YAML 1.2 core makes of it. */
  readonly value: string | number | boolean | null;
  /** The author's own characters: `0500`, `1.10`, `007`; for quoted and block text the text itself. */
  readonly text: string;
  readonly quoted: boolean;
}

/** A list; `torn` where commas inside a value made it one. */
export interface ListNode extends Placed {
  readonly kind: "list";
  readonly items: readonly PlanNode[];
  /** One value that a comma between braces tore apart; reported already. */
  readonly torn: boolean;
}

/** A key with its value. */
export interface MapEntry {
  readonly key: ScalarNode;
  readonly value: PlanNode;
}

/** A map of keys, in order. */
export interface MapNode extends Placed {
  readonly kind: "map";
  readonly entries: ReadonlyMap<string, MapEntry>;
}

/** A node of a plan's tree. */
export type PlanNode = ScalarNode | ListNode | MapNode;

/** The lines and columns of a node. */
export const spanOf = (node: Placed): Span => node.source.span(node.start, node.end);

/** The value one step below, or null where the text has none. */
export function child(node: PlanNode, step: string | number): PlanNode | null {
  if (node.kind === "map") return node.entries.get(String(step))?.value ?? null;
  if (node.kind === "list" && typeof step === "number") return node.items[step] ?? null;
  return null;
}

/** The node at `path`, else its nearest ancestor that the text has. */
export function nearestNode(root: PlanNode, path: PlanPath): { readonly node: PlanNode; readonly depth: number } {
  let node = root;
  for (const [depth, step] of path.entries()) {
    const next = child(node, step);
    if (next === null) return { node, depth };
    node = next;
  }
  return { node, depth: path.length };
}

/** The node exactly at `path`, or null. */
export function nodeAt(root: PlanNode, path: PlanPath): PlanNode | null {
  const { node, depth } = nearestNode(root, path);
  return depth === path.length ? node : null;
}

/** The key's span for the last step of `path` where it names one, else the span of what stands there or above it. */
export function keySpan(root: PlanNode, path: PlanPath): Span {
  const last = path.at(-1);
  const parent = nodeAt(root, path.slice(0, -1));
  const entry = parent?.kind === "map" && last !== undefined ? parent.entries.get(String(last)) : undefined;
  return entry === undefined ? spanOf(nearestNode(root, path).node) : spanOf(entry.key);
}

/** Where a plan begins: what it lacks as a whole is looked for there. */
function firstKeySpan(node: MapNode): Span {
  const [first] = node.entries.values();
  return first === undefined ? spanOf(node) : spanOf(first.key);
}

/**
 * The smallest span that points at `path`: the value itself where it stands on one line, else its key, because a block
 * of several lines cannot be underlined.
 */
export function pointAt(root: PlanNode, path: PlanPath): Span {
  const { node, depth } = nearestNode(root, path);
  if (depth === 0 && path.length > 0 && node.kind === "map") return firstKeySpan(node);
  const oneLine = !/[\r\n]/.test(node.source.text.slice(node.start, node.end));
  if (depth > 0 && (node.end === node.start || (!oneLine && node.kind !== "scalar")))
    return keySpan(root, path.slice(0, depth));
  return spanOf(node);
}

/** Plain data for the shape check. Scalars whose text is not how their value would be written are given as text. */
export type Raw = string | number | boolean | null | Raw[] | { [key: string]: Raw };

/** A node as plain data, for a schema. */
export function raw(node: PlanNode): Raw {
  if (node.kind === "list") return node.items.map(raw);
  if (node.kind === "scalar") {
    return typeof node.value === "number" && String(node.value) !== node.text ? node.text : node.value;
  }
  const made: { [key: string]: Raw } = Object.create(null);
  for (const [key, entry] of node.entries) made[key] = raw(entry.value);
  return made;
}

/** The tree of a text and what is wrong with it. */
export interface YamlReading {
  /** Null where the text cannot be read or is too large; empty text is a null scalar. */
  readonly tree: PlanNode | null;
  readonly findings: readonly Finding[];
}
