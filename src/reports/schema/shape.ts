/** The few words that the JSON Schemas of our answers are made of (draft 7). Readers must ignore keys they do not know. */
import type { Json } from "../shared/view.ts";

export type Shape = { readonly [key: string]: Json };

export const text: Shape = { type: "string" };
export const whole: Shape = { type: "integer" };
export const number: Shape = { type: "number" };
export const flag: Shape = { type: "boolean" };
/** An id of the plan. */
export const id: Shape = { type: "string", description: "an id of the plan" };
export const instant: Shape = {
  type: "string",
  pattern: "^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(Z|[+-]\\d{2}:\\d{2})$",
  description: "ISO 8601 with its offset: of the place where it happens, on a sheet of the clock it is written in",
};

export const word = (...words: readonly string[]): Shape => ({ enum: words });
export const orNull = (shape: Shape): Shape => ({ anyOf: [shape, { type: "null" }] });
export const list = (items: Shape): Shape => ({ type: "array", items });
export const said = (shape: Shape, description: string): Shape => ({ ...shape, description });

/** An object whose keys are always there. */
export const object = (properties: { readonly [key: string]: Shape }): Shape => ({
  type: "object",
  properties,
  required: Object.keys(properties),
});

/** An object keyed by words that the schema cannot list. */
export const mapOf = (values: Shape): Shape => ({ type: "object", additionalProperties: values });

/** Any value. */
export const anything: Shape = {};
