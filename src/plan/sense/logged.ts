/**
 * What cannot have been meant by a log: a hit about a whole day before or after it was to be, since past midnight the `+1d` is
 * forgotten, and an arrival or departure of a vehicle where it only sets off or stays.
 */

import { loggedDayOff, noSuchLeg } from "../findings.ts";
import type { Body } from "../plan.ts";
import type { Reading } from "../read/reading.ts";
import { nodeAt } from "../text/tree.ts";

/** Minutes of a day. */
const DAY = 1440;
/** No hit slips further, in minutes; what is nearer than this to a whole day is a slip of the day. */
const MOST = 360;

/** Raises for each hit whose logged beginning is off by whole days, give or take six hours. */
export function checkLogged(reading: Reading, { hits, actual }: Pick<Body, "hits" | "actual">): void {
  for (const [id, hit] of hits) {
    const path = ["actual", id, "at"];
    const at = actual.activities.get(id)?.at ?? null;
    const node = nodeAt(reading.root, path);
    if (at === null || node?.kind !== "scalar") continue;
    const off = at - hit.at;
    const days = Math.round(off / DAY);
    if (days === 0 || Math.abs(off - days * DAY) > MOST) continue;
    const facts = { id, text: node.text.trim(), days, near: onDay(node.text.trim(), -days) };
    reading.mistake(path, (c) => loggedDayOff.raise(facts, c));
  }
}

/** Raises for an arrival at the first stop of a run, and for a departure or a driver at the last. */
export function checkLoggedStops(reading: Reading, { runs, actual }: Pick<Body, "runs" | "actual">): void {
  for (const { vehicle, stops } of runs.values()) {
    const [first, second, last, before] = [stops[0], stops[1], stops.at(-1), stops.at(-2)];
    const [began, ended] = [actual.stops.get(first?.id ?? ""), actual.stops.get(last?.id ?? "")];
    if (first !== undefined && began != null && began.arrived !== null) {
      const facts = { vehicle, stop: first.id, key: "arrived", place: first.place, near: second?.id ?? null };
      reading.mistake(["actual", first.id, "arrived"], (c) => noSuchLeg.raise(facts, c));
    }
    for (const key of ["left", "driver"] as const) {
      if (last === undefined || ended == null || ended[key] === null) continue;
      const facts = { vehicle, stop: last.id, key, place: last.place, near: before?.id ?? null };
      reading.mistake(["actual", last.id, key], (c) => noSuchLeg.raise(facts, c));
    }
  }
}

/** `00:44` as `00:44 +1d`, and `00:44 +1d` as `00:44`; null of a text with a date of its own. */
function onDay(text: string, days: number): string | null {
  const [, time = "", said = "0"] = /^(\d{1,2}:?\d{2}(?: [A-Za-z]\S*)?)(?: ([+-]\d{1,2})d)?$/.exec(text) ?? [];
  const day = Number(said) + days;
  if (time === "") return null;
  return day === 0 ? time : `${time} ${day > 0 ? "+" : "-"}${Math.abs(day)}d`;
}
