/** The YAML parser's nodes made into a plan tree, held to the policy of `yaml.ts` in one linear pass. */
import { isMap, isScalar, isSeq, type Node, type Pair, type Scalar, type YAMLMap, type YAMLSeq } from "yaml";
import type { Finding } from "../../findings/finding.ts";
import { commaInValue, keyNotText, keyTwice, planTooLarge, yamlOddSign, yamlReference, yamlTag } from "../findings.ts";
import { tornMeant } from "../shape/meant.ts";
import { controlSpelled } from "./controls.ts";
import type { SourceText } from "./source.ts";
import type { ListNode, MapEntry, MapNode, PlanNode, ScalarNode } from "./tree.ts";

/** Levels of a plan at most. */
export const MOST_DEPTH = 32;
const MOST_NODES = 5000;

/** The tree (null where it is too large or holds an alias) and what breaks the policy. */
export function growTree(source: SourceText, contents: Node | null): { tree: PlanNode | null; findings: Finding[] } {
  const grower = new Grower(source);
  const tree = contents === null ? grower.nothing(0) : grower.grow(contents, 1);
  return { tree: grower.tooLarge || grower.aliased ? null : tree, findings: grower.findings };
}

/** The finding for a value that a comma tore apart. */
export function tornApart({ source, start, end, items }: Omit<ListNode, "torn" | "kind">): Finding {
  const text = source.text.slice(start, end);
  const parts = items.map((item) => source.text.slice(item.start, item.end));
  return commaInValue.raise(
    { text, fix: tornMeant(parts, parts.join(",") === text) },
    { span: source.span(start, end) },
  );
}

const isNode = (value: unknown): value is Node => typeof value === "object" && value !== null && "range" in value;

class Grower {
  readonly findings: Finding[] = [];
  readonly source: SourceText;
  tooLarge = false;
  /** An alias stands for what only the resolving of aliases could tell; nothing sensible can be read on. */
  aliased = false;
  private nodes = 0;

  constructor(source: SourceText) {
    this.source = source;
  }

  nothing(offset: number): ScalarNode {
    return { kind: "scalar", source: this.source, start: offset, end: offset, value: null, text: "", quoted: false };
  }

  grow(node: Node, depth: number): PlanNode {
    this.count(node, depth);
    this.refuseExtras(node);
    if (this.tooLarge) return this.nothing(0);
    if (isMap(node)) return this.map(node, depth);
    if (isSeq(node)) return this.list(node, depth);
    if (isScalar(node)) return this.scalar(node);
    this.aliased = true;
    this.refuseReference("*", node);
    return this.nothing(node.range?.[0] ?? 0);
  }

  private map(node: YAMLMap, depth: number): MapNode {
    const entries = this.entries(node.items, depth);
    const last = [...entries.values()].at(-1);
    const end = last === undefined ? 0 : Math.max(last.key.end, last.value.end);
    for (const { value } of entries.values())
      if (value.kind === "list" && value.torn) this.findings.push(tornApart(value));
    return { kind: "map", ...this.block(node, end), entries };
  }

  private list(node: YAMLSeq, depth: number): ListNode {
    const { end } = this.placed(node);
    const items = node.items.map((item) => (isNode(item) ? this.grow(item, depth + 1) : this.nothing(end)));
    return { kind: "list", ...this.block(node, items.at(-1)?.end ?? end), items, torn: false };
  }

  /** The parser counts the comments behind a block as part of it; we do not. */
  private block(node: YAMLMap | YAMLSeq, lastEnd: number): { source: SourceText; start: number; end: number } {
    const placed = this.placed(node);
    return node.flow === true ? placed : { ...placed, end: Math.max(placed.start, lastEnd) };
  }

  private placed(node: Node): { source: SourceText; start: number; end: number } {
    const [start, end] = node.range ?? [0, 0];
    let last = end;
    // The parser counts a block's last line breaks as part of it.
    while (last > start && /\s/.test(this.source.text.charAt(last - 1))) last -= 1;
    return { source: this.source, start, end: last };
  }

  private count(node: Node, depth: number): void {
    this.nodes += 1;
    if (this.tooLarge || (this.nodes <= MOST_NODES && depth <= MOST_DEPTH)) return;
    this.tooLarge = true;
    const found = depth > MOST_DEPTH ? `more than ${MOST_DEPTH} levels` : `more than ${MOST_NODES} values`;
    const { start } = this.placed(node);
    this.findings.push(planTooLarge.raise({ found }, { span: this.source.span(start, start) }));
  }

