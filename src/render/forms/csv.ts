/** A report's tables as CSV (RFC 4180): machine values, CRLF, and text that no spreadsheet takes for a formula. */
import { inFile } from "../../findings/finding.ts";
import type { Cell, Report, Table } from "../../reports/shared/view.ts";
import type { DeclaredForm } from "../form.ts";
import { printable } from "../text/printable.ts";
import type { CheckedPlan } from "./check.ts";

/** Whether a byte order mark comes first. */
export interface CsvOptions {
  /** Begins with a byte order mark, for spreadsheets that guess wrongly without one. */
  readonly bom: boolean;
}

/** Spreadsheets run a cell that starts with one of these; a leading tab or line end would hide it. */
const FORMULA = /^\s*[=+\-@|%]/u;

/** Every table in turn, an empty line between two. */
export function toCsv(report: Report, { bom }: CsvOptions): string {
  const shown = report.blocks.filter((block): block is Table => block.kind === "table");
  const tables = shown.length > 0 ? shown : (report.headers ?? []);
  return `${mark(bom)}${tables.map((table) => records(tableRows(table))).join("\r\n")}`;
}

const mark = (bom: boolean): string => (bom ? "\uFEFF" : "");
const records = (rows: readonly (readonly string[])[]): string =>
  rows.map((row) => `${row.map(quoted).join(",")}\r\n`).join("");

/** The header of the findings of many plans in one table. */
export const findingsCsvHead = ({ bom }: CsvOptions): string =>
  `${mark(bom)}${records([["plan", "level", "code", "message", "who", "file", "line", "hint", "accepted"]])}`;

/** A record for each finding of a plan. */
export const findingsCsvRows = ({ file, findings, say }: Pick<CheckedPlan, "file" | "findings" | "say">): string =>
  records(
    findings.map((finding) => [
      textValue(file ?? ""),
      finding.level,
      finding.code,
      textValue(finding.sentence(say)),
      textValue(finding.who ?? ""),
      textValue(finding.span?.file ?? ""),
      String(inFile(finding.span)?.line ?? ""),
      textValue(finding.hint(say) ?? ""),
      textValue(finding.accepted ?? ""),
    ]),
  );

const tableRows = (table: Table): readonly (readonly string[])[] => [
  table.columns.map((column) => textValue(column.key ?? column.label)),
  ...table.rows.map((row) => table.columns.map((_, at) => value(row[at]))),
];

/** Numbers stay numbers, a minus sign included; only text can be a formula. */
function value(cell: Cell | undefined): string {
  if (cell === undefined) return "";
  if (cell.raw === null) return "";
  return typeof cell.raw === "number" ? String(cell.raw) : textValue(cell.raw ?? cell.text);
}

const textValue = (text: string): string => {
  const safe = text.split(/\r?\n/u).map(printable).join("\n");
  // As written and as shown: what is not shown (U+200B) can hide a formula, and so can what is shown as a mark (CR).
  return FORMULA.test(text) || FORMULA.test(safe) ? `'${safe}` : safe;
};

const quoted = (text: string): string => (/[",\r\n]|^\s|\s$/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** For spreadsheets. */
export const csvForm: DeclaredForm<"report"> = {
  name: "csv",
  suffixes: [".csv"],
  commands: null,
  place: 50,
  takes: "report",
  print: toCsv,
};
