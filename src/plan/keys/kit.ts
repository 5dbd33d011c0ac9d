/** `kit`, `packs`, `chargers`: what is carried, what feeds it, and what feeds that. */
import { nearest } from "../../findings/nearest.ts";
import { countWrong, idUnknown, valueBad } from "../findings.ts";
import type { Charger, Id, Pack, Piece } from "../plan.ts";
import { entriesOf, Fields, type FieldsOf, itemsOf, namedBy, textOf, valueAt } from "../read/fields.ts";
import { either, entry, mapOf, oneOrManyValues, word } from "../shape/form.ts";
import { amount, idOf, idsOf, numberOf, stretch, text, time, who } from "../shape/leaves.ts";
import { mistaken } from "../values/parsed.ts";
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
    at: [time, "when it goes back, at the latest"],
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
    count: [countForm, "how many", { byDefault: "1", example: "5" }],
    per: [
      word(["person", "crew"]),
      "`person`: one for each who takes part in what uses it; `crew`: one for all; by its name: earpieces, life jackets, helmets and high-visibility vests are one a person",
    ],
    watts: [amount(wattsNumber), "what it draws from packs while it is used"],
    mount: [text, "the battery mount, as packs and chargers name it", { example: "wedge" }],
    during: [
      oneOrManyValues(text),
      "when it is used: hits (default if it has watts), tasks, dark, ids, the name of a path",
      { example: "[dawn, dark]" },
    ],
    standby: [amount(powerWatts), "what it draws between two hits at one stop"],
    needs: [
      idsOf("piece of kit", "pack", "charger"),
      "pieces that must be with it; one listed twice is needed twice",
      { example: "[bracket]" },
    ],
    broken: [stretch, "out of service from then on, or in that stretch"],
    due: [dueForm, "of a rented one: when and where it goes back"],
  },
);

/** Reads a piece; null where it is nowhere. */
export function readPiece(fields: FieldsOf<typeof pieceForm>, pieceId: Id): Piece | null {
  const watts = fields.get("watts");
  const piece = {
    id: pieceId,
    path: fields.path,
    name: fields.text("name"),
    per: perOf(fields.text("per")),
    watts,
    mount: fields.text("mount"),
    during: fields.has("during") ? readDuring(fields) : watts === null ? [] : ["hits"],
    standbyWatts: fields.get("standby"),
    needs: fields.idsWithRepeats("needs"),
    broken: fields.stretch("broken"),
    due: readDue(fields),
  };
  const bays = readBays(fields);
  const [first] = bays.keys();
  const count = [...bays.values()].reduce((sum, some) => sum + some, 0);
  return first === undefined ? null : { ...piece, in: first, bays, count };
}

const perOf = (said: string | null): Piece["per"] => (said === "person" || said === "crew" ? said : null);

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
  const found = [...bays.values()].reduce((sum, some) => sum + some, 0);
  if (stated !== null && found !== stated && bays.size === item.node.entries.size) {
    const facts = { text: String(stated), what: "what the counts of `in` add up to", example: String(found) };
    reading.mistake(fields.at("count"), (c) => valueBad.raise(facts, c));
  }
  return bays;
}

function readDue(fields: PieceFields): Piece["due"] {
  const due = fields.inner("due", dueForm);
  if (due === null) return null;
  const place = due.id("place");
  return { place, at: due.time("at", place) };
}

function readDuring(fields: FieldsOf<typeof pieceForm>): readonly string[] {
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
    { example: "5" },
  ],
  charge: [oneOrManyValues(chargeForm), "charge as of last night's release: one for all, or a list"],
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

/** Reads the packs that one entry stands for. */
export function readPacks(fields: PackFields, own: Id): readonly Pack[] {
  fields.stated("count");
  const ids = packIds(fields, own);
  const charges = readCharges(fields, ids.length);
  const shared = {
    wh: fields.get("wh"),
    mount: fields.text("mount"),
    chargeAt: fields.time("chargeAt", null),
    health: fields.get("health"),
    in: fields.id("in"),
    broken: fields.stretch("broken"),
  };
  const owns = readOwns(fields, ids);
  return ids.flatMap((packId, index) => {
    const { wh, mount, in: bay, ...rest } = { ...shared, charge: charges[index] ?? null, ...owns.get(packId) };
    if (wh === null || mount === null || bay === null) return [];
    return [{ id: packId, path: fields.path, group: own, wh, mount, in: bay, ...rest }];
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
    reading.take(
      item.path,
      mistaken((c) => countWrong.raise(facts, c)),
    );
  }
  return values;
}

type Own = Partial<Pick<Pack, "wh" | "mount" | "chargeAt" | "health" | "in" | "charge" | "broken">>;

function readOwns(fields: PackFields, ids: readonly Id[]): ReadonlyMap<Id, Own> {
  const { reading } = fields;
  const owns = new Map<Id, Own>();
  for (const item of entriesOf(fields.item("own"))) {
    if (ids.includes(item.key)) owns.set(item.key, readOwn(new Fields(ownForm, reading, item)));
    else {
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

/** Only what is stated, so that it can be laid over what the group says. */
function readOwn(fields: FieldsOf<typeof ownForm>): Own {
  const wh = fields.get("wh");
  const mount = fields.text("mount");
  const at = fields.time("chargeAt", null);
  const health_ = fields.get("health");
  const bay = fields.id("in");
  const charge = fields.get("charge");
  const outage = fields.stretch("broken");
  return {
    ...(wh === null ? {} : { wh }),
    ...(mount === null ? {} : { mount }),
    ...(at === null ? {} : { chargeAt: at }),
    ...(health_ === null ? {} : { health: health_ }),
    ...(bay === null ? {} : { in: bay }),
    ...(charge === null ? {} : { charge }),
    ...(outage === null ? {} : { broken: outage }),
  };
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
    total: [amount(wattsNumber), "the power that the slots share, if they do"],
    hands: [who, "who may touch it; else anyone who is there and awake"],
    broken: [stretch, "out of service from then on, or in that stretch"],
  },
);

/** Reads a charger; null where something that must be stated is missing. */
export function readCharger(fields: FieldsOf<typeof chargerForm>, chargerId: Id): Charger | null {
  const [mount, watts, bay] = [fields.text("mount"), fields.get("watts"), fields.id("in")];
  const rest = {
    id: chargerId,
    path: fields.path,
    slots: fields.get("slots"),
    taper: fields.get("taper"),
    totalWatts: fields.get("total"),
    hands: fields.who("hands"),
    broken: fields.stretch("broken"),
  };
  return mount === null || watts === null || bay === null ? null : { ...rest, mount, watts, in: bay };
}
