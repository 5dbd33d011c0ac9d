/**
 * Reads the values of one entry. Kinds and keys have been checked by its form (`shape/`), so a value of the wrong kind
 * is passed over in silence here; what a text means is read and its mistakes recorded, each at its own spot.
 */
import type { PlanPath } from "../../findings/finding.ts";
import type { Instant, Interval } from "../../time/units.ts";
import { windowBackwards } from "../findings.ts";
import type { Id, OpenInterval } from "../plan.ts";
import type {
  Declarations,
  EachOf,
  EntryForm,
  Form,
  IdForm,
  IdKind,
  KeysWith,
  ManyForm,
  MeaningForm,
  StatedOf,
  ValueForm,
  ValueOf,
} from "../shape/form.ts";
import { stretchForm } from "../shape/leaves.ts";
import type { MapNode, PlanNode } from "../text/tree.ts";
import type { Reading } from "./reading.ts";

/** A value and where it stands. */
export interface Item {
  readonly node: PlanNode;
  readonly path: PlanPath;
}

/** The fields of entries of one form. */
export type FieldsOf<E extends { readonly declarations: Declarations }> = Fields<E["declarations"]>;

/** The values of one entry, read by key. */
export class Fields<D extends Declarations> {
  readonly reading: Reading;
  readonly path: PlanPath;
  private readonly form: EntryForm<D>;
  private readonly node: MapNode | null;

  /** What is not a map reads as an entry with no keys, as does `node` null. */
  constructor(form: EntryForm<D>, reading: Reading, { node, path }: { node: PlanNode | null; path: PlanPath }) {
    this.form = form;
    this.reading = reading;
    this.node = node?.kind === "map" ? node : null;
    this.path = path;
  }

  /** The same entry under a form that says of fewer keys what they are. */
  as<E extends Declarations>(form: EntryForm<E>): Fields<E> {
    return new Fields(form, this.reading, { node: this.node, path: this.path });
  }

  at(key: keyof D & string): PlanPath {
    return [...this.path, key];
  }

  /** The value behind a key, of any kind; null where the text has none. */
  item(key: keyof D & string): Item | null {
    const node = this.node?.entries.get(key)?.value;
    return node === undefined || (node.kind === "scalar" && node.value === null) ? null : { node, path: this.at(key) };
  }

  has(key: keyof D & string): boolean {
    return this.item(key) !== null;
  }

  /** The author's own characters: `007` stays `007`. */
  text(key: keyof D & string): string | null {
    return textOf(this.item(key));
  }

  /** The value that a key states, as its form reads it; null where there is none or a mistaken one. */
  stated<K extends KeysWith<D, ValueForm<unknown>>>(key: K): StatedOf<D[K]>;
  stated(key: KeysWith<D, ValueForm<unknown>>): unknown {
    const form = this.form.fields.get(key)?.form;
    const item = this.item(key);
    return form === undefined || item === null || !isValueForm(form) || !form.fits(item.node)
      ? null
      : valueAt(this.reading, item, form);
  }

  /** What a key states, else what its declaration says holds by default, else null. */
  get<K extends KeysWith<D, ValueForm<unknown>>>(key: K): ValueOf<D[K]>;
  get(key: KeysWith<D, ValueForm<unknown>>): unknown {
    const { form, byDefault } = this.form.fields.get(key) ?? {};
    const value: unknown = this.stated(key);
    if (value !== null || byDefault === undefined || form === undefined || !isValueForm(form)) return value;
    const otherwise = form.read(byDefault);
    return otherwise.ok ? otherwise.value : null;
  }

  /** The values of one or many, each read by itself. */
  all<K extends KeysWith<D, ManyForm<unknown>>>(key: K): readonly EachOf<D[K]>[];
  all(key: KeysWith<D, ManyForm<unknown>>): readonly unknown[] {
    const form = this.form.fields.get(key)?.form;
    if (form === undefined || !isManyForm(form)) return [];
    return this.items(key).flatMap((item) => valueAt(this.reading, item, form.each) ?? []);
  }

  /** An instant; `place` is where it happens. */
  time(key: KeysWith<D, MeaningForm<"time">>, place: Id | null): Instant | null {
    const text = this.text(key);
    return text === null ? null : this.reading.instant(text, this.at(key), place);
  }

  /** `[from, to]`. */
  window(key: KeysWith<D, MeaningForm<"window">>, place: Id | null): Interval | null {
    const item = this.item(key);
    return item === null ? null : windowOf(this.reading, item, place);
  }

  /** A moment from which on, or `{ from, to }`. */
  stretch(key: KeysWith<D, MeaningForm<"stretch">>): OpenInterval | null {
    const item = this.item(key);
    return item === null ? null : stretchOf(this.reading, item);
  }

  /** A moment, a pair, or a list of pairs, in time order; of the past. */
  stretches(key: KeysWith<D, MeaningForm<"stretches">>): readonly OpenInterval[] {
    const item = this.item(key);
    const several = item?.node.kind === "list" && item.node.items.every(({ kind }) => kind !== "scalar");
    const all = item === null ? [] : several ? itemsOf(item) : [item];
    return all.flatMap((one) => stretchOf(this.reading, one, true) ?? []).toSorted((a, b) => a.from - b.from);
  }

  /** The items of a list, or the one value as a list of one. */
  items(key: keyof D & string): readonly Item[] {
    return itemsOf(this.item(key));
  }

  /** One id of the kinds that the key's form names; a group counts where it has one member. */
  id(key: KeysWith<D, IdForm<"id">>): Id | null {
    const item = this.item(key);
    return item === null ? null : (namedBy(this.reading, item, this.kinds(key))[0] ?? null);
  }

