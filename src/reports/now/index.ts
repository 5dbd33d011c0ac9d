/** `now`: one glance for whoever rides: what is late, what everyone is at, what comes next and when to leave, the next hit and chore. */

import { dayChanges } from "../../changes/index.ts";
import { type ActivityTimes, aboardOf, type Day, type PersonSpan } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import type { PowerResult } from "../../power/index.ts";
import { type HandTask, todoOf } from "../../power/todo.ts";
import { type Instant, isoLocal, lengthText } from "../../time/index.ts";
import { line } from "../shared/blocks.ts";
import { DASH, placeCell, privateCell } from "../shared/cells.ts";
import { column, columns, kept, object } from "../shared/columns.ts";
import { type DayView, dayView, type ReportInput } from "../shared/dayView.ts";
import { had, type Judged, TOPICS } from "../shared/judged.ts";
import {
  idKind,
  idsKind,
  instantKind,
  isoKind,
  keyKind,
  listKind,
  minutesKind,
  moment,
  orNull,
  slackKind,
  textKind,
} from "../shared/kinds.ts";
import { inOrderOfCalls, whereIs } from "../shared/people.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, BriefLine, ReportParts } from "../shared/view.ts";

/** What `now` shows. */
interface NowInput extends ReportInput {
  readonly judged: Judged;
  /** The version before an edit; null where nothing was edited. */
  readonly against: Judged | null;
  readonly power: PowerResult;
  readonly at: Instant;
}

interface View extends DayView {
  readonly at: Instant;
}

type Row = ReturnType<typeof personRow>;
type LateRow = ReturnType<typeof lateOf>[number];
type HitRow = NonNullable<ReturnType<typeof hitRow>>;
type ChoreRow = NonNullable<ReturnType<typeof choreRow>>;
type TellRow = ReturnType<typeof tellOf>[number];
type Rows = ReturnType<typeof rowsOf>;

/** The last line: who drives does not read. */
const RIDERS = "For whoever rides: the driver does not read this.";

/** The report of `now`. */
function nowReport(input: NowInput): ReportParts {
  const { at } = input;
  const view: View = { ...dayView(input), at };
  const rows = rowsOf(input);
  return {
    blocks: [
      line(stamp(view), "strong"),
      ...rows.late.map(({ message }): Block => line(message, "bad")),
      ROWS.table(view, rows.vehicles, { title: "Vehicles", show: SHOWN, empty: "No vehicle runs." }),
      ROWS.table(view, rows.people, { title: "People", show: SHOWN, empty: "No one is called." }),
      ...[hitText(view, rows.nextHit), choreText(view, rows.nextChore), tellText(view, rows.tell)].flatMap(
        (words): readonly Block[] => (words === null ? [] : [line(words)]),
      ),
      line(RIDERS, "muted"),
    ],
    data: NOW_DATA.json(rows, view),
    brief: briefOf(view, rows),
  };
}

/** The moment on the local clock and on the control room's. */
function stamp({ day, clocks, at }: View): string {
  const [local, desk] = [clocks.main, day.plan.clock];
  const own = `${clocks.text(at, local)} ${clocks.name(local)}`;
  return local === desk ? own : `${own} (${clocks.text(at, desk)} ${clocks.name(desk)})`;
}

function rowsOf(input: NowInput) {
  const { day, at, person, power } = input;
  const mine = (who: readonly Id[]): boolean => person === null || who.includes(person);
  const hits = day.activities.filter(
    ({ activity, start, who }) => activity.kind === "hit" && start !== null && start > at && mine(who),
  );
  const chores = todoOf(power.built, power.solution).filter(({ from, who }) => from > at && mine(who));
  return {
    at: { at, place: null },
    late: lateOf(input),
    people: inOrderOfCalls(day.people)
      .filter(({ call, id: own }) => call !== null && mine([own]))
      .map((one) => personRow(day, one.id, at)),
    vehicles: [...day.plan.runs.keys()]
      .filter((vehicle) => day.stops.some((stop) => stop.vehicle === vehicle))
      .map((vehicle) => vehicleRow(input, vehicle)),
    nextHit: hitRow(day, hits.toSorted((a, b) => (a.start ?? 0) - (b.start ?? 0))[0]),
    nextChore: choreRow(day, chores[0]),
    tell: tellOf(input),
  };
}

