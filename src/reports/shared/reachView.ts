/** When whom no one can reach, as a table and as JSON: the same in `calls` and `drives`. */
import { clockColumn, column, columns } from "./columns.ts";
import type { DayView } from "./dayView.ts";
import { idKind, idsKind, instantKind } from "./kinds.ts";
import type { NoSignal } from "./reach.ts";
import type { Table } from "./view.ts";

/** A row for each stretch without signal. */
export const SILENCES = columns<NoSignal>()({
  who: column({ label: "Who", kind: idsKind, value: ({ who }) => who, tone: "strong" }),
  from: clockColumn({
    label: "From",
    kind: instantKind,
    value: ({ from, fromPlace }) => ({ at: from, place: fromPlace }),
  }),
  to: column({ label: "To", kind: instantKind, value: ({ to, toPlace }) => ({ at: to, place: toPlace }) }),
  fromPlace: column({ label: "Leaving", kind: idKind, value: ({ fromPlace }) => fromPlace }),
  toPlace: column({ label: "Until", kind: idKind, value: ({ toPlace }) => toPlace }),
});

/** The table of stretches without signal. */
export const reachTable = (view: DayView, silences: readonly NoSignal[]): Table =>
  SILENCES.table(view, silences, {
    title: "Out of reach",
    show: ["who", "from", "to", "fromPlace", "toPlace"],
    empty: "Everyone can be reached all day.",
  });
