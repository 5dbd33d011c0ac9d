/**
 * The forms of the plan's values: what kind of value stands behind a key, and what it means.
 *
 * Each form has a schema of zod, which words what is wrong with a value that does not fit and gives the JSON Schema, and
 * a plain test of its own. The test comes first, because loading zod takes longer than reading a plan; it says no more
 * than the schema does, and a property test holds the two together. The `error` of each schema is what it wants, in our
 * own words: `issues.ts` builds its sentences from it.
 */
import type * as zod from "zod";
import type { Reading } from "../read/reading.ts";
import type { Id } from "../terms.ts";
import { type Item, itemsOf, textOf } from "../text/items.ts";
import type { PlanNode } from "../text/tree.ts";
import { type Parsed, parsed } from "../values/parsed.ts";
import type { Form } from "./kind.ts";

/** A form whose values mean something in the checked plan. */
export interface Meaning<T> extends Form {
  /** What a value means, its mistakes recorded; `item` is null where none is stated. `place` is the one whose clock `local` is. */
  readonly value: (item: Item | null, reading: Reading, place: Id | null) => T;
}

/** A form whose text has its meaning wherever it stands: a length, a word, a number. */
export interface ValueForm<T> extends Meaning<T | null> {
  /** The value that a text of this form means, or the mistake in it. */
  readonly read: (said: string) => Parsed<T>;
}

/** A form together with what its values mean, for a text that needs the plan around it: a time needs clocks, an id what it names. */
export const meaning = <T>(form: Form, value: Meaning<T>["value"]): Meaning<T> => ({ ...form, value });

/** A form together with the reader of its texts. */
export function valued<T>(form: Form, read: (said: string) => Parsed<T>): ValueForm<T> {
  const own: ValueForm<T> = {
    ...form,
    read,
    value: (item, reading) => (item === null || !form.fits(item.node) ? null : valueAt(reading, item, own)),
  };
  return own;
}

/** The value of a text on its own; null where there is none, or with its mistake recorded. */
export function valueAt<T>(reading: Reading, item: Item, { read }: ValueForm<T>): T | null {
  const said = textOf(item);
  return said === null ? null : reading.take(item.path, read(said));
}

/** What the JSON Schema says of a form besides its kind. */
export interface Meta {
  readonly pattern?: string;
  readonly examples?: readonly (string | number)[];
  readonly description?: string;
  readonly [key: string]: unknown;
}

type ScalarKind = "string" | "number" | "boolean";

/**
 * One value written in a word, a number or a short text. Text and numbers always pass, since `1.10` comes as text, and a
 * number without its unit is better reported by the reader of the value; editors get `kinds`.
 */
export function scalar(wanted: string, kinds: readonly ScalarKind[], meta: Meta = {}): Form {
  const taken: readonly ScalarKind[] = [...new Set<ScalarKind>(["string", "number", ...kinds])];
  const [example] = meta.examples ?? [];
  return {
    wanted,
    ...(example === undefined ? {} : { example: String(example) }),
    fits: (node) => taken.some((kind) => kind === kindGiven(node)),
    schema(z, described) {
      const one = { string: z.string, number: z.number, boolean: z.boolean };
      const [first, ...others] = (described ? kinds : taken).map((kind): zod.ZodType => one[kind]({ error: wanted }));
      const schema =
        first === undefined || others.length === 0
          ? (first ?? z.string())
          : z.union([first, ...others], { error: wanted });
      return described ? schema.meta({ ...meta, description: meta.description ?? wanted }) : schema;
    },
  };
}

/** The kind in which `raw` hands a value to a schema. */
function kindGiven(node: PlanNode): string | null {
  if (node.kind !== "scalar" || node.value === null) return null;
  return typeof node.value === "number" && String(node.value) !== node.text ? "string" : typeof node.value;
}

/** `true` or `false`. */
export const flag = valued(
  {
    wanted: "`true` or `false`",
    example: "true",
    fits: (node) => kindGiven(node) === "boolean",
    schema: (z) => z.boolean({ error: "`true` or `false`" }),
  },
  (said) => parsed(said.toLowerCase() === "true"),
);

