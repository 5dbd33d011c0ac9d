/** JSON text that is safe on a terminal: what `JSON.stringify` leaves raw but a terminal acts on is written as an escape. */
import type { Json } from "../../reports/shared/view.ts";
import type { DeclaredForm } from "../form.ts";

/** DEL and C1 controls, line separators, and the marks that turn the reading direction. */
const RAW = /[\u007F-\u009F\p{Zl}\p{Zp}\p{Bidi_Control}\uFEFF]/gu;

const escaped = (character: string): string => `\\u${(character.codePointAt(0) ?? 0).toString(16).padStart(4, "0")}`;

/** Two blanks a level, keys in their documented order, one line end at the end. Reads back as the same value. */
export const toJson = (value: Json): string => `${JSON.stringify(value, null, 2).replace(RAW, escaped)}\n`;

/** One value on one line, for streams. */
export const toJsonLine = (value: Json): string => `${JSON.stringify(value).replace(RAW, escaped)}\n`;

/** What the report is for programs. */
export const jsonForm: DeclaredForm<"report"> = {
  name: "json",
  suffixes: [".json"],
  commands: null,
  place: 30,
  takes: "report",
  print: ({ data }) => toJson(data),
};
