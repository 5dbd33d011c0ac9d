/** What hits and tasks have in common: where, who, after and before what, by which path, with which pieces. */

import { eitherMissing, keysTogether } from "../findings.ts";
import type { Reading } from "../read/reading.ts";
import { type Declarations, entry, type FieldsOf, type ModelOf } from "../shape/entry.ts";
import { pairOf, scalar } from "../shape/form.ts";
import { whereText } from "../shape/issues.ts";
import { someLength } from "../shape/leaves.ts";
import { idOf, idsAsListed, idsOf, namedBy, who } from "../shape/named.ts";
import { PATTERNS } from "../shape/patterns.ts";
import type { Entity, Id } from "../terms.ts";
import { type Item, itemsOf, textOf } from "../text/items.ts";

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
  path: [idOf("path"), "one of `paths`: how the signal gets out", { example: "dish", as: "signalPath" }],
  needs: [
    idsAsListed("piece of kit", "path", "line", "pack"),
    "pieces of kit that must be there; a piece listed twice is needed twice",
    { example: "[camera, camera, monitor]" },
  ],
} as const satisfies Declarations;

/** The key `for` of a hit. */
export const forField = [someLength, "how long", { as: "forMinutes" }] as const;

/** What readers of hits and of tasks look at in common. */
export const activityForm = entry("a hit or a task", {}, activityFields);

type ActivityFields = FieldsOf<typeof activityForm>;

/** Where something happens. `aboard` is inside a rolling vehicle; `onRoad` a spot between two stops that follows from the time. */
export type Location =
  | { readonly kind: "place"; readonly place: Id }
  | { readonly kind: "aboard"; readonly vehicle: Id }
  | { readonly kind: "onRoad"; readonly from: Id; readonly to: Id };

/** What hits and tasks have in common; `who` is null for everyone aboard the vehicles that list it. */
export interface Activity extends Entity, ModelOf<typeof activityForm> {
  readonly location: Location;
  readonly forMinutes: number | null;
}

/** The location, or null with the mistake recorded. */
export function readLocation(fields: ActivityFields): Location | null {
  const [place, road] = [fields.item("place"), fields.item("onRoad")];
  const where = whereText(fields.path);
  if (place !== null && road !== null) {
    const facts = { where, keys: ["place", "onRoad"] };
    fields.reading.mistake(fields.at("onRoad"), (c) => keysTogether.raise(facts, c));
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
