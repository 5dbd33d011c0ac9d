/** `permits`: what allows the crew to be somewhere, and when. */
import type { Permit } from "../plan.ts";
import { entriesOf, Fields, type Item, refuseBackwards } from "../read/fields.ts";
import { idMistake } from "../read/ids.ts";
import type { Reading } from "../read/reading.ts";
import { entry } from "../shape/form.ts";
import { idOf, text, time } from "../shape/leaves.ts";

/** A permit of the section `permits`. */
export const permitForm = entry(
  "a permit: { what: filming, place: dock, from: 05:00, to: 14:00 }",
  {},
  {
    what: [text, "what it allows, in words", { example: "filming" }],
    place: [idOf("place"), "where; by default the place that the permit is called after", { example: "dock" }],
    from: [time, "from when on", { byDefault: "the whole plan" }],
    to: [time, "until when"],
    holder: [text, "who holds it", { example: "Wren Ode" }],
    number: [text, "kept as it is typed", { example: "P-0077" }],
  },
);

/** A permit may be called after its place, so its name is no id of the plan. */
export function readPermits(reading: Reading, section: Item | null): ReadonlyMap<string, Permit> {
  return new Map(entriesOf(section).map((item) => [item.key, readPermit(reading, item)]));
}

function readPermit(reading: Reading, item: Item & { readonly key: string }): Permit {
  const fields = new Fields(permitForm, reading, item);
  const wrong = idMistake(item.key);
  if (wrong !== null) reading.mistakeAtKey(item.path, wrong);
  const named = reading.ids.kindOf(item.key) === "place" ? item.key : null;
  const place = fields.has("place") ? fields.id("place") : named;
  const [from, to] = [fields.time("from", place), fields.time("to", place)];
  if (from !== null && to !== null && to <= from)
    refuseBackwards(reading, fields.at("to"), fields.text("from") ?? "", fields.text("to") ?? "");
  return {
    id: item.key,
    path: item.path,
    what: fields.text("what"),
    place,
    from,
    to,
    holder: fields.text("holder"),
    number: fields.text("number"),
  };
}
