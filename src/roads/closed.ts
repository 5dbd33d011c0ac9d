/** What happens at a place outside the hours in which it is open. */
import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { Place } from "../plan/plan.ts";
import { dateOfDay, type Instant, type Interval, localDay, startOnClock } from "../time/index.ts";
import { placeClosed } from "./findings.ts";

interface Use extends Interval {
  readonly what: string;
}

/** From parking to departure where a vehicle works there, else from the line check or start to the end. */
function usesOf(day: Day, place: Place): readonly Use[] {
  const stops = day.stops.flatMap((stop): readonly Use[] => {
    const from = stop.arrive ?? stop.parked;
    const to = stop.leave;
    if (stop.place !== place.id || stop.parked === null || from === null || to === null) return [];
    return [{ what: stop.activities.join(", "), from, to }];
  });
  const alone = day.activities.flatMap((times): readonly Use[] => {
    const from = times.lineCheck?.from ?? times.inPosition ?? times.start;
    const to = times.clearEnd ?? times.end;
    const covered = from !== null && to !== null && stops.some((stop) => stop.from <= from && to <= stop.to);
    return times.place !== place.id || from === null || to === null || covered ? [] : [{ what: times.id, from, to }];
  });
  return [...stops, ...alone];
}

/** The first minute of a stretch at which the place is closed; null where it is open throughout. */
function closedAt({ zone, open }: Place, { from, to }: Interval): Instant | null {
  if (open === null) return null;
  let at = from;
  for (let date = localDay(from, zone) - 1; at < to && date <= localDay(to, zone); date++) {
    const opens = startOnClock(dateOfDay(date), open.fromMinute, zone);
    const closes = startOnClock(dateOfDay(date), open.toMinute, zone);
    if (opens <= at && at < closes) at = closes;
  }
  return at < to ? at : null;
}

/** One for each visit or activity that begins before the place opens or goes on after it closes. */
export const closedPlaces = (day: Day): readonly Finding[] =>
  [...day.plan.places.values()].flatMap((place) =>
    usesOf(day, place).flatMap((use): readonly Finding[] => {
      const closed = closedAt(place, use);
      if (closed === null) return [];
      const facts = {
        place: place.id,
        what: use.what,
        from: { at: use.from },
        to: { at: use.to },
        closed: { at: closed },
      };
      return [placeClosed.raise(facts, { at: closed, path: [...place.path, "open"] })];
    }),
  );
