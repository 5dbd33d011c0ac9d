/** `timecard`: what each person worked, day by day and in all, as a contract and labour law pay it. */
import type { Day } from "../../day/day.ts";
import type { Finding, Say } from "../../findings/finding.ts";
import type { Timecard, TimecardDay } from "../../hours/pay/card.ts";
import type { HoursLog } from "../../plan/log/log.ts";
import { lengthText } from "../../time/index.ts";
import { column, DASH, figureColumn } from "../shared/cells.ts";
import { deferralLine } from "../shared/closingLines.ts";
import type { Block, Cell, Column, Json, Report, Table } from "../shared/view.ts";
import { type Reading, readingsJson, readingsOf, readingsTable } from "./vehicles.ts";

const COLUMNS: readonly Column[] = [
  column("Who", "who"),
  column("Day", "date"),
  figureColumn("Worked", "workedMinutes"),
  figureColumn("Straight", "straightMinutes"),
  figureColumn("Overtime", "overtimeMinutes"),
  figureColumn("Double", "doubleMinutes"),
  figureColumn("Day rate adds", "dayRateMinutes", 4),
  figureColumn("At the wheel", "drivingMinutes", 2),
  figureColumn("Meals missed", "mealsMissed", 3),
  figureColumn("Turnaround short", "shortTurnaroundMinutes", 1),
];

const figure = (value: number | null, text: (value: number) => string): Cell =>
  value === null || value === 0 ? { text: "–", raw: value } : { text: text(value), raw: value };
const length = (minutes: number | null): Cell => figure(minutes, lengthText);
const count = (number: number | null): Cell => figure(number, String);

function dayRow(name: Cell, day: TimecardDay): readonly Cell[] {
  return [
    name,
    { text: day.date },
    length(day.workedMinutes),
    length(day.straightMinutes),
    length(day.overtimeMinutes),
    length(day.doubleMinutes),
    length(day.dayRateMinutes),
    length(day.drivingMinutes),
    count(day.mealsMissed),
    length(day.shortTurnaroundMinutes),
  ];
}

/** Null where a log leaves it open. */
const shortInAll = (days: readonly TimecardDay[]): number | null =>
  days.reduce<number | null>(
    (sum, { shortTurnaroundMinutes: short }) => (sum === null || short === null ? null : sum + short),
    0,
  );

function cardRows({ id, days, totals }: Timecard, say: Say): readonly (readonly Cell[])[] {
  const rows = days.map((day, index) =>
    dayRow({ text: index === 0 ? say.name(id) : "", raw: id, tone: "strong" }, day),
  );
  const total: readonly Cell[] = [
    { text: "", raw: id },
    { text: "in all", raw: null, tone: "strong" },
    length(totals.workedMinutes),
    length(totals.straightMinutes),
    length(totals.overtimeMinutes),
    length(totals.doubleMinutes),
    length(totals.dayRateMinutes),
    length(totals.drivingMinutes),
    count(totals.mealsMissed),
    length(shortInAll(days)),
  ];
  return [...rows, total];
}

const money = (amount: number | null): Cell => (amount === null ? DASH : { text: String(amount), raw: amount });

/** Penalties and per diem in the contract's own money; nothing where no contract states any. */
function moneyTable(cards: readonly Timecard[], say: Say): readonly Block[] {
  const rows = cards
    .filter(
      ({ mealPenalties, turnaroundPenalties, perDiem }) => (mealPenalties ?? turnaroundPenalties ?? perDiem) !== null,
    )
    .map(({ id, contract, mealPenalties, turnaroundPenalties, perDiem }): readonly Cell[] => [
      { text: say.name(id), raw: id, tone: "strong" },
      { text: contract ?? "–", raw: contract },
      money(mealPenalties),
      money(turnaroundPenalties),
      money(perDiem),
    ]);
  if (rows.length === 0) return [];
  const columns: readonly Column[] = [
    column("Who", "who"),
    column("Contract", "contract"),
    figureColumn("Meal penalties", "mealPenalties"),
    figureColumn("Turnaround penalties", "turnaroundPenalties"),
    figureColumn("Per diem", "perDiem"),
  ];
  return [{ kind: "table", title: "Money", columns, rows, empty: "" }];
}

