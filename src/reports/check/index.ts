/** `check`: all findings of a plan, worst first, with what was not judged yet. */
import { DEFERRAL, isCaution } from "../../cautions/deferral.ts";
import type { Finding, Level, Say } from "../../findings/finding.ts";
import { together } from "../../findings/together.ts";
import { repairable } from "../../repair/index.ts";
import { deferralLine, notJudgedLines } from "../shared/closingLines.ts";
import { kept, object } from "../shared/columns.ts";
import { redacting, toldOf } from "../shared/findingView.ts";
import { list, orNull, said, text, whole } from "../shared/kinds.ts";
import { isShown } from "../shared/order.ts";
import type { Block, Report } from "../shared/view.ts";

export interface CheckInput {
  /** Worst first, accepted ones included. */
  readonly findings: readonly Finding[];
  /** Topics that nothing judges yet; never silent, so that a plan does not look clean by it. */
  readonly notJudged: readonly string[];
  readonly say: Say;
  /** Leaves out the plan's own lines, and numbers in its words. */
  readonly redact: boolean;
  /** Only findings of this level and worse are printed; all are counted. */
  readonly least?: Level;
  /** The plan's file, where `repair` can look for edits of it. */
  readonly file?: string | null;
}

interface Counts {
  readonly errors: number;
  readonly warnings: number;
  readonly notes: number;
  readonly accepted: number;
}

/** The report of one plan; `data` repeats the counts and what was not judged. */
export function checkReport({ findings, notJudged, say, redact, least = "note", file = null }: CheckInput): Report {
  const shown = together(findings);
  const counts = countsOf(shown);
  const blocks: Block[] = [];
  const printed = shown.filter((finding) => isShown(finding, least));
  const told = printed.map((finding) => toldOf(finding, say, redacting(redact)));
  if (told.length > 0) blocks.push({ kind: "findings", findings: told });
  blocks.push({
    kind: "line",
    cells: [{ text: summary(counts), tone: counts.errors > 0 ? "bad" : counts.warnings > 0 ? "warn" : "good" }],
  });
  if (file !== null && repairable(findings).some(({ level }) => level === "error"))
    blocks.push({ kind: "line", cells: [{ text: `daywright repair ${file} shows edits that help`, tone: "muted" }] });
  blocks.push(...notJudgedLines(notJudged));
  const deferral = findings.some(isCaution) ? DEFERRAL : null;
  if (deferral !== null) blocks.push(deferralLine());
  return {
    command: "check",
    blocks,
    data: CHECK_DATA.json({ counts: countsOf(findings), notJudged, deferral }, null),
    findings,
    say,
  };
}

function countsOf(findings: readonly Finding[]): Counts {
  const open = findings.filter((finding) => finding.accepted === null);
  const count = (level: Level): number => open.filter((finding) => finding.level === level).length;
  return {
    errors: count("error"),
    warnings: count("warning"),
    notes: count("note"),
    accepted: findings.length - open.length,
  };
}

const some = (count: number, one: string): string => `${count} ${one}${count === 1 ? "" : "s"}`;

/** `2 errors, 1 warning, 1 accepted`, or that nothing was found. */
function summary({ errors, warnings, notes, accepted }: Counts): string {
  const parts = [
    ...(errors > 0 ? [some(errors, "error")] : []),
    ...(warnings > 0 ? [some(warnings, "warning")] : []),
    ...(notes > 0 ? [some(notes, "note")] : []),
    ...(accepted > 0 ? [`${accepted} accepted`] : []),
  ];
  return parts.length === 0 ? "Nothing found" : parts.join(", ");
}

interface CheckAnswer {
  readonly counts: Counts;
  readonly notJudged: readonly string[];
  readonly deferral: string | null;
}

/** `data` of `check`: the findings are in the envelope, this counts them. */
export const CHECK_DATA = object<CheckAnswer, unknown>({
  errors: kept(whole, ({ counts }) => counts.errors),
  warnings: kept(whole, ({ counts }) => counts.warnings),
  notes: kept(whole, ({ counts }) => counts.notes),
  accepted: kept(whole, ({ counts }) => counts.accepted),
  notJudged: kept(said(list(text), "topics that nothing judges yet"), (own) => own.notJudged),
  deferral: kept(said(orNull(text), "who decides, where a caution is among the findings"), (own) => own.deferral),
});
