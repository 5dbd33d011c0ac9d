/** A hit logged about a whole day before or after it was to be: past midnight the `+1d` is forgotten, and all that follows would be wrong. */
import { loggedDayOff } from "../findings.ts";
import type { Body } from "../read/body.ts";
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

/** `00:44` as `00:44 +1d`, and `00:44 +1d` as `00:44`; null of a text with a date of its own. */
function onDay(text: string, days: number): string | null {
  const [, time = "", said = "0"] = /^(\d{1,2}:?\d{2}(?: [A-Za-z]\S*)?)(?: ([+-]\d{1,2})d)?$/.exec(text) ?? [];
  const day = Number(said) + days;
  if (time === "") return null;
  return day === 0 ? time : `${time} ${day > 0 ? "+" : "-"}${Math.abs(day)}d`;
}