const dayJson = (day: TimecardDay): Json => ({
  date: day.date,
  workedMinutes: day.workedMinutes,
  straightMinutes: day.straightMinutes,
  overtimeMinutes: day.overtimeMinutes,
  doubleMinutes: day.doubleMinutes,
  dayRateMinutes: day.dayRateMinutes,
  drivingMinutes: day.drivingMinutes,
  ridingMinutes: day.ridingMinutes,
  restBeforeMinutes: day.restBeforeMinutes,
  shortTurnaroundMinutes: day.shortTurnaroundMinutes,
  mealsMissed: day.mealsMissed,
  by: day.by,
});

const cardJson = ({ id, contract, days, totals, mealPenalties, turnaroundPenalties, perDiem }: Timecard): Json => ({
  id,
  contract,
  days: days.map(dayJson),
  totals: { ...totals },
  mealPenalties,
  turnaroundPenalties,
  perDiem,
});

/** 29 CFR 778.105: a workweek is seven days in a row that begin on a day the employer fixed. */
const WEEK =
  "Weeks run from Monday; where the workweek begins on another day (29 CFR 778.105), overtime by the week differs.";

/** Riding that labour law need not count, person by person; it is counted, since the plan does not state usual hours. */
const ridingLines = (cards: readonly Timecard[], say: Say): readonly string[] =>
  cards.flatMap(({ id, ridingClause, totals: { ridingMinutes } }) =>
    ridingClause === null || ridingMinutes === 0
      ? []
      : [
          `${say.name(id)} rode ${lengthText(ridingMinutes)} as a passenger, counted as worked; away over night and outside usual hours it need not be (${ridingClause}).`,
        ],
  );

interface Card {
  readonly title: string | null;
  readonly dates: readonly string[];
  readonly cards: readonly Timecard[];
  readonly readings: readonly Reading[];
  readonly findings: readonly Finding[];
  readonly say: Say;
  /** One person alone; null for all. */
  readonly person: string | null;
  readonly empty: string;
}

function cardReport({ title, dates, cards, readings, findings, say, person, empty }: Card): Report {
  const shown = cards.filter(({ id }) => person === null || id === person);
  const [first = "", last = first] = [dates[0], dates.at(-1)];
  const span = first === last ? last : `${first} to ${last}`;
  const rows = shown.flatMap((card) => cardRows(card, say));
  const table: Table = { kind: "table", title: "Time card", columns: COLUMNS, rows, empty };
  const vehicles = readingsTable(readings, say);
  const notes = [...(shown.some(({ byWeek }) => byWeek) ? [WEEK] : []), ...ridingLines(shown, say)];
  const foot = notes.map((text): Block => ({ kind: "line", cells: [{ text, tone: "muted" }] }));
  return {
    command: "timecard",
    blocks: [
      { kind: "line", cells: [{ text: title === null ? span : `${title} · ${span}`, tone: "strong" }] },
      table,
      ...moneyTable(shown, say),
      ...(vehicles === null ? [] : [vehicles]),
      ...foot,
      deferralLine(),
    ],
    data: { people: shown.map(cardJson), vehicles: readingsJson(readings) },
    findings,
    say,
  };
}

/** The report of a chain of days; `person` shows one person alone. */
export function timecardReport(
  days: readonly Day[],
  cards: readonly Timecard[],
  findings: readonly Finding[],
  say: Say,
  person: string | null,
): Report {
  const title = days.at(-1)?.plan.title ?? null;
  const dates = days.map(({ plan }) => plan.date);
  const empty = "Nobody is in this plan's crew.";
  return cardReport({ title, dates, cards, readings: readingsOf(days), findings, say, person, empty });
}

/** The report of a log: no vehicles were read off in it. */
export function timecardLogReport(
  log: HoursLog,
  cards: readonly Timecard[],
  findings: readonly Finding[],
  say: Say,
  person: string | null,
): Report {
  const dates = cards.flatMap(({ days }) => days.map(({ date }) => date)).sort();
  const title = log.title ?? log.file;
  return cardReport({ title, dates, cards, readings: [], findings, say, person, empty: "Nobody works in this log." });
}
