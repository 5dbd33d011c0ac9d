/** Who cannot be reached when, at places and on roads without a telephone signal; its table and JSON in `calls` and `drives`. */
import { aboardOf, type Day, type Move, type PersonDay } from "../../day/day.ts";
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, instant } from "../../time/units.ts";
import { clockColumn, column, columns } from "./columns.ts";
import type { DayView } from "./dayView.ts";
import { idKind, idsKind, instantKind } from "./kinds.ts";
import type { Table } from "./view.ts";

/** One stretch without signal, for everyone who has exactly this one. */
export interface NoSignal {
  readonly who: readonly Id[];
  readonly from: Instant;
  readonly to: Instant;
  /** The place where it begins, for the clock of `from`. */
  readonly fromPlace: Id;
  readonly toPlace: Id;
  /** Roads and places it runs through, in order. */
  readonly through: readonly ({ readonly place: Id } | { readonly road: readonly [Id, Id] })[];
}

/** All stretches of a day, in time order, people who share one told together. */
export function silences(day: Day): readonly NoSignal[] {
  const each = day.people.flatMap((person) => silencesOf(day, person));
  const shared = groupBy(each, ({ from, to, fromPlace, toPlace }) => `${from} ${to} ${fromPlace} ${toPlace}`);
  return [...shared.values()]
    .map((all) => ({ ...all[0], who: all.flatMap(({ who }) => who) }))
    .sort((a, b) => a.from - b.from);
}

/** One person's stretches, those that touch made one. */
function silencesOf(day: Day, person: PersonDay): readonly NoSignal[] {
  const roads = day.moves.filter((move) => move.leg.noSignal && aboardOf(move).includes(person.id)).map(onRoad);
  const places = person.spans
    .filter((span) => span.is !== "off" && span.place !== null && day.plan.places.get(span.place)?.signal === "none")
    .flatMap((span) => (span.place === null ? [] : [atPlace(span.from, span.to, span.place)]));
  const pieces = [...roads, ...places].sort((a, b) => a.from - b.from).map((one) => ({ ...one, who: [person.id] }));
  return pieces.reduce<NoSignal[]>((joined, piece) => {
    const last = joined.at(-1);
    if (last && piece.from <= last.to) joined[joined.length - 1] = joinedSilence(last, piece);
    else joined.push(piece);
    return joined;
  }, []);
}

const onRoad = (move: Move): Omit<NoSignal, "who"> => ({
  from: move.leave,
  to: move.arrive,
  fromPlace: move.from,
  toPlace: move.to,
  through: [{ road: [move.from, move.to] }],
});

const atPlace = (from: Instant, to: Instant, place: Id): Omit<NoSignal, "who"> => ({
  from,
  to,
  fromPlace: place,
  toPlace: place,
  through: [{ place }],
});

function joinedSilence(first: NoSignal, second: NoSignal): NoSignal {
  const [last] = first.through.slice(-1);
  const [next] = second.through;
  const same = last && next && "place" in last && "place" in next && last.place === next.place;
  return {
    ...first,
    to: instant(Math.max(first.to, second.to)),
    toPlace: second.toPlace,
    through: same ? first.through : [...first.through, ...second.through],
  };
}

/** A row for each stretch without signal. */
export const SILENCES = columns<NoSignal>()({
  who: column("Who", idsKind, { tone: "strong" }),
  from: clockColumn("From", ({ from, fromPlace }) => ({ at: from, place: fromPlace }), { kind: instantKind }),
  to: column("To", instantKind, ({ to, toPlace }) => ({ at: to, place: toPlace })),
  fromPlace: column("Leaving", idKind),
  toPlace: column("Until", idKind),
});

/** The table of stretches without signal. */
export const reachTable = (view: DayView, silences: readonly NoSignal[]): Table =>
  SILENCES.table(view, silences, { title: "Out of reach", empty: "Everyone can be reached all day." });
