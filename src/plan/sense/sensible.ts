/** What shows only when several values are read together, still from the text alone. The rest is the Day's to see. */
import { roadMissing } from "../findings.ts";
import type { Id, Road } from "../plan.ts";
import type { Body } from "../read/body.ts";
import type { Reading } from "../read/reading.ts";
import { checkAttendance } from "./attendance.ts";
import { checkCoordinates } from "./coordinates.ts";
import { checkFlights } from "./flights.ts";
import { checkLogged, checkLoggedStops } from "./logged.ts";
import { checkOrder } from "./order.ts";
import { checkSeats, checkTeams } from "./seats.ts";
import { checkSummer } from "./summer.ts";
import { checkWords } from "./words.ts";

/** Findings for what each key allows and the whole plan does not. */
export function sensible(reading: Reading, body: Body): void {
  const spoiled = new Set(reading.findings.flatMap(({ level, path }) => (level === "error" ? [path?.[0]] : [])));
  /** Something can be called missing only where all that could supply it was understood. */
  const sound = (...sections: readonly string[]): boolean => !sections.some((section) => spoiled.has(section));
  checkSeats(reading, body);
  checkOrder(reading, body);
  checkWords(reading, body);
  checkSummer(reading, body);
  checkFlights(reading, body);
  if (sound("clock", "hits", "actual")) checkLogged(reading, body);
  if (sound("runs", "actual")) checkLoggedStops(reading, body);
  if (sound("crew", "vehicles")) checkTeams(reading, body);
  if (sound("clock", "zone", "places", "roads")) checkCoordinates(reading, body);
  if (sound("clock", "zone", "places", "roads", "runs", "vehicles")) checkRoads(reading, body);
  if (sound("clock", "zone", "places", "runs", "rides", "crew", "hits", "vehicles")) checkAttendance(reading, body);
}

/** Each drive, which a crossing by ferry is not, has a road that says how long it takes, or coordinates at both ends to estimate it from. */
function checkRoads(reading: Reading, { runs, roads, places }: Body): void {
  const raised = new Set<string>();
  for (const run of runs.values()) {
    for (const [index, stop] of run.stops.entries()) {
      const before = run.stops[index - 1];
      const from = before?.place;
      const to = stop.place;
      if (from === undefined || before?.ferry != null || from === to || raised.has([from, to].toSorted().join(" ")))
        continue;
      const without = [from, to].find((id) => places.get(id)?.at == null);
      const here = roads.filter((road) => joins(road, from, to));
      if (without === undefined || here.some(isTimed)) continue;
      raised.add([from, to].toSorted().join(" "));
      const facts = { from, to, without, vehicle: run.vehicle, stated: here.length > 0 };
      reading.mistake(stop.path, (c) => roadMissing.raise(facts, c));
    }
  }
}

function joins({ link: [a, b], oneWay }: Road, from: Id, to: Id): boolean {
  return (a === from && b === to) || (!oneWay && a === to && b === from);
}

/** Whether a road says how long the drive takes, or how far it is; its `bad` time alone says neither. */
const isTimed = (road: Road): boolean => road.driveMinutes !== null || road.km !== null;
