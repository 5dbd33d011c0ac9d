/** What `hours` says of each person: law and house rules first, fitness apart from them; every key with its column. */
import type { Fitness } from "../../hours/fitness/fitness.ts";
import { type Breach, breachesOf, type LimitState, type PersonHours } from "../../hours/index.ts";
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, lengthText } from "../../time/index.ts";
import { lengthCell, numberCell } from "../shared/cells.ts";
import { column, columns, kept, object, shown } from "../shared/columns.ts";
import {
  flagKind,
  instantKind,
  type Kind,
  keyKind,
  listKind,
  type Moment,
  minutesKind,
  moment,
  numberKind,
  orNull,
  said,
  textKind,
  weekdayKind,
  wholeKind,
} from "../shared/kinds.ts";
import type { Cell } from "../shared/view.ts";

/** One person as a report shows them. */
export interface HoursRow {
  readonly name: string;
  readonly hours: PersonHours;
  /** Breaches that ended before this belong to an earlier day. */
  readonly since: Instant | null;
  /** Null for a log, which knows nothing of nights. */
  readonly fitness: Fitness | null;
  /** Where the person is released to, whose clock holds; null for the plan's or the log's. */
  readonly bed: Id | null;
}

/** The breaches of the day or log that is shown. */
export const shownBreaches = ({ hours, since }: HoursRow): readonly Breach[] =>
  breachesOf(hours).filter(({ to }) => since === null || to > since);

type LimitRow = ReturnType<typeof shownLimits>[number];

const isOf = (breach: Breach, { limit }: LimitState): boolean => breach.limit.id === limit.id;

/** Whether no mere break restores what the limit allows. */
const isLasting = ({ limit }: LimitState): boolean =>
  limit.kind === "max" && limit.since.every(({ kind }) => kind !== "break");

/** The break that stops someone at `at`, by law or by the house; null where what stops them lasts until the next rest. */
function breakAt(row: HoursRow, law: boolean, at: Instant | null): string | null {
  const stopping = row.hours.verdicts
    .filter(({ rules }) => rules.legallyBinding === law)
    .flatMap(({ limits, breaches }) => [
      ...limits.filter(({ runsOutAt }) => runsOutAt === at).map(({ limit }) => limit),
      ...breaches.filter(({ from }) => from === at).map(({ limit }) => limit),
    ]);
  const [first] = stopping;
  const lasts = stopping.some((limit) => limit.kind !== "max" || limit.since.every(({ kind }) => kind !== "break"));
  return at === null || first === undefined || lasts ? null : first.title;
}

/** Whom a break stops at the time printed, by law and by the house, with the rule's name. */
export function breakStops(rows: readonly HoursRow[]) {
  return [true, false].flatMap((law) => {
    const stopped = rows.flatMap((row) => {
      const rule = breakAt(row, law, law ? row.hours.drivingMustStopAt : row.hours.houseDrivingStopsAt);
      return rule === null ? [] : [{ rule, name: row.name }];
    });
    const byRule = groupBy(stopped, ({ rule }) => rule);
    return [...byRule].map(([rule, all]) => ({ law, rule, names: all.map(({ name }) => name) }));
  });
}

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

const nameCell = (row: HoursRow, first = true): Cell => ({
  text: first ? row.name : "",
  raw: row.hours.id,
  tone: "strong",
});

/** How often a limit may still be stretched, for its row. */
function leftText({ limit, extensionsLeft }: LimitState): string {
  if (extensionsLeft === undefined || limit.kind !== "max") return "";
  const what = limit.extension === undefined ? "reduced rests" : lengthText(limit.extension.allows);
  return ` · ${what}: ${extensionsLeft} left`;
}

/** Every limit that binds someone, with what is used and left of it. */
export const LIMITS = columns<LimitRow>()({
  who: shown("Who", ({ row, first }) => nameCell(row, first)),
  id: kept(textKind, ({ state }) => state.limit.id),
  limit: shown("Limit", ({ state }) => ({ text: `${state.limit.title}${leftText(state)}`, raw: state.limit.id })),
  clause: column("Clause", textKind, ({ state }) => state.limit.clause, { tone: "muted", spare: 1 }),
  allowedMinutes: kept(wholeKind, ({ state }) => state.allowedMinutes),
  usedMinutes: column("Used", orNull(minutesKind), ({ state }) => state.usedMinutes, {
    cell({ state }) {
      const cell = lengthCell(state.usedMinutes);
      return state.atLeast === true ? { ...cell, text: `at least ${cell.text}` } : cell;
    },
  }),
  leftMinutes: column("Left", orNull(minutesKind), ({ state }) => state.leftMinutes, {
    cell: ({ state }) => (state.limit.kind === "rest" ? { text: "", raw: null } : lengthCell(state.leftMinutes)),
  }),
  runsOutAt: column("Runs out", orNull(instantKind), ({ row, state }) => moment(state.runsOutAt, row.bed), {
    cell({ row, state, isFirst }, { clocks, iso }) {
      const since = state.countsFrom;
      const broken = shownBreaches(row).find(
        (breach) => isOf(breach, state) && (since === null || breach.from >= since),
      );
      if (broken !== undefined) {
        const at = clocks.weekday(broken.from, row.bed).text;
        return { text: `broken ${at}`, raw: iso(broken.from, row.bed), tone: "bad" };
      }
      if (state.short === true) return { text: "short: no new shift", raw: null, tone: "warn" };
      return isFirst ? clocks.weekday(state.runsOutAt, row.bed) : { text: "", raw: null };
    },
  }),
  atLeast: kept(flagKind, ({ state }) => state.atLeast === true),
  short: kept(flagKind, ({ state }) => state.short === true),
  extensionsLeft: kept(orNull(wholeKind), ({ state }) => state.extensionsLeft ?? null),
});

