/**
 * List items whose mark is none of YAML's: a dash without a space behind it, `-lodge`, or another sign in its place, `* lodge`,
 * `• lodge`, `1. lodge`. Each is one mistake, however much the parser makes of the lines around it. So the text is read again
 * as if the marks were right, and only what is wrong then is also reported.
 */
import type { Finding } from "../../findings/finding.ts";
import { yamlNoSpaceAfterDash, yamlOddSign } from "../findings.ts";
import type { SourceText } from "./source.ts";
import type { PlanNode, YamlReading } from "./tree.ts";

/** A dash that touches a word, bracket or quote; a number may be negative, and `---` is a mark of YAML's own. */
const TIGHT = /^([ ]*(?:- )*)(-)(?=["'{[A-Za-z])/;
/** What the other signs stand for, as `yaml-odd-sign` words it. */
export const LIST_HYPHEN = "the hyphen of a list";
/** Signs that people and word processors put before the items of a list. */
const OTHER = /^([ ]*(?:- )*)([*+•·‣◦▪–—−]|\d{1,2}[.)])(?=[ \t])/;

/** Whether a reading looks as a wrong mark makes it: errors of YAML, or items that ran together into one text. */
export function needsDashes({ tree, findings }: YamlReading): boolean {
  return tree === null
    ? findings.some(({ code }) => code.startsWith("yaml-") || code === "key-not-text")
    : ranTogether(tree, false);
}

const ANY_MARK = "(?:-|(?:[*+•·‣◦▪–—−]|\\d{1,2}[.)])[ \\t])";
const BEGINS = new RegExp(`^${ANY_MARK}`);
const GOES_ON = new RegExp(`[\\r\\n][^\\S\\r\\n]*${ANY_MARK}`);

function ranTogether(node: PlanNode, isItem: boolean): boolean {
  if (node.kind === "list") return node.items.some((item) => ranTogether(item, true));
  if (node.kind === "map") return [...node.entries.values()].some(({ value }) => ranTogether(value, false));
  if (node.quoted) return false;
  const written = node.source.text.slice(node.start, node.end);
  return (isItem || BEGINS.test(written)) && GOES_ON.test(written);
}

interface Mark {
  /** The offset at which it begins. */
  readonly at: number;
  readonly sign: string;
  /** What stands behind it on its line. */
  readonly rest: string;
}

const BLOCK = /(?::|-)[ \t]+[|>][+\-\d]{0,2}[ \t]*(?:#.*)?$/;

/** The wrong marks of a text; the lines of a block of text (`note: |`) are its author's own. */
function marksIn(text: string): readonly Mark[] {
  const marks: Mark[] = [];
  let block: number | null = null;
  let at = 0;
  for (const line of text.split("\n")) {
    const indent = line.length - line.trimStart().length;
    if (block !== null && line.trim() !== "" && indent <= block) block = null;
    if (block === null) {
      const [, lead, sign] = TIGHT.exec(line) ?? OTHER.exec(line) ?? [];
      if (lead !== undefined && sign !== undefined)
        marks.push({ at: at + lead.length, sign, rest: line.slice(lead.length + sign.length).trim() });
      if (BLOCK.test(line)) block = indent;
    }
    at += line.length + 1;
  }
  return marks;
}

function findingOf(source: SourceText, { at, sign, rest }: Mark): Finding {
  if (sign === "-") return yamlNoSpaceAfterDash.raise({ rest }, { span: source.span(at, at + 1 + rest.length) });
  const name = /[–—−]/.test(sign) ? "a long dash" : `\`${sign}\``;
  return yamlOddSign.raise({ name, plain: LIST_HYPHEN }, { span: source.span(at, at + sign.length) });
}

/** The text with each wrong mark as `- `, and the mistakes; null where there is none. */
export function withDashSpaces(source: SourceText): { source: SourceText; findings: readonly Finding[] } | null {
  const marks = marksIn(source.text);
  if (marks.length === 0) return null;
  let text = "";
  let done = 0;
  for (const { at, sign } of marks) {
    // A sign keeps its length; only behind a tight dash a space comes in.
    text += `${source.text.slice(done, at)}${sign === "-" ? "- " : "-".padEnd(sign.length)}`;
    done = at + sign.length;
  }
  text += source.text.slice(done);
  const tight = marks.filter(({ sign }) => sign === "-").map(({ at }) => at + 1);
  /** Before the n-th space that was put in, an offset is n less in the text as it was. */
  const original = (offset: number): number => offset - tight.filter((end, index) => end + index < offset).length;
  return {
    source: { ...source, text, span: (start, end) => source.span(original(start), original(end)) },
    findings: marks.map((mark) => findingOf(source, mark)),
  };
}
