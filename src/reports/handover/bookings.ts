/** Bookings at the takeover: what is still to be used, what is missing, what goes back. */
import type { BookingsResult } from "../../bookings/index.ts";
import type { Day } from "../../day/day.ts";
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/index.ts";
import { column, columns } from "../shared/columns.ts";
import type { DayView } from "../shared/dayView.ts";
import { flagKind, idKind, instantKind, type Moment, moment, orNull, secretKind, wordKind } from "../shared/kinds.ts";
import type { Cell } from "../shared/view.ts";

/** Something booked that is still to be used, that is missing, or that goes back. */
export interface BookingRow {
  readonly what: Id;
  readonly kind: "window" | "room" | "permit" | "return";
  readonly from: Moment | null;
  readonly to: Moment | null;
  readonly booked: boolean;
  readonly booking: string | null;
}

/** What is not over at a moment, in the order of `bookings`. */
export function bookingsAt(
  { plan, span }: Day,
  { paths, nights, permits, rented }: BookingsResult,
  at: Instant,
): readonly BookingRow[] {
  const windows = paths
    .filter(({ to }) => to > at)
    .map((need): BookingRow => {
      const number = need.window === null ? null : (plan.paths.get(need.path)?.booking ?? null);
      const [from, to] = [moment(need.from, null), moment(need.to, null)];
      return { what: need.path, kind: "window", from, to, booked: need.window !== null, booking: number };
    });
  // Two people under one booking are one row.
  const rooms = [
    ...groupBy(nights, ({ place, booked, booking }) => JSON.stringify([place, booked, booking])).values(),
  ].map(
    ([{ place, booked, booking }]): BookingRow => ({
      ...{ what: place, kind: "room" },
      from: null,
      to: null,
      booked,
      booking,
    }),
  );
  const stays = permits
    .filter(({ to }) => to > at)
    .map(
      ({ permit, place, from, to, covered }): BookingRow => ({
        ...{ what: permit.id, kind: "permit", from: moment(from, place), to: moment(to, place) },
        ...{ booked: covered, booking: permit.number },
      }),
    );
  const returns = rented.flatMap(({ item, at: due, place, late }): readonly BookingRow[] =>
    due !== null && due < at && due < span.from
      ? []
      : [{ what: item, kind: "return", from: null, to: moment(due, place), booked: !late, booking: null }],
  );
  return [...windows, ...rooms, ...stays, ...returns];
}

const KINDS: Readonly<Record<BookingRow["kind"], string>> = {
  window: "window, line-up to clear",
  room: "room tonight",
  permit: "permit",
  return: "goes back",
};

/** Bookings at the takeover, a row each. */
export const HANDOVER_BOOKINGS = columns<BookingRow, DayView>()({
  what: column("What", idKind, {
    // A permit may be called like the place that it is for.
    cell: ({ what, kind }, view) => (kind === "permit" ? { text: what, raw: what } : idKind.cell(what, view)),
  }),
  kind: column("Kind", wordKind("window", "room", "permit", "return"), {
    cell: ({ kind }) => ({ text: KINDS[kind], raw: kind }),
  }),
  from: column("From", orNull(instantKind)),
  to: column("Until", orNull(instantKind)),
  booked: column("State", flagKind, { cell: ({ booked, kind }) => stateCell(booked, kind) }),
  booking: column("Number", secretKind),
});

function stateCell(booked: boolean, kind: BookingRow["kind"]): Cell {
  const [yes, no] = {
    window: ["booked", "missing"],
    room: ["booked", "missing"],
    permit: ["covers the stay", "does not cover the stay"],
    return: ["due", "late"],
  }[kind];
  return booked ? { text: yes ?? "", raw: "true" } : { text: no ?? "", raw: "false", tone: "bad" };
}
