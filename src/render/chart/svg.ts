/**
 * A chart as one inline SVG. Positions along the time axis are percentages and everything else is in pixels, so the same
 * drawing fits a phone, a screen and a sheet of paper without its letters shrinking. Patterns differ in black and white;
 * colours come from CSS variables of the page, with defaults of their own for a file that stands alone.
 */
import type { Wording } from "../../findings/finding.ts";
import type { Bar, Chart, Lane } from "../../reports/shared/view.ts";
import type { Instant } from "../../time/units.ts";
import { htmlText } from "../html/text.ts";
import { BAR_LOOKS, CURVE_WORD, groupMarks, shareAt, stylesOf, type Tick, tickHours, ticks } from "./chart.ts";
import { patternId, patterns } from "./patterns.ts";

/** What drawing a chart in SVG needs; lengths in user units. */
export interface ChartSvgOptions {
  /** Begins every id of this drawing; unique in the page: letters, digits, hyphens. */
  readonly id: string;
  /** Where it begins inside another drawing, pixels; left out for one that stands in a page. */
  readonly y?: number;
  /** Lanes have their name at the left rather than above, where all are short: for what is wide. */
  readonly beside?: boolean;
}

/** A drawing and its height in pixels. */
export interface Drawing {
  readonly svg: string;
  readonly height: number;
}

/** Widths in pixels that a drawing must read at: a phone's text column, and a screen's or a page's. */
const NARROW = 310;
/** Width of a chart in user units. */
export const WIDE = 640;
const LETTER = 6.4;
const HEAD = 18;
const CURVE = 34;
const TEXT = 14;

/** Heights of a bar and of the gap below a lane, columns of the legend: with names above the lanes, and beside them. */
const ABOVE = { left: 0, bar: 16, gap: 6, legend: 3 };
/** `left` is the share of the width for names; so many letters fit it at a screen's width. */
const BESIDE = { left: 0.12, bar: 14, gap: 3, legend: 5 };
const BESIDE_LETTERS = 11;

/** The style of all charts of a page; names of variables: `--ink`, `--paper`, `--faint`, `--chart-…`. */
export const CHART_CSS = `.chart{display:block;width:100%;overflow:hidden;font:11px system-ui,sans-serif}
.chart text{fill:var(--ink,#111)}
.chart .lane{font-weight:600}
.chart .tick,.chart .mark{font-variant-numeric:tabular-nums}
.chart .grid{stroke:var(--faint,#bbb);stroke-width:1}
.chart .edge{fill:none;stroke:var(--ink,#111);stroke-width:1}
.chart .pin{stroke:var(--chart-hit,#c22);stroke-width:5}
.chart .ground{fill:var(--paper,#fff)}
.chart .curve{fill:none;stroke:var(--chart-curve,#0b57a4);stroke-width:2;vector-effect:non-scaling-stroke}
.chart .under{fill:var(--chart-curve,#0b57a4);opacity:.15}
@media (max-width:599px){.chart .w{display:none}}
@media (min-width:600px){.chart .n{display:none}}`;

/** Draws a chart; `title` and `desc` say what it shows, its facts stand in tables beside it. */
export function chartSvg(
  chart: Chart,
  say: Pick<Wording, "clock">,
  { id, y: begin, beside = false }: ChartSvgOptions,
): Drawing {
  let y = HEAD;
  const lanes: string[] = [];
  const layout = beside && chart.lanes.every(({ label }) => label.length <= BESIDE_LETTERS) ? BESIDE : ABOVE;
  const frame: Frame = { chart, say, id, ...layout };
  for (const lane of chart.lanes) {
    const drawn = drawLane(frame, lane, y);
    lanes.push(drawn.svg);
    y += drawn.height + layout.gap;
  }
  const legend = drawLegend(frame, y + 2);
  const height = y + 2 + legend.height;
  const place = begin === undefined ? "" : ` y="${begin}"`;
  const svg = [
    `<svg class="chart"${place} width="100%" height="${height}" role="img" aria-labelledby="${id}-title ${id}-desc">`,
    `<title id="${id}-title">${htmlText(chart.title)}</title><desc id="${id}-desc">${htmlText(chart.description)}</desc>`,
    `<defs>${patterns(stylesOf(chart), id)}</defs>`,
    drawAxis(frame, y),
    ...lanes,
    legend.svg,
    "</svg>",
  ].join("\n");
  return { svg, height };
}

