/** `hits`: appearances at fixed times; one entry may stand for several. */
import { after, type Instant } from "../../time/units.ts";
import { entry, type FieldsOf, type ModelOf } from "../shape/entry.ts";
import { either, flag, listOf, mapOf } from "../shape/form.ts";
import { amount, length, numberOf, someLength, text } from "../shape/leaves.ts";
import { idOf } from "../shape/named.ts";
import { time } from "../shape/spans.ts";
import type { Entity, Id } from "../terms.ts";
import { entriesOf, type Item, itemsOf, textOf } from "../text/items.ts";
import { lengthMeters, type NumberRange, parseNumber } from "../values/quantity.ts";
import { activityFields, activityForm, forField, type Location, localPlace, readLocation } from "./activity.ts";
import { BEARING } from "./places.ts";

const TIMES: NumberRange = { what: "a number of hits", least: 1, most: 200, whole: true, example: "5" };

/** Hits in equal steps. */
export const seriesForm = entry(
  "a series such as { from: 05:30, every: 30 min, times: 5 }",
  {
    from: [time, "the first time"],
    every: [someLength, "from one to the next"],
    times: [numberOf(TIMES), "how many", { example: "5" }],
  },
  {},
);

const atForm = either(
  'a time such as "07:00", a map of ids to times, a list of times, or { from, every, times }',
  time,
  listOf("a list of times", time),
  seriesForm,
  mapOf("a map of own ids to times", time, {
    propertyNames: { type: "string", pattern: "^(?!(?:every|times)$)" },
  }),
);

const runForm = entry(
  "a cable run: { cable: 70 m, crosses: road }",
  { cable: [amount(lengthMeters), "metres of cable from the vehicle to the camera", { as: "cableMeters" }] },
  { crosses: [text, "what it crosses: road, water, …", { example: "road" }] },
);

const fallbackForm = entry(
  "a fallback: { place: lodge, decideBy: 06:00 }",
  {},
  {
    place: [idOf("place"), "where else", { example: "lodge" }],
    path: [idOf("path"), "by which path", { example: "cell" }],
    decideBy: [time, "when it must be decided", { local: "place" }],
  },
);

/** A hit of the section `hits`. */
export const hitForm = entry(
  "a hit: a map such as { at: 07:00, for: 3 min, place: pier }",
  { at: [atForm, "when it is on air"], for: forField },
  {
    ...activityFields,
    firm: [flag, "whether the desk has confirmed it", { byDefault: "true" }],
    late: [length, "how much later the desk may take it", { as: "lateMinutes" }],
    clear: [length, "from its end until the desk lets go", { as: "clearMinutes" }],
    spare: [idOf("path"), "one of `paths`: the second way to get the signal out", { example: "cell" }],
    facing: [numberOf(BEARING), "true bearing that the camera looks, degrees", { example: "330" }],
    show: [text, "the programme", { example: "morning" }],
    run: [runForm, "the cable run"],
    fallback: [fallbackForm, "what else, and until when to decide"],
  },
);

/** The fields of a hit. */
export type HitFields = FieldsOf<typeof hitForm>;

/** The ids that an entry makes, before anything of it is read: its own, the keys of its map, or numbered ones. */
export function hitIds(fields: HitFields, own: Id): readonly { readonly id: Id; readonly key: Item | null }[] {
  const at = fields.item("at");
  if (at?.node.kind === "list") return at.node.items.map((_, index) => ({ id: `${own}.${index + 1}`, key: null }));
  if (at?.node.kind !== "map") return [{ id: own, key: null }];
  if (!isSeries(at)) return entriesOf(at).map((item) => ({ id: item.key, key: item }));
  const times = parseNumber(textOf(stepOf(at, "times")) ?? "", TIMES);
  return Array.from({ length: times.ok ? times.value : 0 }, (_, index) => ({ id: `${own}.${index + 1}`, key: null }));
}

/** A map with `every` or `times` is a series; no hit may be called so. */
const isSeries = (at: Item): boolean =>
  at.node.kind === "map" && (at.node.entries.has("every") || at.node.entries.has("times"));

const stepOf = (at: Item, key: string): Item | null => entriesOf(at).find((item) => item.key === key) ?? null;

/** A hit: an appearance at a fixed time; `facing` is the true bearing of the camera, degrees. */
export interface Hit extends Entity, ModelOf<typeof hitForm> {
  readonly kind: "hit";
  readonly location: Location;
  readonly at: Instant;
}

/** Reads the hits that one entry stands for. */
export function readHits(fields: HitFields, own: Id): readonly Hit[] {
  const location = readLocation(fields.as(activityForm));
  const place = localPlace(location);
  const times = instants(fields, place);
  const rest = fields.localTo(place).located();
  const ids = hitIds(fields, own);
  if (rest === null || location === null) return [];
  return ids.flatMap(({ id: hitId }, index) => {
    const at = times[index];
    return at == null ? [] : [{ ...rest, kind: "hit" as const, location, id: hitId, at }];
  });
}

/** The times in the order of `hitIds`. */
function instants(fields: HitFields, place: Id | null): readonly (Instant | null)[] {
  const at = fields.item("at");
  if (at === null) return [];
  const { reading } = fields;
  const one = (item: Item): Instant | null => {
    const said = textOf(item);
    return said === null ? null : reading.instant(said, item.path, place);
  };
  if (at.node.kind === "map" && isSeries(at)) return series(fields, place);
  if (at.node.kind === "map") return entriesOf(at).map(one);
  return itemsOf(at).map(one);
}

function series(fields: HitFields, place: Id | null): readonly (Instant | null)[] {
  const at = fields.item("at");
  // A map of own ids to times takes any key, so `form` for `from` fits there; with `every` it is a series all the same.
  if (at !== null && atForm.fits(at.node)) fields.reading.fit(at, seriesForm);
  const steps = fields.inner("at", seriesForm, place)?.model() ?? null;
  return steps === null
    ? []
    : Array.from({ length: steps.times }, (_, index) => after(steps.from, index * steps.every));
}
