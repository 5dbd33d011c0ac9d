/** Blocks of a view model as HTML: tables that become cards on a phone, lists to tick on paper, charts as inline SVG. */
import type { Wording } from "../../findings/finding.ts";
import { sumOf } from "../../lists.ts";
import type { Block, Cell, Chart, Column, Table } from "../../reports/shared/view.ts";
import { chartSvg } from "../chart/svg.ts";
import { qrSvg } from "../qr.ts";
import { htmlLink, htmlText, isolated } from "./text.ts";

/** One block; `id` is unique in the page and begins the ids inside it. */
export function htmlBlock(block: Block, say: Wording, id: string): string {
  switch (block.kind) {
    case "table":
      return table(block);
    case "chart":
      return chartParts(block)
        .map((part, at) => chartSvg(part, say, { id: at === 0 ? id : `${id}-${at}`, beside: true }).svg)
        .join("\n");
    case "heading":
      return `<h3>${isolated(block.text)}</h3>`;
    case "line":
      return `<p${block.cells.every(({ tone }) => tone === "muted") ? ' class="small"' : ""}>${htmlCells(block.cells)}</p>`;
    case "list":
      return list(block.items, block.tick === true);
    case "findings":
      return `<ul>${block.findings.map(({ line }) => `<li>${htmlCells(line)}</li>`).join("")}</ul>`;
  }
}

/** So many lanes with their names above them fill a page of Letter, which a drawing cannot break across. */
const LANES_A_PAGE = 24;

/** A chart of many people in drawings of about as many lanes each, every one with its own axis. */
function chartParts(chart: Chart): readonly Chart[] {
  const parts = Math.max(1, Math.ceil(chart.lanes.length / LANES_A_PAGE));
  const size = Math.max(1, Math.ceil(chart.lanes.length / parts));
  return Array.from({ length: parts }, (_, at) => ({ ...chart, lanes: chart.lanes.slice(at * size, (at + 1) * size) }));
}

/** A list; one of positions on the map carries a code for each. */
function list(items: readonly Cell[], tick: boolean): string {
  const maps = items.some(isPosition);
  const kind = maps ? ' class="maps"' : tick ? ' class="tick"' : "";
  return `<ul${kind}>${items.map((item) => `<li>${codeOf(item)}${htmlCell(item)}</li>`).join("")}</ul>`;
}

/** Whether a cell is a position on the map: a list of them carries codes. */
export const isPosition = ({ link }: Cell): boolean => link?.startsWith("geo:") === true;

const codeOf = (item: Cell): string => (isPosition(item) && item.link !== undefined ? qrSvg(item.link) : "");

/** The cells of a row in HTML. */
export const htmlCells = (cells: readonly Cell[]): string => cells.map(htmlCell).join("");

/** A cell's text with its tone, a change with both sides, and its link where a page may carry the address. */
export function htmlCell(cell: Cell): string {
  if (cell.changed !== undefined) {
    const { was, now } = cell.changed;
    return `<span class="changed"><del>${isolated(was)}</del> <ins>${isolated(now)}</ins></span>`;
  }
  const link = cell.link === undefined ? null : htmlLink(cell.link);
  const text = link === null ? timed(cell) : `<a href="${link}">${isolated(cell.text)}</a>`;
  return cell.tone === undefined || cell.tone === "plain" ? text : `<span class="${cell.tone}">${text}</span>`;
}

const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(?:Z|[+-]\d{2}:\d{2})$/u;

const timed = ({ text, raw }: Cell): string =>
  typeof raw === "string" && INSTANT.test(raw) && text !== ""
    ? `<time datetime="${raw}">${htmlText(text)}</time>`
    : isolated(text);

/** Roles are written out, because browsers take them from a table whose rows are laid out as cards. */
function table(block: Table): string {
  const { title, columns, rows, empty } = block;
  const caption = title === null ? "" : `<h3>${htmlText(title)}</h3>`;
  if (rows.length === 0) return `${caption}<p>${htmlText(empty)}</p>`;
  const styles = columnStyles(block);
  const head = columns
    .map(
      (column, index) =>
        `<th scope="col" role="columnheader" data-key="${htmlText(column.key ?? "")}"${side(column)}${styles[index] ?? ""}>${htmlText(column.label)}</th>`,
    )
    .join("");
  const body = rows.map(
    (row) =>
      `<tr role="row">${row.map((cell, index) => tableCell(cell, columns[index], index === 0, styles[index] === "")).join("")}</tr>`,
  );
  return `${caption}<table role="table"><thead role="rowgroup"><tr role="row">${head}</tr></thead><tbody role="rowgroup">${body.join("\n")}</tbody></table>`;
}

/** Letters that the columns of one table share before they may break a word: what fits the narrowest page with a table. */
const LETTERS = 66;

/**
 * How each column keeps its words together. The shortest ones break no line, while every other one has room for its
 * longest word; these break no word below so many letters: an even share where the longest words alone are too many.
 */
function columnStyles({ columns, rows }: Table): readonly string[] {
  const texts = columns.map((column, index) => [column.label, ...rows.map((row) => row[index]?.text ?? "")]);
  const longest = texts.map((own) => Math.max(...own.flatMap((text) => text.split(/\s+/u)).map((word) => word.length)));
  let share = LETTERS;
  while (share > 1 && sumOf(longest, (letters) => Math.min(letters, share)) > LETTERS) share -= 1;
  const rooms = longest.map((letters) => Math.min(letters, share));
  const whole = texts.map((own) => Math.max(...own.map((text) => text.length)));
  const kept = new Set<number>();
  let left = LETTERS - sumOf(rooms, (letters) => letters);
  for (const index of [...rooms.keys()].sort((a, b) => (whole[a] ?? 0) - (whole[b] ?? 0))) {
    left -= (whole[index] ?? 0) - (rooms[index] ?? 0);
    if (left < 0) break;
    kept.add(index);
  }
  return rooms.map((letters, index) => (kept.has(index) ? "" : roomStyle(letters)));
}

/** One letter more than the word, a quarter wider, since a column's name is set smaller than what stands under it. */
const roomStyle = (letters: number): string => ` style="min-width:${((letters + 1) * 1.25).toFixed(2)}ch"`;

const side = (column: Column): string => (column.align === "right" ? ' class="right"' : "");

function tableCell(cell: Cell, column: Column | undefined, isHead: boolean, isWhole: boolean): string {
  const label = htmlText(column?.label ?? "");
  const classes = [
    column?.align === "right" ? "right" : "",
    cell.text === "–" ? "none" : "",
    isWhole ? "whole" : "",
  ].filter((one) => one !== "");
  const attributes = `data-label="${label}"${classes.length === 0 ? "" : ` class="${classes.join(" ")}"`} data-key="${htmlText(column?.key ?? "")}"`;
  const inside = htmlCell(cell);
  return isHead
    ? `<th scope="row" role="rowheader" ${attributes}>${inside}</th>`
    : `<td role="cell" ${attributes}>${inside}</td>`;
}
