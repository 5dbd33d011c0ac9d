/** What `calls` says of each person, stop, move and activity: every key with its column. */
import {
  type ActivityTimes,
  aboardOf,
  type ChoreTimes,
  type DutyTimes,
  type Move,
  type PersonDay,
  type PersonSpan,
  type StopTimes,
  type Why,
} from "../../day/day.ts";
import { partedByUnknown } from "../../hours/judge/unknown.ts";
import { SPAN_KINDS } from "../../hours/rules/rule.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, type Interval, lengthText } from "../../time/index.ts";
import { CHANGE_LIST } from "../changes/index.ts";
import { crewCell, DASH, lengthCell, named, whereCell } from "../shared/cells.ts";
import { clockColumn, column, columns, kept, object, shown } from "../shared/columns.ts";
import type { DayView } from "../shared/dayView.ts";
import {
  anyKind,
  flagKind,
  idKind,
  idsKind,
  instantKind,
  isoKind,
  type Kind,
  keyKind,
  listKind,
  minutesKind,
  moment,
  orNull,
  said,
  slackKind,
  textKind,
  wholeKind,
  wordKind,
} from "../shared/kinds.ts";
import { carriedBy } from "../shared/people.ts";
import { type NoSignal, SILENCES } from "../shared/reach.ts";
import { isoEnds } from "../shared/stamps.ts";
import type { Cell, Json } from "../shared/view.ts";
import { planSpot, type StretchTexts, stretches, termKind, where } from "../shared/where.ts";

/** Someone's day with the time before it of which nothing is known. */
export interface CalledPerson extends PersonDay {
  readonly unknown: readonly Interval[];
}

/** A span, or a part of the time off before a day that no file and no history speaks of. */
interface KnownSpan extends Omit<PersonSpan, "is"> {
  readonly is: PersonSpan["is"] | "unknown";
}

/** Time off is known where a file or a history says so, as in `hours`. */
const knownSpans = ({ spans, unknown }: CalledPerson): readonly KnownSpan[] =>
  unknown.length === 0
    ? spans
    : spans.flatMap((one) =>
        one.is === "off"
          ? partedByUnknown(one, unknown).map(
              ({ from, to, isKnown }): KnownSpan =>
                isKnown ? { ...one, from, to } : { ...one, from, to, is: "unknown", place: null },
            )
          : [one],
      );

/** The rows of `calls`. */
export interface CallsRows {
  readonly people: readonly CalledPerson[];
  readonly stops: readonly StopTimes[];
  readonly moves: readonly Move[];
  readonly activities: readonly ActivityTimes[];
  readonly silences: readonly NoSignal[];
  /** The chain to print instead of the tables; null where none is asked for. */
  readonly why: Why | null;
  /** What changed since an older version, as JSON; null where none was named. */
  readonly changes: Json;
}

const span = object<StretchTexts<KnownSpan>, DayView>()({
  from: isoKind,
  to: isoKind,
  is: kept(wordKind(...SPAN_KINDS, "unknown"), ({ one }) => one.is),
  vehicle: kept(orNull(keyKind), ({ one }) => one.vehicle),
  activity: kept(orNull(keyKind), ({ one }) => one.activity),
  place: kept(orNull(keyKind), ({ one }) => one.place),
});

const person = object<CalledPerson, DayView>()({
  id: keyKind,
  call: kept(orNull(instantKind), (one) => moment(one.call, one.duties[0]?.callPlace ?? null)),
  release: kept(orNull(instantKind), (one) => moment(one.release, one.duties.at(-1)?.releasePlace ?? null)),
  place: kept(orNull(keyKind), (one) => one.duties[0]?.callPlace ?? null),
  duties: listKind(
    object<DutyTimes, DayView>()({
      call: kept(instantKind, (duty) => ({ at: duty.call, place: duty.callPlace })),
      release: kept(instantKind, (duty) => ({ at: duty.release, place: duty.releasePlace })),
    }),
  ),
  spans: kept(listKind(span), (one, view) => stretches(knownSpans(one), view)),
  terms: kept(listKind(termKind), (one, view) => stretches(one.terms, view)),
});

const stop = object<StopTimes>()({
  id: kept(keyKind, (one) => one.stop.id),
  vehicle: keyKind,
  place: keyKind,
  arrive: kept(orNull(instantKind), (one) => moment(one.arrive, one.place)),
  parked: kept(orNull(instantKind), (one) => moment(one.parked, one.place)),
  leave: kept(orNull(instantKind), (one) => moment(one.leave, one.place)),
});

