/** What `handover` says of vehicles, packs, gear, hits and people at a moment; every key with its column. */
import type { BookingsResult } from "../../bookings/index.ts";
import type { Day } from "../../day/day.ts";
import type { HoursResult } from "../../hours/index.ts";
import type { KitResult } from "../../kit/index.ts";
import { kitItems } from "../../kit/items.ts";
import { groupBy } from "../../lists.ts";
import type { PowerResult } from "../../power/index.ts";
import { shareText, wholePercent } from "../../power/words.ts";
import { type FuelState, rangeAt } from "../../roads/fuel.ts";
import type { RoadsResult } from "../../roads/index.ts";
import { type Instant, isoLocal } from "../../time/index.ts";
import { DASH, placeCell } from "../shared/cells.ts";
import { column, columns, kept, object } from "../shared/columns.ts";
import type { DayView, ReportInput } from "../shared/dayView.ts";
import {
  idKind,
  idsKind,
  instantKind,
  keyKind,
  listKind,
  moment,
  orNull,
  secretKind,
  textKind,
  wholeKind,
} from "../shared/kinds.ts";
import { inOrderOfCalls, whereIs } from "../shared/people.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import { bookingsAt, HANDOVER_BOOKINGS } from "./bookings.ts";

/** What `handover` shows. */
export interface HandoverInput extends ReportInput {
  readonly hours: HoursResult;
  readonly power: PowerResult;
  readonly kit: KitResult;
  readonly roads: RoadsResult;
  readonly bookings: BookingsResult;
}

/** The rows at the moment that is asked about, else at the end of the day. */
export function handoverRows(input: HandoverInput) {
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

/** Vehicles at the takeover, a row each. */
export const HANDOVER_VEHICLES = columns<Rows["vehicles"][number], DayView>()({
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

/** Packs at the takeover, a row each. */
export const HANDOVER_PACKS = columns<Rows["packs"][number], DayView>()({
  id: column("Pack", keyKind),
  in: column("In", idKind),
  percent: column("Charge", wholeKind, ({ share }) => wholePercent(share), {
    cell: ({ share }) => ({ text: shareText(share), raw: wholePercent(share) }),
  }),
});

/** Gear at the takeover, a row each. */
export const HANDOVER_KIT = columns<Rows["kit"][number], DayView>()({
  in: column("In", idKind),
  items: column("Gear", idsKind),
});

/** Hits at the takeover, a row each. */
export const HANDOVER_HITS = columns<Rows["hits"][number], DayView>()({
  id: column("Hit", keyKind),
  start: column("On air", instantKind),
  place: column("Place", orNull(idKind)),
  path: column("Path", orNull(keyKind)),
});

/** People at the takeover, a row each. */
export const HANDOVER_PEOPLE = columns<Rows["people"][number], DayView>()({
  id: column("Who", idKind, { tone: "strong" }),
  place: column("At", orNull(idKind)),
  release: column("Released", orNull(instantKind)),
  nextCall: column("Rested from", orNull(instantKind)),
  nextDrive: column("May drive from", orNull(instantKind)),
});

/** The JSON of `handover`. */
export const HANDOVER_DATA = object<Rows, DayView>()({
  at: kept(textKind, ({ at }, { day }) => isoLocal(at.at, zoneOfPlace(day.plan, at.place))),
  vehicles: listKind(HANDOVER_VEHICLES),
  packs: listKind(HANDOVER_PACKS),
  kit: listKind(HANDOVER_KIT),
  hits: listKind(HANDOVER_HITS),
  people: listKind(HANDOVER_PEOPLE),
  bookings: listKind(HANDOVER_BOOKINGS),
});