/** The limits of law, or of the house, that a person is shown: no limits at the wheel for someone who takes none. */
export function shownLimits(row: HoursRow, law: boolean) {
  const { verdicts, drivingMinutes } = row.hours;
  const atWheel = (verdict: (typeof verdicts)[number]): boolean =>
    verdict.rules.legallyBinding && verdict.limits.some(({ limit }) => limit.forbids === "driving");
  const wheel = drivingMinutes > 0 || verdicts.some(atWheel);
  const states = verdicts
    .filter(({ rules }) => rules.legallyBinding === law)
    .flatMap(({ limits }) => limits)
    .filter(({ limit }) => wheel || limit.forbids !== "driving");
  const running = states.flatMap(({ runsOutAt, leftMinutes }) =>
    runsOutAt === null || leftMinutes === 0 ? [] : [runsOutAt],
  );
  const soonest = Math.min(...running);
  // The first runs out before the others.
  return states.map((state, index) => ({ row, state, first: index === 0, isFirst: state.runsOutAt === soonest }));
}

/** Everything that breaks a rule, as stretches of time. */
export const BREACHES = columns<ReturnType<typeof breachRows>[number]>()({
  who: shown("Who", ({ row }) => nameCell(row)),
  limit: column("Limit", textKind, ({ breach }) => breach.limit.id, {
    cell: ({ breach: { limit } }) => ({ text: limit.title, raw: limit.id }),
  }),
  clause: column("Clause", textKind, ({ breach }) => breach.clause, { tone: "muted" }),
  from: column("From", instantKind, ({ row, breach }) => ({ at: breach.from, place: row.bed })),
  to: column("To", instantKind, ({ row, breach }) => ({ at: breach.to, place: row.bed })),
  minutes: column("For", minutesKind, ({ breach }) => breach.minutes),
});

/** The breaches of a person, a row each. */
export const breachRows = (row: HoursRow) => shownBreaches(row).map((breach) => ({ row, breach }));

/** The rest that runs, else the one before the shift, and what the rules ask for. */
function restCell(row: HoursRow): Cell {
  const { restBeforeMinutes, restSoFarMinutes, restNeededMinutes: needed, restAtLeast } = row.hours;
  const rest = restSoFarMinutes ?? restBeforeMinutes;
  if (rest === null) return { text: "not stated", raw: null, tone: "warn" };
  const broken = shownBreaches(row).some(({ limit }) => limit.kind === "rest");
  const text = `${restAtLeast ? "at least " : ""}${lengthText(rest)} / ${lengthText(needed)}`;
  return { text, raw: rest, tone: broken ? "bad" : "plain" };
}

type Answer = `earliest${"NextCall" | "NextDrive" | "DriveFromBerth"}` | "drivingMustStopAt" | "houseDrivingStopsAt";
const atBed =
  (answer: Answer) =>
  ({ hours, bed }: HoursRow): Moment | null =>
    moment(hours[answer], bed);

/** The four answers that a driver asks for first, then the rest. */
export const HOURS_PEOPLE = columns<HoursRow>()({
  id: kept(keyKind, ({ hours }) => hours.id),
  who: shown("Who", (row) => nameCell(row)),
  rules: kept(listKind(textKind), ({ hours }) => hours.bindings.map(({ rules }) => rules.id)),
  restBeforeMinutes: kept(orNull(minutesKind), ({ hours }) => hours.restBeforeMinutes),
  restAtLeast: kept(flagKind, ({ hours }) => hours.restAtLeast),
  restSoFarMinutes: column("Rest / needed", orNull(minutesKind), ({ hours }) => hours.restSoFarMinutes, {
    cell: restCell,
  }),
  restNeededMinutes: kept(minutesKind, ({ hours }) => hours.restNeededMinutes),
  dutyMinutes: column("On duty", minutesKind, ({ hours }) => hours.dutyMinutes, { spare: 3 }),
  drivingMinutes: column("At the wheel", minutesKind, ({ hours }) => hours.drivingMinutes, { spare: 2 }),
  leftMinutes: shown("Left to drive", (row) => lengthCell(leftAtWheel(row)), { figure: true, spare: 2 }),
  limits: kept(listKind(LIMITS), (row) =>
    row.hours.verdicts.flatMap(({ limits }) => limits.map((state) => ({ row, state, first: false, isFirst: false }))),
  ),
  breaches: kept(listKind(BREACHES), breachRows),
  drivingMustStopAt: column("Law: drive until", orNull(instantKind), atBed("drivingMustStopAt"), {
    cell({ hours, bed }, { clocks }) {
      const drives = hours.houseDrivingStopsAt !== null || hours.drivingMustStopAt !== null;
      const bound = hours.verdicts.some(({ rules }) => rules.legallyBinding);
      if (!drives) return { text: "does not drive", raw: null, tone: "muted" };
      if (!bound) return { text: "no law binds", raw: null, tone: "muted" };
      return clocks.weekday(hours.drivingMustStopAt, bed);
    },
  }),
  houseDrivingStopsAt: column("House: until", orNull(weekdayKind), atBed("houseDrivingStopsAt")),
  earliestNextCall: column("Call again from", orNull(weekdayKind), atBed("earliestNextCall")),
  earliestNextDrive: column("Next drive", orNull(weekdayKind), atBed("earliestNextDrive"), { spare: 1 }),
  earliestDriveFromBerth: column("From the berth", orNull(weekdayKind), atBed("earliestDriveFromBerth"), { spare: 1 }),
});