const percent = (share: number): string => `${Number((share * 100).toFixed(3))}%`;
/** Where an instant is from the left edge of the drawing, as a share of its width. */
const across = ({ chart, left }: Frame, at: Instant): number => left + (1 - left) * shareAt(chart, at);
const xOf = (frame: Frame, at: Instant): string => percent(across(frame, at));

function drawAxis(frame: Frame, bottom: number): string {
  const { chart, say } = frame;
  const step = tickHours(chart, 6);
  const always = ticks(chart, say, step);
  const shown = new Set(always.map((tick) => tick.at));
  const finer = tickHours(chart, 16, step);
  const wide = finer === null ? [] : ticks(chart, say, finer).filter((tick) => !shown.has(tick.at));
  const draw = (tick: (typeof always)[number], texts: string, hidden: string): string => {
    const x = xOf(frame, tick.at);
    return `<g${hidden}><line class="grid" x1="${x}" x2="${x}" y1="${HEAD - 4}" y2="${bottom}"/>${texts}</g>`;
  };
  return [
    ...always.map((tick) => draw(tick, bothTexts(frame, tick), "")),
    ...wide.map((tick) => draw(tick, tickText(frame, tick, WIDE, ""), ' class="w"')),
  ].join("");
}

/** An hour's text for both widths; two texts where it must keep off the edge on a phone alone. */
function bothTexts(frame: Frame, tick: Tick): string {
  const [narrow, wide] = [NARROW, WIDE].map((width) => tickPlace(frame, tick.at, width));
  return narrow === wide
    ? tickText(frame, tick, WIDE, "")
    : tickText(frame, tick, NARROW, " n") + tickText(frame, tick, WIDE, " w");
}

const tickText = (frame: Frame, tick: Tick, width: number, shown: string): string =>
  `<text class="tick${shown}" ${tickPlace(frame, tick.at, width)} y="11">${htmlText(tick.label)}</text>`;

/** Half of an hour's text, pixels. */
const HALF = 16;

/** In the middle over its line, or along the edge that it would cross at this width. */
function tickPlace(frame: Frame, at: Instant, width: number): string {
  const x = across(frame, at) * width;
  if (x < HALF) return 'x="0%" text-anchor="start"';
  return x > width - HALF ? 'x="100%" text-anchor="end"' : `x="${xOf(frame, at)}" text-anchor="middle"`;
}

/** What every part of a drawing is drawn with. */
interface Frame {
  readonly chart: Chart;
  readonly say: Pick<Wording, "clock">;
  readonly id: string;
  /** The share of the width that the names of lanes take. */
  readonly left: number;
  /** The height of a bar, pixels. */
  readonly bar: number;
  /** Columns of the legend. */
  readonly legend: number;
}

function drawLane(frame: Frame, lane: Lane, top: number): Drawing {
  const parts = [`<text class="lane" x="0" y="${top + 11}">${htmlText(lane.label)}</text>`];
  let y = frame.left === 0 ? top + TEXT : top;
  if (lane.curve) {
    parts.push(drawCurve(frame, lane.curve, y));
    y += CURVE + 2;
  }
  if (lane.bars.length > 0 || !lane.curve) {
    const barTop = y;
    parts.push(...lane.bars.map((bar) => drawBar(frame, bar, barTop)));
    y += frame.bar;
  }
  if (lane.marks && lane.marks.length > 0) {
    const marks = drawMarks(frame, lane, y);
    parts.push(marks.svg);
    y += marks.height;
  }
  return { svg: `<g>${parts.join("")}</g>`, height: y - top };
}

