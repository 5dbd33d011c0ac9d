/** One finding as text: where, what, the plan's own line with the spot marked, why, and what to try. */
import type { Span } from "../../findings/finding.ts";
import type { FindingView, Tone } from "../../reports/shared/view.ts";
import { padTo, widthOf, wrapText } from "./fit.ts";
import { inert, type TextStyle } from "./style.ts";

const INDENT = "      ";

/** `day.yaml:14:11: error: sentence  (code)`, the excerpt, the chain, its source and `try: …`. */
export function findingLines(view: FindingView, style: TextStyle): readonly string[] {
  const { tone } = view;
  return [
    headLine(view, style),
    ...view.marks.flatMap(({ title, span, label }) => [
      ...(title === null ? [] : [`  ${inert(title, style)}`]),
      ...(span === null ? [] : excerpt(span, label, title === null ? tone : "muted", style)),
    ]),
    ...chainLines(view.chain, style),
    ...view.remarks.flatMap(({ lead, text }) => remark(`${lead}: `, text, style)),
  ];
}

/** The first line alone, with why it is accepted if it is. */
export const briefLine = (view: FindingView, style: TextStyle): string =>
  [
    headLine(view, style),
    ...view.remarks.flatMap(({ part, lead, text }) =>
      part === "accepted" || part === "also" ? `${lead}: ${text}` : [],
    ),
  ]
    .map((part, at) => (at === 0 ? part : inert(part, style)))
    .join("; ");

function headLine(view: FindingView, style: TextStyle): string {
  const place = view.place === null ? "" : `${inert(view.place, style)}: `;
  const sentence = inert(view.located, style);
  return `${place}${style.paint(`${view.word}:`, view.tone)} ${sentence}  ${style.paint(`(${view.code})`, "muted")}`;
}

/** A whole map in flow style is long; more carets than this add nothing. */
const MOST_CARETS = 40;

/** The source line as it stands and carets under the spot; a spot of no length gets one caret, an empty line nothing. */
function excerpt(span: Span, label: string | null, tone: Tone, style: TextStyle): readonly string[] {
  if (span.text.trim() === "") return [];
  const lead = span.text.length - span.text.trimStart().length;
  const from = Math.max(0, span.column - 1 - lead);
  const [text, start] = clipped(span.text.trim(), from, style);
  const before = widthOf(inert(text.slice(0, start), style));
  const marked = Math.max(1, Math.min(MOST_CARETS, widthOf(inert(text.slice(start, start + span.length), style))));
  const why = label === null ? "" : ` ${inert(label, style)}`;
  return [
    `${INDENT}${inert(text, style)}`,
    `${INDENT}${" ".repeat(before)}${style.paint(`${"^".repeat(marked)}${why}`, tone)}`,
  ];
}

/** In a pipe or a file lines are whole; but no one reads, or types, a longer one. */
const LONGEST_EXCERPT = 400;

/** The part of a line too long for the terminal, or for anybody, that has the spot, with where the spot then is. */
function clipped(text: string, from: number, style: TextStyle): readonly [string, number] {
  const room = style.width === null ? LONGEST_EXCERPT : Math.max(20, style.width - INDENT.length - 2);
  if (text.length <= room) return [text, from];
  const first = from < room / 2 ? 0 : Math.min(from - Math.floor(room / 4), text.length - room);
  const part = `${first > 0 ? "…" : ""}${text.slice(first, first + room)}${first + room < text.length ? "…" : ""}`;
  return [part, from - first + (first > 0 ? 1 : 0)];
}

/** Terms in columns. */
function chainLines(chain: FindingView["chain"], style: TextStyle): readonly string[] {
  const rows = chain.map(({ time, name, length, where }) => ({
    time: inert(time, style),
    name: inert(name, style),
    length,
    where: inert(where, style),
  }));
  const wide = (key: "time" | "name" | "length"): number => Math.max(0, ...rows.map((row) => widthOf(row[key])));
  const widths = { time: wide("time"), name: wide("name"), length: wide("length") };
  return rows.map((row) =>
    `${INDENT}${padTo(row.time, widths.time, "left")}  ${padTo(row.name, widths.name, "left")}  ${padTo(row.length, widths.length, "left")}  ${row.where}`.trimEnd(),
  );
}

function remark(lead: string, text: string, style: TextStyle): readonly string[] {
  const line = inert(text, style);
  const indent = 2 + lead.length;
  const lines = style.width === null ? [line] : wrapText(line, Math.max(20, style.width - indent));
  return lines.map((part, at) => (at === 0 ? `  ${lead}${part}` : `${" ".repeat(indent)}${part}`));
}
