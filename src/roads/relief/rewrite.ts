/** The Day with other people at the wheel: spans, wheels and sleepers as they would be if the plan said so. */
import { aboardOf, type Day, type Move, type PersonSpan } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, type Interval, instant, joined, overlap } from "../../time/units.ts";
import type { Driven } from "./problem.ts";
import type { DayStretch } from "./stretches.ts";

type Spans = readonly PersonSpan[];

/** Puts a change over the part of a row of spans that an interval covers; what lies beyond its end is added as `beyond`. */
function overlay(spans: Spans, over: Interval, change: (span: PersonSpan) => PersonSpan, beyond?: PersonSpan): Spans {
  const parts = spans.flatMap((span): Spans => {
    if (overlap(span, over) === 0) return [span];
    const [from, to] = [instant(Math.max(span.from, over.from)), instant(Math.min(span.to, over.to))];
    const before = span.from < from ? [{ ...span, to: from }] : [];
    const after = span.to > to ? [{ ...span, from: to }] : [];
    return [...before, { ...change(span), from, to }, ...after];
  });
  const end = parts.at(-1)?.to;
  return beyond !== undefined && end !== undefined && end <= over.from ? [...parts, { ...beyond, ...over }] : parts;
}

const ON_THE_WAY: ReadonlySet<string> = new Set(["driving", "riding", "berth"]);

/** The legs on which someone does not drive every stretch; whoever drives a whole leg cannot be stated asleep on it. */
const notAllDriven = (stretches: readonly DayStretch[], driven: Driven): ReadonlySet<Id> =>
  new Set(stretches.flatMap(({ move }, index) => (driven[index] === "1" ? [] : [move])));

const hasBerth = (day: Day, vehicle: Id): boolean => day.plan.vehicles.get(vehicle)?.berth === true;

/** Drive, ride or sleep on every stretch of the vehicles someone is in; neighbours that are alike are one span. */
function onTheWay(day: Day, spans: Spans, stretches: readonly DayStretch[], driven: Driven): Spans {
  const changes = stretches.map((stretch, index): OnStretch => {
    if (driven[index] === "1") return { stretch, is: "driving", doing: "drive" };
    return { stretch, is: hasBerth(day, stretch.vehicle) ? "berth" : "riding", doing: "ride" };
  });
  return spans.flatMap((span) => {
    if (!ON_THE_WAY.has(span.is)) return [span];
    const own = changes.filter(({ stretch }) => stretch.vehicle === span.vehicle && overlap(span, stretch) > 0);
    return changedBy(span, own);
  });
}

interface OnStretch extends Pick<PersonSpan, "is" | "doing"> {
  readonly stretch: DayStretch;
}

/** A span as it is on each of some stretches, which come in order and do not overlap; between them it stays what it was. */
function changedBy(span: PersonSpan, changes: readonly OnStretch[]): Spans {
  const row: PersonSpan[] = [];
  const put = ({ from, to, is, doing }: Pick<PersonSpan, "from" | "to" | "is" | "doing">): void => {
    if (from >= to) return;
    const last = row.at(-1);
    if (last?.is === is && last.doing === doing) row[row.length - 1] = { ...last, to };
    else row.push({ ...span, from, to, is, doing });
  };
  let at = span.from;
  for (const { stretch, is, doing } of changes) {
    const [from, to] = [instant(Math.max(at, stretch.from)), instant(Math.min(span.to, stretch.to))];
    put({ from: at, to: from, is: span.is, doing: span.doing });
    put({ from, to, is, doing });
    at = to;
  }
  put({ from: at, to: span.to, is: span.is, doing: span.doing });
  return row;
}

/** Who may sleep on the legs before and after a stop of a vehicle with a berth sleeps on through a wait there. */
function atStops(day: Day, spans: Spans, stretches: readonly DayStretch[], driven: Driven): Spans {
  const decided = new Set(stretches.map(({ move }) => move));
  const restful = notAllDriven(stretches, driven);
  return day.moves.reduce((row, move) => {
    const next = day.moves.find((own) => own.vehicle === move.vehicle && own.leave >= move.arrive);
    if (next === undefined || next.leave === move.arrive || !decided.has(move.id) || !decided.has(next.id)) return row;
    const mayRest = restful.has(move.id) && restful.has(next.id);
    const is = hasBerth(day, move.vehicle) && mayRest ? "berth" : "duty";
    const isOn = (span: PersonSpan): boolean => span.doing === "wait" && (span.is === "duty" || span.is === "berth");
    return overlay(row, { from: move.arrive, to: next.leave }, (span) => (isOn(span) ? { ...span, is } : span));
  }, spans);
}

