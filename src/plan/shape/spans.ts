/** The forms of instants and of stretches between them. */
import type { PlanPath } from "../../findings/finding.ts";
import type { Instant, Interval } from "../../time/units.ts";
import { valueKind, windowBackwards } from "../findings.ts";
import type { Reading } from "../read/reading.ts";
import type { Id, OpenInterval } from "../terms.ts";
import { type Item, itemsOf, textOf } from "../text/items.ts";
import { entry, Fields } from "./entry.ts";
import { either, listOf, type Meaning, meaning, pairOf, scalar } from "./form.ts";
import { timesMeant } from "./meant.ts";
import { PATTERNS } from "./patterns.ts";

/** An instant. */
export const time = meaning(
  scalar('a time such as "07:00"', ["string", "number"], {
    pattern: PATTERNS.time,
    minimum: 0,
    maximum: 2400,
    multipleOf: 1,
    examples: ["07:00", "05:00 local", "05:00 CT", "01:30 +1d", "2027-01-20T05:00-06:00"],
  }),
  (item, reading, place): Instant | null => {
    const said = textOf(item);
    return item === null || said === null ? null : reading.instant(said, item.path, place);
  },
);

/** `[from, to]`, all of it on one clock. */
export const windowForm = (wanted: string): Meaning<Interval | null> =>
  meaning(pairOf(wanted, time), (item, reading, place) => (item === null ? null : windowOf(reading, item, place)));

/** A stretch with two ends. */
const stretchForm = entry(
  "a stretch: { from: 10:00, to: 14:00 }",
  { from: [time, "from when on"] },
  { to: [time, "until when"] },
);

/** From a moment on, or for a stretch. */
export const stretch = meaning(either('a time such as "10:00", or { from, to }', time, stretchForm), (item, reading) =>
  item === null ? null : stretchOf(reading, item),
);

const night = pairOf('a pair of times such as ["23:00 -1d", "07:00"]', time);

const NIGHTS = 'a list of pairs of times, as in [["23:00 -1d", "07:00"]], or the time of going to bed';

/** When somebody slept: a moment, a pair, or a list of pairs, in time order; of the past. */
export const inBed = meaning(
  either(NIGHTS, time, night, listOf("a list of pairs of times", night)),
  (item, reading): readonly OpenInterval[] => {
    const pair = item === null ? null : timesMeant(textOf(item) ?? "");
    if (item !== null && pair !== null) {
      const facts = { key: "inBed", wanted: NIGHTS, found: "one text of two times", fix: `[${pair}]` };
      reading.mistake(item.path, (c) => valueKind.raise(facts, c));
      return [];
    }
    const several = item?.node.kind === "list" && item.node.items.every(({ kind }) => kind !== "scalar");
    const all = item === null ? [] : several ? itemsOf(item) : [item];
    return all.flatMap((one) => stretchOf(reading, one, true) ?? []).toSorted((a, b) => a.from - b.from);
  },
);

/** `[from, to]` as instants; one that does not go forward is a mistake, because a night must be said. */
function windowOf(reading: Reading, item: Item, place: Id | null, past = false): Interval | null {
  const [from, to] = itemsOf(item).map((end) => ({ path: end.path, text: textOf(end) }));
  if (from?.text == null || to?.text == null) return null;
  const begin = reading.instant(from.text, from.path, place);
  const end = reading.instant(to.text, to.path, place);
  if (begin === null || end === null) return null;
  if (end > begin) return { from: begin, to: end };
  refuse(reading, past ? from.path : to.path, from.text, to.text, past);
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
  const [from, to] = [fields.get("from"), fields.get("to")];
  if (from === null || (to === null && fields.has("to"))) return null;
  return isForward(fields, "from", "to") ? { from, to } : null;
}

/** An entry as far as its mistakes need it: its values and the author's own characters, by key. */
interface Spanned<K extends string> {
  readonly reading: Reading;
  get(key: K): Instant | null;
  at(key: K): PlanPath;
  text(key: K): string | null;
}

/** Whether what `to` states is after what `from` does, where both are stated; a mistake where it is not. */
export function isForward<K extends string>(fields: Spanned<NoInfer<K>>, from: K, to: K): boolean {
  const [begin, end] = [fields.get(from), fields.get(to)];
  if (begin === null || end === null || end > begin) return true;
  refuseBackwards(fields, from, to);
  return false;
}

/** Records that what `to` states is not after what `from` does. */
export function refuseBackwards<K extends string>(fields: Omit<Spanned<NoInfer<K>>, "get">, from: K, to: K): void {
  refuse(fields.reading, fields.at(to), fields.text(from) ?? "", fields.text(to) ?? "");
}

/** A night's end is of the next day, or, of what is `past`, its beginning of the day before. */
function refuse(reading: Reading, at: PlanPath, from: string, to: string, past = false): void {
  const dated = [from, to].some((text) => /[+-]\d+\s?d|^\d{4}-/.test(text));
  const fix = dated ? null : past ? `${from} -1d` : `${to} +1d`;
  reading.mistake(at, (c) => windowBackwards.raise({ from, to, fix }, c));
}
