/** When whom nobody can reach, as a table and as JSON: the same in `calls` and `drives`. */
import { clockColumn, column, columns } from "./columns.ts";
import type { DayView } from "./dayView.ts";
import { id, ids, instant } from "./kinds.ts";
import type { Silence } from "./reach.ts";
import type { Table } from "./view.ts";

export const SILENCES = columns<Silence>()({
  who: column({ label: "Who", kind: ids, value: ({ who }) => who, tone: "strong" }),
  from: clockColumn({ label: "From", kind: instant, value: ({ from, fromPlace }) => ({ at: from, place: fromPlace }) }),
  to: column({ label: "To", kind: instant, value: ({ to, toPlace }) => ({ at: to, place: toPlace }) }),
  fromPlace: column({ label: "Leaving", kind: id, value: ({ fromPlace }) => fromPlace }),
  toPlace: column({ label: "Until", kind: id, value: ({ toPlace }) => toPlace }),
});

export const reachTable = (view: DayView, silences: readonly Silence[]): Table =>
  SILENCES.table(view, silences, {
    title: "Out of reach",
    show: ["who", "from", "to", "fromPlace", "toPlace"],
    empty: "Everyone can be reached all day.",
  });
