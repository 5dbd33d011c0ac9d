/** `timecard`: what each person worked, day by day and in all, as a contract and labour law pay it. */
import type { Day } from "../day/day.ts";
import type { Finding, Say } from "../findings/finding.ts";
import type { Timecard, TimecardDay } from "../hours/pay/timecard.ts";
import { lengthText } from "../time/index.ts";
import { column, DASH, figureColumn } from "./cells.ts";
import { readingsJson, readingsOf, readingsTable } from "./timecard-vehicles.ts";
import type { Block, Cell, Column, Json, Report, Table } from "./view.ts";

const COLUMNS: readonly Column[] = [
  column("Who", "who"),
  column("Day", "date"),
  figureColumn("Worked", "workedMinutes"),
  figureColumn("Straight", "straightMinutes"),
  figureColumn("Overtime", "overtimeMinutes"),
  figureColumn("Double", "doubleMinutes"),
  figureColumn("Day rate adds", "dayRateMinutes", 4),
  figureColumn("Wheel", "drivingMinutes", 2),
  figureColumn("Meals missed", "mealsMissed", 3),
  figureColumn("Rest short", "shortTurnaroundMinutes", 1),
];

const length = (minutes: number): Cell => ({ text: minutes === 0 ? "–" : lengthText(minutes), raw: minutes });
const count = (number: number): Cell => ({ text: number === 0 ? "–" : String(number), raw: number });

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

function cardRows({ id, days, totals }: Timecard, say: Say): readonly (readonly Cell[])[] {
  const rows = days.map((day, index) =>
    dayRow({ text: index === 0 ? say.name(id) : "", raw: id, tone: "strong" }, day),
  );
  const total: readonly Cell[] = [
    { text: "", raw: id },
    { text: "in all", tone: "strong" },
    length(totals.workedMinutes),
    length(totals.straightMinutes),
    length(totals.overtimeMinutes),
    length(totals.doubleMinutes),
    length(totals.dayRateMinutes),
    length(totals.drivingMinutes),
    count(totals.mealsMissed),
    { text: totals.shortTurnarounds === 0 ? "–" : `${totals.shortTurnarounds} times`, raw: totals.shortTurnarounds },
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
    column("Meals missed", "mealPenalties"),
    column("Short turnarounds", "turnaroundPenalties"),
    column("Per diem", "perDiem"),
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

const AID = "A planning aid: local law, the contract and licensed people decide.";

/** The report of a chain of days; `person` shows one person alone. */
export function timecardReport(
  days: readonly Day[],
  cards: readonly Timecard[],
  findings: readonly Finding[],
  say: Say,
  person: string | null,
): Report {
  const shown = cards.filter(({ id }) => person === null || id === person);
  const [first, last] = [days[0]?.plan, days.at(-1)?.plan];
  const span = first?.date === last?.date ? (last?.date ?? "") : `${first?.date ?? ""} to ${last?.date ?? ""}`;
  const table: Table = {
    kind: "table",
    title: "Time card",
    columns: COLUMNS,
    rows: shown.flatMap((card) => cardRows(card, say)),
    empty: "Nobody is in this plan's crew.",
  };
  const title = last?.title ?? null;
  const readings = readingsOf(days);
  const vehicles = readingsTable(readings, say);
  return {
    command: "timecard",
    blocks: [
      { kind: "line", cells: [{ text: title === null ? span : `${title} · ${span}`, tone: "strong" }] },
      table,
      ...moneyTable(shown, say),
      ...(vehicles === null ? [] : [vehicles]),
      { kind: "line", cells: [{ text: AID, tone: "muted" }] },
    ],
    data: { people: shown.map(cardJson), vehicles: readingsJson(readings) },
    findings,
    say,
  };
}
