/** `crew`: who is there, what they do and what they may drive. */

import { PEOPLE_SETS } from "../../hours/rules/index.ts";
import type { Reading } from "../read/reading.ts";
import { entry, type ModelOf } from "../shape/entry.ts";
import { eachOnce, meaning, oneOrManyValues, unique, word } from "../shape/form.ts";
import { text } from "../shape/leaves.ts";
import { idOf, idsOf, namedBy } from "../shape/named.ts";
import { inBed, stretch, time } from "../shape/spans.ts";
import type { Entity, Id } from "../terms.ts";
import { type Item, itemsOf, textOf } from "../text/items.ts";

/** A person of the section `crew`. */
export const personForm = entry(
  "a person: a map such as { role: camera, drives: wagon }",
  {},
  {
    name: [text, "the name as people say it", { example: "Wren Ode" }],
    role: [
      eachOnce(oneOrManyValues(text)),
      "what they do: camera, reporter, producer, engineer or a word of your own; one or a list",
      { example: "[camera, lead]", as: "roles" },
    ],
    drives: [
      meaning(idsOf("vehicle"), drivable),
      "the vehicles they may drive; `none` by default, `all` for every one",
      { example: "[wagon]" },
    ],
    slept: [
      idOf("place"),
      "the place where they slept; by default the first stop of what they ride",
      { example: "lodge" },
    ],
    sleeps: [
      idOf("place"),
      "the place where they will sleep; by default the last stop of what they ride",
      { example: "inn" },
    ],
    contract: [idOf("contract"), "one of `contracts`", { example: "day10" }],
    phone: [text, "kept as it is typed", { example: "555 0101" }],
    up: [time, "when they got up; beats every estimate"],
    inBed: [inBed, "when they slept; beats every estimate"],
    rules: [eachOnce(oneOrManyValues(word(PEOPLE_SETS))), "rules that bind them even if they drive nothing"],
    away: [stretch, "not there from then on, or in that stretch"],
  },
);

/** A person of the crew; in the roles, `camera`, `reporter`, `producer` and `engineer` have a meaning for lines and cautions. */
export type Person = Entity & ModelOf<typeof personForm>;

function drivable(item: Item | null, reading: Reading): readonly Id[] {
  const named = (one: Item): readonly Id[] => {
    const said = textOf(one);
    if (said === "none") return [];
    return said === "all" ? reading.ids.allOf("vehicle") : namedBy(reading, one, ["vehicle"], ["none", "all"]);
  };
  return unique(itemsOf(item).flatMap(named));
}
