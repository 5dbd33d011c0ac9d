/** A report's tables as CSV (RFC 4180): machine values, CRLF, and text that no spreadsheet takes for a formula. */
import type { Cell, Report, Table } from "../reports/view.ts";
import { printable } from "./printable.ts";

export interface CsvOptions {
  /** Begins with a byte order mark, for spreadsheets that guess wrongly without one. */
  readonly bom: boolean;
}

/** Spreadsheets run a cell that starts with one of these; a leading tab or line end would hide it. */
const FORMULA = /^\s*[=+\-@|%]/u;

/** Every table in turn, an empty line between two; a report without tables gives its findings. */
export function toCsv(report: Report, { bom }: CsvOptions): string {
  const tables = report.blocks.filter((block): block is Table => block.kind === "table");
  const texts = (tables.length > 0 ? tables.map(tableRows) : [findingRows(report)]).map((rows) =>
    rows.map((row) => `${row.map(quoted).join(",")}\r\n`).join(""),
  );
  return `${bom ? "\uFEFF" : ""}${texts.join("\r\n")}`;
}

const tableRows = (table: Table): readonly (readonly string[])[] => [
  table.columns.map((column) => textValue(column.key ?? column.label)),
  ...table.rows.map((row) => table.columns.map((_, at) => value(row[at]))),
];

const findingRows = ({ findings, say }: Report): readonly (readonly string[])[] => [
  ["level", "code", "message", "who", "file", "line", "hint"],
  ...findings.map((finding) => [
    finding.level,
    finding.code,
    textValue(finding.sentence(say)),
    textValue(finding.who ?? ""),
    textValue(finding.span?.file ?? ""),
    finding.span === null ? "" : String(finding.span.line),
    textValue(finding.hint(say) ?? ""),
  ]),
];

/** Numbers stay numbers, a minus sign included; only text can be a formula. */
function value(cell: Cell | undefined): string {
  if (cell === undefined) return "";
  if (cell.raw === null) return "";
  return typeof cell.raw === "number" ? String(cell.raw) : textValue(cell.raw ?? cell.text);
}

const textValue = (text: string): string => {
  const safe = text.split(/\r?\n/u).map(printable).join("\n");
  return FORMULA.test(text) ? `'${safe}` : safe;
};

const quoted = (text: string): string => (/[",\r\n]|^\s|\s$/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
