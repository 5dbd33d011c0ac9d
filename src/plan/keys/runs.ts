/** `runs`: what each vehicle does, stop by stop. */

import { keysTogether, stopsTooFew } from "../findings.ts";
import type { Reading } from "../read/reading.ts";
import { entry, Fields, type FieldsOf, type ModelOf } from "../shape/entry.ts";
import { either, flag, listOf, mapOf, meaning, turned, word } from "../shape/form.ts";
import { length } from "../shape/leaves.ts";
import { idOf, idsIfStated, idsOf, namedBy, who } from "../shape/named.ts";
import { refuseBackwards, time } from "../shape/spans.ts";
import type { Entity, Id } from "../terms.ts";
import { entriesOf, type Item, itemsOf, textOf } from "../text/items.ts";

const relieveForm = entry(
  "a change at the wheel: { after: 2 h, driver: wren }",
  {
    after: [length, "planned time into the leg", { as: "afterMinutes" }],
    driver: [idOf("person"), "who takes the wheel", { example: "tomas" }],
  },
  {},
);

const ferryForm = entry(
  "a ferry: { sail: 14:00 local, land: 20:30, bunk: true }",
  { sail: [time, "when it sails"], land: [time, "when it lands, at the next stop"] },
  { bunk: [flag, "whether the drivers have a bunk", { byDefault: "false" }] },
);

const STOP = "a stop: { place: pier, do: [dawn] }";

/** What a stop may state besides its place. */
const visitForm = entry(
  STOP,
  {},
  {
    do: [
      idsIfStated("hit", "task"),
      "hits and tasks of this visit, in order; may be left out if they fit only one visit",
      { example: "[dawn, noon]" },
    ],
    leave: [time, "leaves exactly then"],
    arriveBy: [time, "is there by then"],
    stay: [length, "stays at least so long", { as: "stayMinutes" }],
    wait: [
      turned(word(["here"]), (said) => said !== null),
      "`here`: the wait before the next fixed time is spent here",
      { as: "waitHere" },
    ],
    setUp: [length, "set-up at this stop, instead of the house rule's", { as: "setUpMinutes" }],
    after: [idsOf("hit", "task", "stop"), "leaves only after these hits, tasks or stops", { example: "[dawn]" }],
    driver: [idOf("person"), "from this departure on", { example: "tomas" }],
    aboard: [who, "from this departure on"],
    asleep: [who, "who is meant to sleep from this departure on"],
    relieve: [listOf("a list of { after, driver }", relieveForm), "changes at the wheel on the next leg"],
    moves: [
      meaning(mapOf("a map of pieces to vehicles: { monitor: truck }", idOf("vehicle")), moves),
      "pieces or packs that change vehicle here",
    ],
    ferry: [ferryForm, "the vehicle crosses to the next stop by ferry", { as: null }],
  },
);

/** A stop of a run. */
export const stopForm = entry(STOP, { place: [idOf("place"), "where", { example: "pier" }] }, visitForm.declarations);

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

/** A change at the wheel, in planned minutes after the leg begins. */
export type Relief = ModelOf<typeof relieveForm>;

/** A crossing of a vehicle to its next stop; for a bunk at the drivers' disposal see 561/2006 Art 9(1). */
export type Ferry = ModelOf<typeof ferryForm>;

/**
 * A stop of a run; `truck.1` is the first one of the run of `truck`. `do` has groups expanded and is null where the plan leaves
 * it out; `after` orders its departure. Null for `driver`, `aboard` and `asleep` keeps what held before its departure.
 */
export interface Stop extends Entity, ModelOf<typeof visitForm> {
  readonly place: Id;
  /** The vehicle crosses from here to the next stop by ferry. */
  readonly ferry: Ferry | null;
}

/** What a vehicle does, stop by stop. */
export interface Run extends Entity, ModelOf<typeof longForm> {
  readonly vehicle: Id;
  readonly stops: readonly Stop[];
}

/** A stop of which the plan states nothing but its place. */
export const statesPlaceAlone = ({ id: _, path: __, place: ___, ...said }: Stop): boolean =>
  Object.values(said).every((value) => {
    if (Array.isArray(value)) return value.length === 0;
    return value === null || value === false || (value instanceof Map && value.size === 0);
  });

type StopFields = FieldsOf<typeof stopForm>;

/** Reads the run of a vehicle. */
export function readRun(reading: Reading, item: Item, vehicle: Id): Run | null {
  const long = new Fields(longForm, reading, item);
  const list = item.node.kind === "list" ? item : long.item("stops");
  const items = itemsOf(list);
  const stops = items.flatMap(
    (stop, index) => readStop(reading, stop, `${vehicle}.${index + 1}`, placeNamed(items[index + 1])) ?? [],
  );
  if (list?.node.kind === "list" && list.node.items.length === 0) {
    reading.mistake(list.path, (c) => stopsTooFew.raise({ vehicle }, c));
  }
  const run = long.entity(vehicle);
  return run === null ? null : { ...run, vehicle, stops };
}

/** What a stop says its place is, unread. */
function placeNamed(item: Item | undefined): Id | null {
  if (item === undefined) return null;
  return item.node.kind === "map" ? textOf(entriesOf(item).find(({ key }) => key === "place") ?? null) : textOf(item);
}

function readStop(reading: Reading, item: Item, stopId: Id, next: Id | null): Stop | null {
  const fields = new Fields(stopForm, reading, item);
  const place = item.node.kind === "map" ? fields.get("place") : (namedBy(reading, item, ["place"])[0] ?? null);
  const visit = fields.as(visitForm).localTo(place).entity(stopId);
  const ferry = readFerry(fields, place, next);
  if (visit === null) return null;
  refuseOtherLeave(fields, { ...visit, ferry });
  return place === null ? null : { ...visit, place, ferry };
}

/** It sails on the clock of this stop and lands on the next one's. */
function readFerry(fields: StopFields, from: Id | null, to: Id | null): Ferry | null {
  const ferry = fields.inner("ferry", ferryForm, from);
  const [sail, land] = [ferry?.get("sail") ?? null, fields.inner("ferry", ferryForm, to)?.get("land") ?? null];
  if (ferry === null || sail === null || land === null) return null;
  if (land > sail) return { sail, land, bunk: ferry.get("bunk") };
  refuseBackwards(ferry, "sail", "land");
  return null;
}

/** A vehicle leaves with the ferry: a `leave` at another time contradicts it. */
function refuseOtherLeave(fields: StopFields, { id: where, leave, ferry }: Omit<Stop, "place">): void {
  if (leave === null || ferry === null || leave === ferry.sail) return;
  fields.reading.mistake(fields.at("leave"), (c) => keysTogether.raise({ where, keys: ["leave", "ferry"] }, c));
}

/** A group of packs moves as its packs. */
function moves(section: Item | null, reading: Reading): ReadonlyMap<Id, Id> {
  const moved = entriesOf(section).flatMap((item) => {
    const found = reading.takeAtKey(item.path, reading.ids.find(item.key, ["piece of kit", "pack", "charger"]));
    const [vehicle] = namedBy(reading, item, ["vehicle"]);
    return found === null || vehicle === undefined ? [] : found.map((piece) => [piece, vehicle] as const);
  });
  return new Map(moved);
}
