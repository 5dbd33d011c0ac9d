/** What hits and tasks have in common: where, who, after and before what, by which path, with which pieces. */

import { eitherMissing, keysTogether, valueBad } from "../findings.ts";
import type { Activity, Id, Location } from "../plan.ts";
import { type Fields, type Item, idsOf, itemsOf, textOf } from "../read/fields.ts";
import type { IdKind } from "../read/ids.ts";
import { type Field, pairOf, scalar } from "../shape/form.ts";
import { whereText } from "../shape/issues.ts";
import { id, ids, length, who } from "../shape/leaves.ts";
import { PATTERNS } from "../shape/patterns.ts";
import { mistaken } from "../values/parsed.ts";

export const activityFields = {
  place: [
    scalar("a place, or `aboard wagon`", ["string"], { pattern: PATTERNS.placeOrAboard }),
    "where: a place, or `aboard wagon` while it rolls",
    { example: "pier" },
  ],
  onRoad: [
    pairOf("two stops, as in [lodge, pier]", id),
    "between two stops, instead of a place; the spot follows from the time",
  ],
  who: [who, "ids, roles, `all` or `aboard`; by default everyone aboard the vehicles that list it"],
  after: [ids, "hits or tasks that end before it", { example: "[dawn]" }],
  before: [ids, "hits or tasks that it ends before", { example: "[noon]" }],
  path: [id, "one of `paths`: how the signal gets out", { example: "dish" }],
  needs: [ids, "pieces of kit that must be there", { example: "[camera, monitor]" }],
} satisfies Record<string, Field>;

export const forField: Field = [length, "how long"];

type Keys = keyof typeof activityFields | "for";

const ORDERED: readonly IdKind[] = ["hit", "task"];

/** The location, or null with the mistake recorded. */
export function readLocation<K extends string>(fields: Fields<K | Keys>): Location | null {
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
  if (place !== null) return placeOrAboard(fields, place);
  if (road !== null) return onRoad(fields, road);
  const facts = { where, keys: ["place", "onRoad"], example: "place: pier" };
  fields.reading.mistakeAtKey(fields.path, (c) => eitherMissing.raise(facts, c));
  return null;
}

function placeOrAboard<K extends string>({ reading }: Fields<K>, item: Item): Location | null {
  const said = textOf(item);
  const [, vehicle] = /^aboard\s+(\S+)$/.exec(said ?? "") ?? [];
  if (vehicle !== undefined) {
    const [found] = reading.take(item.path, reading.ids.find(vehicle, ["vehicle"])) ?? [];
    return found === undefined ? null : { kind: "aboard", vehicle: found };
  }
  const [place] = idsOf(reading, item, ["place"]);
  return place === undefined ? null : { kind: "place", place };
}

function onRoad<K extends string>({ reading }: Fields<K>, item: Item): Location | null {
  const [from, to] = itemsOf(item).flatMap((end) => idsOf(reading, end, ["place"]));
  return from === undefined || to === undefined ? null : { kind: "onRoad", from, to };
}

/** The place whose clock `local` means. */
export function localPlace(location: Location | null): Id | null {
  if (location?.kind === "place") return location.place;
  return location?.kind === "onRoad" ? location.from : null;
}

export function readActivity<K extends string>(
  fields: Fields<K | Keys>,
  location: Location,
): Omit<Activity, "id" | "forMinutes"> {
  return {
    path: fields.path,
    location,
    who: fields.who("who"),
    after: fields.idList("after", ...ORDERED),
    before: fields.idList("before", ...ORDERED),
    signalPath: fields.id("path", "path"),
    needs: fields.idList("needs", "piece of kit", "path", "line", "pack"),
  };
}

/** A length that must not be nothing. */
export function positiveLength<K extends string>(fields: Fields<K>, key: K): number | null {
  const length_ = fields.length(key);
  if (length_ !== 0) return length_;
  const facts = { text: fields.text(key) ?? "", what: "a length of at least 1 min", example: "3 min" };
  fields.reading.take(
    fields.at(key),
    mistaken((c) => valueBad.raise(facts, c)),
  );
  return null;
}