type CallRow = ReturnType<typeof callRows>[number];

/** One row for each call; after a stand-down a person has several a day. */
export const callRows = (people: readonly PersonDay[]) =>
  people.flatMap((person): readonly { readonly person: PersonDay; readonly duty: DutyTimes | null }[] =>
    person.duties.length === 0 ? [{ person, duty: null }] : person.duties.map((duty) => ({ person, duty })),
  );

const during = (duty: DutyTimes, at: Instant): boolean => duty.call <= at && at < duty.release;

function placeCell({ person: { slept, duties }, duty }: CallRow, { say }: DayView): Cell {
  if (duty === null) return BLANK;
  const lobby = duty.callPlace === slept && duty === duties[0];
  return { text: `${lobby ? "lobby, " : ""}${say.name(duty.callPlace)}`, raw: duty.callPlace };
}

const BLANK: Cell = { text: "", raw: null };
const NOTHING: Cell = { text: "nothing to do", tone: "muted", raw: null };

/** A cell of the local clock; blank for someone with nothing to do. */
const duringCell = (
  { duty }: CallRow,
  { clocks }: DayView,
  found: (duty: DutyTimes) => { readonly at: Instant | null; readonly place: Id | null } | undefined,
): Cell => {
  if (duty === null) return BLANK;
  const own = found(duty);
  return clocks.local(own?.at ?? null, own?.place ?? null);
};

/** A row for each person. */
export const CALLS = columns<CallRow, DayView>()({
  who: shown("Who", ({ person }, { say }) => ({ ...named(say, person.id), tone: "strong" })),
  call: clockColumn("Call", ({ duty }) => moment(duty?.call, duty?.callPlace ?? null), {
    instead: ({ duty }) => (duty === null ? [NOTHING, BLANK] : null),
  }),
  place: shown("Where", placeCell),
  wheels: shown(
    "Wheels",
    (row, view) =>
      duringCell(row, view, (duty) => {
        const { id: who } = row.person;
        const move = view.day.moves.find((one) => during(duty, one.leave) && aboardOf(one).includes(who));
        return move && { at: move.leave, place: move.from };
      }),
    { spare: 1 },
  ),
  inPosition: shown(
    "In position",
    (row, view) =>
      duringCell(row, view, (duty) => {
        const hit = view.day.activities.find(
          ({ activity, inPosition, who }) =>
            activity.kind === "hit" && inPosition !== null && during(duty, inPosition) && who.includes(row.person.id),
        );
        return hit && { at: hit.inPosition, place: hit.place };
      }),
    { spare: 2 },
  ),
  release: clockColumn("Release", ({ duty }) => moment(duty?.release, duty?.releasePlace ?? null), {
    instead: ({ duty }) => (duty === null ? [BLANK, BLANK] : null),
  }),
  callToReleaseMinutes: shown(
    "Call to release",
    ({ duty }) => (duty === null ? BLANK : lengthCell(duty.release - duty.call)),
    { figure: true, spare: 4 },
  ),
});

const OVER_LIKELY = said(wholeKind, "what is planned beyond the likely time; negative: planned shorter than that");

/** A row for each drive. */
export const MOVES = columns<Move, DayView>()({
  id: keyKind,
  vehicle: column("Vehicle", idKind, { tone: "strong" }),
  driver: column("Driver", idKind, {
    cell: (move, view) =>
      move.leg.ferry === undefined ? idKind.cell(move.driver, view) : { text: "by ferry", raw: move.driver },
  }),
  riders: column("Riders", idsKind, {
    cell: (move, view) => idsKind.cell(carriedBy(move), view),
    spare: 5,
  }),
  ferry: kept(said(flagKind, "carried by a ferry: no one drives"), (move) => move.leg.ferry !== undefined),
  from: column("From", idKind, { spare: 1 }),
  to: column("To", idKind),
  leave: clockColumn("Leave", (move) => ({ at: move.leave, place: move.from }), { kind: instantKind, deskSpare: 3 }),
  arrive: column("Arrive", instantKind, (move) => ({ at: move.arrive, place: move.to })),
  plannedMinutes: column("Planned", minutesKind),
  plannedAt: wordKind("bad", "drive"),
  likelyMinutes: column("Likely", minutesKind, {
    spare: 4,
    cell: ({ likelyMinutes, leg }) => ({
      text: `${lengthText(likelyMinutes)}${leg.basis === "estimated" ? ", estimated" : ""}`,
      raw: likelyMinutes,
    }),
  }),
  badMinutes: wholeKind,
  leaveBy: column("Leave by", orNull(instantKind), (move) => moment(move.leaveBy, move.from), { spare: 2 }),
  slackMinutes: slackKind,
  overLikelyMinutes: OVER_LIKELY,
});

