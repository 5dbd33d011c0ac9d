/** `data` of `calls`: people, stops, moves and activities, every documented key in its documented order. */
import type { ActivityTimes, Day, DayTerm, Move, PersonDay, StopTimes, Why } from "../../day/day.ts";
import type { Plan } from "../../plan/plan.ts";
import { whereJson } from "../shared/envelope.ts";
import type { Silence } from "../shared/reach.ts";
import { silenceJson } from "../shared/reachView.ts";
import { isoAt, isoEnds } from "../shared/stamps.ts";
import type { Json } from "../shared/view.ts";

export interface CallsRows {
  readonly people: readonly PersonDay[];
  readonly stops: readonly StopTimes[];
  readonly moves: readonly Move[];
  readonly activities: readonly ActivityTimes[];
  readonly silences: readonly Silence[];
}

export const callsData = (day: Day, rows: CallsRows, why: Why | null): Json => ({
  people: rows.people.map((person) => personJson(day.plan, person)),
  stops: rows.stops.map((stop) => stopJson(day.plan, stop)),
  moves: rows.moves.map((move) => moveJson(day.plan, move)),
  activities: rows.activities.map((activity) => activityJson(day, activity)),
  noSignal: rows.silences.map((silence) => silenceJson(day.plan, silence)),
  why: why === null ? null : whyJson(day.plan, why),
});

function personJson(plan: Plan, person: PersonDay): Json {
  const first = person.duties[0];
  const last = person.duties.at(-1);
  const ends = isoEnds(plan, person.spans);
  return {
    id: person.id,
    call: isoAt(plan, person.call, first?.callPlace ?? null),
    release: isoAt(plan, person.release, last?.releasePlace ?? null),
    place: first?.callPlace ?? null,
    duties: person.duties.map((duty) => ({
      call: isoAt(plan, duty.call, duty.callPlace),
      release: isoAt(plan, duty.release, duty.releasePlace),
    })),
    spans: person.spans.map((span, at) => ({
      from: ends[at]?.from ?? null,
      to: ends[at]?.to ?? null,
      is: span.is,
      vehicle: span.vehicle,
      activity: span.activity,
      place: span.place,
    })),
    terms: termsJson(plan, person.terms),
  };
}

const termsJson = (plan: Plan, terms: readonly DayTerm[]): Json => {
  const ends = isoEnds(plan, terms);
  return terms.map((term, at) => ({
    name: term.name,
    from: ends[at]?.from ?? null,
    to: ends[at]?.to ?? null,
    minutes: term.minutes,
    where: term.where === null ? null : whereJson(term.where, plan.source.locate(term.where), plan.file),
  }));
};

const stopJson = (plan: Plan, stop: StopTimes): Json => ({
  id: stop.stop.id,
  vehicle: stop.vehicle,
  place: stop.place,
  arrive: isoAt(plan, stop.arrive, stop.place),
  parked: isoAt(plan, stop.parked, stop.place),
  leave: isoAt(plan, stop.leave, stop.place),
});

const moveJson = (plan: Plan, move: Move): Json => ({
  id: move.id,
  vehicle: move.vehicle,
  driver: move.driver,
  riders: move.riders,
  from: move.from,
  to: move.to,
  leave: isoAt(plan, move.leave, move.from),
  arrive: isoAt(plan, move.arrive, move.to),
  plannedMinutes: move.plannedMinutes,
  plannedAt: move.plannedAt,
  likelyMinutes: move.likelyMinutes,
  badMinutes: move.badMinutes,
  leaveBy: isoAt(plan, move.leaveBy, move.from),
  slackMinutes: move.slackMinutes,
  overLikelyMinutes: move.overLikelyMinutes,
});

function activityJson({ plan, moves }: Day, times: ActivityTimes): Json {
  // On the road or aboard there is no place: the clock of where the leg came from still holds.
  const leg = moves.find(
    (move) =>
      times.start !== null && move.vehicle === times.vehicle && move.leave <= times.start && times.start < move.arrive,
  );
  const place = times.place ?? leg?.from ?? null;
  return {
    id: times.id,
    kind: times.activity.kind,
    place: times.place,
    who: times.who,
    inPosition: isoAt(plan, times.inPosition, place),
    start: isoAt(plan, times.start, place),
    end: isoAt(plan, times.end, place),
    state: times.state,
    slackMinutes: times.slackMinutes,
    stops: times.stops,
  };
}

function whyJson(plan: Plan, why: Why): Json {
  const [ends, place] = [isoEnds(plan, why.terms), why.terms.find((term) => term.place !== null)?.place ?? null];
  const starts = why.at <= why.fixedBy.at;
  return {
    id: why.id,
    at: (starts ? ends.at(0)?.from : ends.at(-1)?.to) ?? isoAt(plan, why.at, place),
    fixedBy: {
      id: why.fixedBy.id,
      at: (starts ? ends.at(-1)?.to : ends.at(0)?.from) ?? isoAt(plan, why.fixedBy.at, place),
      where:
        why.fixedBy.where === null
          ? null
          : whereJson(why.fixedBy.where, plan.source.locate(why.fixedBy.where), plan.file),
    },
    terms: termsJson(plan, why.terms),
  };
}
