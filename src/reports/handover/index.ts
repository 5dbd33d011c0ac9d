/** `handover`: for the crew that takes over: vehicles, packs, gear, the next hits, who is rested when, what is open. One page. */

import type { BookingsResult } from "../../bookings/index.ts";
import type { Day } from "../../day/day.ts";
import type { Finding } from "../../findings/finding.ts";
import type { KitResult } from "../../kit/index.ts";
import { kitItems } from "../../kit/items.ts";
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import type { PowerResult } from "../../power/index.ts";
import { shareText, wholePercent } from "../../power/words.ts";
import { type FuelState, rangeAt } from "../../roads/fuel.ts";
import { type Instant, isoLocal } from "../../time/index.ts";
import { line, listUnder } from "../shared/blocks.ts";
import { DASH, flagCell, placeCell } from "../shared/cells.ts";
import { column, columns, kept, object } from "../shared/columns.ts";
import { type DayView, dayView, type ReportInput } from "../shared/dayView.ts";
import { findingItems, redacting } from "../shared/findingView.ts";
import { headingLine } from "../shared/heading.ts";
import { type AllResults, had, TOPICS } from "../shared/judged.ts";
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
  secretKind,
  textKind,
  wholeKind,
  wordKind,
} from "../shared/kinds.ts";
import { inOrderOfCalls, whereIs } from "../shared/people.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, ReportParts } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";

/** The report of `handover`. */
function handoverReport(input: HandoverInput): ReportParts {
  const { day } = input;
  const view = dayView(input);
  const rows = handoverRows(input);
  return {
    blocks: [
      headingLine(day, view.clocks),
      line(`As of ${view.clocks.local(rows.at.at, rows.at.place).text}`, "strong"),
      VEHICLES.table(view, rows.vehicles, { title: "Vehicles", empty: "No vehicle." }),
      PACKS.table(view, rows.packs, { title: "Packs", empty: "No packs." }),
      KIT.table(view, rows.kit, { title: "Gear", empty: "No gear." }),
      HITS.table(view, rows.hits, { title: "Next hits", empty: "No more hits in this plan." }),
      PEOPLE.table(view, rows.people, { title: "People", empty: "No one." }),
      BOOKINGS.table(view, rows.bookings, { title: "Open bookings", empty: "None." }),
      ...openBlocks(input),
      ...noteBlocks(input),
    ],
    data: HANDOVER_DATA.json(rows, view),
  };
}

/** Whether what a finding is about has an end, and is over at a moment; a breach of law stays open. */
function isOver({ law, facts }: Finding, at: Instant): boolean {
  const { to } = facts;
  return !law && typeof to === "object" && to !== null && "at" in to && typeof to.at === "number" && to.at <= at;
}

function openBlocks({ day, findings, say, redact, now }: HandoverInput): readonly Block[] {
  const at = now ?? day.span.to;
  const isOpen = (one: Finding): boolean => one.accepted === null && one.level !== "note" && !isOver(one, at);
  const items = findingItems(findings.filter(isOpen), say, redact);
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
  const clean = redacting(redact).clean ?? ((words: string) => words);
  const items = all.map(({ own, note }) => ({ text: clean(`${say.name(own)}: ${note}`) }));
  return listUnder("Notes", items);
}

/** What `handover` shows. */
type HandoverInput = ReportInput & Pick<AllResults, "hours" | "power" | "kit" | "roads" | "bookings">;

