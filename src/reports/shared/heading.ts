/** The lines around a report: the plan's title, date and clocks above it, how far it goes below. */

import { DEFERRAL } from "../../cautions/deferral.ts";
import type { Day } from "../../day/day.ts";
import { line } from "./blocks.ts";
import type { ReportClocks } from "./clocks.ts";
import type { Block } from "./view.ts";

/** The line with day, date and clocks above a report. */
export function headingLine(day: Day, clocks: ReportClocks): Block {
  const { title, date } = day.plan;
  return {
    kind: "line",
    cells: [
      { text: title === null ? date : `${title} · ${date}`, tone: "strong" },
      { text: ` · ${clocks.legend(day)}` },
    ],
  };
}

/** Under every report that carries a caution or a judgement of law, however it shows it. */
export const deferralLine = (): Block => line(DEFERRAL, "muted");

/** Topics that nothing judged; no line where all were. */
export const notJudgedLines = (topics: readonly string[]): readonly Block[] =>
  topics.length === 0 ? [] : [line(`Not judged yet: ${topics.join(", ")}`, "warn")];
