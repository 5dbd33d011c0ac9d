/**
 * `asrun`: what really went out, from what was logged: hits planned and as run, people, vehicles, packs that fell short;
 * deviations first. What was not logged is said to be so and never assumed. Of several days in one go.
 */

import type { ActivityTimes, Day, PersonDay } from "../../day/day.ts";
import type { Finding, Say } from "../../findings/finding.ts";
import { sumOf } from "../../lists.ts";
import type { ActualVehicle, Id, Plan } from "../../plan/plan.ts";
import { type FoundPack, foundPacks } from "../../power/found.ts";
import type { PowerResult } from "../../power/index.ts";
import type { ZoneId } from "../../time/index.ts";
import { inOrderOfCalls } from "../shared/callOrder.ts";
import { DASH } from "../shared/cells.ts";
import { placesInOrder } from "../shared/clocks.ts";
import { column, columns, kept, object } from "../shared/columns.ts";
import { type DayView, dayView } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import {
  flagKind,
  idKind,
  instantKind,
  keyKind,
  listKind,
  type Moment,
  minutesKind,
  moment,
  numberKind,
  orNull,
  textKind,
  wholeKind,
} from "../shared/kinds.ts";
import { withoutContacts } from "../shared/redact.ts";
import type { Block, Cell, Report } from "../shared/view.ts";

/** What `asrun` shows. */
export interface AsrunInput {
  /** Oldest first; as many as were asked for. */
  readonly days: readonly Day[];
  /** The same days as they were written: a logged time takes the place of the planned one in a day. */
  readonly plans: readonly Plan[];
  /** The packs of the last day. */
  readonly power: PowerResult;
  readonly findings: readonly Finding[];
  readonly say: Say;
  readonly clock: ZoneId | null;
  readonly person: Id | null;
  readonly redact: boolean;
}

interface View extends DayView {
  readonly clean: (text: string) => string;
}

interface HitRow {
  readonly date: string;
  readonly id: Id;
  readonly planned: Moment;
  readonly start: Moment | null;
  readonly lengthMinutes: number | null;
  readonly lateMinutes: number | null;
  readonly path: Id | null;
  readonly made: boolean;
  readonly logged: boolean;
  readonly note: string | null;
}

interface PersonRow {
  readonly date: string;
  readonly id: Id;
  readonly call: Moment | null;
  readonly release: Moment | null;
  readonly dutyMinutes: number | null;
  readonly meals: number | null;
  readonly note: string | null;
}

interface VehicleRow {
  readonly date: string;
  readonly id: Id;
  readonly place: Id | null;
  readonly odometerKm: number | null;
  /** Since the last reading; null where there is none. */
  readonly km: number | null;
  readonly fuelPercent: number | null;
  readonly engineHours: number | null;
  readonly note: string | null;
}

interface PackRow {
  readonly date: string;
  readonly id: Id;
  readonly percent: number;
  /** Less than the rotation gave, of a full charge; null where no moment is logged, and on days before the last. */
  readonly shortPercent: number | null;
  readonly at: Moment | null;
  readonly note: string | null;
}

interface Rows {
  readonly hits: readonly HitRow[];
  readonly people: readonly PersonRow[];
  readonly vehicles: readonly VehicleRow[];
  readonly packs: readonly PackRow[];
}

