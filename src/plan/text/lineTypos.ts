/** Typos that the shape of one line gives away, for the eye that looks for them rather than the parser. */
import type { Finding } from "../../findings/finding.ts";
import {
  yamlColonInText,
  yamlCommaAlone,
  yamlCommaMissing,
  yamlIndent,
  yamlNoColon,
  yamlNoSpaceAfterColon,
  yamlNoSpaceAfterDash,
  yamlOddSign,
} from "../findings.ts";
import { roadForm } from "../keys/roads.ts";
import { stopForm } from "../keys/runs.ts";
import { entryForms, planForm } from "../read/sections.ts";
import { oddSignIn } from "../values/signs.ts";
import type { SourceText } from "./source.ts";

/** One line of a text and the offset at which it begins. */
export interface TextLine {
  readonly text: string;
  readonly start: number;
}

/** The line around an offset, and the offset of its beginning. */
export function lineOf(source: SourceText, offset: number): TextLine {
  const span = source.span(offset, offset);
  return { text: span.text, start: Math.min(offset, source.text.length) - (span.column - 1) };
}

const NO_DASH_SPACE = /^(\s*)-([^\s\-#].*)$/;
const NO_COLON_SPACE = /^(\s*(?:- )?(?:\{ ?)?)([A-Za-z][\w-]*):([^\s/].*)$/;
const COLON_IN_TEXT = /^(\s*(?:- )?)([A-Za-z][\w-]*): +([^"'{[|>#&*!\s].*: .*|[^"'{[|>#&*!\s].*:)$/;

/** No one types a longer line; one that a program wrote may bring an error for each of its signs. */
const LONGEST_LINE = 1000;

/** Typos that the shape of a line gives away. The line above is looked at too: some are noticed only after them. */
export function byLine(source: SourceText, offset: number): Finding | null {
  const here = lineOf(source, offset);
  if (here.text.length > LONGEST_LINE) return null;
  const above = here.start > 0 ? lineOf(source, here.start - 1) : null;
  for (const line of above === null || above.text.length > LONGEST_LINE ? [here] : [here, above]) {
    const found =
      oddSign(source, line) ??
      noDashSpace(source, line) ??
      noColonSpace(source, line) ??
      colonInText(source, line) ??
      bareItem(source, line) ??
      noColon(source, line);
    if (found !== null) return found;
  }
  return null;
}

function noDashSpace(source: SourceText, line: TextLine): Finding | null {
  const match = NO_DASH_SPACE.exec(line.text);
  if (match === null) return null;
  const [, indent = "", rest = ""] = match;
  const at = line.start + indent.length;
  return yamlNoSpaceAfterDash.raise({ rest: rest.trim() }, { span: source.span(at, at + 1 + rest.trimEnd().length) });
}

function noColonSpace(source: SourceText, line: TextLine): Finding | null {
  const match = NO_COLON_SPACE.exec(line.text);
  if (match === null) return null;
  const [, indent = "", key = "", rest = ""] = match;
  const at = line.start + indent.length;
  return yamlNoSpaceAfterColon.raise({ key, rest: rest.trim() }, { span: source.span(at, at + key.length + 1) });
}

/** Without the closing brace at the end whose opening one is missing. */
function withoutLoneBrace(text: string): string {
  const isLone = text.endsWith("}") && text.split("{").length < text.split("}").length;
  return isLone ? text.slice(0, -1).trimEnd() : text;
}

function colonInText(source: SourceText, line: TextLine): Finding | null {
  const match = COLON_IN_TEXT.exec(line.text);
  if (match === null) return null;
  const [whole, indent = "", key = "", value = ""] = match;
  const at = line.start + indent.length + whole.slice(indent.length).indexOf(value, key.length + 1);
  const inner = /^([A-Za-z][\w-]*): \S/.exec(value)?.[1];
  const braces = inner !== undefined && isKey(inner);
  return yamlColonInText.raise(
    { key, value: braces ? withoutLoneBrace(value.trim()) : value.trim(), braces },
    { span: source.span(at, at + value.trimEnd().length) },
  );
}

/** Signs that look like those of YAML and are none. Text in straight quotes may hold them. */
export function oddSign(source: SourceText, line: TextLine): Finding | null {
  const bare = line.text.replace(/"[^"]*"|'[^']*'/g, (quoted) => "x".repeat(quoted.length)).replace(/(^|\s)#.*$/, "$1");
  const odd = oddSignIn(bare);
  if (odd === null) return null;
  const at = line.start + odd.at;
  return yamlOddSign.raise({ name: odd.name, plain: odd.plain }, { span: source.span(at, at + 1) });
}

const NO_COLON = /^(\s*(?:- )?)([A-Za-z][\w-]*)(?:\s*[=;]\s*|\s+|$)([^\s:=;][^:]*)?$/;

/** `late { at: … }`: braces behind a word. */
const BRACES_BEHIND = /^(\s*(?:- )?)([A-Za-z][\w-]*)\s+([{[])/;

/** `pier` below `- lodge`, in the same column: an item without its dash. */
function bareItem(source: SourceText, line: TextLine): Finding | null {
  const [, indent = "", word] = /^(\s*)([A-Za-z][\w-]*)\s*$/.exec(line.text.replace(/\s+#.*$/, "")) ?? [];
  if (word === undefined || line.start === 0) return null;
  const above = lineOf(source, line.start - 1).text;
  if (!above.startsWith(`${indent}- `)) return null;
  const at = line.start + indent.length;
  return yamlIndent.raise({ how: "noDash" }, { span: source.span(at, at + word.length) });
}

/** `- pier` further left than the items above it: no key, but an item out of its column. */
export function dashLeft(source: SourceText, offset: number): Finding | null {
  const line = lineOf(source, offset);
  const indent = /^(\s*)- /.exec(line.text)?.[1] ?? null;
  if (indent === null || line.start === 0) return null;
  const above = /^(\s*)- /.exec(lineOf(source, line.start - 1).text)?.[1] ?? "";
  if (above.length <= indent.length) return null;
  const at = line.start + indent.length;
  return yamlIndent.raise({ how: "dashLeft" }, { span: source.span(at, line.start + line.text.length) });
}

/** `driver tomas`: a line of its own with no colon, where the parser wanted a key. */
function noColon(source: SourceText, line: TextLine): Finding | null {
  const [, lead = "", before, open] = BRACES_BEHIND.exec(line.text) ?? [];
  const braces = before === undefined ? null : ["", lead, before, `${open} …`];
  const match = braces ?? NO_COLON.exec(line.text.replace(/\s+#.*$/, "").trimEnd());
  if (match === null) return null;
  const [, indent = "", key = "", rest = ""] = match;
  const at = line.start + indent.length;
  return yamlNoColon.raise({ key, rest: rest.trim() }, { span: source.span(at, at + key.length) });
}

/**
 * A key that stands deeper than the finished line above it. Where that line is the one out of place, it is marked: a key
 * that is none of the plan's own and begins in the first column, or an entry with a dash among entries without.
 */
export function tooDeep(source: SourceText, offset: number): Finding | null {
  const line = lineOf(source, offset);
  if (line.text.length > LONGEST_LINE) return null;
  const end = line.start + line.text.length;
  if (end >= source.text.length) return null;
  const next = lineOf(source, source.text.startsWith("\r\n", end) ? end + 2 : end + 1);
  if (!/^\s*[A-Za-z][\w-]*:(?:\s|$)/.test(next.text) || indentOf(next.text) <= indentOf(line.text)) return null;
  const first = next.start + indentOf(next.text);
  return (
    outOfPlace(source, line, next) ??
    oddlyIndented(source, next) ??
    yamlIndent.raise({ how: "deep" }, { span: source.span(first, next.start + next.text.length) })
  );
}

const indentOf = (text: string): number => text.length - text.trimStart().length;

/** The line above `here` where it stands alone in its column, and `here` in that of the line before or behind both. */
export function oddlyIndented(source: SourceText, here: TextLine): Finding | null {
  if (here.start === 0) return null;
  const above = lineOf(source, here.start - 1);
  const before = above.start > 0 ? lineOf(source, above.start - 1) : null;
  const end = here.start + here.text.length;
  const behind = end < source.text.length ? lineOf(source, end + (source.text.startsWith("\r\n", end) ? 2 : 1)) : null;
  const around = [before, behind].map((line) => (line === null ? null : indentOf(line.text)));
  const [odd, usual] = [indentOf(above.text), indentOf(here.text)];
  if (odd === usual || !around.includes(usual) || around.includes(odd) || /:\s*$/.test(above.text)) return null;
  return yamlIndent.raise({ how: "deep" }, { span: source.span(above.start + odd, here.start - 1) });
}

/** `{ link: … }` among entries that begin with a dash. */
export function noDash(source: SourceText, offset: number): Finding | null {
  const line = lineOf(source, offset);
  const space = line.text.length - line.text.trimStart().length;
  const above = line.start > 0 ? lineOf(source, line.start - 1).text : "";
  const end = line.start + line.text.length;
  const below = end < source.text.length ? lineOf(source, end + 1).text : "";
  if (!/^\s*\{/.test(line.text) || ![above, below].some((text) => /^\s*- /.test(text))) return null;
  const start = line.start + space;
  return yamlIndent.raise({ how: "noDash" }, { span: source.span(start, start + 1) });
}

/** The line above `next` where it, and not `next`, is the one out of place. */
export function outOfPlace(source: SourceText, line: TextLine, next: TextLine): Finding | null {
  const [, space = "", dash = "", key = ""] = /^(\s*)(- +)?([A-Za-z][\w-]*):\s+\S/.exec(line.text) ?? [];
  if (key === "") return null;
  const start = line.start + space.length;
  const where = { span: source.span(start, start + dash.length + key.length) };
  const deep = next.text.length - next.text.trimStart().length;
  if (dash !== "") return deep <= space.length + 1 ? yamlIndent.raise({ how: "dash" }, where) : null;
  return space === "" && !SECTIONS.has(key) ? yamlIndent.raise({ how: "left" }, where) : null;
}

const SECTIONS: ReadonlySet<string> = new Set(planForm.keys);

/** Whether any entry of the format has the key. */
const isKey = (key: string): boolean =>
  [...Object.values(entryForms), stopForm, roadForm].some(({ keys }) => keys.some((known) => known === key));

/** `place: pier path: dish` between braces: a key of the format follows a value with no comma between. */
export function commaMissing(source: SourceText, offset: number): Finding | null {
  const { text, start } = lineOf(source, offset);
  if (text.length > LONGEST_LINE) return null;
  const rest = text.slice(offset - start);
  const [, value, key] =
    /^((?:"[^"]*"|'[^']*'|[^\s,:{}[\]"']+(?: [^\s,:{}[\]"']+)*)) ([A-Za-z][\w-]*):\s/.exec(rest) ?? [];
  if (value === undefined || key === undefined || !isKey(key)) return null;
  const at = offset + value.length;
  return yamlCommaMissing.raise(
    { value: value.replace(/;$/, ""), key },
    { span: source.span(at - value.length, at + 1 + key.length) },
  );
}

/** `[a,, b]`, or a comma behind the brace that ends a line. */
export function commaAlone(source: SourceText, offset: number): Finding | null {
  if (source.text.charAt(offset) !== ",") return null;
  return yamlCommaAlone.raise({}, { span: source.span(offset, offset + 1) });
}
