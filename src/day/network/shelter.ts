/**
 * Waits in the warm: a long wait bound for a place without shelter, mains or a bed, from a stop that has one, is spent at
 * that stop. Judged once on the day without it.
 */
import type { Id, Plan, Run } from "../../plan/plan.ts";
import { activityOf, type DayOrder, isLive } from "../order/order.ts";
import { lengthOfActivity } from "../order/visits.ts";
import type { PlacedDay } from "./place.ts";

/** A bed, a roof or mains. */
export function sheltered({ plan, people }: DayOrder, id: Id): boolean {
  const place = plan.places.get(id);
  const bed = [...people.values()].some((person) => person.slept === id || person.sleeps === id);
  return place !== undefined && (place.shelter || place.mains || place.kind === "lodging" || bed);
}

/** Stops that wait by the plan's word or by this rule. */
export function waitsFor(placed: PlacedDay): ReadonlySet<Id> {
  const waits = new Set<Id>();
  for (const run of placed.build.plan.runs.values()) for (const id of waitsOfRun(placed, run)) waits.add(id);
  return waits;
}

/** The stops at which the plan says `wait: here`. */
export const statedWaits = (plan: Plan): ReadonlySet<Id> =>
  new Set([...plan.runs.values()].flatMap((run) => run.stops.filter((stop) => stop.waitHere).map((stop) => stop.id)));

function waitsOfRun(placed: PlacedDay, run: Run): readonly Id[] {
  const { build } = placed;
  const items = build.items.get(run.vehicle) ?? [];
  const chosen = new Map<number, { id: Id; wait: number }>();
  for (const [index, item] of items.entries()) {
    const stop = run.stops[item.stop];
    const next = run.stops[item.stop + 1];
    if (!item.departure || item.fixed || stop === undefined || next === undefined) continue;
    const fixedAt = items.findIndex((other, at) => at > index && other.fixed);
    if (stop.waitHere) chosen.set(fixedAt, { id: stop.id, wait: Number.POSITIVE_INFINITY });
    if (placed.late.has(item.node) || fixedAt < 0) continue;
    if (sheltered(build.order, next.place) || !sheltered(build.order, stop.place)) continue;
    const wait = waitAt(placed, run, item.stop + 1);
    if (wait > build.plan.rules.shelterAfter && wait > (chosen.get(fixedAt)?.wait ?? 0))
      chosen.set(fixedAt, { id: stop.id, wait });
  }
  return [...chosen.values()].map((one) => one.id);
}

/** Minutes a vehicle stands idle at a stop before the first fixed instant there, or before it leaves. */
function waitAt({ build, value }: PlacedDay, run: Run, index: number): number {
  const stop = run.stops[index];
  if (stop === undefined) return 0;
  const at = (name: string): number | null => {
    const node = build.nodes.get(name);
    return node === undefined ? null : (value[node] ?? null);
  };
  const arrive = at(`${stop.id}.arrive`) ?? 0;
  let busy = (at(`${stop.id}.ready`) ?? arrive) - arrive;
  const visit = build.order.visits.find((one) => one.stop === stop);
  for (const id of visit?.activities.filter((one) => build.entered.activities.has(one)) ?? []) {
    const activity = activityOf(build.plan, id);
    if (activity === undefined) continue;
    if (isLive(activity)) return (at(`${id}.lineCheck`) ?? at(`${id}.inPosition`) ?? arrive) - arrive - busy;
    busy += lengthOfActivity(build.plan, activity);
  }
  const leave = at(`${stop.id}.leave`);
  return leave === null ? 0 : leave - arrive - busy;
}