  /** Anchors and tags, which stand before the value they belong to. */
  private refuseExtras(node: Node): void {
    if ("anchor" in node && typeof node.anchor === "string") this.refuseReference("&", node);
    if (!("tag" in node) || typeof node.tag !== "string") return;
    const span = this.before(node, /![^\s,[\]{}]*(?=[^!]*$)/);
    this.findings.push(yamlTag.raise({ tag: span.text }, { span: this.source.span(span.start, span.end) }));
  }

  private refuseReference(sign: "&" | "*", node: Node): void {
    const { start, end } = this.placed(node);
    const found =
      sign === "&"
        ? this.before(node, /&[^\s,[\]{}]*(?=[^&]*$)/)
        : { start, end, text: this.source.text.slice(start, end) };
    this.findings.push(yamlReference.raise({ sign: found.text }, { span: this.source.span(found.start, found.end) }));
  }

  /** The last match of `pattern` in the text just before a node, else the node itself. */
  private before(node: Node, pattern: RegExp): { start: number; end: number; text: string } {
    const { start, end } = this.placed(node);
    const base = Math.max(0, start - 200);
    const match = pattern.exec(this.source.text.slice(base, start));
    if (match === null) return { start, end, text: this.source.text.slice(start, end) };
    return { start: base + match.index, end: base + match.index + match[0].length, text: match[0] };
  }

  private scalar(node: Scalar): ScalarNode {
    const at = this.placed(node);
    const quoted = node.type !== "PLAIN";
    const { value } = node;
    if (!quoted && typeof value === "string" && /^[\u2018\u201a\u201c-\u201f]/.test(value))
      return this.curly(at, value);
    const known = typeof value === "string" || typeof value === "number" || typeof value === "boolean" ? value : null;
    const control = quoted && typeof known === "string" ? controlSpelled(this.source, at.start, at.end, known) : null;
    if (control !== null) this.findings.push(control);
    return { kind: "scalar", ...at, value: known, quoted, text: quoted ? String(known ?? "") : (node.source ?? "") };
  }

  /** Text in curly quotes: told, and read on as if the quotes were straight. */
  private curly(at: Pick<ScalarNode, "source" | "start" | "end">, written: string): ScalarNode {
    const facts = { name: "a curly quote", plain: "a straight quote" };
    this.findings.push(yamlOddSign.raise(facts, { span: this.source.span(at.start, at.end) }));
    const value = written.slice(1).replace(/[\u2018-\u201f]$/, "");
    return { kind: "scalar", ...at, value, quoted: true, text: value };
  }

  private entries(pairs: readonly Pair<unknown, unknown>[], depth: number): ReadonlyMap<string, MapEntry> {
    const entries = new Map<string, MapEntry>();
    for (const pair of pairs) {
      const key = this.key(pair.key, depth);
      if (key === null || (pair.value === null && this.tears(entries, key))) continue;
      const name = key.text.normalize("NFC");
      const earlier = entries.get(name);
      const value = isNode(pair.value) ? this.grow(pair.value, depth + 1) : this.nothing(key.end);
      if (earlier === undefined) entries.set(name, { key, value });
      else this.refuseTwice(name, key, earlier.key);
    }
    return entries;
  }

  /** `gross: 9,800 lb` between braces is `gross: 9` and a key `800 lb`: put together again, as a list of its parts. */
  private tears(entries: Map<string, MapEntry>, key: ScalarNode): boolean {
    const [name, last] = [...entries].at(-1) ?? [];
    if (name === undefined || last === undefined || last.value.kind === "map" || !/^[-+\u2013\u2212]?\d/.test(key.text))
      return false;
    const { value } = last;
    if (value.kind === "list" && !value.torn) return false;
    const gap = this.source.text.slice(value.end, key.start);
    if (!/^\s*,\s*$/.test(gap)) return false;
    const items = [...(value.kind === "list" ? value.items : [value]), key];
    const { source, start } = value;
    entries.set(name, { ...last, value: { kind: "list", source, start, end: key.end, items, torn: true } });
    return true;
  }

  private key(node: unknown, depth: number): ScalarNode | null {
    if (!isScalar(node)) return null;
    this.count(node, depth);
    this.refuseExtras(node);
    const key = this.scalar(node);
    const span = this.source.span(key.start, key.end);
    if (key.text === "<<" && !key.quoted) {
      this.findings.push(yamlReference.raise({ sign: "<<" }, { span }));
      return null;
    }
    if (key.text === "") this.findings.push(keyNotText.raise({}, { span }));
    return key;
  }

  private refuseTwice(name: string, key: ScalarNode, first: ScalarNode): void {
    const related = [{ span: this.source.span(first.start, first.end), label: "first stated here" }];
    const span = this.source.span(key.start, key.end);
    this.findings.push(keyTwice.raise({ key: name }, { span, related }));
  }
}
