/** Hits and standbys that are made without a vehicle: nothing says when their gear is set up. */
import type { Finding } from "../findings/finding.ts";
import { groupBy } from "../lists.ts";
import { setUpUnplanned } from "./findings/findingsIdle.ts";
import { type Attendance, type DayOrder, isLive } from "./order/order.ts";

/** One for a place; a task that comes before the hit there stands for the set-up. */
export function hitsWithoutVehicle({ plan, attendance }: DayOrder): readonly Finding[] {
  if (plan.rules.setUp === 0) return [];
  const unprepared = [...attendance.values()].flatMap((one) => {
    const { location } = one.activity;
    const made = location.kind === "place" && one.visits.every((visit) => visit.vehicle === null);
    return made && isLive(one.activity) && !isPrepared(one, [...attendance.values()])
      ? [{ one, place: location.place }]
      : [];
  });
  return [...groupBy(unprepared, ({ place }) => place)].map(([place, found]) => {
    const all = found.map(({ one }) => one);
    const facts = {
      hits: all.map(({ activity }) => activity.id),
      place,
      setUp: plan.rules.setUp,
      who: all[0]?.who ?? [],
    };
    return setUpUnplanned.raise(facts, { path: all[0]?.activity.path ?? ["hits"] });
  });
}

function isPrepared({ activity }: Attendance, all: readonly Attendance[]): boolean {
  const before = all.filter(
    (other) => activity.after.includes(other.activity.id) || other.activity.before.includes(activity.id),
  );
  return before.some((other) =>
    isLive(other.activity) ? isPrepared(other, all) : other.activity.location.kind === "place",
  );
}
