/**
 * A chart in characters: one row a lane, one column a stretch of time. Reads without colour, and without block characters
 * where `ascii` is asked for; a curve is a row of heights (blocks, or digits of tenths).
 */
import type { Wording } from "../../findings/finding.ts";
import type { Bar, Chart, Lane } from "../../reports/shared/view.ts";
import { type Instant, instant } from "../../time/units.ts";
import { widthOf } from "../text/fit.ts";
import { printable } from "../text/printable.ts";
import { asciiMarks } from "../text/style.ts";
import { BAR_LOOKS, CURVE_WORD, curveAt, groupMarks, shareAt, stylesOf, tickHours, ticks } from "./chart.ts";

/** Columns of a terminal, null for no limit, and whether only ASCII may be used. */
export interface ChartTextOptions {
  /** Columns to fill; 80 where nothing limits the width. */
  readonly width: number | null;
  readonly ascii: boolean;
}

const WIDEST_LABEL = 16;
const NARROWEST_PLOT = 20;
/** Lengths that one column may stand for, in minutes: divisors of an hour, then whole hours. */
const COLUMN_MINUTES = [2, 3, 5, 6, 10, 12, 15, 20, 30, 60, 120, 180, 240, 360, 720, 1440];
const HEIGHTS = "▁▂▃▄▅▆▇█";

interface Canvas {
  readonly chart: Chart;
  readonly ascii: boolean;
  readonly labelWidth: number;
  readonly columns: number;
  readonly columnMinutes: number;
  /** Columns under a tick: they carry a faint line where a lane is empty. */
  readonly grid: ReadonlySet<number>;
}

/** Draws a chart as lines of text no wider than `width`; the last line is the legend. */
export function chartText(chart: Chart, say: Pick<Wording, "clock">, options: ChartTextOptions): readonly string[] {
  const width = options.width ?? 80;
  const labelWidth = Math.min(WIDEST_LABEL, Math.max(0, ...chart.lanes.map((lane) => widthOf(printable(lane.label)))));
  const room = Math.max(NARROWEST_PLOT, width - labelWidth - 1);
  const length = Math.max(1, chart.to - chart.from);
  const columnMinutes = COLUMN_MINUTES.find((candidate) => length / candidate <= room) ?? Math.ceil(length / room);
  const columns = Math.ceil(length / columnMinutes);
  const axis = ticks(chart, say, tickHours(chart, Math.max(2, Math.floor(columns / 8))));
  const grid = new Set(axis.map((tick) => Math.floor((tick.at - chart.from) / columnMinutes)));
  const canvas: Canvas = { chart, ascii: options.ascii, labelWidth, columns, columnMinutes, grid };
  return [
    axisRow(canvas, axis),
    ...chart.lanes.flatMap((lane) => laneRows(canvas, lane)),
    ...legend(chart, columnMinutes, options.ascii, width),
  ];
}

function axisRow(canvas: Canvas, axis: ReturnType<typeof ticks>): string {
  const marks = axis.map((tick) => ({ column: columnAt(canvas, tick.at), text: tick.label }));
  return row(
    canvas,
    "",
    writeOver(
      Array.from({ length: canvas.columns }, () => " "),
      marks,
    ).join(""),
  );
}

function laneRows(canvas: Canvas, lane: Lane): readonly string[] {
  const rows: string[] = [];
  if (lane.curve) rows.push(curveRow(canvas, lane));
  if (lane.bars.length > 0 || !lane.curve) rows.push(barRow(canvas, lane.bars));
  const named = rows.map((cells, index) => row(canvas, index === 0 ? lane.label : "", cells));
  const marks = groupMarks(lane, ({ length }) => canvas.columnMinutes * Math.max(10, length + 1));
  if (marks.length === 0) return named;
  const texts = marks.map((mark) => ({
    column: columnAt(canvas, mark.at),
    text: canvas.ascii ? asciiMarks(printable(mark.text)) : printable(mark.text),
  }));
  return [...named, row(canvas, "", writeOver(emptyCells(canvas), texts).join(""))];
}

const emptyCells = (canvas: Canvas): string[] =>
  Array.from({ length: canvas.columns }, (_, column) => (canvas.grid.has(column) ? (canvas.ascii ? ":" : "┊") : " "));

function curveRow(canvas: Canvas, lane: Lane): string {
  const cells = emptyCells(canvas).map((empty, column) => {
    const share = curveAt(lane, instant(canvas.chart.from + Math.floor((column + 0.5) * canvas.columnMinutes)));
    if (share === null) return empty;
    const steps = canvas.ascii ? "0123456789" : HEIGHTS;
    return steps[Math.min(steps.length - 1, Math.max(0, Math.floor(share * steps.length)))] ?? empty;
  });
  return cells.join("");
}

function barRow(canvas: Canvas, bars: readonly Bar[]): string {
  const cells = emptyCells(canvas);
  // Long bars first, so that a three-minute hit is not painted over by the duty around it.
  for (const bar of [...bars].sort((a, b) => b.to - b.from - (a.to - a.from))) {
    const from = columnAt(canvas, bar.from);
    const to = Math.max(from + 1, Math.ceil((bar.to - canvas.chart.from) / canvas.columnMinutes));
    const look = BAR_LOOKS[bar.style];
    cells.fill(canvas.ascii ? look.ascii : look.block, from, Math.min(to, canvas.columns));
  }
  return cells.join("");
}

const columnAt = (canvas: Canvas, at: Instant): number => {
  const column = Math.floor((shareAt(canvas.chart, at) * (canvas.chart.to - canvas.chart.from)) / canvas.columnMinutes);
  return Math.min(canvas.columns - 1, column);
};

/** Writes texts over cells from their columns on; one that would touch its neighbour or leave the row is moved left or left out. */
function writeOver(cells: string[], marks: readonly { readonly column: number; readonly text: string }[]): string[] {
  let free = 0;
  for (const { column, text } of marks) {
    const width = widthOf(text);
    const start = Math.max(free, Math.min(column, cells.length - width));
    if (start > column || start + width > cells.length) continue;
    cells.splice(start, width, text, ...Array.from({ length: width - 1 }, () => ""));
    if (start + width < cells.length) cells[start + width] = " ";
    free = start + width + 1;
  }
  return cells;
}

function row(canvas: Canvas, label: string, cells: string): string {
  const cut = cutTo(printable(label), canvas.labelWidth);
  return `${cut}${" ".repeat(canvas.labelWidth - widthOf(cut))} ${cells}`.trimEnd();
}

function cutTo(text: string, width: number): string {
  let cut = "";
  for (const character of text) {
    if (widthOf(cut + character) > width) break;
    cut += character;
  }
  return cut;
}

function legend(chart: Chart, columnMinutes: number, ascii: boolean, width: number): readonly string[] {
  const entries = stylesOf(chart).map(
    (style) => `${ascii ? BAR_LOOKS[style].ascii : BAR_LOOKS[style].block} ${BAR_LOOKS[style].word}`,
  );
  const curve = !chart.lanes.some((lane) => lane.curve) ? [] : [`${ascii ? "0 to 9" : "▁ to █"} ${CURVE_WORD}`];
  const scale = columnMinutes % 60 === 0 ? `${columnMinutes / 60} h` : `${columnMinutes} min`;
  return [...curve, ...entries, `one column is ${scale}`].reduce<string[]>((lines, entry) => {
    const last = lines.at(-1);
    if (last !== undefined && widthOf(last) + 2 + widthOf(entry) <= width)
      lines[lines.length - 1] = `${last}  ${entry}`;
    else lines.push(entry);
    return lines;
  }, []);
}
