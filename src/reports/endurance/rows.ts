/** What `endurance` says of vehicles, people, packs and what comes next: every key with its column. */
import type {
  Endurance,
  FirstEnd,
  Next,
  PackEndurance,
  PersonEndurance,
  PlaceReach,
  VehicleEndurance,
} from "../../endurance/index.ts";
import type { Instant } from "../../time/index.ts";
import { DASH, numberCell } from "../shared/cells.ts";
import { clockColumn, column, columns, kept, object, shown } from "../shared/columns.ts";
import type { DayView } from "../shared/dayView.ts";
import {
  flagKind,
  idKind,
  idsKind,
  instantKind,
  type Kind,
  keyKind,
  listKind,
  type Moment,
  minutesKind,
  moment,
  numberKind,
  orNull,
  textKind,
  wholeKind,
  wordKind,
} from "../shared/kinds.ts";
import type { Cell } from "../shared/view.ts";

/** A view that knows where each vehicle and person is, for the clock of their times. */
export interface EnduranceView extends DayView {
  readonly placeOf: (id: string) => string | null;
}

/** A moment of a vehicle or a person, on the clock of where they are. */
const there = (at: Instant, id: string, view: EnduranceView): Moment => ({ at, place: view.placeOf(id) });

/** A moment that no limit sets: empty for programs, as in JSON. */
const NO_LIMIT: Cell = { text: "no limit", raw: null };

/** Figures to a tenth. */
const tenth: Kind<number, unknown> = {
  ...numberKind,
  json: (value) => Math.round(value * 10) / 10,
  cell: (value) => numberCell(value, 1),
};

/** In place of a moment where nothing ends it within two days. */
const endless = (is: boolean): readonly [Cell, Cell] | null => (is ? [NO_LIMIT, DASH] : null);

const limit = object<NonNullable<VehicleEndurance["lawBecause"]>, EnduranceView>()({
  who: keyKind,
  limit: textKind,
  clause: orNull(textKind),
});

const rolled = object<Omit<OrderRow, "asleep">, EnduranceView>()({
  from: kept(instantKind, ({ vehicle, stretch }, view) => there(stretch.from, vehicle, view)),
  to: kept(instantKind, ({ vehicle, stretch }, view) => there(stretch.to, vehicle, view)),
  driver: kept(orNull(keyKind), ({ stretch }) => stretch.driver),
});

/** A row for each vehicle. */
export const VEHICLES = columns<VehicleEndurance, EnduranceView>()({
  vehicle: column("Vehicle", idKind, { tone: "strong" }),
  who: column("Aboard", idsKind, { spare: 3 }),
  breakBy: clockColumn("Break by", (own, view) => there(own.breakBy, own.vehicle, view), {
    kind: instantKind,
    instead: (own) => endless(own.breakBecause === null),
    deskSpare: 4,
  }),
  breakBecause: orNull(limit),
  lawUntil: clockColumn("Law until", (own, view) => there(own.lawUntil, own.vehicle, view), {
    kind: instantKind,
    instead: (own) => endless(own.lawBecause === null),
    deskSpare: 4,
  }),
  lawBecause: orNull(limit),
  houseUntil: column("House until", instantKind, (own, view) => there(own.houseUntil, own.vehicle, view), { spare: 1 }),
  houseBecause: orNull(limit),
  fuelKm: column("Fuel above reserve", orNull(tenth), {
    cell: ({ fuelKm, fuelAssumed }) =>
      fuelKm === null
        ? DASH
        : { text: `${Math.floor(fuelKm)} km${fuelAssumed ? " if full at the start" : ""}`, raw: fuelKm },
    spare: 2,
  }),
  fuelUntil: column(
    "Fuel until",
    orNull(instantKind),
    (own, view) => moment(own.fuelUntil, view.placeOf(own.vehicle)),
    { spare: 1 },
  ),
  fuelAssumed: flagKind,
  wheelMinutes: column("At the wheel", minutesKind, {
    cell: (own, view) => {
      const cell = minutesKind.cell(own.wheelMinutes, view);
      return own.lawBecause === null ? { ...cell, text: NO_LIMIT.text } : cell;
    },
    spare: 3,
  }),
  order: kept(listKind(rolled), ({ vehicle, order }) => order.map((stretch) => ({ vehicle, stretch }))),
  proven: flagKind,
});

