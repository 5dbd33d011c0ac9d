/** `explain CODE`: what a finding means, how much it counts, the rule behind it with its source, an example and what to do. */

import type { AnyEntry, Level, Source, Wording } from "../../findings/finding.ts";
import { type LimitSource, limitSourcesOf } from "../../hours/limitSources.ts";
import { line } from "../shared/blocks.ts";
import { column, columns, eitherKind, kept, object } from "../shared/columns.ts";
import { listKind, orNull, textKind, wordKind } from "../shared/kinds.ts";
import type { Block, Report } from "../shared/view.ts";

const heading = (text: string): Block => ({ kind: "heading", text });

/** `error`, or both that it can be, the usual one first. */
const levelsOf = ({ level, otherwise }: AnyEntry): string =>
  otherwise === undefined ? level : `${level} or ${otherwise.level}`;

const A: Readonly<Record<Level, string>> = { error: "an error", warning: "a warning", note: "a note" };
const LAW = {
  always: "It is a breach of law, which `accept` does not silence.",
  "by rules": "Under a legal rule set it is a breach of law, which `accept` does not silence.",
} as const;

/** What the one word of a level leaves open, a line each; none for most codes. */
const openLevels = ({ level, otherwise, law }: AnyEntry): readonly string[] => [
  ...(otherwise === undefined ? [] : [`It is ${A[level]}, and ${A[otherwise.level]} ${otherwise.when}.`]),
  ...(law === undefined ? [] : [LAW[law]]),
];

const section = (title: string, lines: readonly string[]): readonly Block[] =>
  lines.length === 0 ? [] : [heading(title), ...lines.map((text) => line(text))];

const level = wordKind("error", "warning", "note");
const other = object<NonNullable<AnyEntry["otherwise"]>, unknown>()({ level, when: textKind });

/** Whether a finding of the code can count otherwise, and whether it is a breach of law. */
const counting = {
  otherwise: kept<AnyEntry, NonNullable<AnyEntry["otherwise"]> | null, unknown>(
    orNull(other),
    (entry) => entry.otherwise ?? null,
  ),
  law: kept<AnyEntry, "never" | "by rules" | "always", unknown>(
    wordKind("never", "by rules", "always"),
    (entry) => entry.law ?? "never",
  ),
};

const CODES = columns<AnyEntry, unknown>()({
  code: column("Code", textKind, { tone: "strong" }),
  level: column("Level", level, {
    cell: (entry) => ({ text: entry.law === undefined ? levelsOf(entry) : `${levelsOf(entry)}, law` }),
  }),
  ...counting,
  title: column("Meaning", textKind),
});

/** The limits of rule sets that raise a code of hours. */
const RULES = columns<LimitSource, unknown>()({
  set: column("Rule set", textKind, { tone: "strong" }),
  clause: column("Clause", orNull(textKind), {
    cell: (row) => ({ text: row.clause ?? "", raw: row.clause }),
  }),
  limit: column("Limit", textKind),
  source: textKind,
});

/** Which limits of which rules raise it; the sources, each once, stand below where the table has no room for them. */
function rulesBlocks(code: string): readonly Block[] {
  const rows = limitSourcesOf(code);
  if (rows.length === 0) return [];
  const sources = [...new Set(rows.map(({ set, source }) => `${set}: ${source}`))];
  return [
    RULES.table(null, rows, { title: "Rules behind it", empty: "" }),
    { kind: "list", items: sources.map((text) => ({ text })) },
  ];
}

const ENTRY = object<AnyEntry, unknown>()({
  code: textKind,
  level,
  ...counting,
  title: textKind,
  why: textKind,
  cure: textKind,
  source: kept(
    orNull(object<Source, unknown>()({ title: textKind, clause: orNull(textKind) })),
    (entry) => entry.source ?? null,
  ),
  example: textKind,
  rules: kept(listKind(RULES), ({ code }) => limitSourcesOf(code)),
});

const ALL = object<{ readonly codes: readonly AnyEntry[] }, unknown>()({ codes: listKind(CODES) });

/** `data` of `explain`: one code, or all. */
export const EXPLAIN_DATA = eitherKind(
  (value: AnyEntry | { readonly codes: readonly AnyEntry[] }): value is AnyEntry => !("codes" in value),
  ENTRY,
  ALL,
);

/** One code at length. */
export function explainReport(entry: AnyEntry, say: Wording): Report {
  const source = entry.source ?? null;
  return {
    command: "explain",
    blocks: [
      {
        kind: "line",
        cells: [{ text: entry.code, tone: "strong" }, { text: ` (${levelsOf(entry)}): ${entry.title}` }],
      },
      ...section("How much it counts", openLevels(entry)),
      ...section("Why it matters", [entry.why]),
      ...section("What to do", [entry.cure]),
      ...section(
        "Where it is from",
        source === null ? [] : [source.clause === null ? source.title : `${source.title}, ${source.clause}`],
      ),
      ...rulesBlocks(entry.code),
      ...section(
        "An example that raises it",
        entry.example.split("\n").map((text) => `  ${text}`),
      ),
    ],
    data: EXPLAIN_DATA.json(entry, null),
    findings: [],
    say,
  };
}

/** All codes in order, a line each. */
export function codesReport(entries: readonly AnyEntry[], say: Wording): Report {
  return {
    command: "explain",
    blocks: [CODES.table(null, entries, { title: null, empty: "No codes." })],
    data: EXPLAIN_DATA.json({ codes: entries }, null),
    findings: [],
    say,
  };
}
