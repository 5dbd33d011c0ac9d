/** `endurance`: how long and how far the crew can go on from a moment, what binds first, who drives when. */

import { aboardOf, type Day } from "../../day/day.ts";
import {
  type Endurance,
  enduranceOf,
  type FirstEnd,
  type Next,
  type PackEndurance,
  type PersonEndurance,
  type PlaceReach,
  type VehicleEndurance,
} from "../../endurance/index.ts";
import { cutAt } from "../../endurance/order.ts";
import { leastOf } from "../../lists.ts";
import { NO_ANSWERS } from "../../roads/index.ts";
import type { Instant } from "../../time/index.ts";
import { filled, line } from "../shared/blocks.ts";
import { DASH, numberCell } from "../shared/cells.ts";
import { clockColumn, column, columns, kept, object, shown } from "../shared/columns.ts";
import { type DayView, dayView, type TopicInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
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
import { rowsByCall } from "../shared/people.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, Cell, ReportParts } from "../shared/view.ts";

/** Where someone or something is, for the clock of a time: the last place before the moment, else the first after it. */
function placesAt(day: Day, at: number): (id: string) => string | null {
  return (id) => {
    const moves = day.moves.filter((move) => move.vehicle === id || aboardOf(move).includes(id));
    const last = moves.findLast((move) => move.leave <= at);
    return (last === undefined ? moves[0]?.from : last.to) ?? null;
  };
}

const HEAD: Readonly<Record<FirstEnd["kind"], string>> = {
  law: "by law",
  house: "by the house rules",
  fuel: "by fuel",
};

/** The binding limit, who and when. */
function firstLine({ say, placeOf }: EnduranceView, { binding }: Endurance): Block {
  if (binding === null) return line("Nothing is driven on this day.", "strong");
  const { kind, vehicle, who, title, until } = binding;
  const because = who === null ? "" : ` (${say.name(who)}: ${title ?? ""})`;
  return line(
    `${say.name(vehicle)} can go on until ${say.time(until, placeOf(vehicle))} ${HEAD[kind]}${because}.`,
    "strong",
  );
}

/** `truck reaches pier and cove and back; inn one way; not harbor`, vehicle by vehicle. */
function reachLines({ say }: EnduranceView, { reach, vehicles }: Endurance): readonly Block[] {
  return vehicles.flatMap(({ vehicle }): readonly Block[] => {
    const own = reach.filter((one) => one.vehicle === vehicle);
    if (own.length === 0) return [];
    const named = (before: string, is: (one: PlaceReach) => boolean, behind = ""): readonly string[] => {
      const all = own.filter(is).map(({ place }) => say.name(place));
      return all.length === 0 ? [] : [`${before} ${all.join(", ")}${behind}`];
    };
    const parts = [
      ...named("to", ({ back }) => back, " and back"),
      ...named("one way to", ({ there, back }) => there && !back),
      ...named("not to", ({ there }) => !there),
    ];
    return [line(`${say.name(vehicle)} gets ${parts.join("; ")}.`)];
  });
}

/** Who may drive and does not lies in the berth, where there is one. */
const sleepers = ({ plan }: Day, vehicle: string, who: readonly string[], driver: string | null): readonly string[] =>
  plan.vehicles.get(vehicle)?.berth === true && driver !== null
    ? who.filter((one) => one !== driver && plan.crew.get(one)?.drives.includes(vehicle) === true)
    : [];

const ASSUMED =
  "Assumed: roads take their bad time, people sleep only in a berth, breaks are as late as allowed, and fuel burns as on the fastest drive of the plan.";

/** The report of how long a day can go on. */
function enduranceReport(input: TopicInput<Endurance>): ReportParts {
  const { day, say, result, person } = input;
  const places = day.stops.map(({ place }) => place);
  const view: EnduranceView = { ...dayView(input, places), placeOf: placesAt(day, result.at) };
  const inOrder = { ...result, people: rowsByCall(result.people, ({ who }) => who, day.people) };
  const mine = person === null ? inOrder : narrowed(inOrder, person);
  const order = mine.vehicles.flatMap(({ vehicle, order: all, who, lawBecause, houseUntil }) =>
    // Where no law ends it, the house does.
    (lawBecause === null ? cutAt(all, houseUntil) : all).map((stretch) => ({
      vehicle,
      stretch,
      asleep: sleepers(day, vehicle, who, stretch.driver),
    })),
  );
  const packs = PACKS.table(view, mine.packs, {
    title: "Packs",
    show: ["mount", "wh", "whAHit", "hits", "hitsAnHour", "celsius"],
    empty: "No packs.",
  });
  const unproven = mine.vehicles.some(({ proven }) => !proven);
  return {
    blocks: [
      firstLine(view, mine),
      headingLine(day, view.clocks),
      VEHICLES.table(view, mine.vehicles, {
        title: `How long each vehicle can go on from ${say.time(result.at)}`,
        show: ["vehicle", "breakBy", "lawUntil", "houseUntil", "fuelUntil", "fuelKm", "wheelMinutes", "who"],
        empty: "Nothing is driven on this day.",
      }),
      ORDER.table(view, order, { title: "Who drives", empty: "No one may drive on." }),
      ...reachLines(view, mine),
      PEOPLE.table(view, mine.people, { title: "People", empty: "No one has anything to do." }),
      ...filled(packs),
      NEXT.table(view, mine.next, { title: "What must happen next", empty: "Nothing." }),
      line(unproven ? `${ASSUMED} Orders are the best found; --patience searches longer.` : ASSUMED, "muted"),
    ],
    data: ENDURANCE_DATA.json(mine, view),
  };
}

/** What concerns one person: themselves and the vehicle they are in. */
function narrowed(result: Endurance, person: string): Endurance {
  const vehicles = result.vehicles.filter(({ who }) => who.includes(person));
  const ids = new Set(vehicles.map(({ vehicle }) => vehicle));
  return {
    ...result,
    vehicles,
    people: result.people.filter(({ who }) => who === person),
    reach: result.reach.filter(({ vehicle }) => ids.has(vehicle)),
    next: result.next.filter(({ kind, what }) =>
      kind === "meal" ? what === person : kind !== "break" && kind !== "fuel" ? true : ids.has(what),
    ),
  };
}

/** A view that knows where each vehicle and person is, for the clock of their times. */
interface EnduranceView extends DayView {
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

const VEHICLES = columns<VehicleEndurance, EnduranceView>()({
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
interface OrderRow {
  readonly vehicle: string;
  readonly stretch: VehicleEndurance["order"][number];
  /** In the berth. */
  readonly asleep: readonly string[];
}

const ORDER = columns<OrderRow, EnduranceView>()({
  vehicle: shown("Vehicle", ({ vehicle }, view) => ({ ...idKind.cell(vehicle, view), tone: "strong" })),
  from: clockColumn("From", ({ vehicle, stretch }, view) => there(stretch.from, vehicle, view)),
  to: column("To", instantKind, ({ vehicle, stretch }, view) => there(stretch.to, vehicle, view)),
  driver: shown("Driver", ({ stretch }, view) =>
    stretch.driver === null ? { text: "break" } : idKind.cell(stretch.driver, view),
  ),
  asleep: column("In the berth", idsKind, { spare: 1 }),
  minutes: column("For", minutesKind, ({ stretch }) => stretch.to - stretch.from),
});

const PEOPLE = columns<PersonEndurance, EnduranceView>()({
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

const PACKS = columns<PackEndurance, EnduranceView>()({
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

const NEXT = columns<Next, EnduranceView>()({
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
const ENDURANCE_DATA = object<Endurance, EnduranceView>()({
  at: kept(instantKind, (own) => ({ at: own.at, place: null })),
  binding: orNull(binding),
  vehicles: listKind(VEHICLES),
  people: listKind(PEOPLE),
  packs: listKind(PACKS),
  reach: listKind(REACH),
  next: listKind(NEXT),
});

/** The report `endurance`. */
export const enduranceMaker: ReportMaker = {
  place: 160,
  topics: ["hours", "power", "roads"],
  make: async (input, { days, results }, { routed = NO_ANSWERS, patience = 1 }) => {
    const { people, span } = input.day;
    const at = input.now ?? leastOf(people.flatMap(({ call }) => call ?? [])) ?? span.from;
    return enduranceReport({ ...input, result: await enduranceOf({ ...results, days, at, routed, patience }) });
  },
  schema: () => ENDURANCE_DATA.schema,
};
