/**
 * List items whose dash has no space behind it, `-lodge`: each is one mistake, however much the parser makes of the lines
 * around it. So the text is read again as if the spaces were there, and only what is wrong then is also reported.
 */
import type { Finding } from "../../findings/finding.ts";
import { yamlNoSpaceAfterDash } from "../findings.ts";
import type { SourceText } from "./source.ts";
import type { PlanNode, YamlReading } from "./tree.ts";

/** A dash that touches a word, bracket or quote; a number may be negative, and `---` is a mark of YAML's own. */
const TIGHT = /^([ ]*(?:- )*-)(?=["'{[A-Za-z])/gm;

/** Whether a reading looks as a tight dash makes it: errors of YAML, or items that ran together into one text. */
export function needsDashes({ tree, findings }: YamlReading): boolean {
  return tree === null
    ? findings.some(({ code }) => code.startsWith("yaml-") || code === "key-not-text")
    : ranTogether(tree);
}

function ranTogether(node: PlanNode): boolean {
  if (node.kind === "list") return node.items.some(ranTogether);
  if (node.kind === "map") return [...node.entries.values()].some(({ value }) => ranTogether(value));
  if (node.quoted) return false;
  const written = node.source.text.slice(node.start, node.end);
  return written.startsWith("-") && /[\r\n]\s*-/.test(written);
}

/** The text with a space behind each tight dash, and the mistakes; null where there is none. */
export function withDashSpaces(source: SourceText): { source: SourceText; findings: readonly Finding[] } | null {
  const ends = [...source.text.matchAll(TIGHT)].map(({ 0: lead, index }) => index + lead.length);
  if (ends.length === 0) return null;
  const findings = ends.map((end) => {
    const rest = /^[^\r\n]*/.exec(source.text.slice(end))?.[0].trimEnd() ?? "";
    return yamlNoSpaceAfterDash.raise({ rest }, { span: source.span(end - 1, end + rest.length) });
  });
  const parts = ends.map((end, index) => source.text.slice(index === 0 ? 0 : ends[index - 1], end));
  const text = [...parts, source.text.slice(ends.at(-1))].join(" ");
  /** Before the n-th space that was put in, an offset is n less in the text as it was. */
  const original = (offset: number): number => offset - ends.filter((end, index) => end + index < offset).length;
  return {
    source: { ...source, text, span: (start, end) => source.span(original(start), original(end)) },
    findings,
  };
}
