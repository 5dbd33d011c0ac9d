/** `runs`: what each vehicle does, stop by stop. */

import { keysTogether, stopsTooFew } from "../findings.ts";
import type { Ferry, Id, Relief, Run, Stop } from "../plan.ts";
import {
  entriesOf,
  Fields,
  type FieldsOf,
  type Item,
  itemsOf,
  namedBy,
  refuseBackwards,
  textOf,
} from "../read/fields.ts";
import type { Reading } from "../read/reading.ts";
import { either, entry, flag, listOf, mapOf, word } from "../shape/form.ts";
import { idOf, idsOf, length, time, who } from "../shape/leaves.ts";
import { mistaken } from "../values/parsed.ts";

const relieveForm = entry(
  "a change at the wheel: { after: 2 h, driver: wren }",
  {
    after: [length, "planned time into the leg", { example: "[dawn]" }],
    driver: [idOf("person"), "who takes the wheel", { example: "tomas" }],
  },
  {},
);

const ferryForm = entry(
  "a ferry: { sail: 14:00 local, land: 20:30, bunk: true }",
  { sail: [time, "when it sails"], land: [time, "when it lands, at the next stop"] },
  { bunk: [flag, "whether the drivers have a bunk", { byDefault: "false" }] },
);

/** A stop of a run. */
export const stopForm = entry(
  "a stop: { place: pier, do: [dawn] }",
  { place: [idOf("place"), "where", { example: "pier" }] },
  {
    do: [
      idsOf("hit", "task"),
      "hits and tasks of this visit, in order; may be left out if they fit only one visit",
      { example: "[dawn, noon]" },
    ],
    leave: [time, "leaves exactly then"],
    arriveBy: [time, "is there by then"],
    stay: [length, "stays at least so long"],
    wait: [word(["here"]), "`here`: the wait before the next fixed time is spent here"],
    setUp: [length, "set-up at this stop, instead of the house rule's"],
    after: [idsOf("hit", "task", "stop"), "leaves only after these hits, tasks or stops", { example: "[dawn]" }],
    driver: [idOf("person"), "from this departure on", { example: "tomas" }],
    aboard: [who, "from this departure on"],
    asleep: [who, "who is meant to sleep from this departure on"],
    relieve: [listOf("a list of { after, driver }", relieveForm), "changes at the wheel on the next leg"],
    moves: [
      mapOf("a map of pieces to vehicles: { monitor: truck }", idOf("vehicle")),
      "pieces or packs that change vehicle here",
    ],
    ferry: [ferryForm, "the vehicle crosses to the next stop by ferry"],
  },
);

const stopsForm = listOf(
  "a list of stops, as in [lodge, pier, lodge]",
  either("a place or { place: … }", idOf("place"), stopForm),
);

const longForm = entry(
  "a run: { driver: tomas, aboard: [tomas, bea], stops: [lodge, pier] }",
  { stops: [stopsForm, "the places where it stops, in order"] },
  {
    driver: [idOf("person"), "by default the only one aboard who may drive it", { example: "tomas" }],
    aboard: [who, "who rides, from the first departure on"],
  },
);

/** A run of the section `runs`. */
export const runForm = either("a list of stops, or { driver, aboard, stops }", stopsForm, longForm);

type StopFields = FieldsOf<typeof stopForm>;

/** Reads the run of a vehicle. */
export function readRun(reading: Reading, item: Item, vehicle: Id): Run {
  const long = new Fields(longForm, reading, item);
  const list = item.node.kind === "list" ? item : long.item("stops");
  const items = itemsOf(list);
  const stops = items.flatMap(
    (stop, index) => readStop(reading, stop, `${vehicle}.${index + 1}`, placeNamed(items[index + 1])) ?? [],
  );
  if (list?.node.kind === "list" && list.node.items.length === 0) {
    reading.take(
      list.path,
      mistaken((c) => stopsTooFew.raise({ vehicle }, c)),
    );
  }
  return {
    id: vehicle,
    vehicle,
    path: item.path,
    driver: long.id("driver"),
    aboard: long.who("aboard"),
    stops,
  };
}

/** What a stop says its place is, unread. */
function placeNamed(item: Item | undefined): Id | null {
  if (item === undefined) return null;
  return item.node.kind === "map" ? textOf(entriesOf(item).find(({ key }) => key === "place") ?? null) : textOf(item);
}

function readStop(reading: Reading, item: Item, stopId: Id, next: Id | null): Stop | null {
  const fields = new Fields(stopForm, reading, item);
  const [place] = item.node.kind === "map" ? idsOfKey(fields) : namedBy(reading, item, ["place"]);
  const stop = {
    id: stopId,
    path: item.path,
    do: fields.has("do") ? fields.ids("do") : null,
    leave: fields.time("leave", place ?? null),
    arriveBy: fields.time("arriveBy", place ?? null),
    stayMinutes: fields.get("stay"),
    waitHere: fields.text("wait") === "here",
    setUpMinutes: fields.get("setUp"),
    after: fields.ids("after"),
    driver: fields.id("driver"),
    aboard: fields.who("aboard"),
    asleep: fields.who("asleep"),
    relieve: fields.items("relieve").flatMap((one) => readRelief(reading, one)),
    moves: readMoves(fields),
    ferry: readFerry(fields, place ?? null, next),
  };
  refuseOtherLeave(fields, stop);
  return place === undefined ? null : { ...stop, place };
}

const idsOfKey = (fields: StopFields): readonly Id[] => {
  const place = fields.id("place");
  return place === null ? [] : [place];
};

function readRelief(reading: Reading, item: Item): readonly Relief[] {
  const fields = new Fields(relieveForm, reading, item);
  const [afterMinutes, driver] = [fields.get("after"), fields.id("driver")];
  return afterMinutes === null || driver === null ? [] : [{ afterMinutes, driver }];
}

function readFerry(fields: StopFields, from: Id | null, to: Id | null): Ferry | null {
  const ferry = fields.inner("ferry", ferryForm);
  if (ferry === null) return null;
  const [sail, land] = [ferry.time("sail", from), ferry.time("land", to)];
  if (sail === null || land === null) return null;
  if (land > sail) return { sail, land, bunk: ferry.get("bunk") };
  refuseBackwards(fields.reading, ferry.at("land"), ferry.text("sail") ?? "", ferry.text("land") ?? "");
  return null;
}

/** A vehicle leaves with the ferry: a `leave` at another time contradicts it. */
function refuseOtherLeave(fields: StopFields, { id: where, leave, ferry }: Omit<Stop, "place">): void {
  if (leave === null || ferry === null || leave === ferry.sail) return;
  fields.reading.mistake(fields.at("leave"), (c) => keysTogether.raise({ where, keys: ["leave", "ferry"] }, c));
}

/** A group of packs moves as its packs. */
function readMoves(fields: StopFields): ReadonlyMap<Id, Id> {
  const { reading } = fields;
  const moves = entriesOf(fields.item("moves")).flatMap((item) => {
    const found = reading.takeAtKey(item.path, reading.ids.find(item.key, ["piece of kit", "pack", "charger"]));
    const [vehicle] = namedBy(reading, item, ["vehicle"]);
    return found === null || vehicle === undefined ? [] : found.map((piece) => [piece, vehicle] as const);
  });
  return new Map(moves);
}
