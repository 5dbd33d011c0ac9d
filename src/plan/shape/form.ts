/**
 * The forms of the plan's values: which keys an entry has, and what kind of value stands behind each.
 *
 * Only kinds and keys are stated here; what a text such as `1h20` means is read where its place in the file is known.
 * Each form has a schema of zod, which words what is wrong with a value that does not fit and gives the JSON Schema, and
 * a plain test of its own. The test comes first, because loading zod takes longer than reading a plan; it says no more
 * than the schema does, and a property test holds the two together. The `error` of each schema is what it wants, in our
 * own words: `issues.ts` builds its sentences from it.
 */
import type * as zod from "zod";
import type { PlanNode } from "../text/tree.ts";
import { type Parsed, parsed } from "../values/parsed.ts";

/** The library, loaded by whoever asks for a schema. */
export type Zod = typeof zod;

/** What kind of value stands behind a key. */
export interface Form {
  /** As in "takes …": `a list of ids`. */
  readonly wanted: string;
  /** A value as a plan writes it, where the form alone tells one. */
  readonly example?: string;
  /** The forms of the values inside it, if it has some. */
  readonly parts?: readonly Form[];
  /** Whether its parts stand between square brackets. */
  readonly list?: true;
  fits(node: PlanNode): boolean;
  /** `described`: with what the JSON Schema says besides the kinds. */
  schema(z: Zod, described: boolean): zod.ZodType;
}

/** A form whose text has its meaning wherever it stands: a length, a word, a number. */
export interface ValueForm<T> extends Form {
  /** The value that a text of this form means, or the mistake in it. */
  readonly read: (said: string) => Parsed<T>;
}

/** One such value, or a list of them. */
export interface ManyForm<T> extends Form {
  readonly each: ValueForm<T>;
}

/** A form whose text needs the plan around it to mean something: a time needs clocks, an id what it names. */
export interface MeaningForm<M extends string> extends Form {
  readonly means: M;
}

/** An id, or one or several, of one of the kinds `of`. */
export interface IdForm<M extends "id" | "ids"> extends MeaningForm<M> {
  readonly of: readonly IdKind[];
}

/** A form together with what its texts mean. */
export const meaning = <M extends string>(form: Form, means: M): MeaningForm<M> => ({ ...form, means });

/** A form together with the reader of its texts. */
export const valued = <T>(form: Form, read: (said: string) => Parsed<T>): ValueForm<T> => ({ ...form, read });

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
export const flag: ValueForm<boolean> = {
  wanted: "`true` or `false`",
  example: "true",
  read: (said) => parsed(said.toLowerCase() === "true"),
  fits: (node) => kindGiven(node) === "boolean",
  schema: (z) => z.boolean({ error: "`true` or `false`" }),
};

/** One of a few words. */
export function word<W extends string>(words: readonly W[]): ValueForm<W | null> {
  const wanted = words.map((one) => `\`${one}\``).join(", ");
  return {
    wanted,
    ...(words[0] === undefined ? {} : { example: words[0] }),
    // A text that is none of them does not fit, which its form says.
    read: (said) => parsed(words.find((one) => one === said) ?? null),
    fits: (node) => node.kind === "scalar" && words.some((one) => one === node.value),
    schema: (z) => z.enum(words, { error: wanted }),
  };
}

