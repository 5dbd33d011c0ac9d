/**
 * Entries: maps with known keys, each declared once, in a line. From the declarations follow the test of an entry, its JSON
 * Schema, the manual, completion, and the type and the values of the checked entry.
 *
 * Kinds and keys are checked by the form, so a value of the wrong kind is passed over in silence when it is read; what a
 * text means is read and its mistakes recorded, each at its own spot.
 */
import type * as zod from "zod";
import type { PlanPath } from "../../findings/finding.ts";
import type { Reading } from "../read/reading.ts";
import type { Entity, Id } from "../terms.ts";
import { type Item, itemsOf, textOf } from "../text/items.ts";
import type { MapNode, PlanNode } from "../text/tree.ts";
import { type Meaning, meaning, type ValueForm } from "./form.ts";
import type { Form } from "./kind.ts";

/** What is said of one key of an entry, once. */
export interface KeyDeclaration {
  readonly form: Form;
  /** One sentence for people who write plans. */
  readonly says: string;
  /** What holds where the key is left out, as a plan writes it. */
  readonly byDefault?: string;
  /** A value as a plan writes it, where the form's own example does not do. */
  readonly example?: string;
  /** Its name in the checked entry, with the unit, where that is another; null where code of the section reads it. */
  readonly as?: string | null;
  /** The key of the same entry that names the place whose clock `local` is. */
  readonly local?: string;
}

/** A declaration, or its parts in order. */
export type Field = KeyDeclaration | readonly [form: Form, says: string, more?: Omit<KeyDeclaration, "form" | "says">];

/** The declarations of an entry, by key. */
export type Declarations = Readonly<Record<string, Field>>;

type FormOf<F extends Field> = F extends readonly [infer A, ...unknown[]]
  ? A
  : F extends { readonly form: infer A }
    ? A
    : never;

type MoreOf<F extends Field> = F extends readonly [Form, string, infer M] ? M : F;

/** The keys whose values have forms of one kind. */
type KeysWith<D extends Declarations, A> = {
  [K in keyof D & string]: FormOf<D[K]> extends A ? K : never;
}[keyof D & string];

/** What a key reads as where it is stated; null where it is not, or not rightly. */
type StatedOf<F extends Field> = FormOf<F> extends ValueForm<infer T> ? T | null : never;

/** What a key reads as: what is stated, else what is declared to hold then, else null or an empty list. */
export type ValueOf<F extends Field> =
  FormOf<F> extends ValueForm<infer T>
    ? MoreOf<F> extends { readonly byDefault: string }
      ? Exclude<T, null>
      : T | null
    : FormOf<F> extends Meaning<infer T>
      ? T
      : never;

/** The name of a key's value in the checked entry; none where its form has no meaning or code of the section reads it. */
type NameOf<D extends Declarations, K extends keyof D & string> =
  FormOf<D[K]> extends Meaning<unknown>
    ? MoreOf<D[K]> extends { readonly as: infer A }
      ? A extends string
        ? A
        : never
      : K
    : never;

type Values<R extends Declarations, O extends Declarations> = {
  readonly [K in keyof R & string as NameOf<R, K>]: Exclude<ValueOf<R[K]>, null>;
} & { readonly [K in keyof O & string as NameOf<O, K>]: ValueOf<O[K]> };

/** The checked entry that follows from the declarations: what must be stated is there, the rest null, empty or by default. */
type Checked<R extends Declarations, O extends Declarations> = {
  readonly [K in keyof Values<R, O>]: Values<R, O>[K];
};

/** The declaration, whichever way it is written. */
export const declared = (field: Field): KeyDeclaration =>
  "form" in field ? field : { form: field[0], says: field[1], ...field[2] };

/** The sentence with the default behind it. */
const describedAs = ({ says, byDefault }: KeyDeclaration): string =>
  byDefault === undefined ? says : `${says}; ${byDefault} by default`;

/** A map with known keys, which means the checked entry `M`, or null where something that must be stated is not. */
export interface EntryForm<D extends Declarations = Declarations, M = unknown> extends Meaning<M | null> {
  readonly keys: readonly (keyof D & string)[];
  readonly required: readonly (keyof D & string)[];
  /** Every key, in the order of `keys`. */
  readonly fields: ReadonlyMap<string, KeyDeclaration>;
  /** The declarations as they were given. */
  readonly declarations: D;
}

/** The checked entry of a form: its values by their names, in units that the names say. */
export type ModelOf<E extends Meaning<unknown>> = E extends Meaning<infer M> ? Exclude<M, null> : never;

