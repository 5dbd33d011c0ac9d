/** `permits`: what allows the crew to be somewhere, and when. */
import { idMistake } from "../read/ids.ts";
import type { Reading } from "../read/reading.ts";
import { entry, Fields, type ModelOf } from "../shape/entry.ts";
import { text } from "../shape/leaves.ts";
import { idOf } from "../shape/named.ts";
import { isForward, time } from "../shape/spans.ts";
import type { Entity } from "../terms.ts";
import { entriesOf, type Item } from "../text/items.ts";

/** A permit of the section `permits`. */
export const permitForm = entry(
  "a permit: { what: filming, place: dock, from: 05:00, to: 14:00 }",
  {},
  {
    what: [text, "what it allows, in words", { example: "filming" }],
    place: [idOf("place"), "where; by default the place that the permit is called after", { example: "dock" }],
    from: [time, "from when on", { byDefault: "the whole plan", local: "place" }],
    to: [time, "until when", { local: "place" }],
    holder: [text, "who holds it", { example: "Wren Ode" }],
    number: [text, "kept as it is typed", { example: "P-0077" }],
  },
);

/** What allows a stay, null ends open; a stay outside it is a finding. It may be called after its place, so its name is no id of the plan. */
export type Permit = Entity & ModelOf<typeof permitForm>;

/** Reads the section `permits`. */
export function readPermits(reading: Reading, section: Item | null): ReadonlyMap<string, Permit> {
  return new Map(
    entriesOf(section).flatMap((item) => {
      const permit = readPermit(reading, item);
      return permit === null ? [] : [[item.key, permit] as const];
    }),
  );
}

function readPermit(reading: Reading, item: Item & { readonly key: string }): Permit | null {
  const wrong = idMistake(item.key);
  if (wrong !== null) reading.mistakeAtKey(item.path, wrong);
  const named = reading.ids.kindOf(item.key) === "place" ? item.key : null;
  const fields = new Fields(permitForm, reading, item, named);
  isForward(fields, "from", "to");
  const permit = fields.entity(item.key);
  return permit === null || fields.has("place") ? permit : { ...permit, place: named };
}