/** The last of the days gives the words and clocks. Throws a RangeError without days. */
export function asrunReport({ days, plans, power, findings, say, clock, person, redact }: AsrunInput): Report {
  const last = days.at(-1);
  if (last === undefined) throw new RangeError("no day to report");
  const view: View = {
    ...dayView(
      last,
      say,
      days.flatMap((day) => placesInOrder(day)),
      clock,
    ),
    clean: redact ? withoutContacts : (words) => words,
  };
  const mine = (who: readonly Id[]): boolean => person === null || who.includes(person);
  const rows: Rows = {
    hits: days
      .flatMap((day, at) => hitsOf(day, plans[at] ?? day.plan, mine))
      .sort((a, b) => deviation(b) - deviation(a)),
    people: days.flatMap((day) =>
      inOrderOfCalls(day.people)
        .filter((one) => one.call !== null && mine([one.id]))
        .map((one) => personRow(day, one)),
    ),
    vehicles: days.flatMap((day, at) => vehiclesOf(day, days.slice(0, at))),
    packs: days
      .flatMap((day) => packsOf(day, day === last ? foundPacks(power.solution) : []))
      .sort((a, b) => (b.shortPercent ?? 0) - (a.shortPercent ?? 0)),
  };
  const several = days.length > 1 ? (["date"] as const) : ([] as const);
  const missing = rows.hits.filter(({ logged }) => !logged).length;
  return {
    command: "asrun",
    blocks: [
      headingLine(last, view.clocks),
      line(missing === 0 ? "Every hit is logged." : `${missing} of ${rows.hits.length} hits not logged.`),
      HITS.table(view, rows.hits, {
        title: "Hits",
        show: [...several, "id", "planned", "start", "lateMinutes", "lengthMinutes", "path", "note"],
        empty: "No hits.",
      }),
      PEOPLE.table(view, rows.people, {
        title: "People",
        show: [...several, "id", "call", "release", "dutyMinutes", "meals", "note"],
        empty: "No one was called.",
      }),
      VEHICLES.table(view, rows.vehicles, {
        title: "Vehicles",
        show: [...several, "id", "place", "odometerKm", "km", "fuelPercent", "engineHours", "note"],
        empty: "No vehicle.",
      }),
      ...(rows.packs.length === 0
        ? []
        : [
            PACKS.table(view, rows.packs, {
              title: "Packs found",
              show: [...several, "id", "percent", "shortPercent", "at", "note"],
              empty: "",
            }),
          ]),
    ],
    data: ASRUN_DATA.json(rows, view),
    findings,
    say,
  };
}

const line = (words: string): Block => ({ kind: "line", cells: [{ text: words }] });

/** Not made first, then by how late; then what is not logged. */
const deviation = ({ made, logged, lateMinutes }: HitRow): number =>
  made ? (lateMinutes === null ? (logged ? 0 : 0.5) : Math.abs(lateMinutes)) : Number.MAX_SAFE_INTEGER;

function hitsOf(day: Day, plan: Plan, mine: (who: readonly Id[]) => boolean): readonly HitRow[] {
  const times = new Map(day.activities.map((one) => [one.id, one]));
  return [...plan.hits.values()]
    .filter(({ id: own, who }) => mine(times.get(own)?.who ?? who ?? []))
    .map((hit): HitRow => {
      const fact = plan.actual.activities.get(hit.id);
      const one = times.get(hit.id);
      const start = fact?.at ?? null;
      const place = one?.place ?? null;
      const end = fact?.end ?? null;
      return {
        date: day.plan.date,
        id: hit.id,
        planned: { at: hit.at, place },
        start: moment(start, place),
        lengthMinutes: start === null || end === null ? null : end - start,
        lateMinutes: start === null ? null : start - hit.at,
        path: fact?.signalPath ?? null,
        made: fact?.done ?? true,
        logged: fact !== undefined,
        note: fact?.note ?? null,
      };
    });
}

function personRow(day: Day, { id: own, duties }: PersonDay): PersonRow {
  const fact = day.plan.actual.people.get(own);
  const [call, released] = [fact?.call ?? null, fact?.released ?? null];
  const eaten = day.activities.filter((one) => isMeal(one) && one.who.includes(own) && wasLogged(day, one));
  return {
    date: day.plan.date,
    id: own,
    call: moment(call, duties[0]?.callPlace ?? null),
    release: moment(released, duties.at(-1)?.releasePlace ?? null),
    dutyMinutes: call === null || released === null ? null : released - call - sumOf(eaten, mealMinutes),
    meals: eaten.length === 0 ? null : eaten.length,
    note: fact?.note ?? null,
  };
}

