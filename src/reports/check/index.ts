/** `check`: all findings of a plan, worst first, with what was not judged yet. */

import { DEFERRAL, isCaution } from "../../cautions/deferral.ts";
import { counted } from "../../findings/figures.ts";
import type { Finding, Level } from "../../findings/finding.ts";
import { joinAlike } from "../../findings/together.ts";
import { repairable } from "../../repair/codes.ts";
import { repairCommandText } from "../../repair/writing.ts";
import { line } from "../shared/blocks.ts";
import { object } from "../shared/columns.ts";
import type { ReportInput } from "../shared/dayView.ts";
import { findingView, redacting } from "../shared/findingView.ts";
import { deferralLine, notJudgedLines } from "../shared/heading.ts";
import { TOPICS } from "../shared/judged.ts";
import { listKind, orNull, said, textKind, wholeKind } from "../shared/kinds.ts";
import { isShown } from "../shared/order.ts";
import type { ReportMaker, ReportOptions } from "../shared/report.ts";
import type { Block, ReportParts } from "../shared/view.ts";

/** What `check` shows. */
interface CheckInput extends Pick<ReportInput, "findings" | "say" | "redact">, Pick<ReportOptions, "least" | "long"> {
  /** Topics that nothing judges yet; never silent, so that a plan does not look clean by it. */
  readonly notJudged: readonly string[];
  /** False where the plan was refused; true by default. */
  readonly computed?: boolean;
  /** The plan's file, where `repair` can look for edits of it. */
  readonly file?: string | null;
}

type Counts = Readonly<Record<"errors" | "warnings" | "notes" | "accepted", number>>;

/** The report of one plan; `data` repeats the counts and what was not judged. */
export function checkReport(input: CheckInput): ReportParts {
  const { findings, notJudged, say, redact, least = "note", long = false, computed = true, file = null } = input;
  const shown = long ? findings : joinAlike(findings);
  const counts = countsOf(shown);
  const blocks: Block[] = [];
  const printed = shown.filter((finding) => isShown(finding, least));
  const tone = counts.errors > 0 ? "bad" : counts.warnings > 0 ? "warn" : "good";
  blocks.push(line(summary(counts, computed), tone));
  const viewsOf = (some: readonly Finding[]) => some.map((finding) => findingView(finding, say, redacting(redact)));
  const brief = printed.filter(({ level }) => level === "note" && !long);
  const whole = printed.filter((finding) => !brief.includes(finding));
  if (whole.length > 0) blocks.push({ kind: "findings", findings: viewsOf(whole) });
  if (brief.length > 0) blocks.push({ kind: "findings", findings: viewsOf(brief), brief: true });
  const command = file === null ? null : commandFor(file, repairable(findings));
  if (command !== null) blocks.push(line(`${command} looks for edits that help`, "muted"));
  blocks.push(...notJudgedLines(notJudged));
  const deferral = findings.some(isCaution) ? DEFERRAL : null;
  if (deferral !== null) blocks.push(deferralLine());
  return { blocks, data: CHECK_DATA.json({ ...countsOf(findings), notJudged, deferral }, null) };
}

/** Errors are repaired by default, a warning where its code is named; null where no edit of the plan may help. */
function commandFor(file: string, able: readonly Finding[]): string | null {
  if (able.some(({ level }) => level === "error")) return repairCommandText(file, null);
  const warning = able.find(({ level }) => level === "warning");
  return warning === undefined ? null : repairCommandText(file, warning.code);
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

/** Whether the day stands, and what was found: `The day does not stand: 2 errors, 1 warning, 1 accepted`. */
function summary({ errors, warnings, notes, accepted }: Counts, computed: boolean): string {
  const parts = [
    ...(errors > 0 ? [counted(errors, "error")] : []),
    ...(warnings > 0 ? [counted(warnings, "warning")] : []),
    ...(notes > 0 ? [counted(notes, "note")] : []),
    ...(accepted > 0 ? [`${accepted} accepted`] : []),
  ];
  const found = parts.length === 0 ? "nothing found" : parts.join(", ");
  if (!computed) return `No day is computed: ${found}`;
  return errors > 0 ? `The day does not stand: ${found}` : `The day stands: ${found}`;
}

interface CheckAnswer extends Counts {
  readonly notJudged: readonly string[];
  readonly deferral: string | null;
}

/** `data` of `check`: the findings are in the envelope, this counts them. */
const CHECK_DATA = object<CheckAnswer, unknown>()({
  errors: wholeKind,
  warnings: wholeKind,
  notes: wholeKind,
  accepted: wholeKind,
  notJudged: said(listKind(textKind), "topics that nothing judges yet"),
  deferral: said(orNull(textKind), "who decides, where a caution is among the findings"),
});

/** The report `check`. */
export const checkMaker: ReportMaker = {
  place: 80,
  topics: TOPICS,
  make: ({ day, findings, say, redact }, { notJudged }, { least = "note", long = false }) =>
    checkReport({ file: day.plan.file, findings, notJudged, say, redact, least, long }),
  schema: () => CHECK_DATA.schema,
};
