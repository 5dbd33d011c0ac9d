/** `column: value` lines instead of columns: for screen readers, and for a screen too narrow for the table. */
import type { Table } from "../../reports/shared/view.ts";
import { wrapText } from "./fit.ts";
import { inert, type TextStyle } from "./style.ts";

/** Each row as lines `column: value`, rows a blank line apart; blank cells are left out. */
export function tableAsList(table: Table, style: TextStyle): readonly string[] {
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
