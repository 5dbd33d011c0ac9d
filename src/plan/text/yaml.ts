/**
 * YAML text to a plan tree, under a strict policy: YAML 1.2 core, one document, no directives, tags, anchors or aliases,
 * capped in size, depth and count. Nothing is resolved by the machine's taste: `12:30` stays text.
 *
 * The policy is checked before and after the parser, because it keeps a value even where it found errors, and because
 * its own check for repeated keys takes time with the square of their number.
 */
import { Composer, type CST, type Document, Lexer, Parser, YAMLParseError } from "yaml";
import type { Finding } from "../../findings/finding.ts";
import { planTooLarge, yamlConflict, yamlDirective } from "../findings.ts";
import { controlsIn } from "./controls.ts";
import { needsDashes, withDashSpaces } from "./dashes.ts";
import { toldPlainly } from "./explainYamlErrors.ts";
import { growTree, MOST_DEPTH } from "./planTree.ts";
import type { SourceText } from "./source.ts";
import type { YamlReading } from "./tree.ts";

const MOST_BYTES = 256 * 1024;

/**
 * Open collections while a text is parsed. A plan of 32 levels, the most that is read, has far fewer; the composer calls
 * itself for each level, and thousands of them end the process.
 */
const MOST_OPEN = 200;

/** Tokens out of place until the rest is left: the first few are explained, and a row of braces makes one of every brace. */
const MOST_OUT_OF_PLACE = 500;

const YAML_OPTIONS = {
  schema: "core",
  stringKeys: true,
  uniqueKeys: false,
  prettyErrors: false,
  logLevel: "error",
} as const;

/** Texts that are kept once they are read, and the longest of them: edits and trials read the same few again and again. */
const MOST_KEPT = 16;
const LONGEST_KEPT = 64 * 1024;
const kept = new Map<string, YamlReading>();

/** Reads one file's text with the YAML parser. */
export function readYaml(source: SourceText): YamlReading {
  if (!source.onDisk || source.text.length > LONGEST_KEPT) return freshlyRead(source);
  const key = `${source.file}\n${source.text}`;
  const reading = kept.get(key) ?? freshlyRead(source);
  // The latest is the last to go.
  kept.delete(key);
  const [oldest] = kept.keys();
  if (kept.size >= MOST_KEPT && oldest !== undefined) kept.delete(oldest);
  kept.set(key, reading);
  return reading;
}

function freshlyRead(source: SourceText): YamlReading {
  const refused = tooLarge(source) ?? [...controlsIn(source), ...directives(source)];
  if (refused.length > 0) return { tree: null, findings: refused };
  const conflicts = conflictMarks(source);
  if (conflicts.length > 0) return { tree: null, findings: conflicts };
  const plain = parsedTree(source);
  const mended = needsDashes(plain) ? withDashSpaces(source) : null;
  if (mended === null) return plain;
  const again = parsedTree(mended.source);
  return { tree: again.tree, findings: [...mended.findings, ...again.findings] };
}

function parsedTree(source: SourceText): YamlReading {
  const { doc, tooDeepAt } = documentOf(source.text);
  if (tooDeepAt !== null) {
    const span = source.span(tooDeepAt, tooDeepAt);
    return { tree: null, findings: [planTooLarge.raise({ found: `more than ${MOST_DEPTH} levels` }, { span })] };
  }
  if (doc === null) return { tree: null, findings: [] };
  const broken = toldPlainly(source, doc.errors);
  if (broken.length > 0) return { tree: null, findings: broken };
  return growTree(source, doc.contents);
}

/** As the library's own `parseDocument`, but text that nests too deep or is no YAML at all is left before it is composed. */
function documentOf(text: string): { readonly doc: Document.Parsed | null; readonly tooDeepAt: number | null } {
  const parser = new Parser();
  let tooDeepAt: number | null = null;
  let outOfPlace = 0;
  function* tokens(): Generator<CST.Token> {
    for (const lexeme of new Lexer().lex(text)) {
      for (const token of parser.next(lexeme)) {
        if (token.type === "error" && ++outOfPlace > MOST_OUT_OF_PLACE) return;
        yield token;
      }
      if (parser.stack.length <= MOST_OPEN) continue;
      tooDeepAt = parser.stack.filter(isCollection)[MOST_DEPTH]?.offset ?? parser.offset;
      return;
    }
    yield* parser.end();
  }
  let doc: Document.Parsed | null = null;
  for (const one of new Composer(YAML_OPTIONS).compose(tokens(), true, text.length)) {
    if (doc === null) doc = one;
    else {
      const [start, end] = one.range;
      doc.errors.push(new YAMLParseError([start, end], "MULTIPLE_DOCS", "several documents"));
      break;
    }
  }
  return { doc, tooDeepAt };
}

const isCollection = ({ type }: CST.Token): boolean =>
  type === "block-map" || type === "block-seq" || type === "flow-collection";

function tooLarge(source: SourceText): readonly Finding[] | null {
  const { text } = source;
  // No unit of text takes more than three bytes.
  if (text.length * 3 <= MOST_BYTES) return null;
  const bytes = text.length > MOST_BYTES ? text.length : utf8Length(text);
  if (bytes <= MOST_BYTES) return null;
  const found = `${Math.ceil(bytes / 1024)} KiB, and ${MOST_BYTES / 1024} are the most`;
  return [planTooLarge.raise({ found }, { span: source.span(0, 0) })];
}

/** Bytes of the text in UTF-8, without making them. */
function utf8Length(text: string): number {
  let bytes = text.length;
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    // A surrogate is half of a pair of four bytes.
    if (unit >= 0x80) bytes += unit >= 0x800 && !(unit >= 0xd800 && unit < 0xe000) ? 2 : 1;
  }
  return bytes;
}

/** The beginnings of the conflicts that Git left, or the first mark where a beginning is gone. */
function conflictMarks(source: SourceText): readonly Finding[] {
  const marks = [...source.text.matchAll(/^(?:<{7}|\|{7}|>{7})(?: [^\r\n]*)?$|^={7}$/gm)];
  const begins = marks.filter(([mark]) => mark.startsWith("<"));
  return (begins.length > 0 ? begins : marks.slice(0, 1)).map(({ 0: mark, index }) =>
    yamlConflict.raise({ mark: mark.slice(0, 7) }, { span: source.span(index, index + mark.length) }),
  );
}

function directives(source: SourceText): readonly Finding[] {
  const found: Finding[] = [];
  for (const match of source.text.matchAll(/^\ufeff?%.*$/gm)) {
    const span = source.span(match.index, match.index + match[0].length);
    found.push(yamlDirective.raise({ line: match[0] }, { span }));
  }
  return found;
}