/** What is missed and what began later than planned, worst first. */
function lateOf({ day, findings, say, at }: NowInput) {
  const missed = findings
    .filter(
      ({ code, accepted, at: when }) =>
        accepted === null &&
        ["hit-missed", "task-missed", "stop-time-missed"].includes(code) &&
        (when === null || when > at),
    )
    .map((finding) => ({
      what: String(finding.facts["what"]),
      by: finding.shortMinutes,
      message: finding.sentence(say),
    }));
  const begun = day.activities.flatMap((one) => {
    const planned = one.activity.kind === "hit" ? one.activity.at : null;
    if (planned === null || one.start === null || one.start <= planned || (one.end ?? one.start) < at) return [];
    const by = one.start - planned;
    return [{ what: one.id, by, message: `${one.id} is ${say.length(by)} late` }];
  });
  return [...missed, ...begun];
}

function personRow(day: Day, who: Id, at: Instant) {
  const person = day.people.find((one) => one.id === who);
  const spans = person?.spans ?? [];
  const now = spans.find((span) => span.from <= at && at < span.to) ?? null;
  const next = spans.find((span) => span.from > at && span.doing !== "wait") ?? null;
  const calls = person?.duties.map(({ call, callPlace }) => ({ at: call, place: callPlace })) ?? [];
  const called = calls.find((call) => call.at > at);
  const move = day.moves.find((one) => one.leave > at && aboardOf(one).includes(who));
  const off = now === null || now.is === "off";
  return {
    id: who,
    doing: now === null ? (called === undefined ? "released" : "off") : doingText(now),
    place: now?.place ?? null,
    next: off && called !== undefined ? "call" : next === null ? null : doingText(next),
    nextAt: off && called !== undefined ? called : next === null ? null : moment(next.from, next.place),
    leaveBy: moment(move?.leaveBy, move?.from ?? null),
    slackMinutes: move?.slackMinutes ?? null,
  };
}

/** Terms of a day that read oddly of a person. */
const WORDS: ReadonlyMap<string, string> = new Map([
  ["wait", "waiting"],
  ["drive", "driving"],
  ["ride", "riding"],
  ["chore", "pack moves"],
]);

const plainWord = (doing: string): string => WORDS.get(doing) ?? doing;

const doingText = ({ doing, activity, is }: PersonSpan): string => (is === "off" ? "off" : (activity ?? doing));

function vehicleRow({ day, at, say }: NowInput, vehicle: Id): Row {
  const rolling = day.moves.find((move) => move.vehicle === vehicle && move.leave <= at && at < move.arrive);
  const next = day.moves.find((move) => move.vehicle === vehicle && move.leave > at);
  const place = whereIs(day, vehicle, at);
  return {
    id: vehicle,
    doing: rolling === undefined ? "stands" : `to ${say.name(rolling.to)}`,
    place,
    next: rolling !== undefined ? "arrives" : next === undefined ? null : `leaves for ${say.name(next.to)}`,
    nextAt: rolling !== undefined ? { at: rolling.arrive, place: rolling.to } : moment(next?.leave, next?.from ?? null),
    leaveBy: moment(next?.leaveBy, next?.from ?? null),
    slackMinutes: next?.slackMinutes ?? null,
  };
}

function hitRow(day: Day, hit: ActivityTimes | undefined) {
  if (hit === undefined || hit.start === null) return null;
  const lines = [...day.plan.lines.values()].filter(({ who }) => who.some((one) => hit.who.includes(one)));
  return {
    id: hit.id,
    start: { at: hit.start, place: hit.place },
    place: hit.place,
    path: hit.activity.signalPath,
    lines: lines.flatMap(({ id: own, number }) => (number === null ? [] : [`${own} ${number}`])),
  };
}

const choreRow = (day: Day, chore: HandTask | undefined) =>
  chore === undefined
    ? null
    : {
        at: { at: chore.from, place: day.plan.places.has(chore.where) ? chore.where : null },
        who: chore.who,
        text: chore.steps.map(({ pack, from, to }) => `${pack} ${from} → ${to}`).join(", "),
      };

/** Of an edit: who must still be told. */
function tellOf({ judged, against, at }: NowInput) {
  if (against === null) return [];
  return dayChanges(against, judged).people.flatMap(({ id: own, tellBy, bed }) =>
    // Whose moment is past is told now.
    tellBy === null ? [] : [{ id: own, by: { at: tellBy < at ? at : tellBy, place: bed } }],
  );
}

