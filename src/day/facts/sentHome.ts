/** Who is logged as released is at nothing that begins later, whatever the plan has for them: the others did it. */

import type { Actual, Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/units.ts";
import type { ActivityTimes, PersonDay } from "../day.ts";

/** The hits and tasks of a day with those who were there. Only a release that ends the day sends someone home. */
export function withoutSentHome(
  activities: readonly ActivityTimes[],
  people: readonly PersonDay[],
  actual: Actual,
): readonly ActivityTimes[] {
  const gone = new Map(
    people.flatMap(({ id, release }): [Id, Instant][] => {
      const released = actual.people.get(id)?.released ?? null;
      return released !== null && released === release ? [[id, released]] : [];
    }),
  );
  if (gone.size === 0) return activities;
  return activities.map((one) => {
    const { start } = one;
    if (start === null) return one;
    const who = one.who.filter((id) => start < (gone.get(id) ?? Number.POSITIVE_INFINITY));
    return who.length === one.who.length ? one : { ...one, who };
  });
}
