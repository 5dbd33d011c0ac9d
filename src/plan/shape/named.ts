/** The forms of ids: one thing of the plan, several, or people by id, role or `all`. */
import type { IdKind } from "../read/ids.ts";
import type { Reading } from "../read/reading.ts";
import type { Id } from "../terms.ts";
import { type Item, itemsOf, textOf } from "../text/items.ts";
import { eachOnce, type Meaning, meaning, oneOrMany, scalar, turned, unique } from "./form.ts";
import { PATTERNS } from "./patterns.ts";

const anyId = scalar("an id", ["string"], { pattern: PATTERNS.member });

/** One id of one of the kinds; a group counts where it has one member. */
export const idOf = (...of: IdKind[]): Meaning<Id | null> =>
  meaning(anyId, (item, reading) => (item === null ? null : (namedBy(reading, item, of)[0] ?? null)));

/** Ids of the kinds, one or a list, as often as they are listed: `[camera, camera]` is two. A group stands for its members. */
export const idsAsListed = (...of: IdKind[]): Meaning<readonly Id[]> =>
  meaning(oneOrMany(anyId), (item, reading) => itemsOf(item).flatMap((one) => namedBy(reading, one, of)));

/** As `idsAsListed`, each once. */
export const idsOf = (...of: IdKind[]): Meaning<readonly Id[]> => eachOnce(idsAsListed(...of));

/** People by id, role or `all`; null where nothing or `aboard` is said. */
export const who = meaning(
  oneOrMany(scalar("an id, a role, `all` or `aboard`", ["string"], { examples: ["wren", "camera", "all"] })),
  (item, reading): readonly Id[] | null => {
    const items = itemsOf(item);
    const said = items.filter((one) => textOf(one) !== "aboard");
    if (item === null || (said.length === 0 && items.length > 0)) return null;
    return unique(said.flatMap((one) => personsOf(reading, one)));
  },
);

/** As `idsOf`; null where the key is not stated. */
export function idsIfStated(...of: IdKind[]): Meaning<readonly Id[] | null> {
  const form = idsOf(...of);
  return meaning(form, (item, ...rest) => (item === null ? null : form.value(item, ...rest)));
}

/** As `who`, with an empty list for null. */
export const whoOrNone = turned(who, (said) => said ?? []);

/** What a text names; `words` are those that the key takes besides ids. */
export function namedBy(
  reading: Reading,
  item: Item,
  kinds: readonly IdKind[],
  words: readonly string[] = [],
): readonly Id[] {
  const text = textOf(item);
  return text === null ? [] : (reading.take(item.path, reading.ids.find(text, kinds, [], words)) ?? []);
}

function personsOf(reading: Reading, item: Item): readonly Id[] {
  const text = textOf(item);
  if (text === null) return [];
  if (text === "all") return reading.ids.allOf("person");
  const role = reading.ids.kindOf(text) === "person" ? undefined : reading.roles.get(text);
  return (
    role ??
    reading.take(item.path, reading.ids.find(text, ["person"], [...reading.roles.keys()], ["all", "aboard"])) ??
    []
  );
}
