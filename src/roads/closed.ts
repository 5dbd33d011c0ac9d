/** What happens at a place outside the hours in which it is open. */
import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { Place } from "../plan/plan.ts";
import { dateOfDay, type Instant, type Interval, localDay, startOnClock, type ZoneId } from "../time/index.ts";
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

/** Minutes after midnight of a local day, which from 1440 on are of the next one. */
const onDay = (day: number, minute: number, zone: ZoneId): Instant =>
  startOnClock(dateOfDay(day + Math.floor(minute / 1440)), minute % 1440, zone);

/** The first minute of a stretch at which the place is closed; null where it is open throughout. */
function closedAt({ zone, open }: Place, { from, to }: Interval): Instant | null {
  if (open.length === 0) return null;
  const days = Array.from(
    { length: localDay(to, zone) - localDay(from, zone) + 3 },
    (_, index) => localDay(from, zone) - 2 + index,
  );
  const hours = days
    .flatMap((day) =>
      open.map((span) => ({ opens: onDay(day, span.fromMinute, zone), closes: onDay(day, span.toMinute, zone) })),
    )
    .toSorted((a, b) => a.opens - b.opens);
  let at = from;
  for (const { opens, closes } of hours) if (opens <= at && at < closes) at = closes;
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
