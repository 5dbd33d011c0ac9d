/** What is logged as it went and contradicts itself: a day cannot be computed on top of it. */
import type { Finding } from "../../findings/finding.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { dotted } from "../../plan/text/pathtext.ts";
import type { Instant } from "../../time/units.ts";
import { wentBackwards } from "../findings/findings.ts";
import type { DayOrder } from "../order/order.ts";
import { factOf, type LoggedFact, type Pins, placeOfActivity } from "./pins.ts";

/** Raises where `earlier`, which comes first, is logged as later than `later`. */
function backwards(
  plan: Plan,
  earlier: LoggedFact | null | undefined,
  later: LoggedFact | null | undefined,
): readonly Finding[] {
  return !earlier || !later || earlier.at <= later.at ? [] : raised(plan, earlier, later);
}

function raised(plan: Plan, earlier: LoggedFact, later: LoggedFact): readonly Finding[] {
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

/** An activity ends after it began; where only its end is logged, one with a fixed time began as planned. */
function ofActivity(plan: Plan, id: Id): readonly Finding[] {
  const went = plan.actual.activities.get(id);
  const place = placeOfActivity(plan, id);
  const began = factOf(id, "at", went?.at, place) ?? plannedStart(plan, id, place);
  return backwards(plan, began, factOf(id, "end", went?.end, place));
}

function plannedStart(plan: Plan, id: Id, place: Id | null): LoggedFact | null {
  const what = `\`${id}\`, as planned,`;
  const hit = plan.hits.get(id);
  if (hit !== undefined) return { what, at: hit.at, place, path: [...hit.path, "at"] };
  const task = plan.tasks.get(id);
  const fills = task?.kind === "standby" || task?.kind === "standdown";
  if (task === undefined || !fills || task.window === null) return null;
  return { what, at: task.window.from, place, path: [...task.path, "window"] };
}

/**
 * No one is called after what they were there for, nor released while they rode. A hit after a release is none: someone
 * may have been sent home, and the others made it.
 */
function ofPerson(order: DayOrder, id: Id, assumed: ReadonlySet<string>): readonly Finding[] {
  const { plan } = order;
  const went = plan.actual.people.get(id);
  const ofStop = (stop: Id, key: "left" | "arrived", place: Id): readonly LoggedFact[] => {
    const fact = factOf(stop, key, plan.actual.stops.get(stop)?.[key], place);
    return fact === null || (key === "left" && assumed.has(`${stop}.leave`)) ? [] : [fact];
  };
  const rode = order.legs
    .filter(({ aboard }) => aboard.includes(id))
    .flatMap(({ from, to }) => [...ofStop(from.id, "left", from.place), ...ofStop(to.id, "arrived", to.place)]);
  const attended = [...order.attendance.values()]
    .filter(({ who }) => who.includes(id))
    .flatMap(({ activity }) => {
      const { at } = plan.actual.activities.get(activity.id) ?? { at: null };
      return factOf(activity.id, "at", at, placeOfActivity(plan, activity.id)) ?? [];
    });
  const { slept = null, sleeps = null } = order.people.get(id) ?? {};
  const { from, to } = dutyOf(order, id, went?.call ?? null, went?.released ?? null);
  const first = [...rode, ...attended].filter(({ at }) => at >= from).toSorted((a, b) => a.at - b.at)[0];
  const last = rode.filter(({ at }) => at <= to).toSorted((a, b) => b.at - a.at)[0];
  return [
    ...backwards(plan, factOf(id, "call", went?.call, slept), first),
    ...backwards(plan, last, factOf(id, "released", went?.released, sleeps)),
  ];
}

/** A stated call may be that after a stand-down, a stated release that before one: what they can contradict lies between. */
function dutyOf(order: DayOrder, id: Id, call: Instant | null, released: Instant | null) {
  const downs = [...order.attendance.values()].filter(
    ({ activity, who }) => activity.kind === "standdown" && who.includes(id),
  );
  const windows = downs.map(({ activity }) => ("window" in activity ? activity.window : null));
  return {
    from: Math.max(...windows.map((one) => (one === null ? Infinity : one.from < (call ?? 0) ? one.from : -Infinity))),
    to: Math.min(...windows.map((one) => (one === null ? -Infinity : one.to > (released ?? 0) ? one.to : Infinity))),
  };
}

/** Two pinned instants of which the first in the plan's order is the later one. */
interface Contradiction {
  readonly first: string;
  readonly second: string;
}

/** Two facts that no day can hold; what is only planned never contradicts, it gives way. */
export function contradiction(plan: Plan, pins: Pins, { first, second }: Contradiction): readonly Finding[] {
  const [earlier, later] = [pins.at.get(first)?.fact, pins.at.get(second)?.fact];
  return earlier && later ? raised(plan, earlier, later) : [];
}

/** Without what contradicts: the planned instant where only one was logged, else both. */
export function withoutContradiction(pins: Pins, { first, second }: Contradiction): Pins {
  const planned = [first, second].filter((name) => pins.at.get(name)?.fact === null);
  const at = new Map(pins.at);
  for (const name of planned.length === 1 ? planned : [first, second]) at.delete(name);
  return { ...pins, at };
}

/**
 * What contradicts itself before any instant is placed, one finding for each time that contradicts an earlier. A departure in
 * `assumed` was not logged: it gives way.
 */
export function impossibleFacts(order: DayOrder, assumed: ReadonlySet<string>): readonly Finding[] {
  const { plan } = order;
  const found = [
    ...[...plan.actual.activities.keys()].flatMap((id) => ofActivity(plan, id)),
    ...[...plan.actual.people.keys()].flatMap((id) => ofPerson(order, id, assumed)),
  ];
  return [...new Map(found.toReversed().map((one) => [dotted(one.path ?? []), one])).values()].toReversed();
}

/** Someone released no later than they were called: as logged, else as the day's plan calls them. */
export function releasedEarly(plan: Plan, id: Id, call: Instant | null, place: Id | null): readonly Finding[] {
  const went = plan.actual.people.get(id);
  const released = went?.released ?? null;
  const from = call ?? went?.call ?? null;
  if (released === null || from === null || released > from) return [];
  const facts = {
    what: `\`${id} released\``,
    at: { at: released },
    place,
    first: went?.call !== from ? `\`${id} call\`, as planned,` : `\`${id} call\``,
    firstAt: { at: from },
    firstPlace: place,
  };
  const span = went?.call !== from ? null : plan.source.locate(["actual", id, "call"]);
  const related = span === null ? [] : [{ span, label: "this comes first" }];
  return [wentBackwards.raise(facts, { path: ["actual", id, "released"], who: id, at: released, related })];
}
