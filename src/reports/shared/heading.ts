/** The first line of a report: the plan's title, its date, and which clocks its times are on. */
import type { Day } from "../../day/day.ts";
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
