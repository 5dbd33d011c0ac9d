/** Hits where no one goes, and stops that list what happens at another place. */
import { doneElsewhere, hitUnattended } from "../findings.ts";
import type { Body, Id } from "../plan.ts";
import type { Reading } from "../read/reading.ts";

/** Findings for hits that no one is taken to. */
export function checkAttendance(reading: Reading, body: Body): void {
  const visited = visitedPlaces(body);
  const raised = new Set<string>();
  for (const hit of body.hits.values()) {
    const { location, path } = hit;
    if (location.kind !== "place" || visited.has(location.place) || raised.has(path.join(" "))) continue;
    raised.add(path.join(" "));
    const facts = { hit: String(path.at(-1)), place: location.place, runs: body.runs.size };
    reading.mistake([...path, "place"], (c) => hitUnattended.raise(facts, c));
  }
  checkStops(reading, body);
}

/** Every place that someone can be at: a bed, a stop, the end of a ride. */
function visitedPlaces({ runs, rides, crew }: Body): ReadonlySet<Id> {
  const stops = [...runs.values()].flatMap((run) => run.stops.map((stop) => stop.place));
  const ends = [...rides.values()].flatMap((ride) => [ride.from, ride.to]);
  const beds = [...crew.values()].flatMap((person) => [person.slept ?? [], person.sleeps ?? []].flat());
  return new Set([...stops, ...ends, ...beds]);
}

function checkStops(reading: Reading, { runs, hits, tasks }: Body): void {
  for (const stop of [...runs.values()].flatMap((run) => run.stops)) {
    for (const activity of stop.do ?? []) {
      const location = (hits.get(activity) ?? tasks.get(activity))?.location;
      if (location?.kind !== "place" || location.place === stop.place) continue;
      const facts = { activity, place: location.place, stop: stop.place };
      reading.mistake([...stop.path, "do"], (c) => doneElsewhere.raise(facts, c));
    }
  }
}
