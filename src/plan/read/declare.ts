/** Declares every id of a plan before anything refers to one. */
import { hitForm, hitIds } from "../keys/hits.ts";
import { packForm, packIds } from "../keys/kit.ts";
import { Fields } from "../shape/entry.ts";
import type { Id } from "../terms.ts";
import { entriesOf, type Item, itemsOf } from "../text/items.ts";
import { type IdKind, idMistake } from "./ids.ts";
import type { Reading } from "./reading.ts";
import type { SectionKey } from "./sections.ts";

const SINGLE: readonly (readonly [SectionKey, IdKind])[] = [
  ["contracts", "contract"],
  ["places", "place"],
  ["vehicles", "vehicle"],
  ["crew", "person"],
  ["tasks", "task"],
  ["rides", "ride"],
  ["kit", "piece of kit"],
  ["chargers", "charger"],
  ["paths", "path"],
  ["lines", "line"],
];

/** A section as an item; null where the plan has none. */
export function sectionOf(reading: Reading, key: SectionKey): Item | null {
  const node = reading.root.entries.get(key)?.value;
  return node === undefined ? null : { node, path: [key] };
}

/** Declares every id of a plan. */
export function declareIds(reading: Reading): void {
  for (const [section, kind] of SINGLE) {
    for (const item of entriesOf(sectionOf(reading, section))) declare(reading, item.key, kind, item);
  }
  for (const item of entriesOf(sectionOf(reading, "hits"))) declareHits(reading, item.key, item);
  for (const item of entriesOf(sectionOf(reading, "packs"))) {
    const fields = new Fields(packForm, reading, item);
    declareGroup(reading, item.key, "pack", item, packIds(fields, item.key));
  }
  declareStops(reading);
}

function declare(reading: Reading, id: Id, kind: IdKind, item: Item, members: readonly Id[] = [id]): void {
  const wrong = idMistake(id);
  if (wrong !== null) {
    reading.mistakeAtKey(item.path, wrong);
    reading.ids.declareUnfit(id);
  }
  const twice = reading.ids.declare(id, kind, item.path, members);
  if (twice !== null) reading.mistakeAtKey(item.path, twice, reading.ids.pathOf(id));
  const alike = reading.ids.alike(id);
  if (alike !== null) reading.mistakeAtKey(item.path, alike.mistake, alike.first);
}

/** A group and its numbered members; only the group's own id is the author's. */
function declareGroup(reading: Reading, id: Id, kind: IdKind, item: Item, members: readonly Id[]): void {
  declare(reading, id, kind, item, members);
  for (const member of members) {
    const twice = reading.ids.declare(member, kind, item.path);
    if (twice !== null) reading.mistakeAtKey(item.path, twice, reading.ids.pathOf(member));
  }
}

function declareHits(reading: Reading, id: Id, item: Item): void {
  const fields = new Fields(hitForm, reading, item);
  const made = hitIds(fields, id);
  const own = made.filter(({ key }) => key !== null);
  if (own.length > 0) {
    declare(
      reading,
      id,
      "hit",
      item,
      own.map((hit) => hit.id),
    );
    for (const hit of own) if (hit.key !== null) declare(reading, hit.id, "hit", hit.key);
  } else if (made.length === 1 && made[0]?.id === id) declare(reading, id, "hit", item);
  else
    declareGroup(
      reading,
      id,
      "hit",
      item,
      made.map((hit) => hit.id),
    );
}

/** `truck.1` is the first stop of the run of `truck`. */
function declareStops(reading: Reading): void {
  for (const item of entriesOf(sectionOf(reading, "runs"))) {
    const stops = item.node.kind === "map" ? item.node.entries.get("stops")?.value : item.node;
    if (stops?.kind !== "list") continue;
    for (const [index, stop] of itemsOf({ node: stops, path: item.path }).entries()) {
      reading.ids.declare(`${item.key}.${index + 1}`, "stop", stop.path);
    }
  }
}
