/** A report as text for a terminal or a pipe: the same words, fitted where there is a width. */
import type { Block, Cell, Column, Report, Table } from "../../reports/shared/view.ts";
import { chartText } from "../chart/text.ts";
import type { DeclaredForm } from "../form.ts";
import { briefLine, findingLines } from "../text/findingText.ts";
import { fitTable, type LeftOut, wrapText } from "../text/fit.ts";
import { isolate } from "../text/printable.ts";
import { inert, type TextStyle } from "../text/style.ts";

/** The whole report; ends with one line end, blocks are a blank line apart. */
export async function toText(report: Report, style: TextStyle): Promise<string> {
  const parts: string[] = [];
  for (const [at, block] of report.blocks.entries()) {
    const lines = await blockLines(block, report, style);
    if (lines.length === 0) continue;
    if (parts.length > 0 && !joins(report.blocks[at - 1], block)) parts.push("");
    for (const line of lines) parts.push(line);
  }
  return `${isolate(parts.join("\n"))}\n`;
}

/** A heading holds on to what is below it, a line to boxes to tick, and lines follow each other closely. */
const joins = (before: Block | undefined, block: Block): boolean =>
  (before?.kind === "heading" && before.alone !== true) ||
  (before?.kind === "line" && (block.kind === "line" || (block.kind === "list" && block.tick === true)));

async function blockLines(block: Block, report: Report, style: TextStyle): Promise<readonly string[]> {
  switch (block.kind) {
    case "table":
      return tableLines(block, style);
    case "chart":
      return [
        ...titleLines(block.title, style),
        ...chartText(block, report.say, { width: style.width, ascii: style.ascii }),
      ];
    case "heading":
      return titleLines(block.text, style);
    case "line":
      return paintedLine(block.cells, style);
    case "list":
      return block.items.flatMap((item) => listItem(item, block.tick === true, style));
    case "findings":
      return block.brief === true
        ? block.findings.map((finding) => briefLine(finding, style))
        : spaced(block.findings.map((finding) => findingLines(finding, style)));
  }
}

/** Findings of several lines are a blank line apart. */
const spaced = (findings: readonly (readonly string[])[]): readonly string[] =>
  findings.flatMap((lines, at) => {
    const near = findings[at - 1];
    return near && (near.length > 1 || lines.length > 1) ? ["", ...lines] : lines;
  });

const titleLines = (text: string, style: TextStyle): readonly string[] => {
  const safe = inert(text, style);
  const lines = style.width === null ? [safe] : wrapText(safe, style.width);
  return lines.map((line) => style.paint(line, "strong"));
};

/** The drawing of tables is loaded where the first one is drawn: `check` prints none and starts faster without it. */
async function tableLines(table: Table, style: TextStyle): Promise<readonly string[]> {
  const head = table.title === null ? [] : titleLines(table.title, style);
  if (table.rows.length === 0) return [...head, inert(table.empty, style)];
  const fitted = style.tables === "list" ? null : fitTable(table, style);
  if (fitted === null) return [...head, ...tableAsList(table, style)];
  const { drawTable } = await import("../text/table.ts");
  return [...head, ...drawTable(table, fitted, style), ...leftOutLines(fitted.leftOut, style)];
}

/** Nothing is dropped silently: which columns are not there, and what shows them. */
function leftOutLines(leftOut: LeftOut | null, style: TextStyle): readonly string[] {
  if (leftOut === null) return [];
  const names = leftOut.columns.map(columnName).join(", ");
  const text = `left out at this width: ${names}; --width ${leftOut.width} or --json shows them`;
  return paintedLine([{ text, tone: "muted" }], style);
}

/** Its label as it reads in a sentence; the name of a clock, which stands below another column's label, keeps its letters. */
const columnName = ({ label, of }: Column): string =>
  of === undefined ? inSentence(label) : `${inSentence(of)} ${label}`;

const inSentence = (text: string): string => text.replace(/^\p{Lu}(?!\p{Lu})/u, (first) => first.toLowerCase());

/** One paragraph: wrapped as a whole where it must be, and then without tones, which a break would tear. */
function paintedLine(cells: readonly Cell[], style: TextStyle): readonly string[] {
  const plain = cells.map((cell) => inert(cell.text, style)).join("");
  const lines = style.width === null ? [plain] : wrapText(plain, style.width);
  if (lines.length > 1) return lines;
  return [cells.map((cell) => style.paint(inert(cell.text, style), cell.tone ?? "plain")).join("")];
}

function listItem(item: Cell, tick: boolean, style: TextStyle): readonly string[] {
  const lead = tick ? "[ ] " : "- ";
  const room = style.width === null ? null : Math.max(1, style.width - lead.length);
  const text = inert(item.text, style);
  const lines = room === null ? [text] : wrapText(text, room);
  return lines.map(
    (line, at) => `${at === 0 ? lead : " ".repeat(lead.length)}${style.paint(line, item.tone ?? "plain")}`,
  );
}

/**
 * Each row as lines `column: value`, for screen readers and for a screen too narrow for the table: rows a blank line apart,
 * blank cells left out.
 */
function tableAsList(table: Table, style: TextStyle): readonly string[] {
  return table.rows.flatMap((row, at) =>
    at === 0 ? rowLines(table, row, style) : ["", ...rowLines(table, row, style)],
  );
}

const rowLines = (table: Table, row: Table["rows"][number], style: TextStyle): readonly string[] =>
  table.columns.flatMap((column, index) => {
    const value = inert(row[index]?.text ?? "", style);
    if (value === "") return [];
    const label = inert(column.label, style);
    const text = label === "" ? value : `${label}: ${value}`;
    const lines = style.width === null ? [text] : wrapText(text, style.width);
    return lines.map((line) => style.paint(line, row[index]?.tone ?? "plain"));
  });

/** Tables, fitted to the width. */
export const textForm: DeclaredForm<"report"> = {
  name: "text",
  suffixes: [".txt"],
  commands: null,
  place: 10,
  takes: "report",
  print: async (report, { style }) => toText(report, await style(false)),
};

/** Rows as lists. */
export const listForm: DeclaredForm<"report"> = {
  name: "list",
  suffixes: [],
  commands: null,
  place: 20,
  takes: "report",
  print: async (report, { style }) => toText(report, await style(true)),
};
