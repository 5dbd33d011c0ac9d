/** Fits a table into a width: spare columns go first, then the widest ones wrap; a cell never loses a character, a number no unit. */
import fastStringWidth from "fast-string-width";
import { wrapAnsi } from "fast-wrap-ansi";
import { once, sumOf } from "../../lists.ts";
import type { Column, Table } from "../../reports/shared/view.ts";
import { inert, type TextStyle } from "./style.ts";

/** Blanks between two columns. */
export const GAP = 2;
/** A wrapped column keeps at least this many columns, so that a name or a time is not torn to single letters. */
const NARROWEST = 6;

/** The lines of a cell. */
export interface FittedCell {
  readonly lines: readonly string[];
}

/** A column with its width in characters. */
export interface FittedColumn {
  readonly column: Column;
  /** Its index in the table, for tones. */
  readonly index: number;
  readonly width: number;
  readonly head: FittedCell;
}

/** Columns that a table has no room for, and the width at which it would. */
export interface LeftOut {
  readonly columns: readonly Column[];
  readonly width: number;
}

/** A table that fits a width, and what was left out for it. */
export interface FittedTable {
  /** Null where all are there. */
  readonly leftOut: LeftOut | null;
  readonly columns: readonly FittedColumn[];
  readonly rows: readonly (readonly FittedCell[])[];
}

/** Fits `table` into the style's width; null where even wrapped it does not fit. */
export function fitTable(table: Table, style: TextStyle): FittedTable | null {
  const { width } = style;
  const texts = table.rows.map((row) => table.columns.map((_, index) => inert(row[index]?.text ?? "", style)));
  const labels = table.columns.map((column) => inert(column.label, style));
  const natural = labels.map((label, index) =>
    Math.max(widthOf(label), ...texts.map((row) => widthOf(row[index] ?? ""))),
  );
  const kept = keepColumns(table.columns, natural, width);
  const widths = narrow(
    kept.map((index) => natural[index] ?? 0),
    kept.map((index) => [labels[index] ?? "", ...texts.map((row) => row[index] ?? "")]),
    width,
  );
  if (widths === null) return null;
  const cells = (row: readonly string[]): readonly FittedCell[] =>
    kept.map((index, at) => ({ lines: wrapText(row[index] ?? "", widths[at] ?? 0) }));
  const heads = cells(labels);
  const columns = kept.flatMap((index, at) => {
    const column = table.columns[index];
    const head = heads[at];
    return column && head ? [{ column, index, width: widths[at] ?? 0, head }] : [];
  });
  const gone = table.columns.filter((_, index) => !kept.includes(index));
  const leftOut = gone.length === 0 ? null : { columns: gone, width: total(natural) };
  return { leftOut, columns, rows: texts.map(cells) };
}

const total = (widths: readonly number[]): number =>
  sumOf(widths, (width) => width) + GAP * Math.max(0, widths.length - 1);

/** The indices of the columns that stay: the most spare ones are left out, last first, until the rest fits. */
function keepColumns(columns: readonly Column[], natural: readonly number[], width: number | null): readonly number[] {
  let kept = columns.map((_, index) => index);
  if (width === null) return kept;
  while (total(kept.map((index) => natural[index] ?? 0)) > width) {
    const most = Math.max(0, ...kept.map((index) => columns[index]?.spare ?? 0));
    if (most === 0) break;
    const gone = kept.findLast((index) => (columns[index]?.spare ?? 0) === most);
    kept = kept.filter((index) => index !== gone);
  }
  return kept;
}

/** How narrow a column may become, from the text of its cells. */
type Floor = (texts: readonly string[]) => number;

const longest = (parts: readonly string[]): number => Math.max(NARROWEST, ...parts.map(widthOf));

