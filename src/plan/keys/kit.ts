/** `kit`, `packs`, `chargers`: what is carried, what feeds it, and what feeds that. */

import { nearest } from "../../findings/nearest.ts";
import { sumOf } from "../../lists.ts";
import { countWrong, idUnknown, valueBad } from "../findings.ts";
import { entry, Fields, type FieldsOf, type ModelOf } from "../shape/entry.ts";
import { either, mapOf, oneOrManyValues, valueAt, word } from "../shape/form.ts";
import { amount, numberOf, text } from "../shape/leaves.ts";
import { idOf, idsAsListed, namedBy, who } from "../shape/named.ts";
import { stretch, time } from "../shape/spans.ts";
import type { Entity, Id } from "../terms.ts";
import { entriesOf, itemsOf, textOf } from "../text/items.ts";
import { type NumberRange, powerWatts, share, wattsNumber, whNumber } from "../values/quantity.ts";

const COUNT: NumberRange = { what: "a number of pieces", least: 1, most: 200, whole: true, example: "5" };
const SLOTS: NumberRange = { what: "a number of slots", least: 1, most: 50, whole: true, example: "3" };

const countForm = numberOf(COUNT);

/** Where a thing may be. */
const BAYS = ["vehicle", "place"] as const;

/** Words that `during` takes besides ids. */
const DURING = ["hits", "tasks", "dark"];

const dueForm = entry(
  "a map such as { at: 18:00, place: airport }",
  {},
  {
    at: [time, "when it goes back, at the latest", { local: "place" }],
    place: [idOf("place"), "where it goes back", { example: "airport" }],
  },
);

/** A piece of the section `kit`. */
export const pieceForm = entry(
  "a piece of kit: { in: truck }",
  {
    in: [
      either(
        "a vehicle or a place, or a map of them to counts such as { car: 1, van: 1 }",
        idOf(...BAYS),
        mapOf("a map of vehicles or places to counts", countForm, { minProperties: 1 }),
      ),
      "the vehicle (or place) it is in; of several of a kind, how many are in which",
      { example: "wagon" },
    ],
  },
  {
    name: [text, "the name as people say it", { example: "the big camera" }],
    count: [countForm, "how many", { byDefault: "1", example: "5", as: null }],
    per: [
      word(["person", "crew"]),
      "`person`: one for each who takes part in what uses it; `crew`: one for all; by its name: earpieces, life jackets, helmets and high-visibility vests are one a person",
    ],
    watts: [amount(wattsNumber), "what it draws from packs while it is used"],
    mount: [text, "the battery mount, as packs and chargers name it", { example: "wedge" }],
    during: [
      oneOrManyValues(text),
      "when it is used: hits (default if it has watts), tasks, dark, ids, the name of a path",
      { example: "[dawn, dark]", as: null },
    ],
    standby: [amount(powerWatts), "what it draws between two hits at one stop", { as: "standbyWatts" }],
    needs: [
      idsAsListed("piece of kit", "pack", "charger"),
      "pieces that must be with it; one listed twice is needed twice",
      { example: "[bracket]" },
    ],
    broken: [stretch, "out of service from then on, or in that stretch"],
    due: [dueForm, "of a rented one: when and where it goes back"],
  },
);

/**
 * A piece of kit; `during` holds `hits`, `tasks`, `dark`, ids of hits, tasks, groups or paths. `per`: whether each of the people of
 * a hit or task that uses it needs one, or one serves them all; null: its name says.
 */
export interface Piece extends Entity, ModelOf<typeof pieceForm> {
  /** Where it is, or where the first of them are. */
  readonly in: Id;
  /** How many are in which vehicle or at which place, `in` first; they add up to `count`. */
  readonly bays: ReadonlyMap<Id, number>;
  readonly count: number;
  readonly during: readonly string[];
}

/** Reads a piece; null where it is nowhere. */
export function readPiece(fields: PieceFields, pieceId: Id): Piece | null {
  const piece = fields.entity(pieceId);
  const during = fields.has("during") ? readDuring(fields) : piece?.watts == null ? [] : ["hits"];
  const bays = readBays(fields);
  const [first] = bays.keys();
  const count = sumOf(bays.values(), (some) => some);
  return piece === null || first === undefined ? null : { ...piece, during, in: first, bays, count };
}

type PieceFields = FieldsOf<typeof pieceForm>;

/** How many are where: all in one bay, or as a map says, which must agree with a `count` that is stated as well. */
function readBays(fields: PieceFields): ReadonlyMap<Id, number> {
  const { reading } = fields;
  const stated = fields.stated("count");
  const item = fields.item("in");
  if (item?.node.kind !== "map") {
    const [bay] = item === null ? [] : namedBy(reading, item, BAYS);
    return new Map(bay === undefined ? [] : [[bay, stated ?? 1]]);
  }
  const bays = new Map<Id, number>();
  for (const entryItem of entriesOf(item)) {
    const [bay] = reading.takeAtKey(entryItem.path, reading.ids.find(entryItem.key, BAYS)) ?? [];
    const some = valueAt(reading, entryItem, countForm);
    if (bay !== undefined && some !== null) bays.set(bay, some);
  }
  if (bays.size === 0 && !reading.mistakenAt(item.path)) {
    const facts = { text: "{}", what: "where the pieces are", example: null, form: "{ car: 1, van: 1 }" };
    reading.mistake(item.path, (c) => valueBad.raise(facts, c));
  }
  const found = sumOf(bays.values(), (some) => some);
  if (stated !== null && found !== stated && bays.size === item.node.entries.size) {
    const facts = { text: String(stated), what: "what the counts of `in` add up to", example: String(found) };
    reading.mistake(fields.at("count"), (c) => valueBad.raise(facts, c));
  }
  return bays;
}

