/** Who is logged as released is at nothing that begins later, whatever the plan has for them: the others did it, or no one. */

import type { Finding } from "../../findings/finding.ts";
import type { Actual, Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/units.ts";
import type { ActivityTimes, PersonDay } from "../day.ts";
import { allReleased } from "../findings/findingsFacts.ts";

/** The hits and tasks of a day with those who were there, and what no one is left for, with those who were to do it. */
interface Attended {
  readonly activities: readonly ActivityTimes[];
  readonly lost: readonly ActivityTimes[];
}

/** Only a release that ends the day sends someone home. What is logged was done, whoever is logged as released. */
export function withoutSentHome(
  activities: readonly ActivityTimes[],
  people: readonly PersonDay[],
  actual: Actual,
): Attended {
  const gone = new Map(
    people.flatMap(({ id, release }): [Id, Instant][] => {
      const released = actual.people.get(id)?.released ?? null;
      return released !== null && released === release ? [[id, released]] : [];
    }),
  );
  if (gone.size === 0) return { activities, lost: [] };
  const lost: ActivityTimes[] = [];
  const attended = activities.map((one) => {
    const { start } = one;
    if (start === null) return one;
    const who = one.who.filter((id) => start < (gone.get(id) ?? Number.POSITIVE_INFINITY));
    if (who.length === one.who.length) return one;
    if (who.length > 0 || actual.activities.has(one.id)) return { ...one, who };
    lost.push(one);
    return notMade(one);
  });
  return { activities: attended, lost };
}

/** An activity that the day does not reach. */
export const notMade = (one: ActivityTimes): ActivityTimes => ({
  ...one,
  state: "missed",
  lineCheck: null,
  inPosition: null,
  start: null,
  end: null,
  clearEnd: null,
  slackMinutes: null,
  roadShare: null,
});

/** Said of each hit and task that no one is left for. */
export const lostFindings = (lost: readonly ActivityTimes[]): readonly Finding[] =>
  lost.map(({ id, who, start, activity }) =>
    allReleased.raise(
      { what: id, who },
      { path: activity.path, ...(start === null ? {} : { at: start }), otherwise: activity.kind !== "hit" },
    ),
  );
