/** Hand-made reports, tables and findings for the renderers' tests. */
import { define, type Finding, type Wording } from "../../src/findings/finding.ts";
import type { Block, Report, Table } from "../../src/reports/shared/view.ts";
import { instant, isoUtc, lengthText } from "../../src/time/index.ts";

export const say: Wording = {
  time: (at) => isoUtc(at),
  clock: (at) => isoUtc(at).slice(11, 16),
  length: lengthText,
  name: (id) => id,
  where: (path) => path.join("."),
};

export const reportOf = (blocks: readonly Block[], findings: readonly Finding[] = []): Report => ({
  command: "calls",
  blocks,
  data: {},
  findings,
  say,
});

export const tableOf = (rows: readonly (readonly string[])[], spares: readonly number[] = [0, 0, 0]): Table => ({
  kind: "table",
  title: null,
  columns: spares.map((spare, at) => ({ label: `C${at}`, align: at === 1 ? "right" : "left", spare })),
  rows: rows.map((row) => row.map((text) => ({ text }))),
  empty: "Nothing here.",
});

/** Escape sequences, bidi marks, C1 controls, and markup of every form. */
export const HOSTILE = "\u001b]52;c;ZXZpbA==\u0007\r\u009b31m\u202e<script>|*_`[x](y)`=1+1@everyone\u2066\nUID:evil";

export const restTooShort = define<{ rest: number; need: number }>({
  code: "rest-too-short",
  level: "error",
  title: "less rest than the plan wants",
  why: "Tired people drive badly.",
  cure: "Call later.",
  example: "history:\n  wren: { released: 2027-01-19T23:40-06:00 }",
  sentence: (f, words) => `wren has ${words.length(f.rest)} of rest; this plan needs ${words.length(f.need)}`,
  label: (f, words) => `${words.length(f.rest)} after the release`,
  hint: () => "call wren at 07:15 or later",
});

export const sampleFinding = (text = "      call: 05:30"): Finding =>
  restTooShort.raise(
    { rest: 495, need: 600 },
    {
      who: "wren",
      at: instant(30_000_000),
      span: { file: "day.yaml", line: 14, column: text.indexOf("05:30") + 1, length: 5, text },
      path: ["actual", "wren", "call"],
    },
  );
