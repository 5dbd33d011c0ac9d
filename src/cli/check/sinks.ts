/**
 * What `check` prints for each plan as it comes, and at the end: with thousands of plans none is kept longer than it must.
 * The piece of a plan may be made in another thread than the one that joins pieces.
 */

import { answers as answerParts, codes, type Json, VERSION } from "../../index.ts";
import type { CheckedPlan, SarifResult } from "../../render/forms/check.ts";
import { formsOf } from "../../render/forms.ts";
import type { Invocation } from "../command.ts";
import { EXIT } from "../exit.ts";
import { printed } from "../output.ts";
import { envelopeOf, type PlanOutcome, several } from "../plan/planCommand.ts";
import type { CheckedPiece } from "./pool.ts";

/** A checked plan, and what could not be judged. */
export interface CheckOutcome extends PlanOutcome {
  readonly notJudged: readonly string[];
}

/** Takes checked plans one by one and writes the whole in one form. */
export interface Sink {
  /** What is to be kept of a plan. */
  piece(checked: CheckOutcome): Promise<CheckedPiece>;
  /** What to print once the next plan's piece is there. */
  join(piece: CheckedPiece): string;
  /** What to print when all are. */
  end(): Promise<string>;
}

/** The sink of a form; `many` where more than one plan is to come. */
export async function sinkFor(name: string, invocation: Invocation, many: boolean): Promise<Sink> {
  switch (name) {
    case "json":
      return jsonSink(many);
    case "ndjson": {
      const { ndjsonHeader, ndjsonLines } = await import("../../render/forms/check.ts");
      return withoutSecondRecord(lines(ndjsonHeader((await answerParts()).CONTRACT), ndjsonLines));
    }
    case "unix":
      return lines("", (await import("../../render/forms/check.ts")).unixLines);
    case "sarif":
      return sarifSink();
    case "csv": {
      const { findingsCsvHead, findingsCsvRows } = await import("../../render/forms/csv.ts");
      return lines(findingsCsvHead(invocation.options), findingsCsvRows);
    }
    default:
      return textSink(name, invocation, many);
  }
}

/** A head before the first plan, also where none comes, then a text for each. */
function lines(head: string, each: (plan: CheckedPlan) => string): Sink {
  let before = head;
  const take = (): string => {
    const text = before;
    before = "";
    return text;
  };
  return {
    piece: async (checked) => ({ exit: checked.exit, text: each(await planOf(checked)) }),
    join: ({ text }) => `${take()}${text ?? ""}`,
    end: async () => take(),
  };
}

/** A plan has one record in a stream, whatever is said of it later. */
const withoutSecondRecord = (sink: Sink): Sink => ({
  ...sink,
  join(piece) {
    if (piece.more !== true || piece.text === undefined) return sink.join(piece);
    const isPlan = (line: string): boolean => line !== "" && part(JSON.parse(line), "record") === "plan";
    const kept = piece.text.split("\n").filter((line) => !isPlan(line));
    return sink.join({ ...piece, text: kept.join("\n") });
  },
});

async function planOf({ context, findings, exit, notJudged }: CheckOutcome): Promise<CheckedPlan> {
  const { findingJson } = await answerParts();
  const json = (finding: PlanOutcome["findings"][number]): Json => findingJson(finding, context.form);
  return { file: context.head.file, ok: exit === EXIT.done, findings, notJudged, say: context.say, json };
}

function jsonSink(many: boolean): Sink {
  const answers: Json[] = [];
  let ok = true;
  return {
    piece: async (checked) => ({ exit: checked.exit, json: await envelopeOf("check", checked) }),
    join({ exit, json, more }) {
      if (json !== undefined && more !== true) answers.push(json);
      if (json !== undefined && more === true) add(answers, json);
      ok &&= exit === EXIT.done;
      return "";
    },
    async end() {
      const [only] = answers;
      const whole = many || only === undefined ? await several("check", ok, answers) : only;
      return (await import("../../render/forms/json.ts")).toJson(whole);
    },
  };
}

/** Findings that come later into the answer of their plan. */
function add(answers: Json[], more: Json): void {
  const at = answers.findIndex((one) => JSON.stringify(part(part(one, "plan"), "file")) === fileText(more));
  const before = answers[at];
  const findings = [before, more].flatMap((one) => {
    const some = part(one, "findings");
    return Array.isArray(some) ? some : [];
  });
  if (!isObject(before)) answers.push(more);
  else answers[at] = { ...before, ok: before["ok"] === true && part(more, "ok") === true, findings };
}

const fileText = (json: Json): string | undefined => JSON.stringify(part(part(json, "plan"), "file"));
const isObject = (json: Json | undefined): json is { readonly [key: string]: Json } =>
  typeof json === "object" && json !== null && !Array.isArray(json);
const part = (json: Json | undefined, key: string): Json | undefined => (isObject(json) ? json[key] : undefined);

function sarifSink(): Sink {
  const results: SarifResult[] = [];
  return {
    async piece(checked) {
      const { sarifResults } = await import("../../render/forms/check.ts");
      return { exit: checked.exit, results: sarifResults(await planOf(checked)) };
    },
    join(piece) {
      for (const result of piece.results ?? []) results.push(result);
      return "";
    },
    async end() {
      const [{ toSarif }, { catalogue }] = await Promise.all([import("../../render/forms/check.ts"), codes()]);
      const entries = await catalogue();
      return toSarif({ version: VERSION, title: (code) => entries.get(code)?.title ?? null }, results);
    },
  };
}

function textSink(name: string, { io, options }: Invocation, many: boolean): Sink {
  const form = formsOf("check").find((one) => one.name === name);
  let count = 0;
  let failed = 0;
  return {
    async piece({ context, report, exit }) {
      if (report === null) return { exit };
      const heading = { kind: "heading", text: context.head.file ?? "standard input" } as const;
      const named = many ? { ...report, blocks: [heading, ...report.blocks] } : report;
      return { exit, text: form === undefined ? "" : await printed(io, options, form, named) };
    },
    join({ text, exit, more }) {
      if (text === undefined) return "";
      if (more !== true) count += 1;
      if (more !== true && exit !== EXIT.done) failed += 1;
      return `${count > 1 ? "\n" : ""}${text}`;
    },
    end: async () => (many ? `\n${count} plans, ${failed === 0 ? "none" : failed} with errors\n` : ""),
  };
}
