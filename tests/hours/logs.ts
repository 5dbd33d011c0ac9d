/** Logs as text and what the program answers to them, for tests. */
import { readLog } from "../../src/plan/log/read.ts";
import { hoursLogReport } from "../../src/reports/hours/log.ts";
import { instant } from "../../src/time/index.ts";

export interface PersonAnswer {
  readonly id: string;
  readonly rules: readonly string[];
  readonly restBeforeMinutes: number | null;
  readonly dutyMinutes: number;
  readonly drivingMinutes: number;
  readonly limits: readonly {
    readonly id: string;
    readonly clause: string;
    readonly allowedMinutes: number;
    readonly usedMinutes: number | null;
    readonly leftMinutes: number | null;
    readonly runsOutAt: string | null;
  }[];
  readonly breaches: readonly {
    readonly limit: string;
    readonly clause: string;
    readonly from: string;
    readonly to: string;
  }[];
  readonly drivingMustStopAt: string | null;
  readonly earliestNextCall: string | null;
  readonly earliestNextDrive: string | null;
}

export interface Answer {
  readonly person: PersonAnswer;
  readonly codes: readonly string[];
  readonly errors: number;
}

export interface LogText {
  readonly zone: string;
  readonly rules: string | readonly string[];
  readonly options?: Readonly<Record<string, unknown>>;
  readonly spans: readonly { readonly from: string; readonly to: string; readonly is: string; readonly in?: string }[];
}

/** A log file of one person, `tomas`. */
export function logText({ zone, rules, options, spans }: LogText): string {
  const lines = spans.map(
    (span) =>
      `    - { from: ${span.from}, to: ${span.to}, is: ${span.is}${span.in === undefined ? "" : `, in: ${span.in}`} }`,
  );
  const stated = Object.entries(options ?? {}).map(([key, value]) => `${key}: ${JSON.stringify(value)}`);
  return [
    "log: 1",
    `zone: ${zone}`,
    `rules: ${typeof rules === "string" ? rules : `[${rules.join(", ")}]`}`,
    ...(stated.length === 0 ? [] : [`options: { ${stated.join(", ")} }`]),
    "people:",
    "  tomas:",
    ...lines,
    "",
  ].join("\n");
}

/** The instant of an ISO text with an offset, minutes since 1970, by the host's own parser. */
export const at = (iso: string): number => Date.parse(iso) / 60_000;

/** What the program says of the one person in a log at an instant; null judges the end of the log. */
export async function answerTo(text: string, when: number | null): Promise<Answer> {
  const { log, findings } = await readLog(text, "hours.yaml");
  if (log === null) throw new Error(findings.map(({ code, span }) => `${code} at line ${span?.line}`).join(", "));
  const moment = when === null ? null : instant(when);
  const report = hoursLogReport(log, { at: moment, person: null, shown: { clock: null, style: null } });
  const data: { readonly people: readonly PersonAnswer[] } = JSON.parse(JSON.stringify(report.data));
  const [person] = data.people;
  if (person === undefined) throw new Error("nobody in the answer");
  const errors = report.findings.filter(({ level }) => level === "error").length;
  return { person, codes: report.findings.map(({ code }) => code), errors };
}