function hitText({ say, clocks, at, redact }: View, hit: HitRow | null): string | null {
  if (hit === null) return "No more hits.";
  const lines = redact || hit.lines.length === 0 ? "" : `; ${hit.lines.join(", ")}`;
  const place = hit.place === null ? "" : ` at ${say.name(hit.place)}`;
  return `Next hit: ${hit.id} ${clocks.local(hit.start.at, hit.start.place).text}${place} in ${lengthText(hit.start.at - at)}${hit.path === null ? "" : `, ${hit.path}`}${lines}`;
}

const choreText = ({ say, clocks }: View, chore: ChoreRow | null): string | null =>
  chore === null
    ? null
    : `Next pack change: ${clocks.local(chore.at.at, chore.at.place).text} ${chore.who.map((one) => say.name(one)).join(", ")}: ${chore.text}`;

const tellText = ({ say, clocks, at }: View, tell: readonly TellRow[]): string | null =>
  tell.length === 0
    ? null
    : `Tell: ${tell.map(({ id: own, by }) => `${say.name(own)} ${by.at <= at ? "now" : `by ${clocks.local(by.at, by.place).text}`}`).join(", ")}`;

/** The same in a few lines, for a chat. */
function briefOf(view: View, rows: Rows): readonly BriefLine[] {
  const one = ({ id: own, doing, next, nextAt }: Row): string =>
    `${view.say.name(own)}: ${plainWord(doing)}${next === null || nextAt === null ? "" : `, then ${plainWord(next)} ${view.clocks.local(nextAt.at, nextAt.place).text}`}`;
  const hit = hitText(view, rows.nextHit);
  const line = (items: readonly string[], spare: BriefLine["spare"] = 0): readonly BriefLine[] =>
    items.length === 0 ? [] : [{ lead: "", items, spare }];
  return [
    ...line([stamp(view)]),
    ...line(rows.late.map(({ message }) => message)),
    ...line(hit === null ? [] : [hit]),
    ...line(rows.vehicles.map(one), 2),
    ...line(rows.people.map(one), 1),
    ...line([RIDERS]),
  ];
}

const SHOWN = ["id", "doing", "place", "next", "nextAt", "leaveBy", "slackMinutes"] as const;

const ROWS = columns<Row, View>()({
  id: column("Who", idKind, { tone: "strong" }),
  doing: column("Now", textKind, {
    cell: ({ doing }) => ({ text: plainWord(doing), raw: doing }),
  }),
  place: column("At", orNull(idKind), {
    cell: ({ place }, { say }) => placeCell(say, place),
  }),
  next: column("Next", orNull(textKind), {
    cell: ({ next }) => (next === null ? DASH : { text: plainWord(next), raw: next }),
  }),
  nextAt: column("When", orNull(instantKind)),
  leaveBy: column("Leave by", orNull(instantKind)),
  slackMinutes: column("Slack", slackKind),
});

const HIT = object<HitRow, View>()({
  id: keyKind,
  start: instantKind,
  place: orNull(idKind),
  path: orNull(keyKind),
  lines: kept(listKind(textKind), ({ lines }, { redact }) =>
    redact ? lines.map(() => privateCell("", true).text) : lines,
  ),
});

/** The JSON of `now`. */
const NOW_DATA = object<Rows, View>()({
  at: kept(isoKind, ({ at }, { clocks }) => isoLocal(at.at, clocks.main)),
  late: listKind(
    object<LateRow, View>()({
      what: textKind,
      minutes: kept(orNull(minutesKind), ({ by }) => by),
      message: textKind,
    }),
  ),
  people: listKind(ROWS),
  vehicles: listKind(ROWS),
  nextHit: orNull(HIT),
  nextChore: orNull(object<ChoreRow, View>()({ at: instantKind, who: idsKind, text: textKind })),
  tell: listKind(object<TellRow, View>()({ id: keyKind, by: instantKind })),
});

/** The report `now`. */
export const nowMaker: ReportMaker = {
  place: 100,
  topics: TOPICS,
  make: (input, judged, { against = null }) =>
    nowReport({ ...input, judged, against, power: had(judged.results.power), at: input.now ?? input.day.span.from }),
  schema: () => NOW_DATA.schema,
};
