/** `roads`: what is known of the drives between places. */

import { badBeforeDrive, roadTwice, valueBad } from "../findings.ts";
import type { Id, Road } from "../plan.ts";
import { Fields, type FieldsOf, type Item, itemsOf, namedBy } from "../read/fields.ts";
import type { Reading } from "../read/reading.ts";
import { entry, flag, listOf, pairOf } from "../shape/form.ts";
import { amount, idOf, length } from "../shape/leaves.ts";
import { mistaken } from "../values/parsed.ts";
import { roadKm } from "../values/quantity.ts";

/** A road of the section `roads`. */
export const roadForm = entry(
  "a road such as { link: [lodge, pier], drive: 35 min }",
  { link: [pairOf("two places, as in [lodge, pier]", idOf("place")), "the places it joins"] },
  {
    drive: [length, "the likely (median) time"],
    bad: [length, "the time that 19 of 20 drives beat"],
    km: [amount(roadKm), "its length"],
    oneWay: [flag, "whether it goes from the first place to the second only", { byDefault: "false" }],
    noSignal: [flag, "whether there is no phone signal on it", { byDefault: "false" }],
  },
);

/** The section `roads`. */
export const roadsForm = listOf("a list of roads: - { link: [lodge, pier], drive: 35 min }", roadForm);

type RoadFields = FieldsOf<typeof roadForm>;

/** Reads the section `roads`. */
export function readRoads(reading: Reading, section: Item | null): readonly Road[] {
  const seen = new Map<string, Road>();
  return itemsOf(section).flatMap((item) => {
    const road = readRoad(new Fields(roadForm, reading, item));
    if (road === null) return [];
    refuseTwice(reading, seen, road);
    return [road];
  });
}

function readRoad(fields: RoadFields): Road | null {
  const { reading } = fields;
  const ends = itemsOf(fields.item("link")).flatMap((item) => namedBy(reading, item, ["place"]));
  const road = {
    oneWay: fields.get("oneWay"),
    driveMinutes: fields.get("drive"),
    badMinutes: fields.get("bad"),
    km: fields.get("km"),
    noSignal: fields.get("noSignal"),
    path: fields.path,
  };
  const [from, to] = ends;
  if (from === undefined || to === undefined) return null;
  refuseNonsense(fields, road, from, to);
  return { link: [from, to], ...road };
}

function refuseNonsense(fields: RoadFields, road: Omit<Road, "link">, from: Id, to: Id): void {
  const { reading } = fields;
  if (from === to) {
    const facts = { text: `${from}–${to}`, what: "a road between two places", example: "name two different places" };
    reading.take(
      fields.at("link"),
      mistaken((c) => valueBad.raise(facts, c)),
    );
  }
  if (road.driveMinutes === null || road.badMinutes === null || road.badMinutes >= road.driveMinutes) return;
  const facts = { drive: fields.text("drive") ?? "", bad: fields.text("bad") ?? "" };
  reading.take(
    fields.at("bad"),
    mistaken((c) => badBeforeDrive.raise(facts, c)),
  );
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