/** A map with known keys, and no others. */
export function entry<const R extends Declarations, const O extends Declarations>(
  wanted: string,
  required: R,
  optional: O,
): EntryForm<R & O, Checked<R, O>> {
  const declarations = { ...required, ...optional };
  const keys = keysOf(declarations);
  const must = keysOf(required);
  const fields = new Map(Object.entries<Field>(declarations).map(([key, field]) => [key, declared(field)]));
  const form: EntryForm<R & O, Checked<R, O>> = {
    wanted,
    keys,
    required: must,
    fields,
    declarations,
    value: (item, reading, place) =>
      item?.node.kind === "map" ? new Fields(form, reading, item, place).model() : null,
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
  return form;
}

function keysOf<D extends Declarations>(declarations: D): readonly (keyof D & string)[] {
  const known = (key: string): key is keyof D & string => Object.hasOwn(declarations, key);
  return Object.keys(declarations).filter(known);
}

/** An entry that means what `read` makes of its fields, where its keys alone do not say it. */
export const readBy = <D extends Declarations, M, T>(
  form: EntryForm<D, M>,
  read: (fields: Fields<D, M>) => T | null,
): Meaning<T | null> =>
  meaning(form, (item, reading, place) =>
    item?.node.kind === "map" ? read(new Fields(form, reading, item, place)) : null,
  );

/** The fields of entries of one form. */
export type FieldsOf<E> = E extends EntryForm<infer D, infer M> ? Fields<D, M> : never;

/** The values of one entry, read by key, each once. */
export class Fields<D extends Declarations, M = unknown> {
  readonly reading: Reading;
  readonly path: PlanPath;
  private readonly form: EntryForm<D, M>;
  private readonly node: MapNode | null;
  private readonly place: Id | null;
  private readonly values = new Map<string, unknown>();

  /** What is not a map reads as an entry with no keys, as does `node` null. `place` is the one whose clock `local` is. */
  constructor(
    form: EntryForm<D, M>,
    reading: Reading,
    { node, path }: { node: PlanNode | null; path: PlanPath },
    place: Id | null = null,
  ) {
    this.form = form;
    this.reading = reading;
    this.node = node?.kind === "map" ? node : null;
    this.path = path;
    this.place = place;
  }

  /** The same entry under a form that says of fewer keys what they are. */
  as<E extends Declarations, N>(form: EntryForm<E, N>): Fields<E, N> {
    return new Fields(form, this.reading, { node: this.node, path: this.path }, this.place);
  }

  /** The same entry at a place, whose clock `local` is. */
  localTo(place: Id | null): Fields<D, M> {
    return new Fields(this.form, this.reading, { node: this.node, path: this.path }, place);
  }

  at(key: keyof D & string): PlanPath {
    return [...this.path, key];
  }

  /** The value behind a key, of any kind; null where the text has none. */
  item(key: keyof D & string): Item | null {
    return this.found(key);
  }

  private found(key: string): Item | null {
    const node = this.node?.entries.get(key)?.value;
    return node === undefined || (node.kind === "scalar" && node.value === null)
      ? null
      : { node, path: [...this.path, key] };
  }

  has(key: keyof D & string): boolean {
    return this.item(key) !== null;
  }

  /** The author's own characters: `007` stays `007`. */
  text(key: keyof D & string): string | null {
    return textOf(this.item(key));
  }

  /** The items of a list, or the one value as a list of one. */
  items(key: keyof D & string): readonly Item[] {
    return itemsOf(this.item(key));
  }

  /** The value that a key states, as its form reads it; null where there is none or a mistaken one. */
  stated<K extends KeysWith<D, ValueForm<unknown>>>(key: K): StatedOf<D[K]>;
  stated(key: string): unknown {
    return this.read(key);
  }

  /** What a key states, else what its declaration says holds by default, else null or an empty list. */
  get<K extends KeysWith<D, Meaning<unknown>>>(key: K): ValueOf<D[K]>;
  get(key: string): unknown {
    return this.whole(key);
  }

  /** Every value by its name in the checked entry; null where one that must be stated is missing or mistaken. */
  model(): M | null;
  model(): unknown {
    const model: Record<string, unknown> = {};
    let isWhole = true;
    for (const [key, { form, as = key }] of this.form.fields) {
      if (as === null || !hasMeaning(form)) continue;
      const value = this.whole(key);
      model[as] = value;
      if (value === null && this.form.required.includes(key)) isWhole = false;
    }
    return isWhole ? model : null;
  }

  /** The same with its place in the plan. */
  located(): (M & { readonly path: PlanPath }) | null {
    const model = this.model();
    return model === null ? null : { ...model, path: this.path };
  }

  /** The same as a thing with an id. */
  entity(id: Id): (M & Entity) | null {
    const model = this.model();
    return model === null ? null : { ...model, id, path: this.path };
  }

  /** What is stated, laid over `base`. */
  over<B extends Partial<M>>(base: B): B;
  over(base: object): unknown {
    const stated = [...this.form.fields].flatMap(([key, { as = key }]) => {
      const value = this.read(key);
      return as === null || value === null ? [] : [[as, value] as const];
    });
    return { ...base, ...Object.fromEntries(stated) };
  }

  private whole(key: string): unknown {
    const value = this.read(key);
    const { form, byDefault } = this.form.fields.get(key) ?? {};
    if (value !== null || byDefault === undefined || form === undefined || !isValueForm(form)) return value;
    const otherwise = form.read(byDefault);
    return otherwise.ok ? otherwise.value : null;
  }

  private read(key: string): unknown {
    if (!this.values.has(key)) this.values.set(key, this.readNow(key));
    return this.values.get(key);
  }

  private readNow(key: string): unknown {
    const { form, local } = this.form.fields.get(key) ?? {};
    if (form === undefined || !hasMeaning(form)) return null;
    return form.value(this.found(key), this.reading, local === undefined ? this.place : this.placeAt(local));
  }

  /** The one place that a key names, else the entry's own. */
  private placeAt(key: string): Id | null {
    const value = this.read(key);
    const [one, ...others] = Array.isArray(value) ? value : [value];
    return typeof one === "string" && others.length === 0 ? one : this.place;
  }

  /** The fields of a map inside this entry; null where it is none. */
  inner<E extends Declarations, N>(
    key: keyof D & string,
    form: EntryForm<E, N>,
    place: Id | null = null,
  ): Fields<E, N> | null {
    const item = this.item(key);
    return item?.node.kind === "map" ? new Fields(form, this.reading, item, place) : null;
  }
}

const hasMeaning = (form: Form): form is Meaning<unknown> => "value" in form;
const isValueForm = (form: Form): form is ValueForm<unknown> => "read" in form;
