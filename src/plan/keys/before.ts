/** `history`: what is known of people from before the plan, where there is no earlier file. */

import { SPAN_KINDS } from "../../hours/rules/rule.ts";
import { dayOfDate } from "../../time/civil.ts";
import type { History, HistorySpan, Id } from "../plan.ts";
import { entriesOf, Fields, type FieldsOf, type Item, itemsOf, refuseBackwards } from "../read/fields.ts";
import type { Reading } from "../read/reading.ts";
import { either, entry, flag, listOf, mapOf, word } from "../shape/form.ts";
import { date, length, time } from "../shape/leaves.ts";
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

const spansForm = listOf("a list of spans", spanForm);

const totalForm = entry(
  "a day's totals: { date: 2027-01-19, duty: 9 h, driving: 4 h }",
  { date: [date, "the day"] },
  { duty: [length, "on duty, driving counted in"], driving: [length, "at the wheel"] },
);

const dayForm = entry(
  "a day's totals: { duty: 9 h, driving: 4 h }",
  {},
  { duty: [length, "on duty, driving counted in"], driving: [length, "at the wheel"] },
);

const personForm = entry(
  "what is known: { released: 2027-01-19T20:10-06:00, asleep: 6 h }",
  {},
  {
    released: [time, "the last release"],
    asleep: [length, "sleep in the night before"],
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

/** Reads the section `history`, by person. */
export function readHistories(reading: Reading, section: Item | null): ReadonlyMap<Id, History> {
  const histories = entriesOf(section).flatMap((item) => {
    const [person] = reading.takeAtKey(item.path, reading.ids.find(item.key, ["person"])) ?? [];
    const history = readHistory(reading, item);
    return person === undefined ? [] : [[person, history] as const];
  });
  return new Map(histories);
}

function readHistory(reading: Reading, item: Item): History {
  const fields = new Fields(personForm, reading, item);
  const list = item.node.kind === "list" ? item : fields.item("spans");
  return {
    released: fields.time("released", null),
    asleepMinutes: fields.get("asleep"),
    totals: readTotals(fields).toSorted((a, b) => (a.date < b.date ? -1 : 1)),
    spans: itemsOf(list).flatMap((span) => readSpan(reading, span)),
    path: item.path,
  };
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

function readSpan(reading: Reading, item: Item): readonly HistorySpan[] {
  const fields = new Fields(spanForm, reading, item);
  const [from, to] = [fields.time("from", null), fields.time("to", null)];
  const is = fields.get("is");
  const inside = fields.get("in");
  if (from === null || to === null || is === null) return [];
  if (to > from) return [{ from, to, is, in: inside, bunk: is === "ferry" && fields.get("bunk") }];
  refuseBackwards(reading, fields.at("to"), fields.text("from") ?? "", fields.text("to") ?? "");
  return [];
}