/** A list of values of one form. */
export function listOf(wanted: string, item: Form): Form {
  return {
    wanted,
    parts: [item],
    list: true,
    fits: (node) => node.kind === "list" && node.items.every((one) => item.fits(one)),
    schema: (z, described) => z.array(item.schema(z, described), { error: wanted }),
  };
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
export const oneOrManyValues = <T>(each: ValueForm<T>): ManyForm<T> => ({ ...oneOrMany(each), each });

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

/** Told to editors as `shown`, and left to its reader to check, where the kind of an entry depends on more than the entry. */
export function checkedByReader(shown: Form): Form {
  return {
    wanted: shown.wanted,
    parts: [shown],
    fits: () => true,
    schema: (z, described) => (described ? shown.schema(z, true) : z.unknown()),
  };
}

/** What is said of one key of an entry, once: from it follow its test, its schema, the manual's page and the completion. */
export interface KeyDeclaration {
  readonly form: Form;
  /** One sentence for people who write plans. */
  readonly says: string;
  /** What holds where the key is left out, as a plan writes it. */
  readonly byDefault?: string;
  /** A value as a plan writes it, where the form's own example does not do. */
  readonly example?: string;
}

/** A declaration, or its parts in order. */
export type Field = KeyDeclaration | readonly [form: Form, says: string, more?: Omit<KeyDeclaration, "form" | "says">];

/** The declarations of an entry, by key. */
export type Declarations = Readonly<Record<string, Field>>;

/** The form that a declaration gives. */
export type FormOf<F extends Field> = F extends readonly [infer A, ...unknown[]]
  ? A
  : F extends { readonly form: infer A }
    ? A
    : never;

/** The keys whose values have forms of one kind. */
export type KeysWith<D extends Declarations, A> = {
  [K in keyof D & string]: FormOf<D[K]> extends A ? K : never;
}[keyof D & string];

/** What a key reads as where it is stated; null where it is not, or not rightly. */
export type StatedOf<F extends Field> = FormOf<F> extends ValueForm<infer T> ? T | null : never;

/** What a key reads as: what is stated, else what is declared to hold then, else null. */
export type ValueOf<F extends Field> = F extends
  | readonly [Form, string, { readonly byDefault: string }]
  | { readonly byDefault: string }
  ? NonNullable<StatedOf<F>>
  : StatedOf<F>;

/** The declaration, whichever way it is written. */
export const declared = (field: Field): KeyDeclaration =>
  "form" in field ? field : { form: field[0], says: field[1], ...field[2] };

/** The sentence with the default behind it. */
export const describedAs = ({ says, byDefault }: KeyDeclaration): string =>
  byDefault === undefined ? says : `${says}; ${byDefault} by default`;

/** What each of the values of a key reads as. */
export type EachOf<F extends Field> = FormOf<F> extends ManyForm<infer T> ? NonNullable<T> : never;

/** A map with known keys. */
export interface EntryForm<D extends Declarations = Declarations> extends Form {
  readonly keys: readonly (keyof D & string)[];
  readonly required: readonly (keyof D & string)[];
  /** Every key, in the order of `keys`. */
  readonly fields: ReadonlyMap<string, KeyDeclaration>;
  /** The declarations as they were given. */
  readonly declarations: D;
}

/** A map with known keys, and no others. */
export function entry<const R extends Declarations, const O extends Declarations>(
  wanted: string,
  required: R,
  optional: O,
): EntryForm<R & O> {
  const declarations = { ...required, ...optional };
  const keys = keysOf(declarations);
  const must = keysOf(required);
  const fields = new Map(Object.entries<Field>(declarations).map(([key, field]) => [key, declared(field)]));
  return {
    wanted,
    keys,
    required: must,
    fields,
    declarations,
    fits: (node) =>
      node.kind === "map" &&
      must.every((key) => node.entries.has(key)) &&
      [...node.entries].every(([key, { value }]) => fields.get(key)?.form.fits(value) === true),
    schema(z, described) {
      const shape: Record<string, zod.ZodType> = {};
      for (const [key, field] of fields) {
        const schema = described
          ? field.form.schema(z, true).meta({ description: describedAs(field) })
          : field.form.schema(z, false);
        shape[key] = Object.hasOwn(required, key) ? schema : schema.optional();
      }
      const error = (issue: { code?: string | undefined }): string =>
        issue.code === "unrecognized_keys" ? keys.join(" ") : wanted;
      return z.strictObject(shape, { error });
    },
  };
}

function keysOf<D extends Declarations>(declarations: D): readonly (keyof D & string)[] {
  const known = (key: string): key is keyof D & string => Object.hasOwn(declarations, key);
  return Object.keys(declarations).filter(known);
}

/** As findings call them: "is not a person". */
export type IdKind =
  | "person"
  | "vehicle"
  | "place"
  | "hit"
  | "task"
  | "ride"
  | "piece of kit"
  | "pack"
  | "charger"
  | "path"
  | "line"
  | "contract"
  | "stop";
