/** The YAML parser's errors in our own words: the everyday typo behind each, found by looking at its line. */
import type { YAMLError } from "yaml";
import type { Finding } from "../../findings/finding.ts";
import {
  keyNotText,
  planTooLarge,
  yamlBadEscape,
  yamlBadStart,
  yamlIndent,
  yamlSecondDocument,
  yamlSyntax,
  yamlTab,
  yamlUnclosed,
} from "../findings.ts";
import {
  byLine,
  commaAlone,
  commaMissing,
  dashLeft,
  lineOf,
  noDash,
  oddlyIndented,
  oddSign,
  outOfPlace,
  tooDeep,
} from "./lineTypos.ts";
import type { SourceText } from "./source.ts";

/** The parser's messages that are explained, in all and in one line: a row of braces makes one of every brace. */
const MOST_EXPLAINED = 200;
const MOST_IN_A_LINE = 10;

/**
 * One finding for each cause. A typo upsets the parser again on the lines below it, so a message without a known cause
 * counts only while nothing better was found before it.
 */
export function toldPlainly(source: SourceText, errors: readonly YAMLError[]): readonly Finding[] {
  const raised = new Map<string, Finding>();
  const inLine = new Map<number, number>();
  let general: Finding | null = null;
  for (const error of errors.slice(0, MOST_EXPLAINED)) {
    const { line } = source.span(error.pos[0], error.pos[0]);
    const before = inLine.get(line) ?? 0;
    inLine.set(line, before + 1);
    if (before >= MOST_IN_A_LINE) continue;
    const found = specific(source, error);
    if (found !== null) {
      const key = `${found.code} ${found.span?.line}`;
      if (!raised.has(key)) raised.set(key, found);
    } else if (raised.size === 0) general ??= generally(source, error);
  }
  const all = [...raised.values()];
  const open = all.findIndex(({ code }) => code === yamlUnclosed.entry.code);
  // What stays open swallows the lines below it: none of them can be said to stand wrong.
  if (open >= 0) return all.filter(({ code }, at) => at <= open || code !== yamlIndent.entry.code);
  return all.length > 0 ? all : general === null ? [] : [general];
}

function specific(source: SourceText, error: YAMLError): Finding | null {
  const [start] = error.pos;
  switch (error.code) {
    case "BAD_SCALAR_START":
      return badStart(source, start);
    case "BAD_DQ_ESCAPE":
      return yamlBadEscape.raise(
        { spelled: source.text.slice(start, start + 2) },
        { span: source.span(start, start + 2) },
      );
    case "TAB_AS_INDENT":
      return yamlTab.raise({}, { span: source.span(start, start + 1) });
    case "MULTIPLE_DOCS":
      return secondDocument(source, start);
    case "NON_STRING_KEY":
      return (
        noDash(source, start) ??
        oddSign(source, lineOf(source, start)) ??
        dashLeft(source, start) ??
        keyNotText.raise({}, { span: source.span(start, error.pos[1]) })
      );
    case "RESOURCE_EXHAUSTION":
      return planTooLarge.raise({ found: "more than 32 levels" }, { span: source.span(start, start) });
    case "BLOCK_IN_FLOW":
      return commaMissing(source, start) ?? byLine(source, start) ?? tooDeep(source, start);
    default:
      return byLine(source, start) ?? commaAlone(source, start) ?? unclosed(source, error) ?? tooDeep(source, start);
  }
}

function badStart(source: SourceText, start: number): Finding {
  const value =
    source.text
      .slice(start)
      .match(/^[^\n\r,}\]]*/)?.[0]
      .trim() ?? "";
  const span = source.span(start, start + Math.max(1, value.length));
  return yamlBadStart.raise({ sign: source.text.charAt(start), value }, { span });
}

function secondDocument(source: SourceText, start: number): Finding {
  const dashes = source.text.indexOf("---", start);
  const at = dashes < 0 ? start : dashes;
  return yamlSecondDocument.raise({}, { span: source.span(at, at + 3) });
}

const CLOSERS = new Map([
  ["{", { what: "brace", close: "}" }],
  ["[", { what: "bracket", close: "]" }],
  ['"', { what: "quote", close: '"' }],
  ["'", { what: "quote", close: "'" }],
]);

/** The last quote or bracket that stays open, looked for from the line where the parser gave up back to the top. */
function unclosed(source: SourceText, error: YAMLError): Finding | null {
  const quote = /closing (["'])quote/.exec(error.message)?.[1];
  const flow = /must be sufficiently indented and end with a ([\]}])|Expected flow (map|sequence) to end with/.exec(
    error.message,
  );
  if (quote === undefined && flow === null) return null;
  const open = openAt(source.text.slice(0, error.pos[0] + 1));
  const kind = open === null ? undefined : CLOSERS.get(source.text.charAt(open));
  if (open === null || kind === undefined) return null;
  // `name: Jonas #2, role: camera }`: the brace that would close it is part of a comment.
  const line = lineOf(source, open);
  const hash = line.text.indexOf(" #", open - line.start);
  if (hash >= 0 && line.text.includes(kind.close, hash)) {
    const at = line.start + hash + 1;
    return yamlUnclosed.raise({ ...kind, comment: true }, { span: source.span(at, at + 1) });
  }
  return yamlUnclosed.raise({ ...kind, comment: false }, { span: source.span(open, open + 1) });
}

/** The offset of the innermost quote or bracket still open at the end of `text`. */
function openAt(text: string): number | null {
  const open: number[] = [];
  for (let i = 0; i < text.length; i++) {
    const sign = text.charAt(i);
    if (sign === "#" && /\s/.test(text.charAt(i - 1) || " ")) {
      i = lineEnd(text, i);
    } else if ((sign === '"' || sign === "'") && /[\s,[{:(]/.test(text.charAt(i - 1) || " ")) {
      const end = quoteEnd(text, i);
      if (end < 0) return i;
      i = end;
    } else if (sign === "[" || sign === "{") open.push(i);
    else if (sign === "]" || sign === "}") {
      const last = open.pop();
      // A bracket closed by a brace was never closed itself.
      if (last !== undefined && (text.charAt(last) === "[") !== (sign === "]")) return last;
    }
  }
  return open.at(-1) ?? null;
}

function lineEnd(text: string, from: number): number {
  const end = text.indexOf("\n", from);
  return end < 0 ? text.length : end;
}

function quoteEnd(text: string, from: number): number {
  const quote = text.charAt(from);
  for (let i = from + 1; i < text.length; i++) {
    if (quote === '"' && text.charAt(i) === "\\") i += 1;
    else if (text.charAt(i) === quote) {
      if (quote === "'" && text.charAt(i + 1) === "'") i += 1;
      else return i;
    }
  }
  return -1;
}

function generally(source: SourceText, error: YAMLError): Finding {
  const here = lineOf(source, error.pos[0]);
  const { text, start } = here;
  const first = start + (text.length - text.trimStart().length);
  const above = start > 0 ? outOfPlace(source, lineOf(source, start - 1), here) : null;
  if (above !== null) return above;
  const odd = oddlyIndented(source, here);
  if (odd !== null) return odd;
  if (error.code === "BAD_INDENT")
    return yamlIndent.raise({ how: "deep" }, { span: source.span(first, start + text.length) });
  return yamlSyntax.raise({}, { span: source.span(error.pos[0], Math.max(error.pos[0] + 1, error.pos[1])) });
}
