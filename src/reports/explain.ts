/** `explain CODE`: what a finding means, the rule behind it with its source, an example and the cure. */
import type { AnyEntry, Say } from "../findings/finding.ts";
import { column } from "./cells.ts";
import type { Block, Report } from "./view.ts";

const line = (text: string): Block => ({ kind: "line", cells: [{ text }] });
const heading = (text: string): Block => ({ kind: "heading", text });

/** One code told at length. */
export function explainReport(entry: AnyEntry, say: Say): Report {
  const source = entry.source ?? null;
  return {
    command: "explain",
    blocks: [
      {
        kind: "line",
        cells: [
          { text: entry.code, tone: "strong" },
          { text: ` (${entry.law === true ? "law, " : ""}${entry.level}): ${entry.title}` },
        ],
      },
      heading("Why it matters"),
      line(entry.why),
      heading("What cures it"),
      line(entry.cure),
      ...(source === null
        ? []
        : [
            heading("Where it is from"),
            line(source.clause === null ? source.title : `${source.title}, ${source.clause}`),
          ]),
      heading("An example that raises it"),
      ...exampleLines(entry.example),
    ],
    data: {
      code: entry.code,
      level: entry.level,
      law: entry.law ?? false,
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

const exampleLines = (example: string): readonly Block[] => example.split("\n").map((text) => line(`  ${text}`));

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
          { text: entry.law === true ? `${entry.level}, law` : entry.level },
          { text: entry.title },
        ]),
        empty: "No codes.",
      },
    ],
    data: { codes: entries.map(({ code, level, law, title }) => ({ code, level, law: law ?? false, title })) },
    findings: [],
    say,
  };
}
