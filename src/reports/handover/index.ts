/** `handover`: for the crew that takes over: vehicles, packs, gear, the next hits, who is rested when, what is open. One page. */

import type { BookingsResult } from "../../bookings/index.ts";
import type { Day } from "../../day/day.ts";
import type { Finding } from "../../findings/finding.ts";
import { joinAlike } from "../../findings/together.ts";
import type { HoursResult } from "../../hours/index.ts";
import type { KitResult } from "../../kit/index.ts";
import { kitItems } from "../../kit/items.ts";
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import type { PowerResult } from "../../power/index.ts";
import { shareText, wholePercent } from "../../power/words.ts";
import { type FuelState, rangeAt } from "../../roads/fuel.ts";
import type { RoadsResult } from "../../roads/index.ts";
import { type Instant, isoLocal } from "../../time/index.ts";
import { line } from "../shared/blocks.ts";
import { DASH, privateCell } from "../shared/cells.ts";
import { column, columns, kept, object } from "../shared/columns.ts";
import { type DayView, dayView, type ReportInput } from "../shared/dayView.ts";
import { redacting, toldOf } from "../shared/findingView.ts";
import { headingLine } from "../shared/heading.ts";
import { had, TOPICS } from "../shared/judged.ts";
import {
  flagKind,
  idKind,
  idsKind,
  instantKind,
  keyKind,
  listKind,
  type Moment,
  moment,
  orNull,
  textKind,
  wholeKind,
  wordKind,
} from "../shared/kinds.ts";
import { inOrderOfCalls, whereIs } from "../shared/people.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, Cell, Report } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";

/** What `handover` shows. */
interface HandoverInput extends ReportInput {
  readonly hours: HoursResult;
  readonly power: PowerResult;
  readonly kit: KitResult;
  readonly roads: RoadsResult;
  readonly bookings: BookingsResult;
}

interface View extends DayView {
  readonly redact: boolean;
}

interface VehicleRow {
  readonly id: Id;
  readonly place: Id | null;
  /** Whether the day drives it. */
  readonly runs: boolean;
  /** Kilometres in the tank; null where not known. */
  readonly rangeKm: number | null;
  /** How full the tank was when it was last logged, 0 to 1; null where it was not. */
  readonly level: number | null;
  readonly keys: string | null;
}

interface PackRow {
  readonly id: Id;
  readonly in: Id;
  /** Of full, 0 to 1. */
  readonly share: number;
}

interface KitRow {
  readonly in: Id;
  readonly items: readonly Id[];
}

interface HitRow {
  readonly id: Id;
  readonly start: Moment;
  readonly place: Id | null;
  readonly path: Id | null;
}

interface PersonRow {
  readonly id: Id;
  readonly place: Id | null;
  readonly release: Moment | null;
  readonly nextCall: Moment | null;
  readonly nextDrive: Moment | null;
}

interface Rows {
  readonly at: Moment;
  readonly vehicles: readonly VehicleRow[];
  readonly packs: readonly PackRow[];
  readonly kit: readonly KitRow[];
  readonly hits: readonly HitRow[];
  readonly people: readonly PersonRow[];
  readonly bookings: readonly BookingRow[];
}

/** Something booked that is still to be used, that is missing, or that goes back. */
interface BookingRow {
  readonly what: Id;
  readonly kind: "window" | "room" | "permit" | "return";
  readonly from: Moment | null;
  readonly to: Moment | null;
  readonly booked: boolean;
  readonly booking: string | null;
}

/** The report of `handover`. */
function handoverReport(input: HandoverInput): Report {
  const { day, findings, say, redact } = input;
  const view: View = { ...dayView(input), redact };
  const rows = rowsOf(input);
  return {
    command: "handover",
    blocks: [
      headingLine(day, view.clocks),
      line(`As of ${view.clocks.local(rows.at.at, rows.at.place).text}`, "strong"),
      VEHICLES.table(view, rows.vehicles, {
        title: "Vehicles",
        show: ["id", "place", "rangeKm", "keys"],
        empty: "No vehicle.",
      }),
      PACKS.table(view, rows.packs, { title: "Packs", show: ["id", "in", "percent"], empty: "No packs." }),
      KIT.table(view, rows.kit, { title: "Gear", show: ["in", "items"], empty: "No gear." }),
      HITS.table(view, rows.hits, {
        title: "Next hits",
        show: ["id", "start", "place", "path"],
        empty: "No more hits in this plan.",
      }),
      PEOPLE.table(view, rows.people, {
        title: "People",
        show: ["id", "place", "release", "nextCall", "nextDrive"],
        empty: "No one.",
      }),
      BOOKINGS.table(view, rows.bookings, {
        title: "Open bookings",
        show: ["what", "kind", "from", "to", "booked", "booking"],
        empty: "None.",
      }),
      ...openBlocks(input),
      ...noteBlocks(input),
    ],
    data: HANDOVER_DATA.json(rows, view),
    findings,
    say,
  };
}

