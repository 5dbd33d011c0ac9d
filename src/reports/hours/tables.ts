/** The tables of `hours`: who is left with what, then each limit, then how rested people at the wheel are. */
import type { Breach, LimitState } from "../../hours/index.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, lengthText } from "../../time/index.ts";
import { column, DASH, figureColumn, lengthCell, numberCell } from "../shared/cells.ts";
import type { Cell, Table } from "../shared/view.ts";
import { type HoursRow, shownBreaches } from "./data.ts";

/** A row with the words for its person and moments. */
export interface ShownRow extends HoursRow {
  readonly name: string;
  /** Local at `place`, or where the person is released to. */
  clock(at: Instant | null, place?: Id | null): Cell;
}

const isOf = (breach: Breach, { limit }: LimitState): boolean => breach.limit.id === limit.id;

/** Whether no mere break restores what the limit allows. */
const isLasting = ({ limit }: LimitState): boolean =>
  limit.kind === "max" && limit.since.every(({ kind }) => kind !== "break");

/** Whether someone drives in the current shift without the rest that has to come before. */
const unrested = (row: HoursRow): boolean =>
  row.hours.verdicts.some(({ shiftFrom, limits }) =>
    shownBreaches(row).some(
      (breach) =>
        breach.limit.kind === "rest" &&
        breach.limit.forbids === "driving" &&
        (shiftFrom === null || breach.from >= shiftFrom) &&
        limits.some((state) => isOf(breach, state)),
    ),
  );

/** What is left at the wheel today: the least of all limits that a break does not restore; nothing after too short a rest. */
function leftAtWheel(row: HoursRow): number | null {
  const { verdicts, drivingMustStopAt } = row.hours;
  const left = verdicts.flatMap(({ limits }) =>
    limits.filter(isLasting).flatMap(({ leftMinutes }) => leftMinutes ?? []),
  );
  if (drivingMustStopAt === null || left.length === 0) return null;
  return unrested(row) ? 0 : Math.min(...left);
}

/** What a crew lead asks first. */
export function leadTable(rows: readonly ShownRow[]): Table {
  return {
    kind: "table",
    title: "Hours",
    columns: [
      column("Who", "who"),
      figureColumn("Rest before", "restBeforeMinutes"),
      figureColumn("At the wheel", "drivingMinutes"),
      figureColumn("Left", "leftMinutes"),
      column("Next call", "earliestNextCall"),
      figureColumn("On duty", "dutyMinutes", 1),
      column("Next drive", "earliestNextDrive", 2),
      column("Wheel until", "drivingMustStopAt", 3),
    ],
    rows: rows.map((row) => {
      const { hours } = row;
      const broken = shownBreaches(row).some(({ limit }) => limit.kind === "rest");
      return [
        { text: row.name, raw: hours.id, tone: "strong" },
        hours.restBeforeMinutes === null
          ? { text: "not stated", raw: null, tone: "warn" }
          : lengthCell(hours.restBeforeMinutes, broken ? "bad" : "plain"),
        lengthCell(hours.drivingMinutes),
        lengthCell(leftAtWheel(row)),
        row.clock(hours.earliestNextCall),
        lengthCell(hours.dutyMinutes),
        row.clock(hours.earliestNextDrive),
        row.clock(hours.drivingMustStopAt),
      ];
    }),
    empty: "Nobody is in this plan's crew.",
  };
}

/** Someone who takes no wheel is not told of limits at it. */
function shownLimits({ hours }: HoursRow): readonly LimitState[] {
  const all = hours.verdicts.flatMap(({ limits }) => limits);
  if (hours.drivingMinutes > 0 || hours.verdicts.some(({ rules }) => rules.legallyBinding)) return all;
  return all.filter(({ limit }) => limit.forbids !== "driving");
}

function limitRow(row: ShownRow, state: LimitState, first: boolean): readonly Cell[] {
  const since = state.countsFrom;
  const broken = shownBreaches(row).find((breach) => isOf(breach, state) && (since === null || breach.from >= since));
  const rest = state.limit.kind === "rest";
  return [
    { text: first ? row.name : "", raw: row.hours.id, tone: "strong" },
    { text: state.limit.title, raw: state.limit.id },
    lengthCell(state.usedMinutes),
    rest ? { text: "", raw: null } : lengthCell(state.leftMinutes),
    broken === undefined
      ? row.clock(state.runsOutAt)
      : { text: `broken ${row.clock(broken.from).text}`, raw: row.iso(broken.from), tone: "bad" },
    { text: state.limit.clause, tone: "muted" },
  ];
}

