/** `crew`: who is there, what they do and what they may drive. */

import { PEOPLE_SETS } from "../../hours/rules/index.ts";
import type { Id, Person } from "../plan.ts";
import type { FieldsOf, Item } from "../read/fields.ts";
import { namedBy, textOf, unique } from "../read/fields.ts";
import { entry, oneOrManyValues, word } from "../shape/form.ts";
import { idOf, idsOf, inBed, stretch, text, time } from "../shape/leaves.ts";

/** A person of the section `crew`. */
export const personForm = entry(
  "a person: a map such as { role: camera, drives: wagon }",
  {},
  {
    name: [text, "the name as people say it", { example: "Wren Ode" }],
    role: [
      oneOrManyValues(text),
      "what they do: camera, reporter, producer, engineer or a word of your own; one or a list",
      { example: "[camera, lead]" },
    ],
    drives: [
      idsOf("vehicle"),
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
    rules: [oneOrManyValues(word(PEOPLE_SETS)), "rules that bind them even if they drive nothing"],
    away: [stretch, "not there from then on, or in that stretch"],
  },
);

type PersonFields = FieldsOf<typeof personForm>;

/** The roles of a person. */
export const readRoles = (fields: PersonFields): readonly string[] => unique(fields.all("role"));

/** Reads a person of the section `crew`. */
export function readPerson(fields: PersonFields, personId: Id): Person {
  return {
    id: personId,
    path: fields.path,
    name: fields.text("name"),
    roles: readRoles(fields),
    drives: drives(fields),
    slept: fields.id("slept"),
    sleeps: fields.id("sleeps"),
    contract: fields.id("contract"),
    phone: fields.text("phone"),
    up: fields.time("up", null),
    inBed: fields.stretches("inBed"),
    rules: unique(fields.all("rules")),
    away: fields.stretch("away"),
  };
}

function drives(fields: PersonFields): readonly Id[] {
  const { reading } = fields;
  const named = (item: Item): readonly Id[] => {
    const said = textOf(item);
    if (said === "none") return [];
    return said === "all" ? reading.ids.allOf("vehicle") : namedBy(reading, item, ["vehicle"], ["none", "all"]);
  };
  return unique(fields.items("drives").flatMap(named));
}