  /** Ids with groups expanded, in order, each once. */
  ids(key: KeysWith<D, IdForm<"ids">>): readonly Id[] {
    return unique(this.items(key).flatMap((item) => namedBy(this.reading, item, this.kinds(key))));
  }

  /** Ids with groups expanded, in order, as often as they are listed: `[camera, camera]` is two. */
  idsWithRepeats(key: KeysWith<D, IdForm<"ids">>): readonly Id[] {
    return this.items(key).flatMap((item) => namedBy(this.reading, item, this.kinds(key)));
  }

  private kinds(key: string): readonly IdKind[] {
    const form = this.form.fields.get(key)?.form;
    return form !== undefined && isIdForm(form) ? form.of : [];
  }

  /** Persons by id, role or `all`; null where nothing or `aboard` is said. */
  who(key: KeysWith<D, MeaningForm<"who">>): readonly Id[] | null {
    const items = this.items(key);
    const said = items.filter((item) => textOf(item) !== "aboard");
    if (this.item(key) === null || (said.length === 0 && items.length > 0)) return null;
    return unique(said.flatMap((item) => personsOf(this.reading, item)));
  }

  /** The fields of a map inside this entry; null where it is none. */
  inner<E extends Declarations>(key: keyof D & string, form: EntryForm<E>): Fields<E> | null {
    const item = this.item(key);
    return item?.node.kind === "map" ? new Fields(form, this.reading, item) : null;
  }
}

const isValueForm = (form: Form): form is ValueForm<unknown> => "read" in form;
const isManyForm = (form: Form): form is ManyForm<unknown> => "each" in form;
const isIdForm = (form: Form): form is IdForm<"id" | "ids"> => "of" in form;

/** The value of a text on its own; null where there is none, or with its mistake recorded. */
export function valueAt<T>(reading: Reading, item: Item, form: ValueForm<T>): T | null {
  const said = textOf(item);
  return said === null ? null : reading.take(item.path, form.read(said));
}

/** The items without repetitions, in the order of the first of each. */
export const unique = <T>(list: readonly T[]): readonly T[] => [...new Set(list)];

/** The author's characters of a value that is a word, a number or a text; null for any other. */
export function textOf(item: Item | null): string | null {
  if (item === null || item.node.kind !== "scalar" || item.node.value === null) return null;
  return item.node.text.trim().normalize("NFC");
}

/** The items of a list, each with its path; a value that is no list is a list of one. */
export function itemsOf(item: Item | null): readonly Item[] {
  if (item === null) return [];
  if (item.node.kind !== "list") return [item];
  return item.node.items.map((node, index) => ({ node, path: [...item.path, index] }));
}

/** The entries of a map, keyed by own ids. */
export function entriesOf(item: Item | null): readonly (Item & { readonly key: string })[] {
  if (item?.node.kind !== "map") return [];
  return [...item.node.entries].map(([key, { value }]) => ({ key, node: value, path: [...item.path, key] }));
}

/** `words` are those that the key takes besides ids. */
export function namedBy(
  reading: Reading,
  item: Item,
  kinds: readonly IdKind[],
  words: readonly string[] = [],
): readonly Id[] {
  const text = textOf(item);
  return text === null ? [] : (reading.take(item.path, reading.ids.find(text, kinds, [], words)) ?? []);
}

function personsOf(reading: Reading, item: Item): readonly Id[] {
  const text = textOf(item);
  if (text === null) return [];
  if (text === "all") return reading.ids.allOf("person");
  const role = reading.ids.kindOf(text) === "person" ? undefined : reading.roles.get(text);
  return (
    role ??
    reading.take(item.path, reading.ids.find(text, ["person"], [...reading.roles.keys()], ["all", "aboard"])) ??
    []
  );
}

/** `[from, to]` as instants; one that does not go forward is a mistake, because a night must be said. */
export function windowOf(reading: Reading, item: Item, place: Id | null, past = false): Interval | null {
  const [from, to] = itemsOf(item).map((end) => ({ path: end.path, text: textOf(end) }));
  if (from?.text == null || to?.text == null) return null;
  const begin = reading.instant(from.text, from.path, place);
  const end = reading.instant(to.text, to.path, place);
  if (begin === null || end === null) return null;
  if (end > begin) return { from: begin, to: end };
  refuseBackwards(reading, past ? from.path : to.path, from.text, to.text, past);
  return null;
}

/** `10:00`, `[from, to]` or `{ from, to }`; an end that is not after the beginning is a mistake. */
function stretchOf(reading: Reading, item: Item, past = false): OpenInterval | null {
  if (item.node.kind === "list") return windowOf(reading, item, null, past);
  if (item.node.kind === "scalar") {
    const said = textOf(item);
    const from = said === null ? null : reading.instant(said, item.path, null);
    return from === null ? null : { from, to: null };
  }
  const fields = new Fields(stretchForm, reading, item);
  const [from, to] = [fields.time("from", null), fields.time("to", null)];
  if (from === null || (to === null && fields.has("to"))) return null;
  if (to !== null && to <= from) {
    refuseBackwards(reading, fields.at("to"), fields.text("from") ?? "", fields.text("to") ?? "");
    return null;
  }
  return { from, to };
}

/** Records that `to` is not after `from`: a night's end is of the next day, or, of what is `past`, its beginning of the day before. */
export function refuseBackwards(reading: Reading, at: PlanPath, from: string, to: string, past = false): void {
  const dated = [from, to].some((text) => /[+-]\d+\s?d|^\d{4}-/.test(text));
  const fix = dated ? null : past ? `${from} -1d` : `${to} +1d`;
  reading.mistake(at, (c) => windowBackwards.raise({ from, to, fix }, c));
}
