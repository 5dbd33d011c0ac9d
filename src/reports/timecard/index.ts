/** `timecard`: what each person worked, day by day and in all, as a contract and labour law pay it. */

import type { Day } from "../../day/day.ts";
import type { Finding, Wording } from "../../findings/finding.ts";
import type { Timecard, TimecardDay } from "../../hours/pay/card.ts";
import { timecards } from "../../hours/pay/timecard.ts";
import type { HoursLog } from "../../plan/log/log.ts";
import type { Id } from "../../plan/plan.ts";
import { lengthText } from "../../time/index.ts";
import { filled, line } from "../shared/blocks.ts";
import { DASH, numberCell } from "../shared/cells.ts";
import { column, columns, kept, object, type RowField, shown } from "../shared/columns.ts";
import type { ReportInput } from "../shared/dayView.ts";
import { deferralLine } from "../shared/heading.ts";
import {
  idKind,
  type Kind,
  keyKind,
  listKind,
  minutesKind,
  type Named,
  numberKind,
  orNull,
  said,
  textKind,
  wholeKind,
} from "../shared/kinds.ts";
import { rowsByCall } from "../shared/people.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, Report, ReportParts } from "../shared/view.ts";

/** A row of a card: a day, or the sum of all. */
interface CardRow extends Omit<TimecardDay, "day" | "date"> {
  readonly id: Id;
  /** Null for the sum. */
  readonly date: string | null;
  /** The first and the last date of the sum, as CSV has them. */
  readonly dates?: string;
  /** Whether it is the first of its person. */
  readonly first: boolean;
}

/** A dash for none, which programs get as the 0 that it is. */
const dashed = <View>(kind: Kind<number | null, View>): Kind<number | null, View> => ({
  ...kind,
  cell: (value, view) => (value === 0 ? { ...DASH, raw: 0 } : kind.cell(value, view)),
});

const figure = (label: string, value: (row: CardRow) => number, spare = 0, says?: string): RowField<CardRow, Named> =>
  column(label, says === undefined ? minutesKind : said(minutesKind, says), value, {
    spare,
    cell: (row, view) => dashed(orNull(minutesKind)).cell(value(row), view),
  });

const DAY_RATE = "what a day rate pays beyond the work of a shorter day";
const MEALS_ASKED = "meals of 21 to 29 min, counted as unpaid: ordinarily 30 min are needed (29 CFR 785.19)";
const RIDING = "as a passenger, counted as worked";

const CARD = columns<CardRow, Named>()({
  who: shown("Who", ({ id, first, date }, { say }) => ({
    text: first ? say.name(id) : "",
    raw: id,
    tone: date === null ? "plain" : "strong",
  })),
  date: column("Day", textKind, ({ date }) => date ?? "", {
    cell: ({ date, dates }) =>
      date === null ? { text: "in all", raw: dates ?? null, tone: "strong" } : { text: date },
  }),
  workedMinutes: figure("Worked", (row) => row.workedMinutes),
  straightMinutes: figure("Straight", (row) => row.straightMinutes),
  overtimeMinutes: figure("Overtime", (row) => row.overtimeMinutes),
  doubleMinutes: figure("Double", (row) => row.doubleMinutes),
  dayRateMinutes: figure("Day rate adds", (row) => row.dayRateMinutes, 4, DAY_RATE),
  drivingMinutes: figure("At the wheel", (row) => row.drivingMinutes, 2),
  ridingMinutes: said(wholeKind, RIDING),
  restBeforeMinutes: orNull(wholeKind),
  shortTurnaroundMinutes: column(
    "Turnaround short",
    dashed(said(orNull(minutesKind), "null where nothing asks for a turnaround, or the rest is not known")),
    { spare: 1 },
  ),
  mealsMissed: column("Meals missed", dashed(said(orNull(wholeKind), "null where no rule says when a meal is due")), {
    spare: 3,
  }),
  mealsAsked: said(wholeKind, MEALS_ASKED),
  by: said(textKind, "the contract or law that the day is paid by"),
});

/** Null where a log leaves it open. */
const shortInAll = (days: readonly TimecardDay[]): number | null =>
  days.reduce<number | null>(
    (sum, { shortTurnaroundMinutes: short }) => (sum === null || short === null ? null : sum + short),
    0,
  );

const dayRows = ({ id, days }: Timecard): readonly CardRow[] =>
  days.map((day, index) => ({ ...day, id, first: index === 0 }));

