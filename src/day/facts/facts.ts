/** What is logged as it went and contradicts itself: a day cannot be computed on top of it. */
import type { Finding, PlanPath } from "../../findings/finding.ts";
import type { Id, Plan, Run } from "../../plan/plan.ts";
import { dotted } from "../../plan/text/pathtext.ts";
import type { Instant } from "../../time/units.ts";
import { wentBackwards } from "../findings/findings.ts";
import { visitAt } from "../network/build.ts";
import type { Order } from "../order/order.ts";

/** One logged instant, in the words in which it is logged. */
interface Mark {
  readonly what: string;
  readonly at: Instant;
  readonly place: Id | null;
  readonly path: PlanPath;
}

/** Keys of `actual` that read badly in a sentence. */
const WORDS: ReadonlyMap<string, string> = new Map([
  ["at", "began"],
  ["end", "ended"],
]);

function mark(id: Id, key: string, at: Instant | null | undefined, place: Id | null): readonly Mark[] {
  return at == null ? [] : [{ what: `\`${id} ${WORDS.get(key) ?? key}\``, at, place, path: ["actual", id, key] }];
}

/** Raises where `earlier`, which comes first, is told as later than `later`. */
function backwards(plan: Plan, earlier: Mark | undefined, later: Mark | undefined): readonly Finding[] {
  if (earlier === undefined || later === undefined || earlier.at <= later.at) return [];
  const facts = {
    what: later.what,
    at: { at: later.at },
    place: later.place,
    first: earlier.what,
    firstAt: { at: earlier.at },
    firstPlace: earlier.place,
  };
  const span = plan.source.locate(earlier.path);
  const related = span === null ? [] : [{ span, label: "this comes first" }];
  return [wentBackwards.raise(facts, { path: later.path, at: later.at, related })];
}

/** An activity ends after it began; where only its end is logged, a hit began as planned. */
function ofActivity(plan: Plan, id: Id): readonly Finding[] {
  const went = plan.actual.activities.get(id);
  const hit = plan.hits.get(id);
  const place = placeOf(plan, id);
  const planned: readonly Mark[] =
    hit === undefined ? [] : [{ what: `\`${id}\`, as planned,`, at: hit.at, place, path: [...hit.path, "at"] }];
  const [start] = [...mark(id, "at", went?.at, place), ...planned];
  return backwards(plan, start, mark(id, "end", went?.end, place)[0]);
}

function placeOf(plan: Plan, id: Id): Id | null {
  const location = (plan.hits.get(id) ?? plan.tasks.get(id))?.location;
  return location?.kind === "place" ? location.place : null;
}

/** A vehicle's stops one after the other, and what is done at each between its arrival and its departure. */
function ofRun(order: Order, run: Run): readonly Finding[] {
  const { plan } = order;
  const logged = run.stops.map((stop) => {
    const went = plan.actual.stops.get(stop.id);
    const visit = visitAt(order, stop);
    const done = (visit?.activities ?? []).map((id) => {
      const activity = plan.actual.activities.get(id);
      const [began] = mark(id, "at", activity?.at, stop.place);
      return { began, ended: mark(id, "end", activity?.end, stop.place)[0] ?? began };
    });
    return {
      arrived: mark(stop.id, "arrived", went?.arrived, stop.place)[0],
      left: mark(stop.id, "left", went?.left, stop.place)[0],
      done,
    };
  });
  let last: Mark | undefined;
  return logged.flatMap(({ arrived, left, done }) => {
    const found = [...backwards(plan, last, arrived)];
    last = arrived ?? last;
    const there = last;
    found.push(
      ...done.flatMap(({ began, ended }) => [...backwards(plan, there, began), ...backwards(plan, ended, left)]),
    );
    found.push(...backwards(plan, last, left));
    last = left ?? last;
    return found;
  });
}

/**
 * Nobody is called after what they were there for, nor released while they rode. A hit after a release is none: someone
 * may have been sent home, and the others made it.
 */
function ofPerson(order: Order, id: Id): readonly Finding[] {
  const { plan } = order;
  const went = plan.actual.people.get(id);
  const stopMark = (stop: Id, key: "left" | "arrived", place: Id): readonly Mark[] =>
    mark(stop, key, plan.actual.stops.get(stop)?.[key], place);
  const rode = order.legs
    .filter(({ aboard }) => aboard.includes(id))
    .flatMap(({ from, to }) => [...stopMark(from.id, "left", from.place), ...stopMark(to.id, "arrived", to.place)]);
  const attended = [...order.attendance.values()]
    .filter(({ who }) => who.includes(id))
    .flatMap(({ activity }) =>
      mark(activity.id, "at", plan.actual.activities.get(activity.id)?.at, placeOf(plan, activity.id)),
    );
  const { slept = null, sleeps = null } = order.people.get(id) ?? {};
  const [called] = mark(id, "call", went?.call, slept);
  const [released] = mark(id, "released", went?.released, sleeps);
  const first = [...rode, ...attended].toSorted((a, b) => a.at - b.at)[0];
  const last = rode.toSorted((a, b) => b.at - a.at)[0];
  return [...backwards(plan, called, first), ...backwards(plan, last, released)];
}

/** The contradictions between logged instants of activities and vehicles, one for each time that contradicts an earlier. */
export function wentMistakes(order: Order): readonly Finding[] {
  const { plan } = order;
  const found = [
    ...[...plan.actual.activities.keys()].flatMap((id) => ofActivity(plan, id)),
    ...[...plan.runs.values()].flatMap((run) => ofRun(order, run)),
    ...[...plan.actual.people.keys()].flatMap((id) => ofPerson(order, id)),
  ];
  return [...new Map(found.toReversed().map((one) => [dotted(one.path ?? []), one])).values()].toReversed();
}

/** Someone released no later than they were called: as logged, else as the day's plan calls them. */
export function releasedEarly(plan: Plan, id: Id, call: Instant | null, place: Id | null): readonly Finding[] {
  const went = plan.actual.people.get(id);
  const released = went?.released ?? null;
  const from = went?.call ?? call;
  if (released === null || from === null || released > from) return [];
  const facts = {
    what: `\`${id} released\``,
    at: { at: released },
    place,
    first: went?.call == null ? `\`${id} call\`, as planned,` : `\`${id} call\``,
    firstAt: { at: from },
    firstPlace: place,
  };
  const span = went?.call == null ? null : plan.source.locate(["actual", id, "call"]);
  const related = span === null ? [] : [{ span, label: "this comes first" }];
  return [wentBackwards.raise(facts, { path: ["actual", id, "released"], who: id, at: released, related })];
}
