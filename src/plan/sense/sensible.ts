/** What shows only when several values are read together, still from the text alone. The rest is the Day's to see. */
import type { PlanPath } from "../../findings/finding.ts";
import { dayNumber } from "../../time/civil.ts";
import { instant } from "../../time/units.ts";
import { offsetMinutes, zone } from "../../time/zone.ts";
import { leadUnstated, roadMissing, zoneWithoutSummer } from "../findings.ts";
import type { Body, Id, Road } from "../plan.ts";
import type { Reading } from "../read/reading.ts";
import { nodeAt } from "../text/tree.ts";
import { checkAttendance } from "./attendance.ts";
import { checkCoordinates } from "./coordinates.ts";
import { checkLogged, checkLoggedStops } from "./logged.ts";
import { checkOrder } from "./order.ts";
import { checkSeats, checkTeams } from "./seats.ts";
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

/**
 * A flight does not wait: how long before it somebody must be there is asked for, as nothing else in the plan says it. Without
 * `lead` its people are planned to come as it leaves.
 */
function checkFlights(reading: Reading, { rides }: Pick<Body, "rides">): void {
  for (const { id, by, leadMinutes, path } of rides.values()) {
    if (by !== "air" || leadMinutes > 0 || nodeAt(reading.root, [...path, "lead"]) !== null) continue;
    reading.mistake(path, (c) => leadUnstated.raise({ ride: id }, c));
  }
}

const GREENWICH: ReadonlySet<string> = new Set(["GMT", "GMT0", "Etc/GMT", "Etc/GMT0", "Greenwich", "Etc/Greenwich"]);

/**
 * Warns of each zone of the plan that is Greenwich time, if its day is in London's summer, since whoever writes `GMT` in June may
 * mean either; noon decides.
 */
function checkSummer(reading: Reading, { places }: Pick<Body, "places">): void {
  const [date, london] = [reading.clocks?.date ?? null, zone("Europe/London")];
  if (date === null || london === null) return;
  const ahead = offsetMinutes(london, instant(dayNumber(date) * 1440 + 720));
  if (ahead === 0) return;
  const paths: readonly PlanPath[] = [["clock"], ["zone"], ...[...places.keys()].map((id) => ["places", id, "zone"])];
  for (const path of paths) {
    const node = nodeAt(reading.root, path);
    if (node?.kind !== "scalar" || !GREENWICH.has(node.text.trim())) continue;
    const facts = { zone: node.text.trim(), date, hours: ahead === 60 ? "an hour" : `${ahead} min` };
    reading.mistake(path, (c) => zoneWithoutSummer.raise(facts, c));
  }
}
