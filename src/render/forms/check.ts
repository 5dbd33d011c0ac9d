/** The forms of `check` that editors, code hosts and streams read: one finding a line, and SARIF 2.1.0. */
import { type Finding, inFile, type Level, sentenceOf, type Wording } from "../../findings/finding.ts";
import type { Json } from "../../reports/shared/view.ts";
import type { DeclaredStream } from "../form.ts";
import { printable } from "../text/printable.ts";
import { toJson, toJsonLine } from "./json.ts";

/** What these forms need of one checked plan. */
export interface CheckedPlan {
  readonly file: string | null;
  readonly ok: boolean;
  readonly findings: readonly Finding[];
  readonly notJudged: readonly string[];
  readonly say: Wording;
  /** A finding as the JSON envelope prints it. */
  json(finding: Finding): Json;
}

/** The name of a plan without a file, in forms that cannot do without one. */
const STANDARD_INPUT = "<stdin>";

/** `file:line:col: level: sentence [code]`, the layout that editors parse; a line for each finding of a plan. */
export const unixLines = (plan: CheckedPlan): string =>
  plan.findings
    .map((finding) => {
      const span = inFile(finding.span);
      const place = `${printable(span?.file ?? plan.file ?? STANDARD_INPUT)}:${span?.line ?? 1}:${span?.column ?? 1}`;
      const accepted = finding.accepted === null ? "" : " (accepted)";
      return `${place}: ${finding.level}: ${printable(sentenceOf(finding, plan.say))}${accepted} [${finding.code}]\n`;
    })
    .join("");

/** The first record of a stream: what it promises. */
export const ndjsonHeader = (contract: number): string =>
  toJsonLine({ daywright: contract, command: "check", record: "header" });

/** A record for each finding of a plan, and one with its outcome. */
export const ndjsonLines = (plan: CheckedPlan): string =>
  [
    ...plan.findings.map((finding) => toJsonLine({ record: "finding", plan: plan.file, finding: plan.json(finding) })),
    toJsonLine({
      record: "plan",
      plan: plan.file,
      ok: plan.ok,
      findings: plan.findings.length,
      notJudged: plan.notJudged,
    }),
  ].join("");

const SARIF_LEVELS: Readonly<Record<Level, string>> = { error: "error", warning: "warning", note: "note" };

/** The program as SARIF names it. */
export interface SarifTool {
  readonly version: string;
  /** A short title for a code; null where the catalogue does not know it. */
  title(code: string): string | null;
}

/**
 * SARIF 2.1.0 (OASIS): one run, one result a finding. `ruleId` and the relative path are what a code host takes as
 * fingerprint, so both stay as the plan states them; an accepted finding carries a suppression.
 */
export function toSarif(tool: SarifTool, results: readonly SarifResult[]): string {
  const codes = [...new Set(results.map((result) => result.code))].sort();
  const rules = codes.map((code) => ({ id: code, shortDescription: { text: tool.title(code) ?? code } }));
  const driver = { name: "daywright", version: tool.version, rules };
  const run = { tool: { driver }, columnKind: "utf16CodeUnits", results: results.map((result) => result.json) };
  return toJson({
    $schema: "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
    version: "2.1.0",
    runs: [run],
  });
}

/** One finding in its final form: with thousands of plans nothing more of them is kept. */
export interface SarifResult {
  readonly code: string;
  readonly json: Json;
}

/** The findings of a plan as results of SARIF 2.1.0. */
export const sarifResults = (plan: CheckedPlan): readonly SarifResult[] =>
  plan.findings.map((finding) => ({ code: finding.code, json: sarifResult(plan, finding) }));

function sarifResult(plan: CheckedPlan, finding: Finding): Json {
  const hint = finding.hint(plan.say);
  const text = hint === null ? sentenceOf(finding, plan.say) : `${sentenceOf(finding, plan.say)}; try: ${hint}`;
  const result: Record<string, Json> = {
    ruleId: finding.code,
    level: SARIF_LEVELS[finding.level],
    message: { text },
    locations: sarifLocations(plan, finding),
  };
  if (finding.accepted !== null)
    result["suppressions"] = [{ kind: "inSource", status: "accepted", justification: finding.accepted }];
  return result;
}

function sarifLocations(plan: CheckedPlan, finding: Finding): Json {
  const span = inFile(finding.span);
  const uri = span?.file ?? plan.file;
  if (uri === null) return [];
  const artifactLocation = { uri: uri.split("/").map(encodeURIComponent).join("/") };
  if (span === null) return [{ physicalLocation: { artifactLocation } }];
  const region: Record<string, Json> = { startLine: span.line, startColumn: span.column };
  if (span.length > 0) region["endColumn"] = span.column + span.length;
  return [{ physicalLocation: { artifactLocation, region } }];
}

/** One JSON record a line. */
export const ndjsonForm: DeclaredStream = {
  name: "ndjson",
  suffixes: [".ndjson"],
  commands: ["check"],
  place: 120,
  takes: "findings",
};

/** SARIF 2.1.0. */
export const sarifForm: DeclaredStream = {
  name: "sarif",
  suffixes: [".sarif"],
  commands: ["check"],
  place: 130,
  takes: "findings",
};

/** A line a finding, as editors read it. */
export const unixForm: DeclaredStream = {
  name: "unix",
  suffixes: [],
  commands: ["check"],
  place: 140,
  takes: "findings",
};
