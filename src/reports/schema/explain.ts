/** The JSON of `explain`: one code, or all. */
import { list, object, orNull, type Shape, text, word } from "./shape.ts";

const level = word("error", "warning", "note");

/** How much a finding of the code counts: its level, the other one it can have, and whether it is a breach of law. */
const counts = {
  level,
  otherwise: orNull(object({ level, when: text })),
  law: word("never", "by rules", "always"),
};

export const data: Shape = {
  anyOf: [
    object({
      code: text,
      ...counts,
      title: text,
      why: text,
      cure: text,
      source: orNull(object({ title: text, clause: orNull(text) })),
      example: text,
    }),
    object({ codes: list(object({ code: text, ...counts, title: text })) }),
  ],
};
