/** Stops that serve nothing and people who have nothing to do: a forgotten hit, task or name, a detour or a day off. */
import type { Finding } from "../../findings/finding.ts";
import type { Id, Plan, Stop } from "../../plan/plan.ts";
import { departureMissing, nothingToDo, stopIdle } from "../findings/findingsIdle.ts";
import { bringsTo, type DayOrder, type OrderedLeg } from "../order/order.ts";

/** Where a run begins and ends the vehicle stands for the night; every stop between is there for something. */
export function idleStops(order: DayOrder): readonly Finding[] {
  const { plan, legs } = order;
  return [...plan.runs.values()].flatMap((run) =>
    run.stops.flatMap((stop): readonly Finding[] => {
      const arriving = legs.find((leg) => leg.to === stop);
      const leaving = legs.find((leg) => leg.from === stop);
      if (arriving === undefined || leaving === undefined) return [];
      if (serves(order, stop, arriving) || isStated(stop) || changes(arriving, leaving)) return [];
      if (plan.vehicles.get(run.vehicle)?.due?.place === stop.place) return [];
      const [from, to] = [arriving.from.place, leaving.to.place];
      if (from !== to && !isRoad(plan, from, to)) return [];
      return [stopIdle.raise({ vehicle: run.vehicle, place: stop.place, back: from === to }, { path: stop.path })];
    }),
  );
}

/** The last stop of a run has no departure: what it says of one has no effect. */
export const lastStops = ({ plan }: DayOrder): readonly Finding[] =>
  [...plan.runs.values()].flatMap(({ vehicle, stops }): readonly Finding[] => {
    const last = stops.at(-1);
    if (last === undefined || stops.length < 2) return [];
    const { driver, asleep, relieve, ferry, path } = last;
    const keys = [
      ...(driver === null ? [] : ["driver"]),
      ...((asleep ?? []).length === 0 ? [] : ["asleep"]),
      ...(relieve.length === 0 ? [] : ["relieve"]),
      ...(ferry === null ? [] : ["ferry"]),
    ];
    if (keys.length === 0) return [];
    return [departureMissing.raise({ vehicle, place: last.place, keys }, { path: [...path, keys[0] ?? ""] })];
  });

/** A hit or task there, also of another vehicle's visit, or the bed of someone who comes. */
function serves(order: DayOrder, stop: Stop, arriving: OrderedLeg): boolean {
  if (order.visits.some((visit) => visit.stop === stop)) return true;
  if ([...order.attendance.keys()].some((id) => bringsTo(order, stop, id))) return true;
  return arriving.aboard.some((id) => {
    const person = order.people.get(id);
    return person?.slept === stop.place || person?.sleeps === stop.place;
  });
}

/** Whether the plan says more of the stop than its place. */
const isStated = (stop: Stop): boolean =>
  stop.do !== null ||
  stop.leave !== null ||
  stop.ferry !== null ||
  stop.arriveBy !== null ||
  stop.stayMinutes !== null ||
  stop.setUpMinutes !== null ||
  stop.waitHere ||
  stop.after.length > 0 ||
  stop.moves.size > 0;

const changes = (arriving: OrderedLeg, leaving: OrderedLeg): boolean =>
  arriving.driver !== leaving.driver || arriving.aboard.join(" ") !== leaving.aboard.join(" ");

/** Whether a stated road joins two places; without one a stop between them may be there to lead the way. */
const isRoad = (plan: Plan, from: Id, to: Id): boolean =>
  plan.roads.some(
    ({ link: [one, other], oneWay }) => (one === from && other === to) || (!oneWay && one === to && other === from),
  );

/** Findings for people who have nothing to do. */
export function idlePeople({ plan, people, attendance }: DayOrder): readonly Finding[] {
  const busy = new Set([...attendance.values()].flatMap(({ who }) => who));
  return [...people.values()].flatMap(({ id, stays }) => {
    const rides = stays.some(({ arriving, leaving }) => arriving !== null || leaving !== null);
    if (rides || busy.has(id)) return [];
    return [nothingToDo.raise({ who: id }, { who: id, path: plan.crew.get(id)?.path ?? ["crew", id] })];
  });
}
