/** `actual`: what really happened, keyed by the id it happened to; the id's kind says which keys its entry has. */
import type { IdKind } from "../read/ids.ts";
import type { Reading } from "../read/reading.ts";
import { type Declarations, type EntryForm, entry, Fields, type ModelOf } from "../shape/entry.ts";
import { checkedByReader, either, flag, mapOf, valueAt } from "../shape/form.ts";
import { amount, length, numberOf, text } from "../shape/leaves.ts";
import { idOf } from "../shape/named.ts";
import { inBed, time } from "../shape/spans.ts";
import type { Id } from "../terms.ts";
import { entriesOf, type Item } from "../text/items.ts";
import { type NumberRange, odometer, share } from "../values/quantity.ts";

const ENGINE_HOURS: NumberRange = { what: "engine hours", least: 0, most: 200_000, example: "1204.5" };

const note = [text, "in words", { example: "the dish iced up" }] as const;

const personForm = entry(
  "what happened to a person: { call: 05:00, released: 18:20 }",
  {},
  {
    call: [time, "when they were called"],
    released: [time, "when they were released"],
    asleep: [length, "how long they slept before", { as: "asleepMinutes" }],
    up: [time, "when they got up"],
    inBed: [inBed, "when they went to bed, or from when to when they slept"],
    note,
  },
);

const activityForm = entry(
  "what happened to a hit or task: { at: 06:04 }",
  {},
  {
    at: [time, "when it began"],
    end: [time, "when it ended"],
    path: [idOf("path"), "one of `paths`: the one it went out on", { example: "cell", as: "signalPath" }],
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
    at: [time, "when it was so"],
    in: [idOf("vehicle", "place"), "the vehicle or place it is in", { example: "wagon" }],
    note,
  },
);

const vehicleForm = entry(
  "the state of a vehicle: { at: lodge, since: 18:05 }",
  {},
  {
    at: [idOf("place"), "the place where it is", { example: "lodge", as: "place" }],
    since: [time, "since when", { local: "at" }],
    odometer: [amount(odometer), "its reading", { as: "odometerKm" }],
    fuel: [amount(share), "how full the tank is"],
    fuelAt: [time, "when the tank was so", { local: "at" }],
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

/** The forms of what is logged, by what it is logged of. */
export const actualForms = {
  person: personForm,
  activity: activityForm,
  stop: stopForm,
  pack: packForm,
  vehicle: vehicleForm,
  piece: pieceForm,
} as const;

/** The section `actual`. */
export const actualForm = mapOf("a map of ids to what happened", checkedByReader(anyForm));

const KINDS: readonly IdKind[] = ["person", "hit", "task", "stop", "pack", "vehicle", "piece of kit"];

/** Where hits, tasks and stops are, for `local`. */
export type PlaceOf = (id: Id) => Id | null;

/** What was logged of a person. */
export type ActualPerson = ModelOf<typeof personForm>;

/** What was logged of a hit or task: the path it went out on; `done` is false where it fell through. */
export type ActualActivity = ModelOf<typeof activityForm>;

/** What was logged of a stop: when the vehicle arrived there and left, and who drove from there on. */
export type ActualStop = ModelOf<typeof stopForm>;

/** What was logged of a pack: `charge` 0 to 1, and when it was found so; null holds from the last release on. */
export type ActualPack = ModelOf<typeof packForm>;

/** What was logged of a vehicle: `fuel` 0 to 1, and when the tank was read. */
export type ActualVehicle = ModelOf<typeof vehicleForm>;

/** What really happened, keyed by the id it happened to. What an entry leaves out is null. */
export interface Actual {
  readonly people: ReadonlyMap<Id, ActualPerson>;
  readonly activities: ReadonlyMap<Id, ActualActivity>;
  readonly stops: ReadonlyMap<Id, ActualStop>;
  readonly packs: ReadonlyMap<Id, ActualPack>;
  readonly vehicles: ReadonlyMap<Id, ActualVehicle>;
  readonly pieces: ReadonlyMap<Id, ModelOf<typeof pieceForm>>;
}

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
    readOne({ reading, item, of: first, place: placeOf(first) }, actual);
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

/** Checks an entry against the form of what its id names; it is read all the same, so that all is reported at once. */
function take<D extends Declarations, M>(
  { reading, item, of, place }: Stated,
  form: EntryForm<D, M>,
  part: Map<Id, M>,
): void {
  reading.fit(item, form);
  const model = new Fields(form, reading, item, place).model();
  if (model !== null) part.set(of, model);
}

/** An entry, whose it is, and where that is. */
interface Stated {
  readonly reading: Reading;
  readonly item: Item;
  readonly of: Id;
  readonly place: Id | null;
}

function readOne(stated: Stated, actual: Collected): void {
  switch (stated.reading.ids.kindOf(stated.of)) {
    case "person":
      take({ ...stated, place: null }, personForm, actual.people);
      return;
    case "hit":
    case "task":
      take(stated, activityForm, actual.activities);
      return;
    case "stop":
      take(stated, stopForm, actual.stops);
      return;
    case "pack":
      readPack({ ...stated, place: null }, actual.packs);
      return;
    case "vehicle":
      take({ ...stated, place: null }, vehicleForm, actual.vehicles);
      return;
    default:
      take(stated, pieceForm, actual.pieces);
  }
}

/** A pack's entry may be its charge alone. */
function readPack(stated: Stated, packs: Collected["packs"]): void {
  const { reading, item, of } = stated;
  if (item.node.kind !== "scalar" || item.node.value === null) {
    take(stated, packForm, packs);
    return;
  }
  const charge = valueAt(reading, item, amount(share));
  const blank = new Fields(packForm, reading, { ...item, node: null }).model();
  if (charge !== null && blank !== null) packs.set(of, { ...blank, charge });
}
