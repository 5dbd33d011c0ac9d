/** What hits and tasks have in common: where, who, after and before what, by which path, with which pieces. */

import { eitherMissing, keysTogether } from "../findings.ts";
import type { Activity, Id, Location } from "../plan.ts";
import { type FieldsOf, type Item, itemsOf, namedBy, textOf } from "../read/fields.ts";
import type { Reading } from "../read/reading.ts";
import { type Declarations, entry, pairOf, scalar } from "../shape/form.ts";
import { whereText } from "../shape/issues.ts";
import { idOf, idsOf, someLength, who } from "../shape/leaves.ts";
import { PATTERNS } from "../shape/patterns.ts";
import { mistaken } from "../values/parsed.ts";

/** The keys that hits and tasks have in common. */
export const activityFields = {
  place: [
    scalar("a place, or `aboard wagon`", ["string"], { pattern: PATTERNS.placeOrAboard }),
    "where: a place, or `aboard wagon` while it rolls",
    { example: "pier" },
  ],
  onRoad: [
    pairOf("two stops, as in [lodge, pier]", idOf("place")),
    "between two stops, instead of a place; the spot follows from the time",
  ],
  who: [who, "ids, roles, `all` or `aboard`; by default everyone aboard the vehicles that list it"],
  after: [idsOf("hit", "task"), "hits or tasks that end before it", { example: "[dawn]" }],
  before: [idsOf("hit", "task"), "hits or tasks that it ends before", { example: "[noon]" }],
  path: [idOf("path"), "one of `paths`: how the signal gets out", { example: "dish" }],
  needs: [
    idsOf("piece of kit", "path", "line", "pack"),
    "pieces of kit that must be there; a piece listed twice is needed twice",
    { example: "[camera, camera, monitor]" },
  ],
} as const satisfies Declarations;

/** The key `for` of a hit. */
export const forField = [someLength, "how long"] as const;

/** What readers of hits and of tasks look at in common. */
export const activityForm = entry("a hit or a task", {}, activityFields);

type ActivityFields = FieldsOf<typeof activityForm>;

/** The location, or null with the mistake recorded. */
export function readLocation(fields: ActivityFields): Location | null {
  const [place, road] = [fields.item("place"), fields.item("onRoad")];
  const where = whereText(fields.path);
  if (place !== null && road !== null) {
    const facts = { where, keys: ["place", "onRoad"] };
    fields.reading.take(
      fields.at("onRoad"),
      mistaken((c) => keysTogether.raise(facts, c)),
    );
    return null;
  }
  if (place !== null) return placeOrAboard(fields.reading, place);
  if (road !== null) return onRoad(fields.reading, road);
  const facts = { where, keys: ["place", "onRoad"], example: "place: pier" };
  fields.reading.mistakeAtKey(fields.path, (c) => eitherMissing.raise(facts, c));
  return null;
}

function placeOrAboard(reading: Reading, item: Item): Location | null {
  const said = textOf(item);
  const [, vehicle] = /^aboard\s+(\S+)$/.exec(said ?? "") ?? [];
  if (vehicle !== undefined) {
    const [found] = reading.take(item.path, reading.ids.find(vehicle, ["vehicle"])) ?? [];
    return found === undefined ? null : { kind: "aboard", vehicle: found };
  }
  const [place] = namedBy(reading, item, ["place"]);
  return place === undefined ? null : { kind: "place", place };
}

function onRoad(reading: Reading, item: Item): Location | null {
  const [from, to] = itemsOf(item).flatMap((end) => namedBy(reading, end, ["place"]));
  return from === undefined || to === undefined ? null : { kind: "onRoad", from, to };
}

/** The place whose clock `local` means. */
export function localPlace(location: Location | null): Id | null {
  if (location?.kind === "place") return location.place;
  return location?.kind === "onRoad" ? location.from : null;
}

/** Reads what hits and tasks have in common. */
export function readActivity(fields: ActivityFields, location: Location): Omit<Activity, "id" | "forMinutes"> {
  return {
    path: fields.path,
    location,
    who: fields.who("who"),
    after: fields.ids("after"),
    before: fields.ids("before"),
    signalPath: fields.id("path"),
    needs: fields.idsWithRepeats("needs"),
  };
}