/** What is not over at a moment, in the order of `bookings`. */
function bookingsAt(
  { plan, span }: Day,
  { paths, nights, permits, rented }: BookingsResult,
  at: Instant,
): Rows["bookings"] {
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

function rowsOf(input: HandoverInput): Rows {
  const { day, hours, power, kit, roads, bookings, now } = input;
  const at = now ?? day.span.to;
  const last = day.stops.at(-1)?.place ?? null;
  const vehicles = [...day.plan.vehicles.values()].map(({ id: own, keys }): VehicleRow => {
    const fuel = roads.fuel.find((state) => state.vehicle === own);
    const runs = day.stops.some(({ vehicle }) => vehicle === own);
    return {
      id: own,
      place: whereIs(day, own, at),
      runs,
      rangeKm: fuel === undefined ? null : fuelOf(day, fuel, now),
      level: day.plan.actual.vehicles.get(own)?.fuel ?? null,
      keys,
    };
  });
  return {
    at: { at, place: last },
    vehicles,
    packs: packsOf(power, at).toSorted((a, b) => wholePercent(b.share) - wholePercent(a.share)),
    kit: kitOf(day, kit, at),
    bookings: bookingsAt(day, bookings, at),
    hits: day.activities.flatMap(({ id: own, activity, start, place }): readonly HitRow[] =>
      activity.kind === "hit" && start !== null && start >= at
        ? [{ id: own, start: { at: start, place }, place, path: activity.signalPath }]
        : [],
    ),
    people: inOrderOfCalls(day.people).map((person): PersonRow => {
      const known = hours.people.get(person.id)?.hours;
      const bed = person.sleeps ?? null;
      return {
        id: person.id,
        place: person.spans.findLast(({ from, place }) => from <= at && place !== null)?.place ?? bed,
        release: moment(person.release, person.duties.at(-1)?.releasePlace ?? null),
        nextCall: moment(known?.earliestNextCall, bed),
        nextDrive:
          (day.plan.crew.get(person.id)?.drives.length ?? 0) === 0 ? null : moment(known?.earliestNextDrive, bed),
      };
    }),
  };
}

/** What is in the tank at the moment, else at the end of the day; null where no level is known that it follows from. */
function fuelOf(day: Day, fuel: FuelState, now: Instant | null): number | null {
  if (now === null) return fuel.endKnown ? Math.round(fuel.endKm) : null;
  return fuel.assumedFull ? null : Math.round(rangeAt(day, fuel, now));
}

function packsOf({ solution }: PowerResult, at: Instant): readonly PackRow[] {
  return solution.model.packs.map((pack) => {
    const steps = solution.replay.steps.get(pack.id) ?? [];
    const step = steps.find(({ from, to }) => from <= at && at < to) ?? steps.at(-1);
    if (step === undefined) return { id: pack.id, in: pack.at, share: pack.startWh / pack.wh };
    const part = Math.min(1, (at - step.from) / Math.max(1, step.to - step.from));
    const wh = step.whBefore + (step.whAfter - step.whBefore) * part;
    return { id: pack.id, in: step.at, share: wh / pack.wh };
  });
}

/** By who holds it, packs left out. */
function kitOf(day: Day, { track }: KitResult, at: Instant): readonly KitRow[] {
  const holders = new Map<Id, Id[]>();
  for (const { id: own } of kitItems(day.plan)) {
    if (day.plan.packs.has(own)) continue;
    const holder = track?.at(own, at)?.holder ?? track?.ends.get(own);
    if (holder !== undefined) holders.set(holder, [...(holders.get(holder) ?? []), own]);
  }
  return [...holders].map(([holder, items]) => ({ in: holder, items }));
}

/** Whether what a finding is about has an end, and is over at a moment; a breach of law stays open. */
function isOver({ law, facts }: Finding, at: Instant): boolean {
  const { to } = facts;
  return !law && typeof to === "object" && to !== null && "at" in to && typeof to.at === "number" && to.at <= at;
}

function openBlocks({ day, findings, say, redact, now }: HandoverInput): readonly Block[] {
  const at = now ?? day.span.to;
  const isOpen = (one: Finding): boolean => one.accepted === null && one.level !== "note" && !isOver(one, at);
  const open = joinAlike(findings.filter(isOpen));
  const items = open.map((finding): Cell => {
    const told = toldOf(finding, say, redacting(redact));
    return { text: `${told.word}: ${told.sentence} (${told.code})`, tone: told.tone };
  });
  return [
    { kind: "heading", text: "Open points" },
    items.length === 0 ? line("none", "good") : { kind: "list", items },
  ];
}

/** What was noted of people, hits, vehicles and gear. */
function noteBlocks({ day, say, redact }: HandoverInput): readonly Block[] {
  const { people, activities, stops, packs, vehicles, pieces } = day.plan.actual;
  const all = [people, activities, stops, packs, vehicles, pieces].flatMap((facts) =>
    [...facts].flatMap(([own, { note }]) => (note === null ? [] : [{ own, note }])),
  );
  if (all.length === 0) return [];
  const clean = redacting(redact).clean ?? ((words: string) => words);
  return [
    { kind: "heading", text: "Notes" },
    { kind: "list", items: all.map(({ own, note }): Cell => ({ text: clean(`${say.name(own)}: ${note}`) })) },
  ];
}

const VEHICLES = columns<VehicleRow, View>()({
  id: column({ label: "Vehicle", kind: idKind, value: (row) => row.id, tone: "strong" }),
  place: column({
    label: "Stands at",
    kind: orNull(idKind),
    value: ({ place }) => place,
    cell: ({ place, runs }, { say }) => {
      if (place !== null) return { text: say.name(place), raw: place };
      return runs ? { text: "on the road", raw: null } : DASH;
    },
  }),
  rangeKm: column({
    label: "Fuel",
    kind: orNull(wholeKind),
    value: ({ rangeKm }) => rangeKm,
    // Without a stated range the level says what it can.
    cell: ({ rangeKm, level }) => {
      if (rangeKm !== null) return { text: `for ${rangeKm} km`, raw: rangeKm };
      return level === null ? DASH : { text: `${Math.round(level * 100)} % full`, raw: null };
    },
  }),
  keys: column({
    label: "Keys",
    kind: orNull(textKind),
    value: ({ keys }, { redact }) => (redact ? null : keys),
    cell: ({ keys }, { redact }) => privateCell(keys, redact),
  }),
});

const PACKS = columns<PackRow, View>()({
  id: column({ label: "Pack", kind: keyKind, value: (row) => row.id }),
  in: column({ label: "In", kind: idKind, value: (row) => row.in }),
  percent: column({
    label: "Charge",
    kind: wholeKind,
    value: ({ share }) => wholePercent(share),
    cell: ({ share }) => ({ text: shareText(share), raw: wholePercent(share) }),
  }),
});

const KIT = columns<KitRow, View>()({
  in: column({ label: "In", kind: idKind, value: (row) => row.in }),
  items: column({ label: "Gear", kind: idsKind, value: ({ items }) => items }),
});

const HITS = columns<HitRow, View>()({
  id: column({ label: "Hit", kind: keyKind, value: (row) => row.id }),
  start: column({ label: "On air", kind: instantKind, value: ({ start }) => start }),
  place: column({ label: "Place", kind: orNull(idKind), value: ({ place }) => place }),
  path: column({ label: "Path", kind: orNull(keyKind), value: ({ path }) => path }),
});

const KINDS: Readonly<Record<BookingRow["kind"], string>> = {
  window: "window, line-up to clear",
  room: "room tonight",
  permit: "permit",
  return: "goes back",
};

const BOOKINGS = columns<BookingRow, View>()({
  what: column({
    label: "What",
    kind: idKind,
    value: ({ what }) => what,
    // A permit may be called like the place that it is for.
    cell: ({ what, kind }, view) => (kind === "permit" ? { text: what, raw: what } : idKind.cell(what, view)),
  }),
  kind: column({
    label: "Kind",
    kind: wordKind("window", "room", "permit", "return"),
    value: ({ kind }) => kind,
    cell: ({ kind }) => ({ text: KINDS[kind], raw: kind }),
  }),
  from: column({ label: "From", kind: orNull(instantKind), value: ({ from }) => from }),
  to: column({ label: "Until", kind: orNull(instantKind), value: ({ to }) => to }),
  booked: column({
    label: "State",
    kind: flagKind,
    value: ({ booked }) => booked,
    cell: ({ booked, kind }) => stateCell(booked, kind),
  }),
  booking: column({
    label: "Number",
    kind: orNull(textKind),
    value: ({ booking }, { redact }) => (redact ? null : booking),
    cell: ({ booking }, { redact }) => privateCell(booking, redact),
  }),
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

const PEOPLE = columns<PersonRow, View>()({
  id: column({ label: "Who", kind: idKind, value: (row) => row.id, tone: "strong" }),
  place: column({ label: "At", kind: orNull(idKind), value: ({ place }) => place }),
  release: column({ label: "Released", kind: orNull(instantKind), value: ({ release }) => release }),
  nextCall: column({ label: "Rested from", kind: orNull(instantKind), value: ({ nextCall }) => nextCall }),
  nextDrive: column({ label: "May drive from", kind: orNull(instantKind), value: ({ nextDrive }) => nextDrive }),
});

/** The JSON of `handover`. */
const HANDOVER_DATA = object<Rows, View>({
  at: kept(textKind, ({ at }, { day }) => isoLocal(at.at, zoneOfPlace(day.plan, at.place))),
  vehicles: kept(listKind(VEHICLES), ({ vehicles }) => vehicles),
  packs: kept(listKind(PACKS), ({ packs }) => packs),
  kit: kept(listKind(KIT), ({ kit }) => kit),
  hits: kept(listKind(HITS), ({ hits }) => hits),
  people: kept(listKind(PEOPLE), ({ people }) => people),
  bookings: kept(listKind(BOOKINGS), ({ bookings }) => bookings),
});

/** The report `handover`. */
export const handover: ReportMaker = {
  place: 120,
  topics: TOPICS,
  make: (input, { results }) =>
    handoverReport({
      ...input,
      hours: had(results.hours),
      power: had(results.power),
      kit: had(results.kit),
      roads: had(results.roads),
      bookings: had(results.bookings),
    }),
  schema: () => HANDOVER_DATA.schema,
};