function readDuring(fields: PieceFields): readonly string[] {
  const { reading } = fields;
  return fields.items("during").flatMap((item) => {
    const said = textOf(item);
    if (said === null || DURING.includes(said)) return said ?? [];
    return reading.take(item.path, reading.ids.find(said, ["hit", "task", "path"], [], DURING)) === null ? [] : said;
  });
}

const chargeForm = amount(share);

const packOwn = {
  wh: [amount(whNumber), "rated energy, Wh"],
  mount: [text, "the battery mount", { example: "wedge" }],
  chargeAt: [time, "when the charge was so", { byDefault: "last night's release" }],
  in: [idOf(...BAYS), "the vehicle (or place) it is in", { example: "wagon" }],
  broken: [stretch, "out of service from then on, or in that stretch"],
} as const;

const HEALTH = "remaining share of the rated energy";

const ownForm = entry(
  "differences of one pack",
  {},
  { ...packOwn, health: [amount(share), HEALTH], charge: [amount(share), "its charge"] },
);

const { chargeAt, broken, ...packNeeds } = packOwn;

/** Packs of the section `packs`. */
export const packForm = entry("packs: { count: 5, wh: 98, mount: wedge, in: wagon }", packNeeds, {
  chargeAt,
  health: [amount(share), HEALTH, { byDefault: "100%" }],
  broken,
  count: [
    countForm,
    "how many; makes brick.1, brick.2 …; by default as many as charges are listed, else 1",
    { example: "5", as: null },
  ],
  charge: [oneOrManyValues(chargeForm), "charge as of last night's release: one for all, or a list", { as: null }],
  own: [mapOf("a map of single packs: { brick.2: { charge: 40% } }", ownForm), "differences of single packs"],
});

/** The fields of an entry of packs. */
export type PackFields = FieldsOf<typeof packForm>;

/** The ids of the packs that an entry stands for: `brick.1`, `brick.2`, … */
export function packIds(fields: PackFields, own: Id): readonly Id[] {
  const listed = fields.item("charge");
  const length = listed?.node.kind === "list" ? listed.node.items.length : 1;
  const stated = Number(fields.text("count") ?? Number.NaN);
  const count = Number.isInteger(stated) && stated >= 1 && stated <= COUNT.most ? stated : Math.min(length, COUNT.most);
  return Array.from({ length: Math.max(1, count) }, (_, index) => `${own}.${index + 1}`);
}

/** A battery: Wh, shares 0 to 1. */
export interface Pack extends Entity, ModelOf<typeof packForm> {
  /** The group it was counted from: `brick` for `brick.2`. */
  readonly group: Id;
  /** Share of a full charge as of last night's release, or of `chargeAt`. Null where neither the plan nor the day before says. */
  readonly charge: number | null;
}

/** Reads the packs that one entry stands for. */
export function readPacks(fields: PackFields, own: Id): readonly Pack[] {
  fields.stated("count");
  const ids = packIds(fields, own);
  const charges = readCharges(fields, ids.length);
  const shared = fields.located();
  const owns = readOwns(fields, ids);
  if (shared === null) return [];
  return ids.map((packId, index) => {
    const pack: Pack = { ...shared, id: packId, group: own, charge: charges[index] ?? null };
    return owns.get(packId)?.over(pack) ?? pack;
  });
}

/** One charge for each pack; a single one holds for all. */
function readCharges(fields: PackFields, count: number): readonly (number | null)[] {
  const { reading } = fields;
  const item = fields.item("charge");
  const values = itemsOf(item).map((one) => valueAt(reading, one, chargeForm));
  if (item?.node.kind !== "list") return Array.from({ length: count }, () => values[0] ?? null);
  if (values.length !== count) {
    const facts = { what: "charges", found: values.length, wanted: count };
    reading.mistake(item.path, (c) => countWrong.raise(facts, c));
  }
  return values;
}

function readOwns(fields: PackFields, ids: readonly Id[]): ReadonlyMap<Id, FieldsOf<typeof ownForm>> {
  const { reading } = fields;
  const owns = new Map<Id, FieldsOf<typeof ownForm>>();
  for (const item of entriesOf(fields.item("own"))) {
    if (ids.includes(item.key)) {
      const own = new Fields(ownForm, reading, item);
      own.model();
      owns.set(item.key, own);
    } else {
      const facts = {
        id: item.key,
        what: "pack of these",
        sections: ["packs"],
        near: nearest(item.key, ids),
        known: ids,
        is: null,
      };
      reading.mistakeAtKey(item.path, (c) => idUnknown.raise(facts, c));
    }
  }
  return owns;
}

/** A charger of the section `chargers`. */
export const chargerForm = entry(
  "a charger: { mount: wedge, slots: 3, watts: 60, in: wagon }",
  {
    mount: [text, "the battery mount it takes", { example: "wedge" }],
    watts: [amount(wattsNumber), "power a slot"],
    in: [idOf(...BAYS), "the vehicle (or place) it is in", { example: "wagon" }],
  },
  {
    slots: [numberOf(SLOTS), "how many packs at once", { byDefault: "1", example: "3" }],
    taper: [amount(share), "charge from which it slows", { byDefault: "80%" }],
    total: [amount(wattsNumber), "the power that the slots share, if they do", { as: "totalWatts" }],
    hands: [who, "who may touch it; else anyone who is there and awake"],
    broken: [stretch, "out of service from then on, or in that stretch"],
  },
);

/** A charger: slots, W a slot, `taper` 0 to 1. */
export type Charger = Entity & ModelOf<typeof chargerForm>;
