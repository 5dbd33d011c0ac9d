/**
 * Draws a fitted table: the one place that knows cli-table3, which lays out the columns.
 *
 * cli-table3 measures with a width table of its own (Devanagari, zero-width and bidi characters shift its columns), so it is
 * given a stand-in of plain ASCII, as wide as our text by our measure; the text is put back, coloured, afterwards.
 */
import CliTable3 from "cli-table3";
import type { Table, Tone } from "../../reports/shared/view.ts";
import { type FittedCell, type FittedTable, GAP, widthOf } from "./fit.ts";
import type { TextStyle } from "./style.ts";

const STAND_IN = "#";

interface Painted {
  readonly text: string;
  readonly tone: Tone;
}

/** The lines of a table, header and rule first. Colours never change the layout. */
export function drawTable(table: Table, fitted: FittedTable, style: TextStyle): readonly string[] {
  const head = fitted.columns.map((column) => column.head);
  const layouts = [makeLayout(fitted, standIns(head), style.rule)];
  const queue = [
    ...readingOrder(
      head,
      head.map(() => "strong"),
    ),
  ];
  fitted.rows.forEach((cells, at) => {
    const part = Math.floor(at / ROWS);
    const layout = layouts[part] ?? makeLayout(fitted, [], style.rule);
    layout.push(standIns(cells));
    layouts[part] = layout;
    const row = table.rows[at] ?? [];
    const tones = fitted.columns.map((column): Tone => row[column.index]?.tone ?? "plain");
    for (const piece of readingOrder(cells, tones)) queue.push(piece);
  });
  return putBack(layouts.map((layout) => layout.toString()).join("\n"), queue, style);
}

/** Rows that are laid out together: the layout holds each cell against all cells before it. */
const ROWS = 5;

const standIns = (cells: readonly FittedCell[]): string[] =>
  cells.map((cell) => cell.lines.map((line) => STAND_IN.repeat(widthOf(line))).join("\n"));

/** The pieces of text of one row in the order in which the layout prints them: line by line, left to right. */
function readingOrder(cells: readonly FittedCell[], tones: readonly Tone[]): readonly Painted[] {
  const height = Math.max(1, ...cells.map((cell) => cell.lines.length));
  return Array.from({ length: height }, (_, line) =>
    cells.flatMap((cell, at) => {
      const text = cell.lines[line] ?? "";
      return widthOf(text) === 0 ? [] : [{ text, tone: tones[at] ?? "plain" }];
    }),
  ).flat();
}

function putBack(layout: string, queue: readonly Painted[], style: TextStyle): readonly string[] {
  let next = 0;
  return layout.split("\n").map((line) =>
    line
      .replace(/#+/gu, () => {
        const piece = queue[next++];
        return piece ? style.paint(piece.text, piece.tone) : "";
      })
      .trimEnd(),
  );
}

/** Columns side by side and a rule under the header (`compact` leaves out the lines between rows). */
function makeLayout(fitted: FittedTable, head: string[], rule: string): CliTable3.Table {
  const none = "";
  return new CliTable3({
    head,
    colWidths: fitted.columns.map((column) => column.width),
    colAligns: fitted.columns.map((column) => column.column.align),
    // Its own defaults colour the header red and the border grey, also in a pipe.
    style: { head: [], border: [], "padding-left": 0, "padding-right": 0, compact: true },
    chars: {
      top: none,
      "top-mid": none,
      "top-left": none,
      "top-right": none,
      bottom: none,
      "bottom-mid": none,
      "bottom-left": none,
      "bottom-right": none,
      left: none,
      "left-mid": none,
      mid: rule,
      "mid-mid": rule.repeat(GAP),
      right: none,
      "right-mid": none,
      middle: " ".repeat(GAP),
    },
  });
}