/** `2027-01-11/2027-01-14`, or the one date (ISO 8601). */
const intervalOf = (days: readonly TimecardDay[]): string =>
  [...new Set([days[0]?.date ?? "", days.at(-1)?.date ?? ""])].join("/");

const sumRow = ({ id, days, totals }: Timecard): CardRow => {
  const none = { date: null, first: false, restBeforeMinutes: null, overMidnight: false, by: "" };
  return { ...totals, ...none, id, shortTurnaroundMinutes: shortInAll(days), dates: intervalOf(days) };
};

const TOTALS = object<Timecard["totals"], Named>()({
  workedMinutes: wholeKind,
  straightMinutes: wholeKind,
  overtimeMinutes: wholeKind,
  doubleMinutes: wholeKind,
  drivingMinutes: wholeKind,
  ridingMinutes: wholeKind,
  dayRateMinutes: said(wholeKind, DAY_RATE),
  mealsAsked: said(wholeKind, MEALS_ASKED),
  mealsMissed: orNull(wholeKind),
  shortTurnarounds: orNull(wholeKind),
  daysWorked: wholeKind,
});

const MONEY = columns<Timecard, Named>()({
  who: shown("Who", (card, view) => ({ ...idKind.cell(card.id, view), tone: "strong" })),
  id: keyKind,
  contract: column("Contract", orNull(keyKind)),
  days: kept(listKind(CARD), dayRows),
  totals: TOTALS,
  mealPenalties: column("Meal penalties", said(orNull(numberKind), "in the contract's own money")),
  turnaroundPenalties: column("Turnaround penalties", orNull(numberKind)),
  perDiem: column("Per diem", orNull(numberKind)),
});

/** Penalties and per diem in the contract's own money; nothing where no contract states any. */
function moneyTable(cards: readonly Timecard[], view: Named): readonly Block[] {
  const paid = cards.filter(({ mealPenalties, turnaroundPenalties, perDiem }) =>
    [mealPenalties, turnaroundPenalties, perDiem].some((amount) => amount !== null),
  );
  if (paid.length === 0) return [];
  const show = ["who", "contract", "mealPenalties", "turnaroundPenalties", "perDiem"] as const;
  return [MONEY.table(view, paid, { title: "Money", show, empty: "" })];
}

/** 29 CFR 778.105: a workweek is seven days in a row that begin on a day the employer fixed. */
const WEEK =
  "Weeks run from Monday; where the workweek begins on another day (29 CFR 778.105), overtime by the week differs.";

/** Riding that labour law need not count, person by person; it is counted, since the plan does not state usual hours. */
const ridingLines = (cards: readonly Timecard[], say: Wording): readonly string[] =>
  cards.flatMap(({ id, ridingClause, totals: { ridingMinutes } }) =>
    ridingClause === null || ridingMinutes === 0
      ? []
      : [
          `${say.name(id)} rode ${lengthText(ridingMinutes)} as a passenger, counted as worked; away over night and outside usual hours it need not be (${ridingClause}).`,
        ],
  );

/** Meals that are unpaid only under special conditions. */
const mealLines = (cards: readonly Timecard[], say: Wording): readonly string[] =>
  cards.flatMap(({ id, totals: { mealsAsked: count } }) =>
    count === 0
      ? []
      : [
          `${say.name(id)}: ${count === 1 ? "a meal" : `${count} meals`} of 21 to 29 min ${count === 1 ? "is" : "are"} counted as unpaid; ordinarily 30 min are needed (29 CFR 785.19): do special conditions make ${count === 1 ? "it one" : "them meals"}?`,
        ],
  );

/** Which day a shift over midnight counts on, where the law begins a workday at the same hour each day. */
const workdayLines = (cards: readonly Timecard[], say: Wording): readonly string[] =>
  cards.flatMap(({ id, workdayClause }) =>
    workdayClause === null
      ? []
      : [
          `${say.name(id)}: a shift over midnight is counted on the day on which it begins; a workday that begins at a fixed hour (${workdayClause}) may divide it otherwise.`,
        ],
  );