const isMeal = ({ activity }: ActivityTimes): boolean => activity.kind === "meal";
const wasLogged = (day: Day, { id: own }: ActivityTimes): boolean => day.plan.actual.activities.get(own)?.done === true;
const mealMinutes = ({ start, end }: ActivityTimes): number => (start === null || end === null ? 0 : end - start);

function vehiclesOf(day: Day, before: readonly Day[]): readonly VehicleRow[] {
  return [...day.plan.runs.keys()].map((vehicle): VehicleRow => {
    const fact: ActualVehicle | undefined = day.plan.actual.vehicles.get(vehicle);
    const earlier = before.flatMap((one) => one.plan.actual.vehicles.get(vehicle)?.odometerKm ?? []).at(-1);
    const odometerKm = fact?.odometerKm ?? null;
    return {
      date: day.plan.date,
      id: vehicle,
      place: fact?.place ?? null,
      odometerKm,
      km: odometerKm === null || earlier === undefined ? null : Math.round(odometerKm - earlier),
      fuelPercent: fact?.fuel == null ? null : Math.round(fact.fuel * 100),
      engineHours: fact?.engineHours ?? null,
      note: fact?.note ?? null,
    };
  });
}

const packsOf = (day: Day, found: readonly FoundPack[]): readonly PackRow[] =>
  [...day.plan.actual.packs].flatMap(([own, { charge, at, note }]): readonly PackRow[] => {
    if (charge === null) return [];
    const short = found.find((one) => one.pack === own && one.at === at)?.shortPercent ?? null;
    const percent = Math.round(charge * 100);
    return [{ date: day.plan.date, id: own, percent, shortPercent: short, at: moment(at, null), note }];
  });

const NOT_LOGGED: Cell = { text: "not logged", raw: null, tone: "muted" };

/** A value, or that it was not logged. */
const logged = (cell: Cell, value: unknown): Cell => (value === null ? NOT_LOGGED : cell);

const noteField = <Row extends { readonly note: string | null }>() =>
  column<Row, string | null, View>({
    label: "Note",
    kind: orNull(textKind),
    value: ({ note }, { clean }) => (note === null ? null : clean(note)),
  });

const dateField = <Row extends { readonly date: string }>() =>
  column<Row, string, View>({ label: "Day", kind: textKind, value: ({ date }) => date });

const HITS = columns<HitRow, View>()({
  date: dateField<HitRow>(),
  id: column({ label: "Hit", kind: keyKind, value: (row) => row.id, tone: "strong" }),
  planned: column({ label: "Planned", kind: instantKind, value: ({ planned }) => planned }),
  start: column({
    label: "On air",
    kind: orNull(instantKind),
    value: ({ start }) => start,
    cell: ({ start, made }, view) =>
      made ? logged(orNull(instantKind).cell(start, view), start) : { text: "not made", raw: null, tone: "bad" },
  }),
  lengthMinutes: column({
    label: "Length",
    kind: orNull(minutesKind),
    value: ({ lengthMinutes }) => lengthMinutes,
    cell: ({ lengthMinutes }, view) => logged(orNull(minutesKind).cell(lengthMinutes, view), lengthMinutes),
  }),
  lateMinutes: column({
    label: "Late by",
    kind: orNull(wholeKind),
    value: ({ lateMinutes }) => lateMinutes,
    cell: ({ lateMinutes }) => lateCell(lateMinutes),
  }),
  path: column({
    label: "Path",
    kind: orNull(keyKind),
    value: ({ path }) => path,
    cell: ({ path }) => logged({ text: path ?? "", raw: path }, path),
  }),
  made: kept(flagKind, ({ made }) => made),
  logged: kept(flagKind, (row) => row.logged),
  note: noteField<HitRow>(),
});

const lateCell = (late: number | null): Cell =>
  late === null
    ? NOT_LOGGED
    : late === 0
      ? { text: "on time", raw: 0, tone: "good" }
      : { text: late > 0 ? `${late} min` : `${-late} min early`, raw: late, tone: "warn" };

