/** A page of the manual as text, Markdown and a man page. Pages are the program's own words, so nothing in them is hostile. */
import type { Page, PageBlock, PageTerm, PageText } from "../manual/page.ts";
import { wrapText } from "./text/fit.ts";

const indented = (lines: readonly string[], by: string): readonly string[] =>
  lines.map((line) => (line === "" ? "" : `${by}${line}`));

const linesOf = (code: string): readonly string[] => code.trimEnd().split("\n");

/** For a terminal or a file, fitted to a width in columns; null for no limit. */
export function pageText({ title, blocks }: PageText, width: number | null): string {
  const fitted = (said: string, by: string): readonly string[] =>
    indented(width === null ? [said] : wrapText(said, Math.max(20, width - by.length)), by);
  const termLines = ({ term, text }: PageTerm): readonly string[] => [`  ${term}`, ...fitted(text, "      ")];
  const block = (one: PageBlock): readonly string[] => {
    switch (one.kind) {
      case "heading":
        return [one.text];
      case "text":
        return fitted(one.text, "");
      case "terms":
        return one.terms.flatMap(termLines);
      case "code":
        return indented(linesOf(one.text), "    ");
      case "run":
        return [`    $ ${one.command}`];
    }
  };
  return `${[[title], ...blocks.map(block)].map((lines) => lines.join("\n")).join("\n\n")}\n`;
}

/** Markdown as code hosts read it. */
export function pageMarkdown({ title, blocks }: Page): string {
  const block = (one: PageBlock): string => {
    switch (one.kind) {
      case "heading":
        return `## ${one.text}`;
      case "text":
        return marked(one.text);
      case "terms":
        return one.terms.map(({ term, text }) => `- **${marked(term)}**: ${marked(text)}`).join("\n");
      case "code":
        return `\`\`\`${one.language}\n${one.text.trimEnd()}\n\`\`\``;
      case "run":
        return `\`\`\`sh\n${one.command}\n\`\`\``;
    }
  };
  return `${[`# ${title}`, ...blocks.map(block)].join("\n\n")}\n`;
}

/** Outside of backticks nothing is markup. */
const marked = (said: string): string =>
  said
    .split(/(`[^`]*`)/u)
    .map((part) => (part.startsWith("`") ? part : part.replace(/[*_<>[\]|]/gu, "\\$&")))
    .join("");

/** A man page of section 1 (`man -l FILE`). */
export function pageMan({ name, title, blocks }: Page, version: string): string {
  const block = (one: PageBlock): readonly string[] => {
    switch (one.kind) {
      case "heading":
        return [`.SH "${roffWord(one.text)}"`];
      case "text":
        return [".PP", roff(one.text)];
      case "terms":
        return one.terms.flatMap(({ term, text }) => [".TP", `.B "${roffWord(term)}"`, roff(text)]);
      case "code":
        return [".PP", ".nf", ...linesOf(one.text).map((line) => `    ${roffLine(line)}`), ".fi"];
      case "run":
        return [".PP", ".nf", `    ${roffLine(one.command)}`, ".fi"];
    }
  };
  const manName = `daywright-${name.replaceAll(" ", "-")}`;
  return [
    `.TH "${manName.toUpperCase()}" 1 "" "daywright ${version}" "daywright"`,
    ".SH NAME",
    `${manName.replaceAll("-", "\\-")} \\- ${roff(title)}`,
    ".SH DESCRIPTION",
    ...blocks.flatMap(block),
    "",
  ].join("\n");
}

const roffLine = (line: string): string =>
  line
    .replaceAll("\\", "\\e")
    .replaceAll("-", "\\-")
    .replace(/^([.'])/u, "\\&$1");

/** In a quoted word of a macro. */
const roffWord = (word: string): string => roffLine(word).replaceAll('"', '""').replaceAll("`", "");

/** Code in bold. A line must not begin with a dot or a quote. */
const roff = (said: string): string =>
  said
    .split(/`([^`]*)`/u)
    .map((part, at) =>
      at % 2 === 1 ? `\\fB${roffLine(part)}\\fP` : part.replaceAll("\\", "\\e").replaceAll("-", "\\-"),
    )
    .join("")
    .replace(/^([.'])/u, "\\&$1");
