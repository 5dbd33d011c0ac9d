/**
 * A finding in words: the one place that says of which parts it is reported and in which order. Each form takes these parts,
 * several lines or one, and only makes them inert and marks them in its own way.
 */
import {
  type Finding,
  fileText,
  type Level,
  names,
  type Source,
  type Span,
  sentenceOf,
  type Wording,
} from "../../findings/finding.ts";
import { joinAlike } from "../../findings/together.ts";
import { withoutContacts } from "./redact.ts";
import type { Cell, FindingRemark, FindingView, Tone } from "./view.ts";

const TONES = { error: "bad", warning: "warn", note: "muted" } as const satisfies Record<Level, Tone>;

/** How a finding is written as text. */
export interface FindingViewOptions {
  /** Takes from every text what a reader is not to see; a plan's own words may hold telephone numbers. */
  readonly clean?: (text: string) => string;
  /** Whether the plan's own lines are shown; they may hold anything. Default: true. */
  readonly lines?: boolean;
  /** Who takes an accepted finding, where that is said. */
  readonly by?: string;
}

/** How findings are reported where telephone numbers, bookings and addresses are left out. */
export const redacting = (redact: boolean): FindingViewOptions =>
  redact ? { clean: withoutContacts, lines: false } : {};

/** All parts of a finding, worded. */
export function findingView(
  finding: Finding,
  say: Wording,
  { clean = (text) => text, lines = true, by }: FindingViewOptions = {},
): FindingView {
  const { span, level, code, source, accepted } = finding;
  const hint = finding.hint(say);
  const label = finding.label(say);
  const also = finding.also ?? [];
  const remarks: readonly (FindingRemark | null)[] = [
    also.length === 0 ? null : { part: "also", lead: "also", text: clean(names(also, say)) },
    source && { part: "source", lead: "source", text: sourceLabel(source) },
    accepted === null
      ? null
      : { part: "accepted", lead: by === undefined ? "accepted" : `accepted by ${by}`, text: clean(accepted) },
    hint === null ? null : { part: "try", lead: "try", text: clean(hint) },
  ];
  const view = {
    tone: TONES[level],
    word: accepted === null ? level : `${level}, accepted`,
    sentence: clean(finding.sentence(say)),
    located: clean(sentenceOf(finding, say)),
    code,
    place: span === null ? null : positionText(span),
    marks: [
      ...(span === null || !lines ? [] : [{ title: null, span, label: label === null ? null : clean(label) }]),
      ...finding.related.map((other) => ({
        title: `${positionText(other.span)}: ${clean(other.label)}`,
        span: lines ? other.span : null,
        label: null,
      })),
    ],
    chain: finding.chain.map(({ from, name, minutes, where }) => ({
      time: say.time(from),
      name,
      length: say.length(minutes),
      where: (where === null ? null : say.where?.(where)) ?? "",
    })),
    remarks: remarks.filter((remark) => remark !== null),
  };
  return { ...view, line: lineOf(view, PARTS) };
}

/** What a line may say besides the sentence. */
const PARTS = ["level", "place", "also", "source", "accepted", "try", "code"] as const;
type Part = (typeof PARTS)[number];

/** `error: sentence (day.yaml:14:11); source: …; accepted: …; try: … [code]`, of which the parts asked for. */
function lineOf(view: Omit<FindingView, "line">, parts: readonly Part[]): readonly Cell[] {
  const has = (part: Part): boolean => parts.includes(part);
  const remarks = view.remarks.filter(({ part }) => has(part));
  return [
    ...(has("level") ? [{ text: view.word, tone: view.tone }, { text: ": " }] : []),
    { text: view.sentence },
    ...(has("place") && view.place !== null ? [{ text: ` (${view.place})` }] : []),
    ...remarks.map(({ lead, text }) => ({ text: `; ${lead}: ${text}` })),
    ...(has("code") ? [{ text: ` [${view.code}]`, tone: "muted" as const }] : []),
  ];
}

/** A finding as an item of a list: its sentence and the parts asked for, in the order of every line. */
export const findingCell = (view: FindingView, parts: readonly Part[], tone: Tone): Cell => ({
  text: lineOf(view, parts)
    .map(({ text }) => text)
    .join(""),
  tone,
});

/** Findings as items of a list, those alike as one: `error: sentence; also: ben, cal (code)`. */
export const findingItems = (findings: readonly Finding[], say: Wording, redact: boolean): readonly Cell[] =>
  joinAlike(findings).map((finding) => {
    const view = findingView(finding, say, redacting(redact));
    const { text } = findingCell(view, ["level", "also"], view.tone);
    return { text: `${text} (${view.code})`, tone: view.tone };
  });

/** `day.yaml:14:11`, 1-based. */
const positionText = (span: Span): string => `${fileText(span)}:${span.line}:${span.column}`;

/** `49 CFR 175.10, (a)(18)`; a clause that names its law by number stands alone: `Reg 561/2006 Art 7`. */
export function sourceLabel({ title, clause }: Source): string {
  if (clause === null) return title;
  const numbers = title.split(" ").filter((word) => /\d/.test(word));
  const alone = clause === title || (numbers.length > 0 && numbers.every((number) => clause.includes(number)));
  return alone ? clause : `${title}, ${clause}`;
}
