/** What `check` prints for each plan as it comes, and at the end: with thousands of plans none is kept longer than it must. */
import type { CheckedPlan, SarifResult } from "../render/check-forms.ts";
import { CONTRACT } from "../reports/contract.ts";
import type { Json } from "../reports/view.ts";
import type { Invocation } from "./command.ts";
import { EXIT } from "./exit.ts";
import { type Answered, envelopeOf, several } from "./plan-command.ts";
import { FORMS, printed } from "./print.ts";
import { VERSION } from "./version.ts";

export const CHECK_FORMS = [...FORMS, "ndjson", "sarif", "unix"] as const;
export type CheckForm = (typeof CHECK_FORMS)[number];

export interface Checked extends Answered {
  readonly notJudged: readonly string[];
}

export interface Sink {
  /** What to print once this plan is checked. */
  add(checked: Checked): Promise<string>;
  /** What to print when all are. */
  end(): Promise<string>;
}

/** The sink of a form; `many` where more than one plan is to come. */
export async function sinkFor(form: CheckForm, invocation: Invocation, many: boolean): Promise<Sink> {
  switch (form) {
    case "json":
      return jsonSink(many);
    case "ndjson": {
      const { ndjsonHeader, ndjsonLines } = await import("../render/check-forms.ts");
      return lines(ndjsonHeader(CONTRACT), ndjsonLines);
    }
    case "unix":
      return lines("", (await import("../render/check-forms.ts")).unixLines);
    case "sarif":
      return sarifSink();
    case "csv": {
      const { findingsCsvHead, findingsCsvRows } = await import("../render/csv.ts");
      return lines(findingsCsvHead(invocation.options), findingsCsvRows);
    }
    default:
      return textSink(form, invocation, many);
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
    add: async (checked) => `${take()}${each(await planOf(checked))}`,
    end: async () => take(),
  };
}

async function planOf({ told, findings, exit, notJudged }: Checked): Promise<CheckedPlan> {
  const { findingJson } = await import("../reports/envelope.ts");
  const json = (finding: Answered["findings"][number]): Json => findingJson(finding, told.form);
  return { file: told.file, ok: exit === EXIT.done, findings, notJudged, say: told.say, json };
}

function jsonSink(many: boolean): Sink {
  const answers: Json[] = [];
  let ok = true;
  return {
    async add(checked) {
      answers.push(await envelopeOf("check", checked));
      ok &&= checked.exit === EXIT.done;
      return "";
    },
    async end() {
      const [only] = answers;
      const whole = many || only === undefined ? await several("check", ok, answers) : only;
      return (await import("../render/json.ts")).toJson(whole);
    },
  };
}

function sarifSink(): Sink {
  const results: SarifResult[] = [];
  return {
    async add(checked) {
      const { sarifResults } = await import("../render/check-forms.ts");
      for (const result of sarifResults(await planOf(checked))) results.push(result);
      return "";
    },
    async end() {
      const [{ toSarif }, { catalogue }] = await Promise.all([
        import("../render/check-forms.ts"),
        import("../findings/catalogue.ts"),
      ]);
      const entries = await catalogue();
      return toSarif({ version: VERSION, title: (code) => entries.get(code)?.title ?? null }, results);
    },
  };
}

function textSink(form: "text" | "list" | "markdown", { io, options }: Invocation, many: boolean): Sink {
  let count = 0;
  let failed = 0;
  return {
    async add({ told, report, exit }) {
      if (report === null) return "";
      count += 1;
      if (exit !== EXIT.done) failed += 1;
      const heading = { kind: "heading", text: told.file ?? "standard input" } as const;
      const named = many ? { ...report, blocks: [heading, ...report.blocks] } : report;
      return `${count > 1 ? "\n" : ""}${await printed(io, options, form, named)}`;
    },
    end: async () => (many ? `\n${count} plans, ${failed === 0 ? "none" : failed} with errors\n` : ""),
  };
}
