/**
 * The kinds of values that reports hold. A kind is said once: how JSON states such a value, how JSON Schema (draft 7)
 * describes it, and which cell a table shows. Readers of JSON must ignore keys that they do not know.
 */
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/index.ts";
import { DASH, lengthCell, type Names, named, namesCell } from "./cells.ts";
import type { Clocks } from "./clocks.ts";
import type { Cell, Json } from "./view.ts";

export type Shape = { readonly [key: string]: Json };

/** What ids are worded with. */
export interface Named {
  readonly say: Names;
}

/** What values are worded with. */
export interface Words extends Named {
  readonly clocks: Pick<Clocks, "local" | "weekday" | "columns" | "cells">;
  /** ISO 8601 with the offset of the place where it happens. */
  iso(at: Instant, place: Id | null): string;
}

/** A kind of values `T`, worded with `View`. */
export interface Kind<in T, in View = Words> {
  readonly schema: Shape;
  readonly json: (value: T, view: View) => Json;
  readonly cell: (value: T, view: View) => Cell;
  /** Whether tables set it to the right. */
  readonly figure: boolean;
}

/** A moment, and the place whose clock it is told on; null is the plan's own clock. */
export interface Moment {
  readonly at: Instant;
  readonly place: Id | null;
}

/** A moment at a place; null where there is none. */
export const moment = (at: Instant | null | undefined, place: Id | null): Moment | null =>
  at == null ? null : { at, place };

/** A value that JSON holds as it is. */
const plain = <T extends Json>(schema: Shape, figure = false): Kind<T, unknown> => ({
  schema,
  json: (value) => value,
  cell: (value) => ({ text: String(value), raw: typeof value === "number" ? value : String(value) }),
  figure,
});

export const text = plain<string>({ type: "string" });
export const number = plain<number>({ type: "number" }, true);
export const whole = plain<number>({ type: "integer" }, true);
export const flag = plain<boolean>({ type: "boolean" });
export const share = plain<number>({ type: "number", minimum: 0, maximum: 1 }, true);
/** Any value. */
export const anything = plain<Json>({});

/** One of some words. */
export const word = <W extends string>(...words: readonly W[]): Kind<W, unknown> => plain({ enum: words });

const ID: Shape = { type: "string", description: "an id of the plan" };

/** An id that is shown as it is: of a hit, a path, a pack. */
export const key = plain<Id>(ID);

/** An id that is shown by its name. */
export const id: Kind<Id, Named> = { ...key, cell: (value, { say }) => named(say, value) };

/** Ids that are shown by their names; programs get them with a blank between two. */
export const ids: Kind<readonly Id[], Named> = {
  ...plain<readonly Id[]>({ type: "array", items: ID }),
  cell: (value, { say }) => namesCell(say, value),
};

/** Whole minutes, shown as a length. */
export const minutes: Kind<number, unknown> = { ...whole, cell: (value) => lengthCell(value) };

/** A moment on the clock of its place. */
export const instant: Kind<Moment> = {
  schema: {
    type: "string",
    pattern: "^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(Z|[+-]\\d{2}:\\d{2})$",
    description: "ISO 8601 with its offset: of the place where it happens, on a sheet of the clock it is written in",
  },
  json: ({ at, place }, view) => view.iso(at, place),
  cell: ({ at, place }, { clocks }) => clocks.local(at, place),
  figure: false,
};

/** ISO 8601 text that is already made. */
export const iso: Kind<string, unknown> = { ...text, schema: instant.schema };

/** The value, or null; a dash in tables. */
export const orNull = <T, View>(kind: Kind<T, View>): Kind<T | null, View> => ({
  schema: { anyOf: [kind.schema, { type: "null" }] },
  json: (value, view) => (value === null ? null : kind.json(value, view)),
  cell: (value, view) => (value === null ? DASH : kind.cell(value, view)),
  figure: kind.figure,
});

/** Values in their order. */
export const list = <T, View>(kind: Kind<T, View>): Kind<readonly T[], View> => ({
  schema: { type: "array", items: kind.schema },
  json: (values, view) => values.map((value) => kind.json(value, view)),
  cell: (values, view) =>
    values.length === 0 ? DASH : { text: values.map((value) => kind.cell(value, view).text).join(", ") },
  figure: false,
});

/** Values by words that a schema cannot list. */
export const mapOf = <T, View>(kind: Kind<T, View>): Kind<ReadonlyMap<string, T>, View> => ({
  schema: { type: "object", additionalProperties: kind.schema },
  json: (values, view) => Object.fromEntries([...values].map(([word, value]) => [word, kind.json(value, view)])),
  cell: (values) => ({ text: [...values.keys()].join(", ") }),
  figure: false,
});

/** A kind with a sentence for its schema. */
export const said = <T, View>(kind: Kind<T, View>, description: string): Kind<T, View> => ({
  ...kind,
  schema: { ...kind.schema, description },
});
