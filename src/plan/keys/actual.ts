/** `actual`: what really happened, keyed by the id it happened to; the id's kind says which keys its entry has. */
import type { Actual, Id } from "../plan.ts";
import { entriesOf, Fields, type FieldsOf, type Item, valueAt } from "../read/fields.ts";
import type { Reading } from "../read/reading.ts";
import {
  checkedByReader,
  type Declarations,
  type EntryForm,
  either,
  entry,
  flag,
  type IdKind,
  mapOf,
} from "../shape/form.ts";
import { amount, idOf, inBed, length, numberOf, text, time } from "../shape/leaves.ts";
import { type NumberRange, odometer, share } from "../values/quantity.ts";

const ENGINE_HOURS: NumberRange = { what: "engine hours", least: 0, most: 200_000, example: "1204.5" };

const note = [text, "in words", { example: "the dish iced up" }] as const;

const personForm = entry(
  "what happened to a person: { call: 05:00, released: 18:20 }",
  {},
  {
    call: [time, "when they were called"],
    released: [time, "when they were released"],
    asleep: [length, "how long they slept before"],
    up: [time, "when they got up"],
    inBed: [inBed, "when they went to bed, or from when to when they slept"],
    note,
  },
);

const activityForm = entry(
  "what happened to a hit or task: { at: 06:04 }",
  {},
  {
    at: [time, "when it began", { example: "lodge" }],
    end: [time, "when it ended"],
    path: [idOf("path"), "one of `paths`: the one it went out on", { example: "cell" }],
    note,
    done: [flag, "false if it did not happen", { byDefault: "true" }],
  },
);

const stopForm = entry(
  "what happened at a stop: { arrived: 06:00, left: 08:40 }",
  {},
  {
    arrived: [time, "when the vehicle arrived"],
    left: [time, "when it left"],
    driver: [idOf("person"), "who drove from there on", { example: "wren" }],
    note,
  },
);

const packForm = entry(
  "the state of a pack: { charge: 35%, at: 10:25 }",
  {},
  {
    charge: [amount(share), "its charge"],
    at: [time, "when it was so", { example: "lodge" }],
    in: [idOf("vehicle", "place"), "the vehicle or place it is in", { example: "wagon" }],
    note,
  },
);

const vehicleForm = entry(
  "the state of a vehicle: { at: lodge, since: 18:05 }",
  {},
  {
    at: [idOf("place"), "the place where it is", { example: "lodge" }],
    since: [time, "since when"],
    odometer: [amount(odometer), "its reading"],
    fuel: [amount(share), "how full the tank is"],
    fuelAt: [time, "when the tank was so"],
    engineHours: [numberOf(ENGINE_HOURS), "its reading", { example: "1204.5" }],
    note,
  },
);

const pieceForm = entry(
  "where a piece is: { in: truck }",
  {},
  { in: [idOf("vehicle", "place"), "the vehicle or place it is in", { example: "wagon" }], note },
);

const anyForm = either(
  "what happened to it",
  personForm,
  activityForm,
  stopForm,
  amount(share),
  packForm,
  vehicleForm,
  pieceForm,
);

/** The section `actual`. */
export const actualForm = mapOf("a map of ids to what happened", checkedByReader(anyForm));

const KINDS: readonly IdKind[] = ["person", "hit", "task", "stop", "pack", "vehicle", "piece of kit"];

/** Where hits, tasks and stops are, for `local`. */
export type PlaceOf = (id: Id) => Id | null;

type Mutable<M> = M extends ReadonlyMap<infer K, infer V> ? Map<K, V> : never;
type Collected = { readonly [Part in keyof Actual]: Mutable<Actual[Part]> };

