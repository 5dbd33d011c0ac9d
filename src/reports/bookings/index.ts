/** `bookings`: what must be booked or told, what is booked and what is missing: windows, beds, permits, returns; whom to call. */

import { bookingUnused } from "../../bookings/findings.ts";
import type { BookedNight, BookingsResult, PathNeed, PermitStay, Return } from "../../bookings/index.ts";
import type { Day } from "../../day/day.ts";
import type { Finding } from "../../findings/finding.ts";
import { type Instant, isoUtc } from "../../time/index.ts";
import { filled, line, list, listUnder } from "../shared/blocks.ts";
import { DASH } from "../shared/cells.ts";
import { clockColumn, column, columns, object, shown } from "../shared/columns.ts";
import { type DayView, dayView, type TopicInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import {
  flagKind,
  idKind,
  idsKind,
  instantKind,
  keyKind,
  listKind,
  moment,
  orNull,
  secretKind,
  textKind,
} from "../shared/kinds.ts";
import { topicMaker } from "../shared/report.ts";
import type { Block, Cell, ReportParts } from "../shared/view.ts";

/** The report of `bookings`. */
function bookingsReport(input: TopicInput<BookingsResult>): ReportParts {
  const { result, findings } = input;
  const view = dayView(input);
  const { paths, nights, permits, rented } = result;
  return {
    blocks: [
      headingLine(input.day, view.clocks),
      PATHS.table(view, paths, {
        title: "Windows, line-up to clear",
        show: ["path", "uses", "from", "fromUtc", "to", "toUtc", "booked", "booking", "call"],
        empty: "No path needs a window.",
      }),
      ...idle(view, findings),
      NIGHTS.table(view, nights, { title: "Beds tonight", empty: "No beds at a lodging tonight." }),
      ...filled(PERMITS.table(view, permits, { title: "Permits", empty: "" })),
      ...filled(RENTED.table(view, rented, { title: "To return", empty: "" })),
      ...missing(view, result),
    ],
    data: BOOKINGS_DATA.json(result, view),
  };
}

/** Windows and rooms that are booked and not used. */
function idle({ say }: DayView, findings: readonly Finding[]): readonly Block[] {
  const items = findings
    .filter(({ code }) => code === bookingUnused.entry.code)
    .map((finding): Cell => ({ text: finding.sentence(say), tone: "warn" }));
  return list(items);
}

/** What is missing, in the order in which it is needed, with whom to call. */
function missing(
  { day, say, clocks, redact }: DayView,
  { paths, nights, permits, rented }: BookingsResult,
): readonly Block[] {
  const whom = (phone: string | null | undefined): string => (redact || phone == null ? "" : `; call ${phone}`);
  const windows = paths.flatMap((need) => {
    if (need.window !== null) return [];
    const [from, to] = [need.from, need.to].map((at) => clocks.local(at, placeOf(day, need)).text);
    const phone = whom(day.plan.paths.get(need.path)?.phone);
    return [
      { at: need.from, text: `book a window of ${need.path} for ${need.uses.join(", ")}, ${from} to ${to}${phone}` },
    ];
  });
  const stays = permits.flatMap(({ permit, place, from, to, covered }) =>
    covered
      ? []
      : [
          {
            at: from,
            text: `extend the permit ${permit.id} to ${clocks.local(from, place).text}–${clocks.local(to, place).text} at ${say.name(place)}${permit.holder === null ? "" : `; ask ${permit.holder}`}`,
          },
        ],
  );
  const rooms = nights.flatMap(({ who, place, night, booked }) =>
    booked || (day.plan.places.get(place)?.rooms.length ?? 0) === 0
      ? []
      : [
          {
            at: day.span.to,
            text: `book a room at ${say.name(place)} on ${night} for ${who.map((one) => say.name(one)).join(", ")}`,
          },
        ],
  );
  const returns = rented.flatMap(({ item, at, place, late }) =>
    late && at !== null
      ? [{ at, text: `bring back ${say.name(item)} by ${clocks.local(at, place).text}, or extend the rental` }]
      : [],
  );
  const all = [...windows, ...stays, ...rooms, ...returns].toSorted((a, b) => a.at - b.at);
  if (all.length === 0) return [line("Nothing is missing.", "good")];
  const items = all.map(({ text }): Cell => ({ text, tone: "warn" }));
  return listUnder("To do, in order", items);
}

const utc = (at: Instant): string => isoUtc(at).slice(11, 16);

const bookedCell = (is: boolean): Cell =>
  is ? { text: "booked", raw: "true", tone: "good" } : { text: "missing", raw: "false", tone: "bad" };

const PATHS = columns<PathNeed, DayView>()({
  path: column("Path", keyKind),
  uses: column("For", listKind(keyKind)),
  from: clockColumn("From", (need, { day }) => moment(need.from, placeOf(day, need)), { kind: orNull(instantKind) }),
  to: clockColumn("To", (need, { day }) => moment(need.to, placeOf(day, need)), { kind: orNull(instantKind) }),
  fromUtc: shown("UTC", ({ from }) => ({ text: utc(from), raw: isoUtc(from) })),
  toUtc: shown("UTC to", ({ to }) => ({ text: utc(to), raw: isoUtc(to) })),
  booked: column("Window", flagKind, ({ window }) => window !== null, {
    cell: ({ window }) => bookedCell(window !== null),
  }),
  booking: column("Booking", secretKind, ({ path, window }, { day }) =>
    window === null ? null : (day.plan.paths.get(path)?.booking ?? null),
  ),
  call: column("Call", secretKind, ({ path }, { day }) => day.plan.paths.get(path)?.phone ?? null),
});

const placeOf = (day: Day, { uses }: PathNeed): string | null =>
  day.activities.find(({ id: one }) => one === uses[0])?.place ?? null;

const NIGHTS = columns<BookedNight, DayView>()({
  place: column("Lodging", idKind),
  who: column("Who", idsKind),
  night: column("Night of", textKind),
  booked: column("Room", flagKind, {
    cell: ({ booked, place }, { day }) =>
      booked
        ? bookedCell(true)
        : (day.plan.places.get(place)?.rooms.length ?? 0) === 0
          ? { text: "not stated", raw: "false" }
          : bookedCell(false),
  }),
  booking: column("Booking", secretKind),
});

const PERMITS = columns<PermitStay, DayView>()({
  permit: column("Permit", textKind, ({ permit }) => permit.id),
  what: column("What", orNull(textKind), ({ permit }) => permit.what),
  place: column("Place", idKind),
  from: column("From", orNull(instantKind), ({ from, place }) => moment(from, place)),
  to: column("To", orNull(instantKind), ({ to, place }) => moment(to, place)),
  covered: column("Covered", flagKind, {
    cell: ({ covered }) => (covered ? { text: "yes", raw: "true" } : { text: "no", raw: "false", tone: "bad" }),
  }),
  holder: column("Holder", orNull(textKind), ({ permit }) => permit.holder),
  number: column("Number", secretKind, ({ permit }) => permit.number),
});

const RENTED = columns<Return, DayView>()({
  item: column("What", idKind),
  at: column("Due", orNull(instantKind), ({ at, place }) => moment(at, place)),
  place: column("Return to", orNull(idKind)),
  is: column("Where it is then", orNull(idKind), {
    cell: ({ is, late }, { say }) => {
      if (is !== null) return { text: say.name(is), raw: is, ...(late ? { tone: "bad" as const } : {}) };
      // Only what is due on this day has a place then.
      return late ? { text: "on the road", raw: null, tone: "bad" } : DASH;
    },
  }),
});

/** The JSON of `bookings`. */
const BOOKINGS_DATA = object<BookingsResult, DayView>()({
  paths: listKind(PATHS),
  nights: listKind(NIGHTS),
  permits: listKind(PERMITS),
  rented: listKind(RENTED),
});

/** The report `bookings`. */
export const bookingsMaker = topicMaker(130, "bookings", bookingsReport, BOOKINGS_DATA);