/** The clock of an activity: of its place, and on the road or aboard that of where the leg came from. */
const clockPlace = ({ place, start, vehicle }: ActivityTimes, { day }: DayView): Id | null =>
  place ??
  day.moves.find((move) => start !== null && move.vehicle === vehicle && move.leave <= start && start < move.arrive)
    ?.from ??
  null;

const MISSED: Cell = { text: "missed", tone: "bad", raw: null };
const missed = ({ state }: ActivityTimes) => (state === "missed" ? ([MISSED, DASH] as const) : null);
const title = (one: ActivityTimes): Cell => ({ text: one.id, tone: "strong" });

/** Hits and tasks: their tables name them apart. */
export const ACTIVITIES = columns<ActivityTimes, DayView>()({
  id: keyKind,
  hit: shown("Hit", title),
  task: shown("Task", title),
  kind: column("Kind", textKind, (one) => one.activity.kind, { spare: 2 }),
  place: column("Place", orNull(idKind), { cell: (one, { say }) => whereCell(say, one) }),
  who: column("Who", idsKind, {
    cell: (one, { say, day }) => crewCell(say, one.who, day.plan.crew.size),
    spare: 4,
  }),
  inPosition: column("In position", orNull(instantKind), (one, view) => moment(one.inPosition, clockPlace(one, view)), {
    cell: (one, { clocks }) => clocks.local(one.inPosition, one.place),
    spare: 2,
  }),
  start: clockColumn("On air", (one, view) => moment(one.start, one.place ?? clockPlace(one, view)), {
    kind: orNull(instantKind),
    instead: missed,
  }),
  minutes: shown("For", (one) => lengthCell(one.activity.forMinutes), { figure: true, spare: 1 }),
  end: column("To", orNull(instantKind), (one, view) => moment(one.end, clockPlace(one, view)), {
    cell: (one, { clocks }) => clocks.local(one.end, one.place),
    spare: 1,
  }),
  state: wordKind("fixed", "late", "early", "missed"),
  slackMinutes: column("Slack", slackKind, { spare: 3 }),
  stops: listKind(keyKind),
});

/** Work with packs that lies outside everyone's duty: tables alone, since the spans of its people have it. */
export const CHORES = columns<ChoreTimes, DayView>()({
  who: shown("Who", ({ who }, { say }) => ({ ...named(say, who), tone: "strong" })),
  from: clockColumn("From", ({ from, place }) => moment(from, place)),
  to: shown("To", ({ to, place }, { clocks }) => clocks.local(to, place), { spare: 1 }),
  place: shown("Where", ({ place, vehicle }, { say }) =>
    place === null && vehicle === null ? BLANK : named(say, place ?? vehicle ?? ""),
  ),
});

const firstPlace = ({ terms }: Why): Id | null => terms.find((one) => one.place !== null)?.place ?? null;

/** An end of a chain on the clock of the term that it belongs to. */
const chainEnd = (why: Why, view: DayView, first: boolean, at: Instant): string => {
  const ends = isoEnds(view.day.plan, why.terms);
  return (first ? ends.at(0)?.from : ends.at(-1)?.to) ?? view.iso(at, firstPlace(why));
};

const fixed = object<Why, DayView>()({
  id: kept(textKind, (one) => one.fixedBy.id),
  at: kept(isoKind, (one, view) => chainEnd(one, view, one.at > one.fixedBy.at, one.fixedBy.at)),
  where: kept(where, (one, view) => planSpot(one.fixedBy.where, view)),
});

const why = object<Why, DayView>()({
  id: textKind,
  at: kept(isoKind, (one, view) => chainEnd(one, view, one.at <= one.fixedBy.at, one.at)),
  fixedBy: kept(fixed, (one) => one),
  terms: kept(listKind(termKind), (one, view) => stretches(one.terms, view)),
});

/** What `changes` lists, made there; null without an older version. */
const CHANGES: Kind<Json, unknown> = { ...anyKind, schema: orNull(CHANGE_LIST).schema };

/** The JSON of `calls`. */
export const CALLS_DATA = object<CallsRows, DayView>()({
  people: listKind(person),
  stops: listKind(stop),
  moves: listKind(MOVES),
  activities: listKind(ACTIVITIES),
  noSignal: kept(listKind(SILENCES), (rows) => rows.silences),
  why: orNull(why),
  changes: CHANGES,
});