/** `person` is one alone; null for all. */
function cardReport(
  title: string | null,
  dates: readonly string[],
  cards: readonly Timecard[],
  {
    say,
    person,
    readings = [],
    empty,
  }: Pick<ReportInput, "say" | "person"> & { readonly readings?: readonly MeterReading[]; readonly empty: string },
): ReportParts {
  const chosen = cards.filter(({ id }) => person === null || id === person);
  const [first = "", last = first] = [dates[0], dates.at(-1)];
  const span = first === last ? last : `${first} to ${last}`;
  const view: Named = { say };
  const table = CARD.table(
    view,
    chosen.flatMap((card) => (card.days.length > 1 ? [...dayRows(card), sumRow(card)] : dayRows(card))),
    {
      title: "Time card",
      show: [
        "who",
        "date",
        "workedMinutes",
        "straightMinutes",
        "overtimeMinutes",
        "doubleMinutes",
        "dayRateMinutes",
        "drivingMinutes",
        "mealsMissed",
        "shortTurnaroundMinutes",
      ],
      empty,
    },
  );
  const notes = [
    ...(chosen.some(({ byWeek }) => byWeek) ? [WEEK] : []),
    ...ridingLines(chosen, say),
    ...mealLines(chosen, say),
    ...workdayLines(chosen, say),
  ];
  return {
    blocks: [
      line(title === null ? span : `${title} · ${span}`, "strong"),
      table,
      ...moneyTable(chosen, view),
      ...filled(READINGS.table(view, readings, { title: "Vehicles, as logged", empty: "" })),
      ...notes.map((text) => line(text, "muted")),
      deferralLine(),
    ],
    data: TIMECARD_DATA.json({ people: chosen, vehicles: readings }, view),
  };
}

/** The report of a chain of days; `person` shows one person alone. */
export function timecardReport(
  { say, person }: ReportInput,
  days: readonly Day[],
  cards: readonly Timecard[],
): ReportParts {
  const title = days.at(-1)?.plan.title ?? null;
  const dates = days.map(({ plan }) => plan.date);
  return cardReport(title, dates, cards, { say, person, readings: readingsOf(days), empty: "This plan has no crew." });
}

/** The report of a log: no vehicles were read off in it. */
export function timecardLogReport(
  log: HoursLog,
  cards: readonly Timecard[],
  findings: readonly Finding[],
  say: Wording,
  person: string | null,
): Report {
  const dates = cards.flatMap(({ days }) => days.map(({ date }) => date)).sort();
  return {
    command: "timecard",
    findings,
    say,
    ...cardReport(log.title ?? log.file, dates, cards, { say, person, empty: "No work in this log." }),
  };
}

/** Odometer and engine hours of a vehicle on a date; null where not logged, and since the reading before for the first. */
type MeterReading = ReturnType<typeof readingsOf>[number];

/** A tenth is what such a clock shows; differences of floats show more. */
const tenth = (value: number): number => Math.round(value * 10) / 10;

const since = (now: number | null, before: number | null): number | null =>
  now === null || before === null ? null : tenth(now - before);

/** Readings by vehicle in the order of the last plan, then by day. */
function readingsOf(days: readonly Day[]) {
  const vehicles = new Set([...days].reverse().flatMap((day) => [...day.plan.vehicles.keys()]));
  return [...vehicles].flatMap((vehicle) => {
    let odometer: number | null = null;
    let engine: number | null = null;
    return days.flatMap(({ plan }) => {
      const logged = plan.actual.vehicles.get(vehicle);
      const odometerKm = logged?.odometerKm ?? null;
      const engineHours = logged?.engineHours ?? null;
      if (odometerKm === null && engineHours === null) return [];
      const drivenKm = since(odometerKm, odometer);
      const ranHours = since(engineHours, engine);
      odometer = odometerKm ?? odometer;
      engine = engineHours ?? engine;
      return [{ vehicle, date: plan.date, odometerKm, drivenKm, engineHours, ranHours }];
    });
  });
}

const tenths = (unit: string): Kind<number, unknown> => ({
  ...numberKind,
  cell: (value) => numberCell(value, 1, unit),
});
const km = tenths(" km");
const engine = tenths(" h");

const READINGS = columns<MeterReading, Named>()({
  vehicle: column("Vehicle", idKind, { tone: "strong" }),
  date: column("Day", textKind),
  odometerKm: column("Odometer", orNull(km)),
  drivenKm: column("Driven", said(orNull(km), "since the reading before")),
  engineHours: column("Engine", orNull(engine)),
  ranHours: column("Ran", orNull(engine)),
});

/** `data` of `timecard`. */
const TIMECARD_DATA = object<
  { readonly people: readonly Timecard[]; readonly vehicles: readonly MeterReading[] },
  Named
>()({
  people: listKind(MONEY),
  vehicles: listKind(READINGS),
});

/** The report `timecard`. */
export const timecardMaker: ReportMaker = {
  place: 180,
  topics: [],
  make: (input, { days }) =>
    timecardReport(
      input,
      days,
      rowsByCall(timecards(days), ({ id }) => id, input.day.people),
    ),
  schema: () => TIMECARD_DATA.schema,
};
