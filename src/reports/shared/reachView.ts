/** When whom nobody can reach, as a table and as JSON: the same in `calls` and `drives`. */
import type { Say } from "../../findings/finding.ts";
import type { Plan } from "../../plan/plan.ts";
import { column, named, namesCell } from "./cells.ts";
import type { Clocks } from "./clocks.ts";
import type { Silence } from "./reach.ts";
import { isoAt } from "./stamps.ts";
import type { Json, Table } from "./view.ts";

export function reachTable(say: Say, clocks: Clocks, silences: readonly Silence[]): Table {
  return {
    kind: "table",
    title: "Out of reach",
    columns: [
      column("Who", "who"),
      ...clocks.columns("From", "from"),
      column("To", "to"),
      column("Leaving", "fromPlace"),
      column("Until", "toPlace"),
    ],
    rows: silences.map((silence) => [
      { ...namesCell(say, silence.who), tone: "strong" },
      ...clocks.cells(silence.from, silence.fromPlace),
      clocks.local(silence.to, silence.toPlace),
      named(say, silence.fromPlace),
      named(say, silence.toPlace),
    ]),
    empty: "Everyone can be reached all day.",
  };
}

export const silenceJson = (plan: Plan, silence: Silence): Json => ({
  who: silence.who,
  from: isoAt(plan, silence.from, silence.fromPlace),
  to: isoAt(plan, silence.to, silence.toPlace),
  fromPlace: silence.fromPlace,
  toPlace: silence.toPlace,
});