/** Every limit that binds someone, with what is used and left of it. */
export function limitsTable(rows: readonly ShownRow[]): Table {
  return {
    kind: "table",
    title: "Limits",
    columns: [
      column("Who", "who"),
      column("Limit", "limit"),
      figureColumn("Used", "usedMinutes"),
      figureColumn("Left", "leftMinutes"),
      column("Runs out", "runsOutAt"),
      column("Clause", "clause", 1),
    ],
    rows: rows.flatMap((row) => shownLimits(row).map((state, index) => limitRow(row, state, index === 0))),
    empty: "No rules bind anyone.",
  };
}

/** Everything that breaks a rule, as stretches of time. */
export function breachesTable(rows: readonly ShownRow[]): Table {
  return {
    kind: "table",
    title: "Beyond the rules",
    columns: [
      column("Who", "who"),
      column("From", "from"),
      column("To", "to"),
      figureColumn("For", "minutes"),
      column("Limit", "limit"),
      column("Clause", "clause", 1),
    ],
    rows: rows.flatMap((row) =>
      shownBreaches(row).map(({ limit, from, to }): readonly Cell[] => [
        { text: row.name, raw: row.hours.id, tone: "strong" },
        row.clock(from),
        row.clock(to),
        lengthCell(to - from),
        { text: limit.title, raw: limit.id },
        { text: limit.clause, tone: "muted" },
      ]),
    ),
    empty: "",
  };
}

/** Sleep and hours awake of whoever drives; a view of its own, beside law. */
export function fitnessTable(rows: readonly ShownRow[]): Table {
  return {
    kind: "table",
    title: "Fit to drive? Averages of groups: not law, and they clear nobody",
    columns: [
      column("Who", "who"),
      figureColumn("Sleep", "sleepMinutes"),
      figureColumn("Crash rate", "crashRatio"),
      column("Wheel from", "from"),
      column("To", "to", 1),
      figureColumn("Awake by then", "awakeMinutes"),
      figureColumn("By night", "nightMinutes", 2),
      figureColumn("Alertness", "alertness", 3),
    ],
    rows: rows.flatMap((row) => {
      const { fitness } = row;
      return (fitness?.wheel ?? []).map((spell, index): readonly Cell[] => [
        { text: index === 0 ? row.name : "", raw: row.hours.id, tone: "strong" },
        fitness?.sleepMinutes == null
          ? { text: "not known", raw: null }
          : { text: `${fitness.stated ? "" : "about "}${lengthText(fitness.sleepMinutes)}`, raw: fitness.sleepMinutes },
        fitness?.crashRatio == null ? DASH : { text: `${fitness.crashRatio} x`, raw: fitness.crashRatio },
        row.clock(spell.from, spell.place),
        row.clock(spell.to, spell.place),
        lengthCell(spell.awakeMinutes),
        lengthCell(spell.nightMinutes),
        numberCell(spell.index, 1),
      ]);
    }),
    empty: "",
  };
}

/** So many hours lie between two values of the curve that are shown. */
const CURVE_STEP = 4;

/** The index through the day of whoever drives: a value every few hours from getting up. */
export function alertnessTable(rows: readonly ShownRow[]): Table {
  const driving = rows.filter(
    ({ fitness }) => fitness !== null && fitness.wheel.length > 0 && fitness.curve.length > 0,
  );
  return {
    kind: "table",
    title: "Alertness from getting up on: an index, no test of anyone",
    columns: [column("Who", "who"), column("Index", "curve")],
    rows: driving.map((row) => {
      const shown = (row.fitness?.curve ?? []).filter((_, hour) => hour % CURVE_STEP === 0);
      const text = shown
        .map(({ at, index }) => `${row.clock(at, row.fitness?.slept).text} ${index.toFixed(1)}`)
        .join(" · ");
      return [{ text: row.name, raw: row.hours.id, tone: "strong" }, { text }];
    }),
    empty: "",
  };
}

/** Where the figures of the fitness view come from, and what is doubtful in them. */
export const FITNESS_SOURCES: readonly string[] = [
  "Crash rate by sleep: Tefft, AAA Foundation for Traffic Safety, 2016. It has no crashes of midnight to 06:00 in it.",
  "Awake 17 h is near 0.05 % of alcohol in the blood, 24 h near 0.10 %: Dawson and Reid, Nature 388:235, 1997 (40 people).",
  "Alertness: S + C of the three-process model, 14 high, 7 the threshold of sleepiness, 3 extreme; PLoS ONE 9:e108679, 2014, as reprinted. Doubtful: one level is printed as 12.5 and as 12.2, and the U term is left out.",
];
