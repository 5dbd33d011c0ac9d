/**
 * Who and which vehicle is where, from when to when, awake and free: the one query of the Day that touch moments, gear, hands,
 * meals and cautions share. The night before (from last night's release, where it is known) and the evening after are part of it.
 */
import type { Id, Plan } from "../../plan/plan.ts";
import { after, type Instant, type Interval, instant } from "../../time/units.ts";
import type { Day, Move, PersonDay } from "../day.ts";
import { ASLEEP } from "./timeline.ts";

/** A person's whereabouts; exactly one of `place` and `vehicle` is known, or neither. */
export interface PersonPresence extends Interval {
  readonly place: Id | null;
  readonly vehicle: Id | null;
  /** Known to be awake: between the evening of a release and the next call no one is, nor in a rest that the plan states. */
  readonly awake: boolean;
  /** Off duty, or waiting on duty with nothing in hand. */
  readonly free: boolean;
  readonly onDuty: boolean;
  readonly doing: string;
}

/** Where a vehicle is in a stretch: at a place or on a move. */
export interface VehiclePresence extends Interval {
  /** Null on the road. */
  readonly place: Id | null;
  readonly move: Move | null;
}

/** Where everyone and every vehicle is at each moment. */
export interface Presence {
  /** In time order, gapless from the first to the last stretch that is known. */
  person(id: Id): readonly PersonPresence[];
  /** In time order, from the start of the day's span to its end; empty for a vehicle without a run. */
  vehicle(id: Id): readonly VehiclePresence[];
  personAt(id: Id, at: Instant): PersonPresence | null;
  vehicleAt(id: Id, at: Instant): VehiclePresence | null;
}

/** Where everyone and every vehicle of a day is. */
export function presenceOf(day: Day): Presence {
  const span = presenceSpan(day);
  const people = new Map(day.people.map((person) => [person.id, personStretches(day, person)]));
  const vehicles = new Map([...day.plan.runs.keys()].map((id) => [id, vehicleStretches(day, id, span)]));
  const at = <S extends Interval>(stretches: readonly S[] | undefined, when: Instant): S | null =>
    stretches?.find((stretch) => stretch.from <= when && when < stretch.to) ?? null;
  return {
    person: (id) => people.get(id) ?? [],
    vehicle: (id) => vehicles.get(id) ?? [],
    personAt: (id, when) => at(people.get(id), when),
    vehicleAt: (id, when) => at(vehicles.get(id), when),
  };
}

/** The day with the night before and the evening after it. */
export function presenceSpan(day: Day): Interval {
  const evening = day.plan.rules.bedAfter;
  const from = Math.min(day.span.from, ...day.people.flatMap((person) => person.previousRelease ?? person.call ?? []));
  return { from: instant(from), to: after(day.span.to, evening) };
}

/** Minutes up before a call: longer for who appears. */
export function upBeforeMinutes(plan: Plan, who: Id): number {
  const onCamera = plan.crew.get(who)?.roles.includes("reporter") ?? false;
  return onCamera ? plan.rules.upBeforeOnCamera : plan.rules.upBefore;
}

function personStretches(day: Day, person: PersonDay): readonly PersonPresence[] {
  const { call, release } = person;
  if (call === null || release === null) return idle(day, person);
  const onDuty = person.spans
    .filter((span) => span.from >= call && span.to <= release)
    .flatMap((span): readonly PersonPresence[] => {
      const off = span.is === "off";
      const resting = off && day.plan.tasks.get(span.activity ?? "")?.kind === "rest";
      if (off && !resting) return offBetween(day, person.id, span, span.place);
      const seated = span.is === "riding" && (span.doing === ASLEEP || isAsleep(day, person.id, span.from));
      const asleep = resting || span.is === "berth" || seated;
      return [
        {
          from: span.from,
          to: span.to,
          place: span.place,
          vehicle: span.vehicle,
          awake: !asleep,
          free: off || span.doing === "wait",
          onDuty: !off,
          doing: span.doing,
        },
      ];
    });
  const bed = after(release, day.plan.rules.bedAfter);
  const evening = restAt(release, bed, person.sleeps, true, "evening");
  return [...nightBefore(day, person, call), ...onDuty, evening];
}

const isAsleep = (day: Day, who: Id, at: Instant): boolean =>
  day.moves.some((move) => move.asleep.includes(who) && move.leave <= at && at < move.arrive);

const restAt = (from: Instant, to: Instant, place: Id | null, awake: boolean, doing: string): PersonPresence => ({
  from,
  to,
  place,
  vehicle: null,
  awake,
  free: true,
  onDuty: false,
  doing,
});

/** Only the time up before the call where last night's release is not known. */
function nightBefore(day: Day, person: PersonDay, call: Instant): readonly PersonPresence[] {
  const released = person.previousRelease;
  if (released !== null && released < call)
    return offBetween(day, person.id, { from: released, to: call }, person.slept);
  return [restAt(instant(call - upBeforeMinutes(day.plan, person.id)), call, person.slept, true, "up")];
}

/** From a release to the next call: evening, sleep, and up before the call. */
function offBetween(day: Day, who: Id, { from, to }: Interval, place: Id | null): readonly PersonPresence[] {
  const up = instant(to - upBeforeMinutes(day.plan, who));
  const bed = instant(Math.min(from + day.plan.rules.bedAfter, Math.max(up, from)));
  const rise = instant(Math.max(up, bed));
  return [
    restAt(from, bed, place, true, "evening"),
    restAt(bed, rise, place, false, "sleep"),
    restAt(rise, to, place, true, "up"),
  ].filter((stretch) => stretch.to > stretch.from);
}

/** Who is not called is up in the evening after the release before, and not counted on after that. */
function idle(day: Day, person: PersonDay): readonly PersonPresence[] {
  const { from, to } = presenceSpan(day);
  const { previousRelease: released, slept } = person;
  if (slept === null) return [];
  if (released === null) return [restAt(from, to, slept, false, "off")].filter((stretch) => stretch.to > stretch.from);
  const bed = instant(Math.min(to, released + day.plan.rules.bedAfter));
  return [restAt(released, bed, slept, true, "evening"), restAt(bed, to, slept, false, "sleep")].filter(
    (stretch) => stretch.to > stretch.from,
  );
}

function vehicleStretches(day: Day, id: Id, span: Interval): readonly VehiclePresence[] {
  const moves = day.moves.filter((move) => move.vehicle === id);
  const first = day.plan.runs.get(id)?.stops[0];
  const stretches: VehiclePresence[] = [];
  let from = span.from;
  let place = first?.place ?? null;
  for (const move of moves) {
    stretches.push(
      { from, to: move.leave, place, move: null },
      { from: move.leave, to: move.arrive, place: null, move },
    );
    from = move.arrive;
    place = move.to;
  }
  stretches.push({ from, to: instant(Math.max(from, span.to)), place, move: null });
  return stretches.filter((stretch) => stretch.to > stretch.from);
}
