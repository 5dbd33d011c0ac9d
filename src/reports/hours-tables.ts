/** The tables of `hours`: who is left with what, then each limit, then how rested people at the wheel are. */
import type { Breach, LimitState } from "../hours/index.ts";
import { type Instant, lengthText } from "../time/index.ts";
import { type HoursRow, shownBreaches } from "./hours-data.ts";
import type { Cell, Column, Table } from "./view.ts";

/** A row with the words for its person and moments. */
export interface ShownRow extends HoursRow {
  readonly name: string;
  clock(at: Instant | null): Cell;
}

const column = (label: string, key: string, spare = 0, align: Column["align"] = "left"): Column => ({
  label,
  key,
  spare,
  align,
});

const DASH: Cell = { text: "–", raw: null };

const length = (minutes: number | null, tone: Cell["tone"] = "plain"): Cell =>
  minutes === null ? DASH : { text: lengthText(minutes), raw: minutes, tone };

/** Whether no mere break restores what the limit allows. */
const isLasting = ({ limit }: LimitState): boolean =>
  limit.kind === "max" && limit.since.every(({ kind }) => kind !== "break");

/** What is left at the wheel today: the least of all limits that a break does not restore. */
function leftAtWheel({ hours }: HoursRow): number | null {
  const left = hours.verdicts.flatMap(({ limits }) =>
    limits.filter(isLasting).flatMap(({ leftMinutes }) => leftMinutes ?? []),
  );
  return hours.drivingMustStopAt === null || left.length === 0 ? null : Math.min(...left);
}

/** What a crew lead asks first. */
export function leadTable(rows: readonly ShownRow[]): Table {
  return {
    kind: "table",
    title: "Hours",
    columns: [
      column("Who", "who"),
      column("Rest before", "restBeforeMinutes", 0, "right"),
      column("At the wheel", "drivingMinutes", 0, "right"),
      column("Left", "leftMinutes", 0, "right"),
      column("Next call", "earliestNextCall"),
      column("On duty", "dutyMinutes", 1, "right"),
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
          : length(hours.restBeforeMinutes, broken ? "bad" : "plain"),
        length(hours.drivingMinutes),
        length(leftAtWheel(row)),
        row.clock(hours.earliestNextCall),
        length(hours.dutyMinutes),
        row.clock(hours.earliestNextDrive),
        row.clock(hours.drivingMustStopAt),
      ];
    }),
    empty: "Nobody is in this plan's crew.",
  };
}

const isOf = (breach: Breach, { limit }: LimitState): boolean => breach.limit.id === limit.id;

/** Someone who takes no wheel is not told of limits at it. */
function shownLimits({ hours }: HoursRow): readonly LimitState[] {
  const all = hours.verdicts.flatMap(({ limits }) => limits);
  if (hours.drivingMinutes > 0 || hours.verdicts.some(({ rules }) => rules.law)) return all;
  return all.filter(({ limit }) => limit.forbids !== "driving");
}

function limitRow(row: ShownRow, state: LimitState, first: boolean): readonly Cell[] {
  const since = state.countsFrom;
  const broken = shownBreaches(row).find((breach) => isOf(breach, state) && (since === null || breach.from >= since));
  const rest = state.limit.kind === "rest";
  return [
    { text: first ? row.name : "", raw: row.hours.id, tone: "strong" },
    { text: state.limit.title },
    length(state.usedMinutes),
    rest ? { text: "", raw: null } : length(state.leftMinutes),
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
      column("Used", "usedMinutes", 0, "right"),
      column("Left", "leftMinutes", 0, "right"),
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
      column("For", "minutes", 0, "right"),
      column("Limit", "limit"),
      column("Clause", "clause", 1),
    ],
    rows: rows.flatMap((row) =>
      shownBreaches(row).map(({ limit, from, to }): readonly Cell[] => [
        { text: row.name, raw: row.hours.id, tone: "strong" },
        row.clock(from),
        row.clock(to),
        length(to - from),
        { text: limit.title },
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
      column("Sleep", "sleepMinutes", 0, "right"),
      column("Crash rate", "crashRatio", 0, "right"),
      column("Wheel from", "from"),
      column("To", "to", 1),
      column("Awake by then", "awakeMinutes", 0, "right"),
      column("By night", "nightMinutes", 2, "right"),
      column("Alertness", "alertness", 3, "right"),
    ],
    rows: rows.flatMap((row) => {
      const { fitness } = row;
      return (fitness?.wheel ?? []).map((spell, index): readonly Cell[] => [
        { text: index === 0 ? row.name : "", raw: row.hours.id, tone: "strong" },
        fitness?.sleepMinutes == null
          ? { text: "not known", raw: null }
          : { text: `${fitness.stated ? "" : "about "}${lengthText(fitness.sleepMinutes)}`, raw: fitness.sleepMinutes },
        fitness?.crashRatio == null ? DASH : { text: `${fitness.crashRatio} x`, raw: fitness.crashRatio },
        row.clock(spell.from),
        row.clock(spell.to),
        length(spell.awakeMinutes),
        length(spell.nightMinutes),
        spell.index === null ? DASH : { text: spell.index.toFixed(1), raw: Math.round(spell.index * 100) / 100 },
      ]);
    }),
    empty: "",
  };
}
