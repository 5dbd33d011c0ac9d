/** `hits`: appearances at fixed times; one entry may stand for several. */
import { after, type Instant } from "../../time/units.ts";
import type { Hit, Id, Location } from "../plan.ts";
import { entriesOf, type FieldsOf, type Item, itemsOf, textOf } from "../read/fields.ts";
import { either, entry, flag, listOf, mapOf } from "../shape/form.ts";
import { amount, idOf, length, numberOf, someLength, text, time } from "../shape/leaves.ts";
import { lengthMeters, type NumberRange, parseNumber } from "../values/quantity.ts";
import { activityFields, activityForm, forField, localPlace, readActivity, readLocation } from "./activity.ts";
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
  { cable: [amount(lengthMeters), "metres of cable from the vehicle to the camera"] },
  { crosses: [text, "what it crosses: road, water, …", { example: "road" }] },
);

const fallbackForm = entry(
  "a fallback: { place: lodge, decideBy: 06:00 }",
  {},
  {
    place: [idOf("place"), "where else", { example: "lodge" }],
    path: [idOf("path"), "by which path", { example: "cell" }],
    decideBy: [time, "when it must be decided"],
  },
);

/** A hit of the section `hits`. */
export const hitForm = entry(
  "a hit: a map such as { at: 07:00, for: 3 min, place: pier }",
  { at: [atForm, "when it is on air"], for: forField },
  {
    ...activityFields,
    firm: [flag, "whether the desk has confirmed it", { byDefault: "true" }],
    late: [length, "how much later the desk may take it"],
    clear: [length, "from its end until the desk lets go"],
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

/** Reads the hits that one entry stands for. */
export function readHits(fields: HitFields, own: Id): readonly Hit[] {
  const location = readLocation(fields.as(activityForm));
  const times = instants(fields, localPlace(location));
  const rest = readRest(fields, location);
  const ids = hitIds(fields, own);
  if (rest === null) return [];
  return ids.flatMap(({ id: hitId }, index) => {
    const at = times[index];
    return at == null ? [] : [{ ...rest, id: hitId, at }];
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
  const inner = fields.inner("at", seriesForm);
  const from = inner?.time("from", place) ?? null;
  const every = inner === null ? null : inner.get("every");
  const times = inner?.get("times") ?? null;
  if (from === null || every === null || times === null) return [];
  return Array.from({ length: times }, (_, index) => after(from, index * every));
}

type Shared = Omit<Hit, "id" | "at">;

/** All but id and time; null where something that must be there is missing or mistaken. */
function readRest(fields: HitFields, location: Location | null): Shared | null {
  const place = localPlace(location);
  const forMinutes = fields.get("for");
  const rest = {
    kind: "hit" as const,
    firm: fields.get("firm"),
    lateMinutes: fields.get("late"),
    clearMinutes: fields.get("clear"),
    spare: fields.id("spare"),
    facing: fields.get("facing"),
    show: fields.text("show"),
    run: readRun(fields),
    fallback: readFallback(fields, place),
    ...readActivity(fields.as(activityForm), location ?? { kind: "place", place: "" }),
  };
  return location === null || forMinutes === null ? null : { ...rest, forMinutes };
}

function readRun(fields: HitFields): Hit["run"] {
  const run = fields.inner("run", runForm);
  const cableMeters = run?.get("cable") ?? null;
  return run === null || cableMeters === null ? null : { cableMeters, crosses: run.text("crosses") };
}

function readFallback(fields: HitFields, place: Id | null): Hit["fallback"] {
  const fallback = fields.inner("fallback", fallbackForm);
  if (fallback === null) return null;
  const elsewhere = fallback.id("place");
  return {
    place: elsewhere,
    path: fallback.id("path"),
    decideBy: fallback.time("decideBy", elsewhere ?? place),
  };
}