/** The index has no more digits than its parameters. */
const index: Kind<number, unknown> = {
  ...numberKind,
  json: (value) => Math.round(value * 100) / 100,
  cell: (value) => numberCell(value, 1),
};

/** Sleep and hours awake of whoever drives; a view of its own, besides law. */
export const WHEEL = columns<ReturnType<typeof spellsOf>[number]>()({
  who: shown("Who", ({ row, first }) => nameCell(row, first)),
  sleepMinutes: column("Sleep in 24 h", orNull(minutesKind), ({ spell }) => spell.sleepMinutes, {
    cell: ({ fitness: { stated }, spell: { sleepMinutes: sleep } }) =>
      sleep === null
        ? { text: "not known", raw: null }
        : { text: `${stated ? "" : "about "}${lengthText(sleep)}`, raw: sleep },
  }),
  crashRatio: column("Crash rate", orNull(numberKind), ({ spell }) => spell.crashRatio, {
    cell: ({ spell: { crashRatio: ratio } }, view) =>
      ratio === null ? orNull(numberKind).cell(null, view) : { text: `${ratio} x`, raw: ratio },
  }),
  from: column("Wheel from", instantKind, ({ spell }) => ({ at: spell.from, place: spell.place })),
  to: column("To", instantKind, ({ spell }) => ({ at: spell.to, place: spell.place }), { spare: 1 }),
  awakeMinutes: column("Awake by then", orNull(minutesKind), ({ spell }) => spell.awakeMinutes),
  nightMinutes: column("By night", minutesKind, ({ spell }) => spell.nightMinutes, { spare: 2 }),
  alertness: column("Alertness", orNull(index), ({ spell }) => spell.index, { spare: 3 }),
});

/** A person's stretches at the wheel. */
export const spellsOf = (row: HoursRow) => {
  const { fitness } = row;
  return fitness === null ? [] : fitness.wheel.map((spell, at) => ({ row, fitness, spell, first: at === 0 }));
};

/** So many hours lie between two values of the curve that are shown. */
const CURVE_STEP = 4;

const point = object<{ readonly at: Instant; readonly index: number; readonly place: Id | null }>()({
  at: kept(instantKind, ({ at, place }) => ({ at, place })),
  alertness: kept(index, (one) => one.index),
});

/** A row for each person with something known of their sleep. */
export const FITNESS = columns<ReturnType<typeof restedOf>[number]>()({
  id: kept(keyKind, ({ row }) => row.hours.id),
  who: shown("Who", ({ row }) => nameCell(row)),
  sleepMinutes: kept(orNull(wholeKind), ({ fitness }) => fitness.sleepMinutes),
  sleepStated: kept(flagKind, ({ fitness }) => fitness.stated),
  up: kept(orNull(instantKind), ({ fitness }) => moment(fitness.up, fitness.slept)),
  upAssumed: kept(flagKind, ({ fitness }) => fitness.upAssumed),
  crashRatio: kept(orNull(numberKind), ({ fitness }) => fitness.crashRatio),
  wheel: kept(listKind(WHEEL), ({ row }) => spellsOf(row)),
  curve: column(
    "Index",
    said(listKind(point), "S + C hour by hour since getting up: 14 high, 7 the threshold of sleepiness, 3 extreme"),
    ({ fitness }) => fitness.curve.map((one) => ({ ...one, place: fitness.slept })),
    {
      cell({ fitness: { curve, slept } }, { clocks }) {
        const some = curve.filter((_, hour) => hour % CURVE_STEP === 0);
        return { text: some.map(({ at, index }) => `${clocks.local(at, slept).text} ${index.toFixed(1)}`).join(" · ") };
      },
    },
  ),
});

/** The people with something known of their sleep. */
export const restedOf = (rows: readonly HoursRow[]) =>
  rows.flatMap((row) => (row.fitness === null ? [] : [{ row, fitness: row.fitness }]));

/** `data` of `hours`. */
export const HOURS_DATA = object<readonly HoursRow[]>()({
  people: kept(listKind(HOURS_PEOPLE), (rows) => rows),
  fitness: kept(listKind(FITNESS), restedOf),
});
