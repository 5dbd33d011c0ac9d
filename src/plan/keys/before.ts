/** `history`: what is known of people from before the plan, where there is no earlier file. */
import type { PlanPath } from "../../findings/finding.ts";
import { SPAN_KINDS } from "../../hours/rules/rule.ts";
import { dayOfDate } from "../../time/civil.ts";
import { isoLocal } from "../../time/format.ts";
import type { Instant } from "../../time/units.ts";
import { logOverlap } from "../findings/log.ts";
import type { Reading } from "../read/reading.ts";
import { entry, Fields, type FieldsOf, type ModelOf, readBy } from "../shape/entry.ts";
import { either, flag, listOf, mapOf, word } from "../shape/form.ts";
import { date, length } from "../shape/leaves.ts";
import { isForward, time } from "../shape/spans.ts";
import type { Id } from "../terms.ts";
import { entriesOf, type Item, itemsOf } from "../text/items.ts";
import { badDate } from "../values/date.ts";

const IN = ["commercial", "light"] as const;

const spanForm = entry(
  "a span: { from: 2027-01-19T08:00-06:00, to: 2027-01-19T09:00-06:00, is: duty }",
  { from: [time, "when it begins"], to: [time, "when it ends"], is: [word(SPAN_KINDS), "what it is"] },
  {
    in: [word(IN), "`light` where the vehicle is outside the rules", { byDefault: "commercial" }],
    bunk: [flag, "of a ferry: whether a bunk was at hand", { byDefault: "false" }],
  },
);

/** A span from before the plan; `bunk` is false for what is no `ferry`. */
export interface HistorySpan extends ModelOf<typeof spanForm> {
  readonly path: PlanPath;
}

const spansForm = listOf(
  "a list of spans",
  readBy(spanForm, (fields): HistorySpan | null => {
    const span = fields.located();
    if (span === null || !isForward(fields, "from", "to")) return null;
    return { ...span, bunk: span.is === "ferry" && span.bunk };
  }),
);

const worked = {
  duty: [length, "on duty, driving counted in", { as: "dutyMinutes" }],
  driving: [length, "at the wheel", { as: "drivingMinutes" }],
} as const;

const totalForm = entry(
  "a day's totals: { date: 2027-01-19, duty: 9 h, driving: 4 h }",
  { date: [date, "the day"] },
  worked,
);

const dayForm = entry("a day's totals: { duty: 9 h, driving: 4 h }", {}, worked);

const personForm = entry(
  "what is known: { released: 2027-01-19T20:10-06:00, asleep: 6 h }",
  {},
  {
    released: [time, "the last release"],
    asleep: [length, "sleep in the night before", { as: "asleepMinutes" }],
    totals: [
      either(
        "a list of { date, duty, driving }, or a map of dates",
        listOf("a list", totalForm),
        mapOf("a map", dayForm),
      ),
      "duty and driving by day",
      { example: "{ 2027-01-18: { duty: 9 h, driving: 3 h } }" },
    ],
    spans: [spansForm, "spans as in a log"],
  },
);

const historyForm = either("a map { released, asleep, totals, spans }, or a list of spans", spansForm, personForm);

/** The section `history`. */
export const historiesForm = mapOf("a map of people to what is known", historyForm);

type PersonFields = FieldsOf<typeof personForm>;

/** Minutes on duty and at the wheel, 0 where none are stated. */
type Worked = { readonly [Key in keyof ModelOf<typeof dayForm>]: Exclude<ModelOf<typeof dayForm>[Key], null> };

/** A day's totals; the date as a plan writes it. */
interface DayTotal extends Worked {
  readonly date: string;
}

/** What is known of a person from before the plan, where there is no earlier file. */
export interface History extends ModelOf<typeof personForm> {
  /** Before the plan, per elapsed day where stated, most recent last. */
  readonly totals: readonly DayTotal[];
  readonly path: PlanPath;
}

/** Reads the section `history`, by person. */
export function readHistories(reading: Reading, section: Item | null): ReadonlyMap<Id, History> {
  const histories = entriesOf(section).flatMap((item) => {
    const [person] = reading.takeAtKey(item.path, reading.ids.find(item.key, ["person"])) ?? [];
    const history = readHistory(reading, item);
    return person === undefined || history === null ? [] : [[person, history] as const];
  });
  return new Map(histories);
}

function readHistory(reading: Reading, item: Item): History | null {
  const fields = new Fields(personForm, reading, item);
  const known = fields.located();
  if (known === null) return null;
  const totals = readTotals(fields).toSorted((a, b) => (a.date < b.date ? -1 : 1));
  const spans = (item.node.kind === "list" ? spansForm.value(item, reading, null) : known.spans) ?? [];
  refuseOverlaps(reading, String(item.path.at(-1)), spans);
  return { ...known, totals, spans };
}

/** Two spans at one time: which of them counts would decide whether the day is lawful. */
function refuseOverlaps(reading: Reading, person: string, spans: readonly HistorySpan[]): void {
  let end: HistorySpan | null = null;
  const text = (at: Instant): string => (reading.zone === null ? "" : isoLocal(at, reading.zone));
  for (const span of spans.toSorted((a, b) => a.from - b.from)) {
    if (end !== null && span.from < end.to) {
      const facts = { person, until: text(end.to), from: text(span.from) };
      reading.mistakeWith([...span.path, "from"], (c) => logOverlap.raise(facts, c), [...end.path, "to"]);
    }
    if (end === null || span.to > end.to) end = span;
  }
}

function readTotals(fields: PersonFields): History["totals"] {
  const item = fields.item("totals");
  const { reading } = fields;
  if (item?.node.kind === "map") {
    return entriesOf(item).flatMap((day) => total(new Fields(dayForm, reading, day), day.key, day.path, true));
  }
  return itemsOf(item).flatMap((day) => {
    const inner = new Fields(totalForm, reading, day);
    return total(inner.as(dayForm), inner.text("date"), inner.at("date"), false);
  });
}

function total(
  fields: FieldsOf<typeof dayForm>,
  day: string | null,
  path: readonly (string | number)[],
  dayIsKey: boolean,
): History["totals"] {
  const dutyMinutes = fields.get("duty") ?? 0;
  const drivingMinutes = fields.get("driving") ?? 0;
  if (day === null) return [];
  if (dayOfDate(day) !== null)
    return [{ date: day, dutyMinutes: Math.max(dutyMinutes, drivingMinutes), drivingMinutes }];
  const wrong = badDate(day);
  if (dayIsKey) fields.reading.takeAtKey(path, wrong);
  else fields.reading.take(path, wrong);
  return [];
}
