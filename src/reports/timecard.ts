/** `timecard`: what each person worked, day by day and in all, as a contract and labour law pay it. */
import type { Day } from "../day/day.ts";
import type { Finding, Say } from "../findings/finding.ts";
import type { Timecard, TimecardDay } from "../hours/pay/timecard.ts";
import { lengthText } from "../time/index.ts";
import type { Block, Cell, Column, Json, Report, Table } from "./view.ts";

const column = (label: string, key: string, spare = 0): Column => ({ label, key, spare, align: "right" });

const COLUMNS: readonly Column[] = [
  { label: "Who", key: "who", align: "left" },
  { label: "Day", key: "date", align: "left" },
  column("Worked", "workedMinutes"),
  column("Straight", "straightMinutes"),
  column("Overtime", "overtimeMinutes"),
  column("Double", "doubleMinutes"),
  column("Wheel", "drivingMinutes", 2),
  column("Meals missed", "mealsMissed", 3),
  column("Rest short", "shortTurnaroundMinutes", 1),
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
    length(totals.drivingMinutes),
    count(totals.mealsMissed),
    { text: totals.shortTurnarounds === 0 ? "–" : `${totals.shortTurnarounds} times`, raw: totals.shortTurnarounds },
  ];
  return [...rows, total];
}

/** Penalties and per diem in the contract's own money. */
function moneyLines(cards: readonly Timecard[], say: Say): readonly Block[] {
  const items = cards.flatMap(({ id, contract, mealPenalties, turnaroundPenalties, perDiem }) => {
    const parts = [
      ...(mealPenalties === null ? [] : [`meal penalties ${mealPenalties}`]),
      ...(turnaroundPenalties === null ? [] : [`short turnarounds ${turnaroundPenalties}`]),
      ...(perDiem === null ? [] : [`per diem ${perDiem}`]),
    ];
    return parts.length === 0 ? [] : [{ text: `${say.name(id)}, ${contract ?? ""}: ${parts.join(", ")}` }];
  });
  return items.length === 0 ? [] : [{ kind: "list", items }];
}

const dayJson = (day: TimecardDay): Json => ({
  date: day.date,
  workedMinutes: day.workedMinutes,
  straightMinutes: day.straightMinutes,
  overtimeMinutes: day.overtimeMinutes,
  doubleMinutes: day.doubleMinutes,
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
  return {
    command: "timecard",
    blocks: [
      { kind: "line", cells: [{ text: title === null ? span : `${title} · ${span}`, tone: "strong" }] },
      table,
      ...moneyLines(shown, say),
      { kind: "line", cells: [{ text: AID, tone: "muted" }] },
    ],
    data: { people: shown.map(cardJson) },
    findings,
    say,
  };
}