/** The walk-around before and the post-trip after a commercial run, which go with its first and its last driver. */
function inspections(day: Day, vehicle: Id): readonly { readonly who: Id; readonly span: PersonSpan }[] {
  const names = new Set(["walk-around", "post-trip"]);
  return day.people.flatMap(({ id, terms }) =>
    terms
      .filter((term) => term.vehicle === vehicle && names.has(term.name))
      .map(({ name, from, to, place }) => ({
        who: id,
        span: { from, to, is: "duty", vehicle: null, activity: null, place, doing: name },
      })),
  );
}

/** Off at the very end is after the release. */
const withoutEnd = (spans: Spans, { to }: Interval): Spans =>
  spans.at(-1)?.is === "off" && spans.at(-1)?.to === to ? spans.slice(0, -1) : spans;

function inspecting(day: Day, who: Id, spans: Spans, stretches: readonly DayStretch[], driven: Driven): Spans {
  let row = spans;
  for (const vehicle of new Set(stretches.map((stretch) => stretch.vehicle))) {
    const firstAt = stretches.findIndex((stretch) => stretch.vehicle === vehicle);
    const lastAt = stretches.findLastIndex((stretch) => stretch.vehicle === vehicle);
    for (const { who: planned, span } of inspections(day, vehicle)) {
      const mine = driven[span.doing === "walk-around" ? firstAt : lastAt] === "1";
      if (mine && planned !== who) row = overlay(row, span, () => span, span);
      if (!mine && planned === who)
        row = withoutEnd(
          overlay(row, span, (own) => ({ ...own, is: "off", doing: "off" })),
          span,
        );
    }
  }
  return row;
}

/** Someone's spans if they drove just these stretches. */
function spansWith(day: Day, who: Id, stretches: readonly DayStretch[], driven: Driven): Spans {
  const person = day.people.find(({ id }) => id === who);
  if (person === undefined) return [];
  const way = atStops(day, onTheWay(day, person.spans, stretches, driven), stretches, driven);
  return inspecting(day, who, way, stretches, driven);
}

function wheelOf(move: Move, stretches: readonly DayStretch[], drivers: readonly Id[]): Move {
  const wheel = stretches.flatMap(({ move: id, from, to }, index) => {
    const driver = drivers[index];
    return id === move.id && driver !== undefined ? [{ from, to, driver }] : [];
  });
  const [start] = wheel;
  if (start === undefined) return move;
  const aboard = aboardOf(move);
  return {
    ...move,
    wheel: joined(wheel, (a, b) => a.driver === b.driver),
    driver: start.driver,
    riders: aboard.filter((who) => who !== start.driver),
  };
}

/** Who may sleep on a leg when not at the wheel: in a berth all who can drive, else those stated; no one who drives it all. */
function asleepOn(day: Day, move: Move, stretches: readonly DayStretch[]): readonly Id[] {
  const own = stretches.filter((stretch) => stretch.move === move.id);
  const berth = hasBerth(day, move.vehicle);
  const able = new Set(own.flatMap(({ drivers }) => (drivers.length > 1 ? drivers : [])));
  return aboardOf(move).filter(
    (who) => (move.asleep.includes(who) || (berth && able.has(who))) && move.wheel.some(({ driver }) => driver !== who),
  );
}

/** The day with one driver for each stretch. */
export function dayWith(day: Day, stretches: readonly DayStretch[], drivers: readonly Id[]): Day {
  const moves = day.moves.map((move) => {
    const driven = wheelOf(move, stretches, drivers);
    return { ...driven, asleep: asleepOn(day, driven, stretches) };
  });
  const touched = new Set(stretches.flatMap((stretch) => stretch.drivers));
  const people = day.people.map((person) => {
    if (!touched.has(person.id)) return person;
    const driven = stretches.map((_, index) => (drivers[index] === person.id ? "1" : "0")).join("");
    const spans = spansWith(day, person.id, stretches, driven);
    return { ...person, spans, ...endsOf(spans, person.call) };
  });
  return { ...day, moves, people };
}

/** The day in which one person drives just these stretches, and others the rest: what that person's hours are judged on. */
export function dayFor(day: Day, who: Id, stretches: readonly DayStretch[], driven: Driven): Day {
  const drivers = stretches.map(({ drivers: able, planned }, index) =>
    driven[index] === "1" ? who : (able.find((other) => other !== who) ?? planned),
  );
  const spans = spansWith(day, who, stretches, driven);
  const people = day.people.map((person) =>
    person.id === who ? { ...person, spans, ...endsOf(spans, person.call) } : person,
  );
  return { ...day, moves: day.moves.map((move) => wheelOf(move, stretches, drivers)), people };
}

/** Call and release move with a walk-around or a post-trip that changes hands. */
function endsOf(
  spans: Spans,
  call: Instant | null,
): { readonly call: Instant | null; readonly release: Instant | null } {
  const working = spans.filter(({ is }) => is !== "off");
  return { call: call === null ? null : (working[0]?.from ?? call), release: working.at(-1)?.to ?? null };
}
