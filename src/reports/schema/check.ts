/** The JSON of `check`: the findings are in the envelope, `data` counts them. */
import { list, object, orNull, type Shape, said, text, whole } from "./shape.ts";

export const data: Shape = object({
  errors: whole,
  warnings: whole,
  notes: whole,
  accepted: whole,
  notJudged: said(list(text), "topics that nothing judges yet"),
  deferral: said(orNull(text), "who decides, where a caution is among the findings"),
});