const PEOPLE = columns<PersonRow, View>()({
  date: dateField<PersonRow>(),
  id: column({ label: "Who", kind: idKind, value: (row) => row.id, tone: "strong" }),
  call: column({
    label: "Called",
    kind: orNull(instantKind),
    value: ({ call }) => call,
    cell: ({ call }, view) => logged(orNull(instantKind).cell(call, view), call),
  }),
  release: column({
    label: "Released",
    kind: orNull(instantKind),
    value: ({ release }) => release,
    cell: ({ release }, view) => logged(orNull(instantKind).cell(release, view), release),
  }),
  dutyMinutes: column({
    label: "On duty",
    kind: orNull(minutesKind),
    value: ({ dutyMinutes }) => dutyMinutes,
    cell: ({ dutyMinutes }, view) => logged(orNull(minutesKind).cell(dutyMinutes, view), dutyMinutes),
  }),
  meals: column({
    label: "Meals",
    kind: orNull(wholeKind),
    value: ({ meals }) => meals,
    cell: ({ meals }) => logged({ text: String(meals ?? 0), raw: meals }, meals),
  }),
  note: noteField<PersonRow>(),
});

const VEHICLES = columns<VehicleRow, View>()({
  date: dateField<VehicleRow>(),
  id: column({ label: "Vehicle", kind: idKind, value: (row) => row.id, tone: "strong" }),
  place: column({
    label: "Stands at",
    kind: orNull(idKind),
    value: ({ place }) => place,
    cell: ({ place }, view) => logged(orNull(idKind).cell(place, view), place),
  }),
  odometerKm: column({
    label: "Odometer",
    kind: orNull(numberKind),
    value: ({ odometerKm }) => odometerKm,
    cell: ({ odometerKm }) => logged({ text: `${odometerKm} km`, raw: odometerKm }, odometerKm),
  }),
  km: column({
    label: "Driven",
    kind: orNull(wholeKind),
    value: ({ km }) => km,
    cell: ({ km }) => logged({ text: `${km} km`, raw: km }, km),
  }),
  fuelPercent: column({
    label: "Fuel",
    kind: orNull(wholeKind),
    value: ({ fuelPercent }) => fuelPercent,
    cell: ({ fuelPercent }) => logged({ text: `${fuelPercent} %`, raw: fuelPercent }, fuelPercent),
  }),
  engineHours: column({
    label: "Engine",
    kind: orNull(numberKind),
    value: ({ engineHours }) => engineHours,
    cell: ({ engineHours }) => logged({ text: `${engineHours} h`, raw: engineHours }, engineHours),
  }),
  note: noteField<VehicleRow>(),
});

const shortCell = (short: number | null): Cell =>
  short === null
    ? DASH
    : short === 0
      ? { text: "as computed", raw: 0, tone: "good" }
      : { text: `${Math.abs(short)} % ${short > 0 ? "less" : "more"}`, raw: short, tone: short > 0 ? "warn" : "plain" };

const PACKS = columns<PackRow, View>()({
  date: dateField<PackRow>(),
  id: column({ label: "Pack", kind: keyKind, value: (row) => row.id }),
  percent: column({
    label: "Charge found",
    kind: wholeKind,
    value: ({ percent }) => percent,
    cell: ({ percent }) => ({ text: `${percent} %`, raw: percent }),
  }),
  shortPercent: column({
    label: "Against the rotation",
    kind: orNull(wholeKind),
    value: ({ shortPercent }) => shortPercent,
    cell: ({ shortPercent }) => shortCell(shortPercent),
  }),
  at: column({ label: "At", kind: orNull(instantKind), value: ({ at }) => at }),
  note: noteField<PackRow>(),
});

/** The JSON of `asrun`. */
export const ASRUN_DATA = object<Rows, View>({
  hits: kept(listKind(HITS), ({ hits }) => hits),
  people: kept(listKind(PEOPLE), ({ people }) => people),
  vehicles: kept(listKind(VEHICLES), ({ vehicles }) => vehicles),
  packs: kept(listKind(PACKS), ({ packs }) => packs),
});