/** One of a few words. */
export function word<W extends string>(words: readonly W[]): ValueForm<W | null> {
  const wanted = words.map((one) => `\`${one}\``).join(", ");
  const form: Form = {
    wanted,
    ...(words[0] === undefined ? {} : { example: words[0] }),
    fits: (node) => node.kind === "scalar" && words.some((one) => one === node.value),
    schema: (z) => z.enum(words, { error: wanted }),
  };
  // A text that is none of them does not fit, which its form says.
  return valued(form, (said) => parsed(words.find((one) => one === said) ?? null));
}

/** A list of values of one form. */
export function listOf<T>(wanted: string, item: Meaning<T | null>): Meaning<readonly T[]>;
export function listOf(wanted: string, item: Form): Form;
export function listOf(wanted: string, item: Form | Meaning<unknown>): Form {
  const form: Form = {
    wanted,
    parts: [item],
    list: true,
    fits: (node) => node.kind === "list" && node.items.every((one) => item.fits(one)),
    schema: (z, described) => z.array(item.schema(z, described), { error: wanted }),
  };
  if (!("value" in item)) return form;
  return meaning(form, (list, reading, place) => itemsOf(list).flatMap((one) => item.value(one, reading, place) ?? []));
}

/** `[a, b]`. */
export function pairOf(wanted: string, item: Form, second: Form = item): Form {
  return {
    wanted,
    parts: [item, second],
    fits(node) {
      const [one, other, more] = node.kind === "list" ? node.items : [];
      return one !== undefined && other !== undefined && more === undefined && item.fits(one) && second.fits(other);
    },
    schema: (z, described) => z.tuple([item.schema(z, described), second.schema(z, described)], { error: wanted }),
  };
}

/** A value, or a list of values. */
export const oneOrMany = (item: Form): Form => either(`${item.wanted}, or a list`, item, listOf("a list", item));

/** As `oneOrMany`, of values that are read one by one. */
export const oneOrManyValues = <T>(each: ValueForm<T | null>): Meaning<readonly T[]> =>
  meaning(oneOrMany(each), (item, reading) => itemsOf(item).flatMap((one) => valueAt(reading, one, each) ?? []));

/** A form whose values are taken once each, in the order of the first of each. */
export const eachOnce = <T>(form: Meaning<readonly T[]>): Meaning<readonly T[]> =>
  meaning(form, (...given) => unique(form.value(...given)));

/** The items without repetitions, in the order of the first of each. */
export const unique = <T>(list: readonly T[]): readonly T[] => [...new Set(list)];

/** A form whose values mean something else than it reads. */
export const turned = <T, U>(form: Meaning<T>, turn: (value: T) => U): Meaning<U> =>
  meaning(form, (...given) => turn(form.value(...given)));

/** A map from own ids to values; `meta` is what the JSON Schema says of its keys. */
export function mapOf(wanted: string, value: Form, meta: Meta = {}): Form {
  return {
    wanted,
    parts: [value],
    fits: (node) => node.kind === "map" && [...node.entries.values()].every((one) => value.fits(one.value)),
    schema(z, described) {
      const schema = z.record(z.string(), value.schema(z, described), { error: wanted });
      return described ? schema.meta(meta) : schema;
    },
  };
}

/** A value of one form or another. */
export function either(wanted: string, ...forms: readonly Form[]): Form {
  return {
    wanted,
    parts: forms,
    fits: (node) => forms.some((one) => one.fits(node)),
    schema: (z, described) =>
      z.union(
        forms.map((one) => one.schema(z, described)),
        { error: wanted },
      ),
  };
}

/** Described to editors as `shown`, and left to its reader to check, where the kind of an entry depends on more than the entry. */
export function checkedByReader(shown: Form): Form {
  return {
    wanted: shown.wanted,
    parts: [shown],
    fits: () => true,
    schema: (z, described) => (described ? shown.schema(z, true) : z.unknown()),
  };
}
