/**
 * `asrun`: what really went out, from what was logged: hits planned and as run, people, vehicles, packs that fell short;
 * deviations first. What was not logged is said to be so and never assumed. Of several days in one go.
 */

import type { ActivityTimes, Day, PersonDay } from "../../day/day.ts";
import { sumOf } from "../../lists.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { type FoundPack, foundPacks } from "../../power/found.ts";
import type { PowerResult } from "../../power/index.ts";
import type { Instant, Interval } from "../../time/units.ts";
import { filled, line } from "../shared/blocks.ts";
import { DASH } from "../shared/cells.ts";
import { placesInOrder } from "../shared/clocks.ts";
import { column, columns, object } from "../shared/columns.ts";
import { type DayView, dayView, type ReportInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { had } from "../shared/judged.ts";
import {
  flagKind,
  idKind,
  instantKind,
  type Kind,
  keyKind,
  listKind,
  minutesKind,
  moment,
  numberKind,
  orNull,
  signedMinutes,
  textKind,
  wholeKind,
} from "../shared/kinds.ts";
import { inOrderOfCalls } from "../shared/people.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Cell, ReportParts } from "../shared/view.ts";

/** What `asrun` shows. */
interface AsrunInput extends ReportInput {
  /** Oldest first, `day` last; as many as were asked for. */
  readonly days: readonly Day[];
  /** The same days as they were written: a logged time takes the place of the planned one in a day. */
  readonly plans: readonly Plan[];
  /** The packs of the last day. */
  readonly power: PowerResult;
}

function rowsOf({ day: last, days, plans, power, person }: AsrunInput) {
  const mine = (who: readonly Id[]): boolean => person === null || who.includes(person);
  return {
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
}

/** The last of the days gives the words and clocks. */
function asrunReport(input: AsrunInput): ReportParts {
  const { day: last, days } = input;
  const view = dayView(
    input,
    days.flatMap((day) => placesInOrder(day)),
  );
  const rows = rowsOf(input);
  const several = days.length > 1 ? (["date"] as const) : ([] as const);
  const missing = rows.hits.filter(({ made, start }) => made && start === null).length;
  return {
    blocks: [
      headingLine(last, view.clocks),
      line(
        missing === 0 ? "Every hit is logged." : `${missing} of ${rows.hits.length} hits have no logged time on air.`,
      ),
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
      ...filled(
        PACKS.table(view, rows.packs, {
          title: "Packs found",
          show: [...several, "id", "percent", "shortPercent", "at", "note"],
          empty: "",
        }),
      ),
    ],
    data: ASRUN_DATA.json(rows, view),
  };
}

/** Not made first, then by how late; then what is not logged. */
const deviation = ({ made, logged, lateMinutes }: ReturnType<typeof hitsOf>[number]): number =>
  made ? (lateMinutes === null ? (logged ? 0 : 0.5) : Math.abs(lateMinutes)) : Number.MAX_SAFE_INTEGER;

function hitsOf(day: Day, plan: Plan, mine: (who: readonly Id[]) => boolean) {
  const times = new Map(day.activities.map((one) => [one.id, one]));
  return [...plan.hits.values()]
    .filter(({ id: own, who }) => mine(times.get(own)?.who ?? who ?? []))
    .map((hit) => {
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

function personRow(day: Day, { id: own, duties }: PersonDay) {
  const fact = day.plan.actual.people.get(own);
  const [call, released] = [fact?.call ?? null, fact?.released ?? null];
  const eaten = day.activities.filter((one) => isMeal(one) && one.who.includes(own) && wasLogged(day, one));
  return {
    date: day.plan.date,
    id: own,
    call: moment(call, duties[0]?.callPlace ?? null),
    release: moment(released, duties.at(-1)?.releasePlace ?? null),
    dutyMinutes:
      call === null || released === null || released <= call
        ? null
        : released - call - sumOf(eaten, mealMinutes) - sumOf(betweenDuties(duties), stoodDown(call, released)),
    meals: eaten.length === 0 ? null : eaten.length,
    note: fact?.note ?? null,
  };
}

const isMeal = ({ activity }: ActivityTimes): boolean => activity.kind === "meal";
const wasLogged = (day: Day, { id: own }: ActivityTimes): boolean => day.plan.actual.activities.get(own)?.done === true;
const mealMinutes = ({ start, end }: ActivityTimes): number => (start === null || end === null ? 0 : end - start);

/** The stand-downs between someone's duties: they were released then. */
const betweenDuties = (duties: PersonDay["duties"]): readonly Interval[] =>
  duties.slice(1).flatMap(({ call }, index) => {
    const from = duties[index]?.release;
    return from === undefined ? [] : [{ from, to: call }];
  });

/** The minutes of one that lie between a call and a release. */
const stoodDown =
  (call: Instant, released: Instant) =>
  ({ from, to }: Interval): number =>
    Math.max(0, Math.min(to, released) - Math.max(from, call));

function vehiclesOf(day: Day, before: readonly Day[]) {
  return [...day.plan.runs.keys()].map((vehicle) => {
    const fact = day.plan.actual.vehicles.get(vehicle);
    const earlier = before.flatMap((one) => one.plan.actual.vehicles.get(vehicle)?.odometerKm ?? []).at(-1);
    const odometerKm = fact?.odometerKm ?? null;
    return {
      date: day.plan.date,
      id: vehicle,
      place: fact?.place ?? null,
      odometerKm,
      /** Since the last reading; null where there is none. */
      km: odometerKm === null || earlier === undefined ? null : Math.round(odometerKm - earlier),
      fuelPercent: fact?.fuel == null ? null : Math.round(fact.fuel * 100),
      engineHours: fact?.engineHours ?? null,
      note: fact?.note ?? null,
    };
  });
}

/** Short is less than the rotation gave, of a full charge; null where no moment is logged, and on days before the last. */
const packsOf = (day: Day, found: readonly FoundPack[]) =>
  [...day.plan.actual.packs].flatMap(([own, { charge, at, note }]) => {
    if (charge === null) return [];
    const short = found.find((one) => one.pack === own && one.at === at)?.shortPercent ?? null;
    const percent = Math.round(charge * 100);
    return [{ date: day.plan.date, id: own, percent, shortPercent: short, at: moment(at, null), note }];
  });

const NOT_LOGGED: Cell = { text: "not logged", raw: null, tone: "muted" };

/** A value of a kind that may not have been logged: the cell then says so. */
const logged = <T>(kind: Kind<T, DayView>): Kind<T | null, DayView> => ({
  ...orNull(kind),
  cell: (value, view) => (value === null ? NOT_LOGGED : kind.cell(value, view)),
});

/** Numbers with their unit behind them. */
const figures = (unit: string, kind: Kind<number, unknown> = wholeKind): Kind<number, unknown> => ({
  ...kind,
  cell: (value) => ({ text: `${value} ${unit}`, raw: value }),
});

const NOTE = column<{ readonly note: string | null }, string | null, DayView>(
  "Note",
  orNull(textKind),
  ({ note }, { clean }) => (note === null ? null : clean(note)),
);

const DATE = column<{ readonly date: string }, string, DayView>("Day", textKind, ({ date }) => date);

const HITS = columns<ReturnType<typeof hitsOf>[number], DayView>()({
  date: DATE,
  id: column("Hit", keyKind, { tone: "strong" }),
  planned: column("Planned", instantKind),
  start: column("On air", orNull(instantKind), {
    cell: ({ start, made }, view) =>
      made ? logged(instantKind).cell(start, view) : { text: "not made", raw: null, tone: "bad" },
  }),
  lengthMinutes: column("Length", logged(minutesKind)),
  lateMinutes: column("Late by", signedMinutes("how late it went on air; negative: so many minutes early"), {
    cell: ({ lateMinutes }) => lateCell(lateMinutes),
  }),
  path: column("Path", logged(keyKind)),
  made: flagKind,
  logged: flagKind,
  note: NOTE,
});

const lateCell = (late: number | null): Cell =>
  late === null
    ? NOT_LOGGED
    : late === 0
      ? { text: "on time", raw: 0, tone: "good" }
      : { text: late > 0 ? `${late} min` : `${-late} min early`, raw: late, tone: "warn" };

const PEOPLE = columns<ReturnType<typeof personRow>, DayView>()({
  date: DATE,
  id: column("Who", idKind, { tone: "strong" }),
  call: column("Called", logged(instantKind)),
  release: column("Released", logged(instantKind)),
  dutyMinutes: column("On duty", logged(minutesKind)),
  meals: column("Meals", logged(wholeKind)),
  note: NOTE,
});

const VEHICLES = columns<ReturnType<typeof vehiclesOf>[number], DayView>()({
  date: DATE,
  id: column("Vehicle", idKind, { tone: "strong" }),
  place: column("Stands at", logged(idKind)),
  odometerKm: column("Odometer", logged(figures("km", numberKind))),
  km: column("Driven", logged(figures("km"))),
  fuelPercent: column("Fuel", logged(figures("%"))),
  engineHours: column("Engine", logged(figures("h", numberKind))),
  note: NOTE,
});

const shortCell = (short: number | null): Cell =>
  short === null
    ? DASH
    : short === 0
      ? { text: "as computed", raw: 0, tone: "good" }
      : { text: `${Math.abs(short)} % ${short > 0 ? "less" : "more"}`, raw: short, tone: short > 0 ? "warn" : "plain" };

const PACKS = columns<ReturnType<typeof packsOf>[number], DayView>()({
  date: DATE,
  id: column("Pack", keyKind),
  percent: column("Charge found", figures("%")),
  shortPercent: column("Against the rotation", orNull(wholeKind), {
    cell: ({ shortPercent }) => shortCell(shortPercent),
  }),
  at: column("At", orNull(instantKind)),
  note: NOTE,
});

/** The JSON of `asrun`. */
const ASRUN_DATA = object<ReturnType<typeof rowsOf>, DayView>()({
  hits: listKind(HITS),
  people: listKind(PEOPLE),
  vehicles: listKind(VEHICLES),
  packs: listKind(PACKS),
});

/** The report `asrun`. */
export const asrunMaker: ReportMaker = {
  place: 110,
  topics: ["power"],
  make: (input, judged, { daysBefore = 0, plans = judged.days.map(({ plan }) => plan) }) => {
    const days = judged.days.slice(-1 - daysBefore);
    return asrunReport({ ...input, days, plans: plans.slice(-1 - daysBefore), power: had(judged.results.power) });
  },
  schema: () => ASRUN_DATA.schema,
};