/** One stretch of a vehicle's order. */
export interface OrderRow {
  readonly vehicle: string;
  readonly stretch: VehicleEndurance["order"][number];
  /** In the berth. */
  readonly asleep: readonly string[];
}

/** A row for each turn at the wheel. */
export const ORDER = columns<OrderRow, EnduranceView>()({
  vehicle: shown("Vehicle", ({ vehicle }, view) => ({ ...idKind.cell(vehicle, view), tone: "strong" })),
  from: clockColumn("From", ({ vehicle, stretch }, view) => there(stretch.from, vehicle, view)),
  to: column("To", instantKind, ({ vehicle, stretch }, view) => there(stretch.to, vehicle, view)),
  driver: shown("Driver", ({ stretch }, view) =>
    stretch.driver === null ? { text: "break" } : idKind.cell(stretch.driver, view),
  ),
  asleep: column("In the berth", idsKind, { spare: 1 }),
  minutes: column("For", minutesKind, ({ stretch }) => stretch.to - stretch.from),
});

/** A row for each person. */
export const ENDURANCE_PEOPLE = columns<PersonEndurance, EnduranceView>()({
  who: column("Who", idKind, { tone: "strong" }),
  awakeSince: column("Awake since", orNull(instantKind), (own, view) => moment(own.awakeSince, view.placeOf(own.who)), {
    spare: 1,
  }),
  awakeAssumed: flagKind,
  mayDriveUntil: clockColumn("May drive until", (own, view) => moment(own.mayDriveUntil, view.placeOf(own.who)), {
    kind: orNull(instantKind),
    instead: (own) => endless(own.unlimited),
  }),
  unlimited: flagKind,
  restsFrom: column("Rests from", orNull(instantKind), (own, view) => moment(own.restsFrom, view.placeOf(own.who)), {
    spare: 2,
  }),
  calledFrom: column("Called again from", orNull(instantKind), (own, view) =>
    moment(own.calledFrom, view.placeOf(own.who)),
  ),
});

/** A row for each battery mount. */
export const PACKS = columns<PackEndurance, EnduranceView>()({
  mount: column("Packs", textKind, { tone: "strong" }),
  packs: idsKind,
  wh: column("Above reserve, Wh", tenth, { spare: 1 }),
  whAHit: column("One hit, Wh", tenth, { spare: 2 }),
  hits: column("Hits without charging", wholeKind),
  hitsAnHour: column("More an hour on the chargers", tenth),
  celsius: column("At °C", orNull(numberKind), { spare: 3 }),
});

const REACH = object<PlaceReach, EnduranceView>()({
  vehicle: keyKind,
  place: keyKind,
  minutes: wholeKind,
  there: flagKind,
  back: flagKind,
});

const WORDS: Readonly<Record<Next["kind"], string>> = {
  break: "break",
  fuel: "fuel",
  hit: "hit",
  meal: "meal",
  "check-in": "lodging reached",
  "last-signal": "last signal before a road without",
};

/** A row for each thing that comes next. */
export const NEXT = columns<Next, EnduranceView>()({
  kind: column("Next", wordKind("break", "fuel", "hit", "meal", "check-in", "last-signal"), {
    cell: ({ kind }) => ({ text: WORDS[kind], raw: kind }),
    tone: "strong",
  }),
  by: clockColumn("By", (own, view) => ({ at: own.by, place: own.place ?? view.placeOf(own.what) }), {
    kind: instantKind,
  }),
  what: column("What", idKind),
  place: column("Place", orNull(idKind), { spare: 1 }),
});

const binding = object<FirstEnd, EnduranceView>()({
  kind: wordKind("law", "house", "fuel"),
  vehicle: keyKind,
  who: orNull(keyKind),
  limit: orNull(textKind),
  until: kept(instantKind, (own, view) => there(own.until, own.vehicle, view)),
});

/** `data` of `endurance`. */
export const ENDURANCE_DATA = object<Endurance, EnduranceView>()({
  at: kept(instantKind, (own) => ({ at: own.at, place: null })),
  binding: orNull(binding),
  vehicles: listKind(VEHICLES),
  people: listKind(ENDURANCE_PEOPLE),
  packs: listKind(PACKS),
  reach: listKind(REACH),
  next: listKind(NEXT),
});