/** First no word is torn, then none but at its hyphens, and only then anywhere. */
const FLOORS: readonly Floor[] = [
  (texts) => longest(texts.flatMap(wordsOf)),
  (texts) => longest(texts.flatMap(wordsOf).flatMap(piecesOf)),
  () => NARROWEST,
];

/** Takes columns off the widest until the sum fits; null where all are at their narrowest and it still does not. */
function narrow(
  natural: readonly number[],
  texts: readonly (readonly string[])[],
  width: number | null,
): readonly number[] | null {
  const widths = [...natural];
  if (width === null) return widths;
  for (const floor of FLOORS) {
    if (total(widths) <= width) break;
    const least = texts.map(floor);
    for (let over = total(widths) - width; over > 0; over--) {
      const room = widths.map((own, index) => (own > (least[index] ?? 0) ? own : 0));
      const widest = Math.max(...room);
      if (widest === 0) break;
      widths[room.lastIndexOf(widest)] = widest - 1;
    }
  }
  return total(widths) <= width ? widths : null;
}

/** Words with what a line may not tear: a number and its unit, the digits of a telephone. */
const wordsOf = (text: string): readonly string[] => bound(text).split(" ");

/** A word cut behind its hyphens. */
const piecesOf = (word: string): readonly string[] => word.split(/(?<=[^\s-]-)(?=[^\s-])/);

/**
 * Breaks printable text into lines of at most `width` columns: at blanks, at the hyphens of a word that is too long, inside
 * one where it must. A number and its unit stay together where they fit.
 */
export function wrapText(text: string, width: number): readonly string[] {
  if (width <= 0 || widthOf(text) <= width) return [text];
  const lines: string[] = [];
  let line = "";
  const put = (part: string, gap: string): void => {
    const longer = line === "" ? part : `${line}${gap}${part}`;
    if (widthOf(longer) <= width) line = longer;
    else {
      if (line !== "") lines.push(line);
      const torn = wrapAnsi(part, width, { hard: true, trim: true }).split("\n");
      lines.push(...torn.slice(0, -1));
      line = torn.at(-1) ?? "";
    }
  };
  for (const word of wordsThatFit(text, width)) {
    const pieces = widthOf(word) <= width ? [word] : piecesOf(word);
    for (const [at, piece] of pieces.entries()) put(piece, at === 0 ? " " : "");
  }
  return [...lines, line].map(unbound);
}

/** The words of a text; a number and its unit are one where every such pair fits. */
function wordsThatFit(text: string, width: number): readonly string[] {
  const whole = wordsOf(text);
  const fits = whole.every((word) => widthOf(word) <= width || !word.includes(NO_BREAK));
  return (fits ? whole : text.split(" ")).filter((word) => word !== "");
}

/** Columns that printable text takes on a terminal. */
export const widthOf = (text: string): number => fastStringWidth(text);

/** Pads printable text with blanks to `width` columns. */
export function padTo(text: string, width: number, align: "left" | "right"): string {
  const blanks = " ".repeat(Math.max(0, width - widthOf(text)));
  return align === "right" ? `${blanks}${text}` : `${text}${blanks}`;
}

const UNITS = "min|h|s|km/h|mph|km|mi|m|cm|mm|ft|in|kg|lb|°C|°F|Wh|W|V|A|%|MHz|GHz|Mbit/s|dB";
const numberAndUnit = once(() => new RegExp(`(\\p{N}) (?=(?:${UNITS})(?![\\p{L}\\p{N}]))`, "gu"));
const telephone = once(() => /\+\p{N}[\p{N} ]*\p{N}/gu);
const NO_BREAK = "\u00a0";

/** The same text with blanks at which no line may break. */
export const bound = (text: string): string =>
  text.replace(numberAndUnit(), `$1${NO_BREAK}`).replace(telephone(), (number) => number.replaceAll(" ", NO_BREAK));

/** The text again with plain blanks, for a form in which lines are broken already. */
export const unbound = (text: string): string => text.replaceAll(NO_BREAK, " ");
