/** `roads`: what is known of the drives between places. */
import type { PlanPath } from "../../findings/finding.ts";
import { badBeforeDrive, roadTwice, valueBad } from "../findings.ts";
import type { Reading } from "../read/reading.ts";
import { entry, type FieldsOf, type ModelOf, readBy } from "../shape/entry.ts";
import { flag, listOf, meaning, pairOf } from "../shape/form.ts";
import { amount, length } from "../shape/leaves.ts";
import { idOf, namedBy } from "../shape/named.ts";
import type { Id } from "../terms.ts";
import { type Item, itemsOf } from "../text/items.ts";
import { roadKm } from "../values/quantity.ts";

/** A road of the section `roads`. */
export const roadForm = entry(
  "a road such as { link: [lodge, pier], drive: 35 min }",
  { link: [meaning(pairOf("two places, as in [lodge, pier]", idOf("place")), ends), "the places it joins"] },
  {
    drive: [length, "the likely (median) time", { as: "driveMinutes" }],
    bad: [length, "the time that 19 of 20 drives beat", { as: "badMinutes" }],
    km: [amount(roadKm), "its length"],
    oneWay: [flag, "whether it goes from the first place to the second only", { byDefault: "false" }],
    noSignal: [flag, "whether there is no phone signal on it", { byDefault: "false" }],
  },
);

/** A road between two places; null where not stated. */
export interface Road extends ModelOf<typeof roadForm> {
  readonly path: PlanPath;
}

/** The section `roads`. */
export const roadsForm = listOf(
  "a list of roads: - { link: [lodge, pier], drive: 35 min }",
  readBy(roadForm, (fields): Road | null => {
    const road = fields.located();
    if (road !== null) refuseNonsense(fields, road);
    return road;
  }),
);

/** Reads the section `roads`. */
export function readRoads(reading: Reading, section: Item | null): readonly Road[] {
  const roads = roadsForm.value(section, reading, null);
  const seen = new Map<string, Road>();
  for (const road of roads) refuseTwice(reading, seen, road);
  return roads;
}

function ends(item: Item | null, reading: Reading): readonly [Id, Id] | null {
  const [from, to] = itemsOf(item).flatMap((end) => namedBy(reading, end, ["place"]));
  return from === undefined || to === undefined ? null : [from, to];
}

function refuseNonsense(fields: FieldsOf<typeof roadForm>, road: Road): void {
  const { reading } = fields;
  const [from, to] = road.link;
  if (from === to) {
    const facts = { text: `${from}–${to}`, what: "a road between two places", example: "name two different places" };
    reading.mistake(fields.at("link"), (c) => valueBad.raise(facts, c));
  }
  if (road.driveMinutes === null || road.badMinutes === null || road.badMinutes >= road.driveMinutes) return;
  const facts = { drive: fields.text("drive") ?? "", bad: fields.text("bad") ?? "" };
  reading.mistake(fields.at("bad"), (c) => badBeforeDrive.raise(facts, c));
}

/** Two roads clash where both say how to drive in one direction. */
function refuseTwice(reading: Reading, seen: Map<string, Road>, road: Road): void {
  const [from, to] = road.link;
  const directions = road.oneWay ? [`${from} ${to}`] : [`${from} ${to}`, `${to} ${from}`];
  const clash = directions.map((key) => seen.get(key)).find((other) => other !== undefined);
  if (clash !== undefined) {
    const facts = { link: `${from}–${to}` };
    reading.mistakeWith([...road.path, "link"], (c) => roadTwice.raise(facts, c), [...clash.path, "link"]);
  }
  for (const key of directions) if (!seen.has(key)) seen.set(key, road);
}
