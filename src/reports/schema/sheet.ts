/** The JSON of `sheet`: the same sections as every other form, with the machine's values in their tables. */
import { anything, flag, id, instant, list, mapOf, object, orNull, type Shape, text, whole, word } from "./shape.ts";

const block: Shape = {
  anyOf: [
    object({ kind: word("table"), title: orNull(text), rows: list(mapOf(anything)) }),
    object({ kind: word("list"), items: list(text) }),
    object({ kind: word("line", "heading"), text }),
    object({ kind: word("chart"), title: text, text }),
    object({ kind: word("findings"), codes: list(text) }),
  ],
};

const change = object({
  kind: word("person", "hit", "task", "move", "ride", "place", "line"),
  id: text,
  who: list(id),
  how: word("new", "dropped", "changed"),
  what: orNull(text),
  was: anything,
  now: anything,
});

export const data: Shape = object({
  revision: orNull(whole),
  person: orNull(id),
  redacted: flag,
  firstCall: orNull(instant),
  firstHit: orNull(instant),
  lastRelease: orNull(instant),
  sections: list(object({ id: text, title: text, blocks: list(block) })),
  events: list(
    object({
      item: text,
      kind: word("call", "hit", "move", "release"),
      from: instant,
      to: orNull(instant),
      title: text,
      place: orNull(text),
    }),
  ),
  changes: orNull(list(change)),
  notJudged: list(text),
});