/** The rows at the moment that is asked about, else at the end of the day. */
function handoverRows(input: HandoverInput) {
  const { day, hours, power, kit, roads, bookings, now } = input;
  const at = now ?? day.span.to;
  const last = day.stops.at(-1)?.place ?? null;
  return {
    at: { at, place: last },
    vehicles: [...day.plan.vehicles.values()].map(({ id: own, keys }) => {
      const fuel = roads.fuel.find((state) => state.vehicle === own);
      return {
        id: own,
        place: whereIs(day, own, at),
        /** Whether the day drives it. */
        runs: day.stops.some(({ vehicle }) => vehicle === own),
        /** Kilometres in the tank; null where not known. */
        rangeKm: fuel === undefined ? null : fuelOf(day, fuel, now),
        /** How full the tank was when it was last logged, 0 to 1; null where it was not. */
        level: day.plan.actual.vehicles.get(own)?.fuel ?? null,
        keys,
      };
    }),
    packs: packsOf(power, at).toSorted((a, b) => wholePercent(b.share) - wholePercent(a.share)),
    kit: kitOf(day, kit, at),
    bookings: bookingsAt(day, bookings, at),
    hits: day.activities.flatMap(({ id: own, activity, start, place }) =>
      activity.kind === "hit" && start !== null && start >= at
        ? [{ id: own, start: { at: start, place }, place, path: activity.signalPath }]
        : [],
    ),
    people: inOrderOfCalls(day.people).map((person) => {
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

/** Shares are of full, 0 to 1. */
function packsOf({ solution }: PowerResult, at: Instant) {
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
function kitOf(day: Day, { track }: KitResult, at: Instant) {
  const held = kitItems(day.plan).flatMap(({ id }) => {
    const holder = day.plan.packs.has(id) ? undefined : (track?.at(id, at)?.holder ?? track?.ends.get(id));
    return holder === undefined ? [] : [{ id, holder }];
  });
  return [...groupBy(held, ({ holder }) => holder)].map(([holder, all]) => ({
    in: holder,
    items: all.map(({ id }) => id),
  }));
}

type Rows = ReturnType<typeof handoverRows>;

const VEHICLES = columns<Rows["vehicles"][number], DayView>()({
  id: column("Vehicle", idKind, { tone: "strong" }),
  place: column("Stands at", orNull(idKind), {
    cell: ({ place, runs }, { say }) => (place === null && !runs ? DASH : placeCell(say, place)),
  }),
  rangeKm: column("Fuel", orNull(wholeKind), {
    // Without a stated range the level says what it can.
    cell: ({ rangeKm, level }) => {
      if (rangeKm !== null) return { text: `for ${rangeKm} km`, raw: rangeKm };
      return level === null ? DASH : { text: `${Math.round(level * 100)} % full`, raw: null };
    },
  }),
  keys: column("Keys", secretKind),
});

const PACKS = columns<Rows["packs"][number], DayView>()({
  id: column("Pack", keyKind),
  in: column("In", idKind),
  percent: column("Charge", wholeKind, ({ share }) => wholePercent(share), {
    cell: ({ share }) => ({ text: shareText(share), raw: wholePercent(share) }),
  }),
});

const KIT = columns<Rows["kit"][number], DayView>()({
  in: column("In", idKind),
  items: column("Gear", idsKind),
});

const HITS = columns<Rows["hits"][number], DayView>()({
  id: column("Hit", keyKind),
  start: column("On air", instantKind),
  place: column("Place", orNull(idKind)),
  path: column("Path", orNull(keyKind)),
});

const PEOPLE = columns<Rows["people"][number], DayView>()({
  id: column("Who", idKind, { tone: "strong" }),
  place: column("At", orNull(idKind)),
  release: column("Released", orNull(instantKind)),
  nextCall: column("Rested from", orNull(instantKind)),
  nextDrive: column("May drive from", orNull(instantKind)),
});

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
function bookingsAt({ plan, span }: Day, { paths, nights, permits, rented }: BookingsResult, at: Instant) {
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

const BOOKINGS = columns<ReturnType<typeof bookingsAt>[number], DayView>()({
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

/** The JSON of `handover`. */
const HANDOVER_DATA = object<Rows, DayView>()({
  at: kept(textKind, ({ at }, { day }) => isoLocal(at.at, zoneOfPlace(day.plan, at.place))),
  vehicles: listKind(VEHICLES),
  packs: listKind(PACKS),
  kit: listKind(KIT),
  hits: listKind(HITS),
  people: listKind(PEOPLE),
  bookings: listKind(BOOKINGS),
});

/** The report `handover`. */
export const handoverMaker: ReportMaker = {
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
