/** Bookings at the takeover: what is still to be used, what is missing, what goes back. */
import type { BookingsResult } from "../../bookings/index.ts";
import type { Day } from "../../day/day.ts";
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/index.ts";
import { flagCell } from "../shared/cells.ts";
import { column, columns } from "../shared/columns.ts";
import type { DayView } from "../shared/dayView.ts";
import { flagKind, idKind, instantKind, type Moment, moment, orNull, secretKind, wordKind } from "../shared/kinds.ts";

type Kind = "window" | "room" | "permit" | "return";

const row = (
  what: Id,
  kind: Kind,
  from: Moment | null,
  to: Moment | null,
  booked: boolean,
  booking: string | null,
) => ({ what, kind, from, to, booked, booking });

/** What is not over at a moment, in the order of `bookings`. */
export function bookingsAt({ plan, span }: Day, { paths, nights, permits, rented }: BookingsResult, at: Instant) {
  const windows = paths
    .filter(({ to }) => to > at)
    .map(({ path, window, from, to }) => {
      const number = window === null ? null : (plan.paths.get(path)?.booking ?? null);
      return row(path, "window", moment(from, null), moment(to, null), window !== null, number);
    });
  // Two people under one booking are one row.
  const rooms = [
    ...groupBy(nights, ({ place, booked, booking }) => JSON.stringify([place, booked, booking])).values(),
  ].map(([{ place, booked, booking }]) => row(place, "room", null, null, booked, booking));
  const stays = permits
    .filter(({ to }) => to > at)
    .map(({ permit, place, from, to, covered }) =>
      row(permit.id, "permit", moment(from, place), moment(to, place), covered, permit.number),
    );
  const returns = rented.flatMap(({ item, at: due, place, late }) =>
    due !== null && due < at && due < span.from ? [] : [row(item, "return", null, moment(due, place), !late, null)],
  );
  return [...windows, ...rooms, ...stays, ...returns];
}

/** What each kind is called, and what it is where it is booked and where it is not. */
const WORDS: Readonly<Record<Kind, readonly [kind: string, yes: string, no: string]>> = {
  window: ["window, line-up to clear", "booked", "missing"],
  room: ["room tonight", "booked", "missing"],
  permit: ["permit", "covers the stay", "does not cover the stay"],
  return: ["goes back", "due", "late"],
};

/** Bookings at the takeover, a row each. */
export const HANDOVER_BOOKINGS = columns<ReturnType<typeof bookingsAt>[number], DayView>()({
  what: column("What", idKind, {
    // A permit may be called like the place that it is for.
    cell: ({ what, kind }, view) => (kind === "permit" ? { text: what, raw: what } : idKind.cell(what, view)),
  }),
  kind: column("Kind", wordKind("window", "room", "permit", "return"), {
    cell: ({ kind }) => ({ text: WORDS[kind][0], raw: kind }),
  }),
  from: column("From", orNull(instantKind)),
  to: column("Until", orNull(instantKind)),
  booked: column("State", flagKind, {
    cell: ({ booked, kind }) => {
      const [, yes, no] = WORDS[kind];
      return booked ? flagCell(true, yes) : flagCell(false, no, "bad");
    },
  }),
  booking: column("Number", secretKind),
});
