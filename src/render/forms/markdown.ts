/** A report as Markdown: everything from a plan is escaped, so that it can add no markup, no HTML, no link and no table cell. */
import type { Wording } from "../../findings/finding.ts";
import type { Block, Cell, Report, Table } from "../../reports/shared/view.ts";
import { chartText } from "../chart/text.ts";
import type { DeclaredForm } from "../form.ts";
import { isolate, printable } from "../text/printable.ts";

/** Makes one line of untrusted text inert: no markup, no HTML, no entities, no mention that a chat would follow. */
export const markdownText = (text: string): string =>
  printable(text.replace(/\s+/gu, " "))
    .replace(/[\\`*_{}[\]<>()#+!|~&-]/gu, "\\$&")
    .replace(/^(\d+)\./u, "$1\\.")
    .replace(/@/gu, "@\u2060")
    .replace(/(:)(?=\/\/)|(www)(?=\\?\.)/giu, "$&\u2060");

/** The whole report, headings from the second level on. */
export const toMarkdown = (report: Report): string =>
  `${isolate(report.blocks.map((block) => blockText(block, report)).join("\n\n"))}\n`;

function blockText(block: Block, report: Report): string {
  switch (block.kind) {
    case "table":
      return tableText(block);
    case "chart":
      return chartBlock(block, report.say);
    case "heading":
      return `## ${markdownText(block.text)}`;
    case "line":
      return block.cells.map(cellText).join("");
    case "list":
      return block.items.map((item) => `- ${block.tick === true ? "[ ] " : ""}${cellText(item)}`).join("\n");
    case "findings":
      return block.findings.map(({ line }) => `- ${line.map(cellText).join("")}`).join("\n");
  }
}

/** Only links that we made from checked values carry an address. */
function cellText(cell: Cell): string {
  const text = markdownText(cell.text);
  if (text.trim() === "") return text;
  if (cell.link !== undefined) return `[${text}](<${cell.link.replace(/[<>\s]/gu, encodeURIComponent)}>)`;
  return cell.tone === "strong" || cell.tone === "bad" ? strong(text) : text;
}

/** The marks stand beside the words: a blank within them would end the emphasis. */
function strong(text: string): string {
  const words = text.trim();
  return text.replace(words, () => `**${words}**`);
}

function tableText(table: Table): string {
  const head = table.title === null ? [] : [`## ${markdownText(table.title)}`, ""];
  if (table.rows.length === 0) return [...head, markdownText(table.empty)].join("\n");
  const line = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  return [
    ...head,
    line(table.columns.map((column) => markdownText(column.label))),
    line(table.columns.map((column) => (column.align === "right" ? "---:" : "---"))),
    ...table.rows.map((row) => line(table.columns.map((_, at) => cellText(row[at] ?? { text: "" })))),
  ].join("\n");
}

/** A chart keeps its columns in a fenced block, whose fence is longer than any run of backticks inside. */
function chartBlock(chart: Extract<Block, { kind: "chart" }>, say: Wording): string {
  const lines = chartText(chart, say, { width: 100, ascii: false }).map(printable);
  const longest = Math.max(2, ...lines.flatMap((line) => [...line.matchAll(/`+/gu)].map((run) => run[0].length)));
  const fence = "`".repeat(longest + 1);
  return [`## ${markdownText(chart.title)}`, "", markdownText(chart.description), "", fence, ...lines, fence].join(
    "\n",
  );
}

/** For chats, issues and pages. */
export const markdownForm: DeclaredForm<"report"> = {
  name: "markdown",
  suffixes: [".md", ".markdown"],
  commands: null,
  place: 40,
  takes: "report",
  print: toMarkdown,
};
