/** `explain CODE`: what a finding means, how much it counts, the rule behind it with its source, an example and the cure. */
import type { AnyEntry, Level, Say } from "../../findings/finding.ts";
import { column } from "../shared/cells.ts";
import type { Block, Report } from "../shared/view.ts";

const line = (text: string): Block => ({ kind: "line", cells: [{ text }] });
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
  lines.length === 0 ? [] : [heading(title), ...lines.map(line)];

const levelData = ({ level, otherwise, law }: AnyEntry) => ({
  level,
  otherwise: otherwise === undefined ? null : { level: otherwise.level, when: otherwise.when },
  law: law ?? "never",
});

/** One code told at length. */
export function explainReport(entry: AnyEntry, say: Say): Report {
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
      ...section("What cures it", [entry.cure]),
      ...section(
        "Where it is from",
        source === null ? [] : [source.clause === null ? source.title : `${source.title}, ${source.clause}`],
      ),
      ...section(
        "An example that raises it",
        entry.example.split("\n").map((text) => `  ${text}`),
      ),
    ],
    data: {
      code: entry.code,
      ...levelData(entry),
      title: entry.title,
      why: entry.why,
      cure: entry.cure,
      source: source === null ? null : { title: source.title, clause: source.clause },
      example: entry.example,
    },
    findings: [],
    say,
  };
}

/** All codes in order, a line each. */
export function codesReport(entries: readonly AnyEntry[], say: Say): Report {
  return {
    command: "explain",
    blocks: [
      {
        kind: "table",
        title: null,
        columns: [column("Code", "code"), column("Level", "level"), column("Meaning", "title")],
        rows: entries.map((entry) => [
          { text: entry.code, tone: "strong" },
          { text: entry.law === undefined ? levelsOf(entry) : `${levelsOf(entry)}, law` },
          { text: entry.title },
        ]),
        empty: "No codes.",
      },
    ],
    data: { codes: entries.map((entry) => ({ code: entry.code, ...levelData(entry), title: entry.title })) },
    findings: [],
    say,
  };
}
