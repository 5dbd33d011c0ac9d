/** How text output looks on one stream: its width, its colours, its tables, and whether it may use more than ASCII. */
import type { Tone } from "../../reports/shared/view.ts";
import { printable } from "./printable.ts";

/** Colours already inert text by its meaning; the identity where colour is off. */
export type Paint = (text: string, tone: Tone) => string;

/** How text is printed: width in columns, colours. */
export interface TextStyle {
  /** Columns to stay within; null never drops or wraps. */
  readonly width: number | null;
  readonly paint: Paint;
  /** The program's own marks as ASCII; a plan's words keep their letters. */
  readonly ascii: boolean;
  /** The character of the line under a table's header. */
  readonly rule: string;
  /** `list` prints each row of a table as lines `column: value`. */
  readonly tables: "columns" | "list";
}

const ASCII_MARKS: ReadonlyMap<string, string> = new Map([
  ["–", "-"],
  ["—", "-"],
  ["→", "->"],
  ["·", "|"],
  ["×", "x"],
  ["…", "..."],
  ["−", "-"],
  ["°", " deg"],
  ["≥", ">="],
  ["≤", "<="],
  ["²", "2"],
  ["’", "'"],
]);

const MARKS = new RegExp(`[${[...ASCII_MARKS.keys()].join("")}]`, "gu");

/** Text already inert, with the program's own marks as ASCII. */
export const asciiMarks = (text: string): string => text.replace(MARKS, (found) => ASCII_MARKS.get(found) ?? found);

/** A report's text made inert for this stream; what is measured and what is printed are the same. */
export function inert(text: string, style: TextStyle): string {
  const safe = printable(text);
  return style.ascii ? asciiMarks(safe) : safe;
}