/** Reads the section `actual`. */
export function readActual(reading: Reading, section: Item | null, placeOf: PlaceOf): Actual {
  const actual: Collected = {
    people: new Map(),
    activities: new Map(),
    stops: new Map(),
    packs: new Map(),
    vehicles: new Map(),
    pieces: new Map(),
  };
  for (const item of entriesOf(section)) {
    const members = reading.takeAtKey(item.path, reading.ids.find(item.key, KINDS));
    const [first, ...others] = members ?? [];
    if (first === undefined) continue;
    readOne(reading, item, first, placeOf(first), actual);
    for (const other of others) {
      copied(actual.activities, first, other);
      copied(actual.packs, first, other);
    }
  }
  return actual;
}

/** What is stated of a group, of hits or packs, is stated of each of its members. */
function copied<V>(part: Map<Id, V>, from: Id, to: Id): void {
  const value = part.get(from);
  if (value !== undefined) part.set(to, value);
}

/** Checks the entry against the form of what its id names; the fields are read all the same, so that all is reported at once. */
function fieldsOf<D extends Declarations>(reading: Reading, item: Item, form: EntryForm<D>): Fields<D> {
  reading.fit(item, form);
  return new Fields(form, reading, item);
}

function readOne(reading: Reading, item: Item, of: Id, place: Id | null, actual: Collected): void {
  switch (reading.ids.kindOf(of)) {
    case "person":
      actual.people.set(of, readPerson(fieldsOf(reading, item, personForm)));
      return;
    case "hit":
    case "task":
      actual.activities.set(of, readActivity(fieldsOf(reading, item, activityForm), place));
      return;
    case "stop":
      actual.stops.set(of, readStop(fieldsOf(reading, item, stopForm), place));
      return;
    case "pack":
      readPack(reading, item, of, actual);
      return;
    case "vehicle":
      actual.vehicles.set(of, readVehicle(fieldsOf(reading, item, vehicleForm)));
      return;
    default:
      readPiece(fieldsOf(reading, item, pieceForm), of, actual);
  }
}

type PartOf<Part extends keyof Actual> = Actual[Part] extends ReadonlyMap<Id, infer V> ? V : never;

const readPerson = (fields: FieldsOf<typeof personForm>): PartOf<"people"> => ({
  call: fields.time("call", null),
  released: fields.time("released", null),
  asleepMinutes: fields.get("asleep"),
  up: fields.time("up", null),
  inBed: fields.stretches("inBed"),
  note: fields.text("note"),
});

const readActivity = (fields: FieldsOf<typeof activityForm>, place: Id | null): PartOf<"activities"> => ({
  at: fields.time("at", place),
  end: fields.time("end", place),
  signalPath: fields.id("path"),
  note: fields.text("note"),
  done: fields.get("done"),
});

const readStop = (fields: FieldsOf<typeof stopForm>, place: Id | null): PartOf<"stops"> => ({
  arrived: fields.time("arrived", place),
  left: fields.time("left", place),
  driver: fields.id("driver"),
  note: fields.text("note"),
});

function readPack(reading: Reading, item: Item, of: Id, actual: Collected): void {
  if (item.node.kind === "scalar" && item.node.value !== null) {
    const charge = valueAt(reading, item, amount(share));
    if (charge !== null) actual.packs.set(of, { charge, at: null, in: null, note: null });
    return;
  }
  const fields = fieldsOf(reading, item, packForm);
  actual.packs.set(of, {
    charge: fields.get("charge"),
    at: fields.time("at", null),
    in: fields.id("in"),
    note: fields.text("note"),
  });
}

function readVehicle(fields: FieldsOf<typeof vehicleForm>): PartOf<"vehicles"> {
  const place = fields.id("at");
  return {
    place,
    since: fields.time("since", place),
    odometerKm: fields.get("odometer"),
    fuel: fields.get("fuel"),
    fuelAt: fields.time("fuelAt", place),
    engineHours: fields.get("engineHours"),
    note: fields.text("note"),
  };
}

function readPiece(fields: FieldsOf<typeof pieceForm>, of: Id, actual: Collected): void {
  actual.pieces.set(of, { in: fields.id("in"), note: fields.text("note") });
}
