/**
 * The forms of the plan's values, described with zod: which keys an entry has, and what kind of value stands behind each.
 *
 * Only kinds and keys are told here; what a text such as `1h20` means is read where its place in the file is known.
 * A form makes its schema when it is first needed, because making all of them would cost more than reading a plan, and
 * makes it again with descriptions for the JSON Schema. The `error` of each schema is what it wants, in our own words:
 * `issues.ts` builds its sentences from it.
 */
import * as z from "zod";

// Compiled checkers pay only for many checks of one schema; a plan is checked once. Must precede every schema.
z.config({ jitless: true });

export interface Form {
  /** As in "takes …": `a list of ids`. */
  readonly wanted: string;
  schema(described: boolean): z.ZodType;
}

/** What the JSON Schema says of a form beside its kind. */
export interface Meta {
  readonly pattern?: string;
  readonly examples?: readonly (string | number)[];
  readonly description?: string;
  readonly [key: string]: unknown;
}

function form(wanted: string, make: (described: boolean) => z.ZodType): Form {
  let plain: z.ZodType | null = null;
  return {
    wanted,
    schema(described) {
      if (described) return make(true);
      plain ??= make(false);
      return plain;
    },
  };
}

type ScalarKind = "string" | "number" | "boolean";

const KINDS: Readonly<Record<ScalarKind, () => z.ZodType>> = {
  string: () => z.string(),
  number: () => z.number(),
  boolean: () => z.boolean(),
};

/** One value written in a word, a number or a short text; text always passes, since `1.10` comes as text. */
export function scalar(wanted: string, kinds: readonly ScalarKind[], meta: Meta = {}): Form {
  return form(wanted, (described) => {
    if (!described)
      return z.union(
        [...new Set<ScalarKind>([...kinds, "string"])].map((kind) => KINDS[kind]()),
        { error: wanted },
      );
    const [first, ...others] = kinds.map((kind) => KINDS[kind]());
    const schema = first === undefined ? z.string() : others.length === 0 ? first : z.union([first, ...others]);
    return schema.meta({ ...meta, description: meta.description ?? wanted });
  });
}

/** `true` or `false`. */
export const flag: Form = form("`true` or `false`", () => z.boolean({ error: "`true` or `false`" }));

/** One of a few words. */
export function word<W extends string>(words: readonly W[]): Form {
  const wanted = words.map((one) => `\`${one}\``).join(", ");
  return form(wanted, () => z.enum(words, { error: wanted }));
}

export function listOf(wanted: string, item: Form): Form {
  return form(wanted, (described) => z.array(item.schema(described), { error: wanted }));
}

/** `[a, b]`. */
export function pairOf(wanted: string, item: Form): Form {
  return form(wanted, (described) => z.tuple([item.schema(described), item.schema(described)], { error: wanted }));
}

export function oneOrMany(item: Form): Form {
  return either(`${item.wanted}, or a list`, item, listOf("a list", item));
}

/** A map from own ids to values. */
export function mapOf(wanted: string, value: Form): Form {
  return form(wanted, (described) => z.record(z.string(), value.schema(described), { error: wanted }));
}

export function either(wanted: string, ...forms: readonly Form[]): Form {
  return form(wanted, (described) =>
    z.union(
      forms.map((one) => one.schema(described)),
      { error: wanted },
    ),
  );
}

/** Told to editors as `shown`, and left to its reader to check, where the kind of an entry depends on more than the entry. */
export function checkedByReader(shown: Form): Form {
  return form(shown.wanted, (described) => (described ? shown.schema(true) : z.unknown()));
}

/** `byDefault` is kept beside the field where a default is a plain number; the form itself never fills it in. */
export type Field = readonly [form: Form, description: string, byDefault?: number];

export interface EntryForm<K extends string> extends Form {
  readonly keys: readonly K[];
  readonly required: readonly K[];
}

/** A map with known keys, and no others. */
export function entry<R extends string = never, O extends string = never>(
  wanted: string,
  required: Readonly<Record<R, Field>>,
  optional: Readonly<Record<O, Field>>,
): EntryForm<R | O> {
  const must: readonly [string, Field][] = Object.entries<Field>(required);
  const may: readonly [string, Field][] = Object.entries<Field>(optional);
  const keys = [...must, ...may].map(([key]) => key);
  const made = form(wanted, (described) => {
    const field = ([form_, description]: Field): z.ZodType =>
      described ? form_.schema(true).meta({ description }) : form_.schema(false);
    const shape: Record<string, z.ZodType> = {};
    for (const [key, one] of must) shape[key] = field(one);
    for (const [key, one] of may) shape[key] = field(one).optional();
    return z.strictObject(shape, {
      error: (issue) => (issue.code === "unrecognized_keys" ? keys.join(" ") : wanted),
    });
  });
  return { ...made, keys: keysOf(required, optional), required: keysOf(required, {}) };
}

function keysOf<R extends string, O extends string>(
  a: Readonly<Record<R, Field>>,
  b: Readonly<Record<O, Field>>,
): readonly (R | O)[] {
  const known = (object: object, key: string): key is R | O => Object.hasOwn(object, key);
  return [...Object.keys(a), ...Object.keys(b)].filter((key): key is R | O => known(a, key) || known(b, key));
}