function drawBar(frame: Frame, bar: Bar, y: number): string {
  const { chart, say, id } = frame;
  const from = across(frame, bar.from);
  const width = across(frame, bar.to) - from;
  const place = `x="${percent(from)}" y="${y}" width="${percent(width)}" height="${frame.bar}"`;
  // A hit of three minutes is thinner than a hair on a phone: its block is never narrower than this line.
  const pin =
    bar.style === "hit"
      ? `<line class="pin" x1="${percent(from)}" x2="${percent(from)}" y1="${y - 2}" y2="${y + frame.bar + 2}"/>`
      : "";
  const times = `${say.clock(bar.from, chart.zone)} to ${say.clock(bar.to, chart.zone)}`;
  const said = `<title>${htmlText(`${bar.text === "" ? BAR_LOOKS[bar.style].word : bar.text}, ${times}`)}</title>`;
  const rect = `<g>${said}<rect ${place} fill="url(#${patternId(id, bar.style)})"/><rect class="edge" ${place}/>${pin}</g>`;
  const pixels = bar.text.length * LETTER + 8;
  if (bar.text === "" || pixels > width * WIDE) return rect;
  const hidden = pixels > width * NARROW ? ' class="w"' : "";
  const ground = `<rect class="ground" x="${-pixels / 2}" y="2" width="${pixels}" height="${frame.bar - 4}"/>`;
  const text = `<text y="${frame.bar - 3}" text-anchor="middle">${htmlText(bar.text)}</text>`;
  return `${rect}<svg${hidden} x="${percent(from + width / 2)}" y="${y}" overflow="visible">${ground}${text}</svg>`;
}

/** Texts of marks in one row, or in two where neighbours would run into each other on a phone. */
function drawMarks(frame: Frame, lane: Lane, y: number): Drawing {
  const { chart } = frame;
  // Names of lanes stand at the left of what is wide alone.
  const room = frame.left === 0 ? NARROW : WIDE;
  const perMinute = ((1 - frame.left) * room) / Math.max(1, chart.to - chart.from);
  const ends = [0, 0];
  const texts = groupMarks(lane, ({ length }) => (length * LETTER + 4) / perMinute).map((mark) => {
    const width = mark.text.length * LETTER + 4;
    const left = Math.max(0, Math.min(across(frame, mark.at) * room, room - width));
    const line = left >= (ends[0] ?? 0) ? 0 : 1;
    ends[line] = left + width;
    const last = across(frame, mark.at) * room > left + 1;
    const x = last ? `x="100%" text-anchor="end"` : `x="${xOf(frame, mark.at)}"`;
    return `<text class="mark" ${x} y="${y + 12 + line * TEXT}">${htmlText(mark.text)}</text>`;
  });
  return { svg: texts.join(""), height: (ends[1] ?? 0) > 0 ? 2 * TEXT : TEXT };
}

function drawCurve({ chart, left }: Frame, curve: NonNullable<Lane["curve"]>, y: number): string {
  const [from, width] = [percent(left), percent(1 - left)];
  const points = curve.map(
    (point) =>
      `${(shareAt(chart, point.at) * 1000).toFixed(1)},${(100 - Math.min(1, Math.max(0, point.share)) * 100).toFixed(1)}`,
  );
  const [first = "0,100"] = points;
  const last = points.at(-1) ?? first;
  const under = [`${first.split(",")[0] ?? "0"},100`, ...points, `${last.split(",")[0] ?? "0"},100`];
  return (
    `<line class="grid" x1="${from}" x2="100%" y1="${y}" y2="${y}"/><line class="grid" x1="${from}" x2="100%" y1="${y + CURVE}" y2="${y + CURVE}"/>` +
    `<svg x="${from}" y="${y}" width="${width}" height="${CURVE}" viewBox="0 0 1000 100" preserveAspectRatio="none">` +
    `<polygon class="under" points="${under.join(" ")}"/><polyline class="curve" points="${points.join(" ")}"/></svg>`
  );
}

function drawLegend({ chart, id, legend }: Frame, top: number): Drawing {
  const box = `width="14" height="10"`;
  const curve = `<rect class="under" x="1" y="6" width="14" height="5"/><line class="curve" x1="1" y1="6" x2="15" y2="6"/>`;
  const samples = [
    ...(chart.lanes.some((lane) => lane.curve) ? [{ sample: curve, word: CURVE_WORD }] : []),
    ...stylesOf(chart).map((style) => ({
      sample: `<rect x="1" y="1" ${box} fill="url(#${patternId(id, style)})"/><rect class="edge" x="1" y="1" ${box}/>`,
      word: BAR_LOOKS[style].word,
    })),
  ];
  const entries = samples.map(({ sample, word }, index) => {
    const x = percent((index % legend) / legend);
    const y = top + Math.floor(index / legend) * TEXT;
    return `<svg x="${x}" y="${y}" width="${percent(1 / legend)}" height="${TEXT}">${sample}<text x="20" y="10">${word}</text></svg>`;
  });
  return { svg: `<g>${entries.join("")}</g>`, height: Math.ceil(samples.length / legend) * TEXT };
}
