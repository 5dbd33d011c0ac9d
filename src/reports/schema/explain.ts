/** The JSON of `explain`: one code, or all. */
import { flag, list, object, orNull, type Shape, text, word } from "./shape.ts";

const level = word("error", "warning", "note");

export const data: Shape = {
  anyOf: [
    object({
      code: text,
      level,
      law: flag,
      title: text,
      why: text,
      cure: text,
      source: orNull(object({ title: text, clause: orNull(text) })),
      example: text,
    }),
    object({ codes: list(object({ code: text, level, law: flag, title: text })) }),
  ],
};
