/**
 * What every drawing of a chart shares, whatever it is drawn with: how each kind of bar looks, where the hours of the axis
 * fall, which marks share a label. `chart-text.ts` draws it with characters, `chart-svg.ts` with lines.
 */
import type { Wording } from "../../findings/finding.ts";
import type { Bar, Chart, Lane } from "../../reports/shared/view.ts";
import { wallMinute } from "../../time/index.ts";
import { type Instant, instant } from "../../time/units.ts";

/** How a bar of a chart looks. */
export type BarStyle = Bar["style"];

interface Look {
  /** The word in the legend. */
  readonly word: string;
  /** One column in a terminal that has block characters. */
  readonly block: string;
  /** One column in one that has not. */
  readonly ascii: string;
}

/** The look of each kind of bar in characters, in the order of the legend. No two share a character. */
export const BAR_LOOKS: Readonly<Record<BarStyle, Look>> = {
  hit: { word: "on air", block: "█", ascii: "#" },
  drive: { word: "at the wheel", block: "━", ascii: ">" },
  ride: { word: "riding", block: "─", ascii: "-" },
  ferry: { word: "on a ferry", block: "≈", ascii: "&" },
  duty: { word: "on duty", block: "▒", ascii: "=" },
  wait: { word: "waiting", block: "░", ascii: "~" },
  meal: { word: "meal", block: "m", ascii: "m" },
  rest: { word: "off", block: "·", ascii: "." },
  charge: { word: "charging", block: "▲", ascii: "+" },
  use: { word: "in use", block: "▼", ascii: "v" },
  window: { word: "window", block: "═", ascii: "_" },
  day: { word: "daylight", block: "▔", ascii: "'" },
  twilight: { word: "twilight", block: "╱", ascii: "/" },
  night: { word: "dark", block: "▓", ascii: "%" },
};

/** What the height of a curve says, in the legend. */
export const CURVE_WORD = "empty to full";

const STYLES = Object.keys(BAR_LOOKS).filter((key): key is BarStyle => Object.hasOwn(BAR_LOOKS, key));

/** The kinds of bar that a chart uses, in the order of the legend. */
export function stylesOf(chart: Chart): readonly BarStyle[] {
  const used = new Set(chart.lanes.flatMap((lane) => lane.bars.map((bar) => bar.style)));
  return STYLES.filter((style) => used.has(style));
}

/** The share of the chart's width at which an instant lies, 0 at its left end; never outside 0 to 1. */
export function shareAt(chart: Chart, at: Instant): number {
  const length = chart.to - chart.from;
  return length <= 0 ? 0 : Math.min(1, Math.max(0, (at - chart.from) / length));
}

/** A mark on the time axis. */
export interface Tick {
  readonly at: Instant;
  /** `04:00` or `4:00 am`, on the chart's clock. */
  readonly label: string;
}

const HOUR_STEPS = [1, 2, 3, 4, 6, 12, 24, 48, 72, 168];

/** The hours between ticks that give about `most` of them; with `of`, a part of that many hours, or null for none. */
export function tickHours(chart: Chart, most: number): number;
/** Hours between two ticks so that at most so many fit; null where none does. */
export function tickHours(chart: Chart, most: number, of: number): number | null;
export function tickHours(chart: Chart, most: number, of?: number): number | null {
  const hours = (chart.to - chart.from) / 60;
  const fits = HOUR_STEPS.filter((step) => hours / step <= most);
  if (of === undefined) return fits[0] ?? 168;
  return fits.find((step) => step < of && of % step === 0) ?? null;
}

/** Every offset of the zone table is a multiple of this. */
const OFFSET_GRAIN = 15;

/** Whole hours of the chart's clock, one every `hours` by that clock. */
export function ticks(chart: Chart, say: Pick<Wording, "clock">, hours: number): readonly Tick[] {
  const step = hours * 60;
  const found: Tick[] = [];
  const first = Math.ceil(chart.from / OFFSET_GRAIN) * OFFSET_GRAIN;
  for (let at = instant(first); at <= chart.to; at = instant(at + OFFSET_GRAIN)) {
    if (wallMinute(at, chart.zone) % Math.min(step, 1440) !== 0) continue;
    const previous = found.at(-1);
    // Steps over a day count from the last tick, since every midnight looks alike on a clock.
    if (previous && at - previous.at < step - 180) continue;
    found.push({ at, label: say.clock(at, chart.zone) });
  }
  return found;
}

/** An instant with a word on it. */
export interface Mark {
  readonly at: Instant;
  readonly text: string;
}

/**
 * Joins marks that would be written over each other: those whose texts start before the group's text ends
 * become one, marked by its first and last text (`dawn.1 … dawn.4`). `minutesOf` is the length of a text on the time axis.
 */
export function groupMarks(lane: Lane, minutesOf: (text: string) => number): readonly Mark[] {
  const groups: { at: Instant; texts: string[] }[] = [];
  for (const mark of [...(lane.marks ?? [])].sort((a, b) => a.at - b.at)) {
    const group = groups.at(-1);
    if (group && mark.at - group.at < minutesOf(joined(group.texts))) group.texts.push(mark.text);
    else groups.push({ at: mark.at, texts: [mark.text] });
  }
  return groups.map(({ at, texts }) => ({ at, text: joined(texts) }));
}

const joined = (texts: readonly string[]): string => {
  const [first = "", ...rest] = texts;
  const last = rest.at(-1);
  return last === undefined || last === first ? first : `${first} … ${last}`;
};

/** The share of a lane's curve at an instant, by straight lines between its points; null outside them. */
export function curveAt(lane: Lane, at: Instant): number | null {
  const points = lane.curve ?? [];
  const next = points.findIndex((point) => point.at >= at);
  const right = points[next];
  if (!right) return null;
  const left = points[next - 1];
  if (!left) return right.at === at ? right.share : null;
  const length = right.at - left.at;
  return length <= 0 ? right.share : left.share + ((right.share - left.share) * (at - left.at)) / length;
}
