/**
 * Reads the YAML that people write every day, and nothing else: block maps and lists, flow maps and lists on one line,
 * plain words, simple quotes, comments. For all else it gives null and the YAML parser decides.
 *
 * It is here for the start of the program alone: loading and warming the parser takes longer than all the rest of
 * reading a plan. It never takes a text otherwise than the parser would; a property test holds the two together, spans
 * included.
 */
import type { SourceText } from "./source.ts";
import type { ListNode, MapEntry, MapNode, PlanNode, ScalarNode } from "./tree.ts";

/** The tree of an everyday text, or null. */
export function quickTree(source: SourceText): MapNode | null {
  const { text } = source;
  if (text.length > MOST_LETTERS || !HARMLESS.test(text) || DOCUMENT_MARKS.test(text)) return null;
  try {
    return new Quick(source).document();
  } catch (error) {
    if (error === NOT_EVERYDAY) return null;
    throw error;
  }
}

/** Nothing but line feeds and letters: no other control, break or invisible mark. */
const HARMLESS = /^(?:[\n\x20-\x7e\xa1-\u1fff\u2010-\u2027\u2030-\ufefe\uff00-\ufffd]*\n)$/;
const DOCUMENT_MARKS = /^(?:%|---|\.\.\.)/m;
const MOST_LETTERS = 64 * 1024;

const NOT_EVERYDAY = new Error("not everyday YAML");

const giveUp = (): never => {
  throw NOT_EVERYDAY;
};

/** Far below the caps of the policy, which only the full reading enforces. */
const MOST_NODES = 4000;
const MOST_DEPTH = 12;

const KEY = /([A-Za-z0-9][A-Za-z0-9_.-]*):(?=[ \n])/y;
const PLAIN = /[^\s\-?:,[\]{}#&*!|>'"%@`~=<][^\n]*|-[\d.][^\n]*/y;
const QUOTED = /"([^"\\\n]*)"|'([^'\n]*)'(?!')/y;
const DECIMAL = /^[-+]?\d+(?:\.\d+)?$/;
/** What YAML may take for something else than text or a plain decimal: `1e3`, `1.`, `0x1f`, `.inf`, `True`. */
const DOUBTFUL = /^(?:[-+]?[\d.]*(?:e[-+]?\d*)?|0[xo].*|true|false|null|[-+]?\.(?:inf|nan))$/i;

class Quick {
  private readonly source: SourceText;
  private readonly text: string;
  private at = 0;
  private nodes = 0;

  constructor(source: SourceText) {
    this.source = source;
    this.text = source.text;
  }

  document(): MapNode {
    this.skipLines();
    if (this.indent() !== 0 || this.ended()) giveUp();
    const map = this.blockMap(0, 1);
    if (!this.ended()) giveUp();
    return map;
  }

  private ended(): boolean {
    return this.at >= this.text.length;
  }

