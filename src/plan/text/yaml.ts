/**
 * YAML text to a plan tree, under a strict policy: YAML 1.2 core, one document, no directives, tags, anchors or aliases,
 * capped in size, depth and count. Nothing is resolved by the machine's taste: `12:30` stays text.
 *
 * The policy is checked before and after the parser, because it keeps a value even where it found errors, and because
 * its own check for repeated keys takes time with the square of their number.
 */
import { parseDocument } from "yaml";
import type { Finding } from "../../findings/finding.ts";
import { planTooLarge, yamlDirective } from "../findings.ts";
import { controlsIn } from "./controls.ts";
import { toldPlainly } from "./explainYamlErrors.ts";
import { growTree } from "./planTree.ts";
import type { SourceText } from "./source.ts";
import type { PlanNode } from "./tree.ts";

const MOST_BYTES = 256 * 1024;

export interface YamlReading {
  /** Null where the text cannot be read or is too large; empty text is a null scalar. */
  readonly tree: PlanNode | null;
  readonly findings: readonly Finding[];
}

/** How every plan text is parsed, here and where it is edited. */
export const YAML_OPTIONS = {
  schema: "core",
  stringKeys: true,
  uniqueKeys: false,
  prettyErrors: false,
  logLevel: "error",
} as const;

/** Reads one file's text with the YAML parser. */
export function readYaml(source: SourceText): YamlReading {
  const refused = tooLarge(source) ?? [...controlsIn(source), ...directives(source)];
  if (refused.length > 0) return { tree: null, findings: refused };
  const doc = parseDocument(source.text, YAML_OPTIONS);
  const broken = toldPlainly(source, doc.errors);
  if (broken.length > 0) return { tree: null, findings: broken };
  return growTree(source, doc.contents);
}

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

function directives(source: SourceText): readonly Finding[] {
  const found: Finding[] = [];
  for (const match of source.text.matchAll(/^\ufeff?%.*$/gm)) {
    const span = source.span(match.index, match.index + match[0].length);
    found.push(yamlDirective.raise({ line: match[0] }, { span }));
  }
  return found;
}
