/** One plan of a `check`: opened, judged, and made into the piece that is printed; nothing else of it is kept. */

import { makeReport, refusalReport } from "../../index.ts";
import type { Invocation } from "../command.ts";
import { EXIT } from "../exit.ts";
import { readSource } from "../io/source.ts";
import { isDayPlan, type Target } from "../io/targets.ts";
import { type Opened, openPlan, openSource, type Refused } from "../plan/open.ts";
import { exitOf, judgeOpened, reportOptions } from "../plan/planCommand.ts";
import type { Piece, Sink } from "./sinks.ts";

/** Null for a file in a folder that is no day's plan. */
export async function checkOne(invocation: Invocation, target: Target, sink: Sink): Promise<Piece | null> {
  const told = await openTarget(invocation, target);
  if (told === null) return null;
  if (!told.ok) {
    const { findings, say } = told;
    const report = await refusalReport(findings, { say, redact: invocation.options.redact });
    return sink.piece({ told, findings, report, exit: EXIT.input, notJudged: [] });
  }
  const judged = await judgeOpened(told, invocation);
  const report = await makeReport("check", judged, reportOptions(told, invocation));
  const { findings, notJudged } = judged;
  return sink.piece({ told, findings, report, exit: await exitOf(findings, invocation), notJudged });
}

async function openTarget(invocation: Invocation, target: Target): Promise<Opened | Refused | null> {
  if (!target.found) return openPlan(invocation, target.name);
  const source = await readSource(invocation.io, target.name, null);
  return !source.ok || isDayPlan(source.text) ? openSource(invocation, source) : null;
}