  /** Moves to the beginning of the next line that says something. */
  private skipLines(): void {
    const blank = /(?: *(?:#[^\n]*)?\n)*/y;
    blank.lastIndex = this.at;
    blank.test(this.text);
    this.at = blank.lastIndex;
  }

  /** Spaces before the line at hand; -1 at the end. */
  private indent(): number {
    if (this.ended()) return -1;
    let end = this.at;
    while (this.text.charCodeAt(end) === 32) end += 1;
    return end - this.at;
  }

  /** Takes a pattern that must match here. */
  private take(pattern: RegExp): RegExpExecArray {
    pattern.lastIndex = this.at;
    const match = pattern.exec(this.text) ?? giveUp();
    this.at = pattern.lastIndex;
    return match;
  }

  private count(depth: number): void {
    this.nodes += 1;
    if (this.nodes > MOST_NODES || depth > MOST_DEPTH) giveUp();
  }

  /** The lines of a map that begin in column `column`; the first of them is already entered where `entered`. */
  private blockMap(column: number, depth: number, entered = false): MapNode {
    this.count(depth);
    const start = entered ? this.at : this.at + column;
    const entries = new Map<string, MapEntry>();
    let inside = entered;
    let end = start;
    while (inside || this.indent() === column) {
      if (!inside) this.at += column;
      inside = false;
      const { key, value } = this.blockEntry(column, depth);
      if (entries.has(key.text)) giveUp();
      entries.set(key.text, { key, value });
      end = value.end;
    }
    if (this.indent() > column) giveUp();
    return { kind: "map", source: this.source, start, end, entries };
  }

  private key(depth: number): ScalarNode {
    this.count(depth);
    const start = this.at;
    const [, text = ""] = this.take(KEY);
    return { kind: "scalar", source: this.source, start, end: start + text.length, value: text, text, quoted: false };
  }

  private blockEntry(column: number, depth: number): MapEntry {
    const key = this.key(depth);
    this.take(/ */y);
    if (!/[\n#]/.test(this.text.charAt(this.at))) return { key, value: this.lineValue(column, depth + 1) };
    this.take(/[^\n]*\n/y);
    this.skipLines();
    const inner = this.indent();
    // A list may stand in the column of its key.
    if (this.text.startsWith("- ", this.at + Math.max(0, inner)) && inner >= column) {
      return { key, value: this.blockList(inner, depth + 1) };
    }
    if (inner <= column) giveUp();
    return { key, value: this.blockMap(inner, depth + 1) };
  }

  private blockList(column: number, depth: number): ListNode {
    this.count(depth);
    const start = this.at + column;
    const items: PlanNode[] = [];
    while (this.indent() === column && this.text.startsWith("- ", this.at + column)) {
      this.at += column;
      const dash = this.at;
      this.take(/- +/y);
      KEY.lastIndex = this.at;
      const isMap = KEY.test(this.text);
      const inner = column + this.at - dash;
      items.push(isMap ? this.blockMap(inner, depth + 1, true) : this.lineValue(column, depth + 1));
    }
    if (this.indent() > column) giveUp();
    return { kind: "list", source: this.source, start, end: items.at(-1)?.end ?? start, items };
  }

  /** A value that ends on its line; a next line that is indented further would go on with it. */
  private lineValue(column: number, depth: number): PlanNode {
    const value = this.flowValue(depth, false);
    this.endLine();
    if (this.indent() > column) giveUp();
    return value;
  }

  private endLine(): void {
    this.take(/(?: +#[^\n]*| *)\n/y);
    this.skipLines();
  }

  private flowValue(depth: number, inFlow: boolean): PlanNode {
    const sign = this.text.charAt(this.at);
    if (sign === "{") return this.flowMap(depth);
    if (sign === "[") return this.flowList(depth);
    this.count(depth);
    return sign === '"' || sign === "'" ? this.quoted() : this.plain(inFlow);
  }

  private quoted(): ScalarNode {
    const start = this.at;
    const [, double, single] = this.take(QUOTED);
    const text = double ?? single ?? "";
    return { kind: "scalar", source: this.source, start, end: this.at, value: text, text, quoted: true };
  }

  private plain(inFlow: boolean): ScalarNode {
    const start = this.at;
    const [line] = this.take(PLAIN);
    const stop = line.search(inFlow ? / #|,|[[\]{}]|:(?=[ ,[\]{}]|$)/ : / #|:(?= |$)/);
    const text = (stop < 0 ? line : line.slice(0, stop)).trimEnd();
    if (stop >= 0 && line.charAt(stop) === ":") giveUp();
    this.at = start + text.length;
    return { kind: "scalar", source: this.source, start, end: this.at, value: plainValue(text), text, quoted: false };
  }

  private flowMap(depth: number): MapNode {
    this.count(depth);
    const start = this.at;
    const entries = new Map<string, MapEntry>();
    this.take(/\{ */y);
    while (this.text.charAt(this.at) !== "}") {
      const key = this.key(depth);
      this.take(/ +/y);
      const value = this.flowValue(depth + 1, true);
      if (entries.has(key.text)) giveUp();
      entries.set(key.text, { key, value });
      this.separator("}");
    }
    this.at += 1;
    return { kind: "map", source: this.source, start, end: this.at, entries };
  }

  private flowList(depth: number): ListNode {
    this.count(depth);
    const start = this.at;
    const items: PlanNode[] = [];
    this.take(/\[ */y);
    while (this.text.charAt(this.at) !== "]") {
      items.push(this.flowValue(depth + 1, true));
      this.separator("]");
    }
    this.at += 1;
    return { kind: "list", source: this.source, start, end: this.at, items };
  }

  /** A comma with something behind it, or the closing sign. */
  private separator(close: string): void {
    const [, comma] = this.take(/ *(, +)?/y);
    const closed = this.text.charAt(this.at) === close;
    if (closed === (comma !== undefined)) giveUp();
  }
}

/** The core schema's value of a plain word; anything on the verge of another kind is left to the parser. */
function plainValue(text: string): string | number | boolean {
  if (text === "true" || text === "false") return text === "true";
  if (DECIMAL.test(text)) return Number(text);
  return DOUBTFUL.test(text) ? giveUp() : text;
}
