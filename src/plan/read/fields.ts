/**
 * Reads the values of one entry. Kinds and keys have been checked by its form (`shape/`), so a value of the wrong kind
 * is passed over in silence here; what a text means is read and its mistakes recorded, each at its own spot.
 */
import type { PlanPath } from "../../findings/finding.ts";
import type { Instant, Interval } from "../../time/units.ts";
import { valueBad, windowBackwards } from "../findings.ts";
import type { Id, OpenInterval } from "../plan.ts";
import type { EntryForm } from "../shape/form.ts";
import type { MapNode, PlanNode } from "../text/tree.ts";
import { parseLength } from "../values/length.ts";
import { mistaken, type Parsed, parsed } from "../values/parsed.ts";
import { type NumberRange, parseNumber, parseQuantity, type Quantity } from "../values/quantity.ts";
import { parseClock } from "../values/time.ts";
import type { IdKind } from "./ids.ts";
import type { Reading } from "./reading.ts";

/** A value and where it stands. */
export interface Item {
  readonly node: PlanNode;
  readonly path: PlanPath;
}

export class Fields<K extends string> {
  readonly reading: Reading;
  readonly path: PlanPath;
  private readonly node: MapNode | null;

  /** `node` null reads as an entry with no keys. */
  constructor(reading: Reading, node: PlanNode | null, path: PlanPath) {
    this.reading = reading;
    this.node = node?.kind === "map" ? node : null;
    this.path = path;
  }

  at(key: K): PlanPath {
    return [...this.path, key];
  }

  /** The value behind a key, of any kind; null where the text has none. */
  item(key: K): Item | null {
    const node = this.node?.entries.get(key)?.value;
    return node === undefined || (node.kind === "scalar" && node.value === null) ? null : { node, path: this.at(key) };
  }

  has(key: K): boolean {
    return this.item(key) !== null;
  }

  /** The author's own characters: `007` stays `007`. */
  text(key: K): string | null {
    return textOf(this.item(key));
  }

  flag(key: K, otherwise: boolean): boolean {
    const item = this.item(key);
    return item?.node.kind === "scalar" && typeof item.node.value === "boolean" ? item.node.value : otherwise;
  }

  word<W extends string>(key: K, words: readonly W[]): W | null {
    const text = this.text(key);
    return words.find((word) => word === text) ?? null;
  }

  private parse<T>(key: K, parser: (text: string) => Parsed<T>): T | null {
    const text = this.text(key);
    return text === null ? null : this.reading.take(this.at(key), parser(text));
  }

  /** Minutes. */
  length(key: K): number | null {
    return this.parse(key, parseLength);
  }

  amount(key: K, kind: Quantity): number | null {
    return this.parse(key, (text) => parseQuantity(text, kind));
  }

  number(key: K, range: NumberRange): number | null {
    return this.parse(key, (text) => parseNumber(text, range));
  }

  /** `what` as in "is not …". */
  oneOrTwo(key: K, what: string): 1 | 2 | null {
    return this.parse(key, (text): Parsed<1 | 2> => {
      const count = [1, 2].find((one) => String(one) === text);
      if (count === 1 || count === 2) return parsed(count);
      return mistaken((c) => valueBad.raise({ text, what: `${what}, 1 or 2`, example: "2" }, c));
    });
  }

  /** Minutes after midnight on a local clock. */
  clock(key: K): number | null {
    return this.parse(key, parseClock);
  }

  /** An instant; `place` is where it happens. */
  time(key: K, place: Id | null): Instant | null {
    const text = this.text(key);
    return text === null ? null : this.reading.instant(text, this.at(key), place);
  }

  /** `[from, to]`. */
  window(key: K, place: Id | null): Interval | null {
    const item = this.item(key);
    return item === null ? null : windowOf(this.reading, item, place);
  }

  /** A moment from which on, or `{ from, to }`. */
  stretch(key: K): OpenInterval | null {
    const item = this.item(key);
    return item === null ? null : stretchOf(this.reading, item);
  }

  /** A moment, a pair, or a list of pairs, in time order; of the past. */
  stretches(key: K): readonly OpenInterval[] {
    const item = this.item(key);
    const several = item?.node.kind === "list" && item.node.items.every(({ kind }) => kind !== "scalar");
    const all = item === null ? [] : several ? itemsOf(item) : [item];
    return all.flatMap((one) => stretchOf(this.reading, one, true) ?? []).toSorted((a, b) => a.from - b.from);
  }

  /** The items of a list, or the one value as a list of one. */
  items(key: K): readonly Item[] {
    return itemsOf(this.item(key));
  }

  texts(key: K): readonly string[] {
    return this.items(key).flatMap((item) => textOf(item) ?? []);
  }

  /** One id of one of the kinds; a group counts where it has one member. */
  id(key: K, ...kinds: IdKind[]): Id | null {
    const item = this.item(key);
    return item === null ? null : (idsOf(this.reading, item, kinds)[0] ?? null);
  }

  /** Ids with groups expanded, in order, each once. */
  idList(key: K, ...kinds: IdKind[]): readonly Id[] {
    return unique(this.items(key).flatMap((item) => idsOf(this.reading, item, kinds)));
  }

  /** Persons by id, role or `all`; null where nothing or `aboard` is said. */
  who(key: K): readonly Id[] | null {
    const items = this.items(key);
    const said = items.filter((item) => textOf(item) !== "aboard");
    if (this.item(key) === null || (said.length === 0 && items.length > 0)) return null;
    return unique(said.flatMap((item) => personsOf(this.reading, item)));
  }

  /** The fields of a map inside this entry. */
  inner<L extends string>(key: K, _form: EntryForm<L>): Fields<L> | null {
    const item = this.item(key);
    return item?.node.kind === "map" ? new Fields<L>(this.reading, item.node, item.path) : null;
  }
}

export const unique = <T>(list: readonly T[]): readonly T[] => [...new Set(list)];

export function textOf(item: Item | null): string | null {
  if (item === null || item.node.kind !== "scalar" || item.node.value === null) return null;
  return item.node.text.trim().normalize("NFC");
}

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

/** `words` are those that the key takes beside ids. */
export function idsOf(
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
  const fields = new Fields<"from" | "to">(reading, item.node, item.path);
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
