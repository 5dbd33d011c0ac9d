/** One plan of a `check`: loaded, judged, and made into the piece that is printed; nothing else of it is kept. */

import {
  answers,
  type Claim,
  doubleBookings,
  type Finding,
  type Level,
  makeReport,
  refusalReport,
} from "../../index.ts";
import { type Invocation, ownFlag, ownText } from "../command.ts";
import { EXIT } from "../exit.ts";
import { readSource } from "../io/source.ts";
import { isDayPlan } from "../io/targets.ts";
import { type LoadedPlan, type LoadFailure, loadPlan, loadSource, refusedLoad } from "../plan/load.ts";
import { exitOf, judgeLoaded, reportOptions } from "../plan/planCommand.ts";
import type { CheckedPiece, CheckTarget } from "./pool.ts";
import type { Sink } from "./sinks.ts";

/** Null for a file in a folder that is no day's plan. */
export async function checkOne(invocation: Invocation, target: CheckTarget, sink: Sink): Promise<CheckedPiece | null> {
  const context = await loadTarget(invocation, target);
  if (context === null) return null;
  const least = leastOf(invocation);
  const long = ownFlag(invocation, "long");
  const { isShown } = await answers();
  const shown = (finding: Finding): boolean => isShown(finding, least);
  if (!context.ok) {
    const { findings, say } = context;
    const report = await refusalReport(findings, { say, redact: invocation.options.redact, least, long });
    return sink.piece({ context, findings: findings.filter(shown), report, exit: EXIT.input, notJudged: [] });
  }
  const judged = await judgeLoaded(context, invocation);
  const report = await makeReport("check", judged, { ...reportOptions(context, invocation), least, long });
  const { findings, notJudged } = judged;
  const exit = await exitOf(findings, invocation);
  const piece = await sink.piece({ context, findings: findings.filter(shown), report, exit, notJudged });
  return { ...piece, claim: (await doubleBookings()).claimOf(judged.day, context.file) };
}

/** What the plans that were checked say of each other: more pieces of those that use the same at the same time. */
export async function comparePieces(
  invocation: Invocation,
  claims: readonly Claim[],
  sink: Sink,
): Promise<readonly CheckedPiece[]> {
  if (claims.length < 2) return [];
  const least = leastOf(invocation);
  const [{ compareClaims }, { isShown }] = await Promise.all([doubleBookings(), answers()]);
  const pieces: CheckedPiece[] = [];
  for (const [file, all] of compareClaims(claims)) {
    const findings = all.filter((finding) => isShown(finding, least));
    if (findings.length === 0) continue;
    const context = await refusedLoad(file, findings);
    const report = await refusalReport(findings, { say: context.say, redact: invocation.options.redact });
    const exit = await exitOf(findings, invocation);
    pieces.push({ ...(await sink.piece({ context, findings, report, exit, notJudged: [] })), more: true });
  }
  return pieces;
}

/** `--level`: the least level that is printed; what is found and the exit code stay as they are. */
const leastOf = (invocation: Invocation): Level =>
  LEVELS.find((level) => level === ownText(invocation, "level")) ?? "note";

const LEVELS: readonly Level[] = ["error", "warning", "note"];

async function loadTarget(invocation: Invocation, target: CheckTarget): Promise<LoadedPlan | LoadFailure | null> {
  if (!target.found) return loadPlan(invocation, target.name);
  const source = await readSource(invocation.io, target.name, null);
  return !source.ok || isDayPlan(source.text) ? loadSource(invocation, source) : null;
}
