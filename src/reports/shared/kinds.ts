/**
 * The kinds of values that reports hold. A kind is said once: how JSON states such a value, how JSON Schema (draft 7)
 * describes it, and which cell a table shows. Readers of JSON must ignore keys that they do not know.
 */
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/index.ts";
import { DASH, lengthCell, type Names, named, namesCell, numberCell, privateCell } from "./cells.ts";
import type { ReportClocks } from "./clocks.ts";
import type { Cell, Json } from "./view.ts";

/** A piece of JSON Schema. */
export type Shape = { readonly [key: string]: Json };

/** What ids are worded with. */
export interface Named {
  readonly say: Names;
}

/** What values are worded with. */
export interface Words extends Named {
  readonly clocks: Pick<ReportClocks, "local" | "weekday" | "columns" | "cells">;
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

/** A moment, and the place whose clock it is shown on; null is the plan's own clock. */
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

/** Text as it is. */
export const textKind = plain<string>({ type: "string" });
/** A number as it is. */
export const numberKind = plain<number>({ type: "number" }, true);
/** A whole number. */
export const wholeKind = plain<number>({ type: "integer" }, true);
/** True or false. */
export const flagKind = plain<boolean>({ type: "boolean" });
/** A share, 0 to 1. */
export const shareKind = plain<number>({ type: "number", minimum: 0, maximum: 1 }, true);
/** Any value. */
export const anyKind = plain<Json>({});

/** One of some words. */
export const wordKind = <W extends string>(...words: readonly W[]): Kind<W, unknown> => plain({ enum: words });

const ID: Shape = { type: "string", description: "an id of the plan" };

/** An id that is shown as it is: of a hit, a path, a pack. */
export const keyKind = plain<Id>(ID);

/** An id that is shown by its name. */
export const idKind: Kind<Id, Named> = { ...keyKind, cell: (value, { say }) => named(say, value) };

/** Ids that are shown by their names; programs get them with a blank between two. */
export const idsKind: Kind<readonly Id[], Named> = {
  ...plain<readonly Id[]>({ type: "array", items: ID }),
  cell: (value, { say }) => namesCell(say, value),
};

/** Whole minutes, shown as a length. */
export const minutesKind: Kind<number, unknown> = {
  ...plain<number>({ type: "integer", minimum: 0 }, true),
  cell: (value) => lengthCell(value),
};

/** A moment on the clock of its place. */
export const instantKind: Kind<Moment> = {
  schema: {
    type: "string",
    pattern: "^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(Z|[+-]\\d{2}:\\d{2})$",
    description: "ISO 8601 with its offset: of the place where it happens, on a sheet of the clock it is written in",
  },
  json: ({ at, place }, view) => view.iso(at, place),
  cell: ({ at, place }, { clocks }) => clocks.local(at, place),
  figure: false,
};

/** A moment whose cell names the weekday as well. */
export const weekdayKind: Kind<Moment> = {
  ...instantKind,
  cell: ({ at, place }, { clocks }) => clocks.weekday(at, place),
};

/** ISO 8601 text that is already made. */
export const isoKind: Kind<string, unknown> = { ...textKind, schema: instantKind.schema };

/** The value, or null; a dash in tables. */
export const orNull = <T, View>(kind: Kind<T, View>): Kind<T | null, View> => ({
  schema: { anyOf: [kind.schema, { type: "null" }] },
  json: (value, view) => (value === null ? null : kind.json(value, view)),
  cell: (value, view) => (value === null ? DASH : kind.cell(value, view)),
  figure: kind.figure,
});

/** A number, a booking: left out where the report is redacted; null where there is none. */
export const secretKind: Kind<string | null, { readonly redact: boolean }> = {
  ...orNull<string, unknown>(textKind),
  json: (value, { redact }) => (redact ? null : value),
  cell: (value, { redact }) => privateCell(value, redact),
};

/** Values in their order. */
export const listKind = <T, View>(kind: Kind<T, View>): Kind<readonly T[], View> => ({
  schema: { type: "array", items: kind.schema },
  json: (values, view) => values.map((value) => kind.json(value, view)),
  cell: (values, view) =>
    values.length === 0 ? DASH : { text: values.map((value) => kind.cell(value, view).text).join(", ") },
  figure: false,
});

/** Values by words that a schema cannot list. */
export const mapKind = <T, View>(kind: Kind<T, View>): Kind<ReadonlyMap<string, T>, View> => ({
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

/** Minutes that may be negative: `schema` says what they count, and what they are then. */
export const signedMinutes = (description: string): Kind<number | null, unknown> =>
  said(orNull({ ...wholeKind, cell: minutesKind.cell }), description);

/** How long a departure or a start can still be put off. */
export const slackKind = signedMinutes("how much later it can be; negative: so many minutes too late");

/** Kilometres with one digit. */
export const km: Kind<number, unknown> = {
  ...numberKind,
  json: (value) => Math.round(value * 10) / 10,
  cell: (value) => numberCell(value, 0, " km"),
};

/** Degrees of an angle, to a thousandth, which is the ephemeris's own accuracy; tables show so many digits. */
export const angle = (digits: number): Kind<number, unknown> => ({
  ...numberKind,
  json: (value) => Math.round(value * 1000) / 1000,
  cell: (value) => numberCell(value, digits, "°"),
});
