/** The head of a plan: version, title, date, clocks; what every time below is read against. */
import type { PlanPath } from "../../findings/finding.ts";
import { dayOfDate } from "../../time/civil.ts";
import { instant, type ZoneId } from "../../time/units.ts";
import { inTable } from "../../time/zone.ts";
import { timeOutside, valueBad, versionUnknown } from "../findings.ts";
import { idMistake } from "../read/ids.ts";
import type { Reading } from "../read/reading.ts";
import { type Declarations, entry, Fields, type FieldsOf, type ModelOf } from "../shape/entry.ts";
import { mapOf, oneOrMany, scalar, valueAt } from "../shape/form.ts";
import { date, numberOf, text, zoneForm } from "../shape/leaves.ts";
import { PATTERNS, wordTest } from "../shape/patterns.ts";
import type { Id } from "../terms.ts";
import { badDate, datesLike } from "../values/date.ts";
import { mistaken } from "../values/parsed.ts";
import type { NumberRange } from "../values/quantity.ts";
import { entriesOf } from "./items.ts";

const REVISION: NumberRange = { what: "a revision", least: 0, most: 100_000, whole: true, example: "2" };

const routingForm = entry(
  "a routing server of your own: { url: http://localhost:5000, keep: roads.json }",
  {
    url: [
      scalar("the address of a server such as http://localhost:5000", ["string"], { pattern: PATTERNS.address }),
      "its address",
      { example: "http://localhost:5000" },
    ],
  },
  {
    keep: [
      scalar("a file beside the plan such as roads.json", ["string", "number"], { pattern: PATTERNS.fileHere }),
      "the file beside the plan that keeps its answers",
      { example: "roads.json" },
    ],
  },
);

/** The keys that every plan states. */
export const headNeeds = {
  daywright: [
    scalar("the version of the format, 1", ["number"], { const: 1 }),
    "version of the format: 1",
    { example: "1" },
  ],
  date: [date, "the day, on `clock`"],
  clock: [zoneForm, "the control room's clock: a time with no zone is on this one"],
} as const satisfies Declarations;

/** The other keys of a plan's head. */
export const headMay = {
  id: [
    scalar("an id such as ice-20", ["string"], { pattern: PATTERNS.dayId, maxLength: 40 }),
    "the day's own name for calendars and versions, such as ice-20; never from a shared file",
    { example: "ore-20" },
  ],
  title: [text, "what it is about", { example: "Ore freighter, day 2" }],
  zone: [zoneForm, "where the places are, unless a place says otherwise"],
  revision: [numberOf(REVISION), "counts the versions that went out", { example: "3" }],
  until: [
    scalar("a last day such as +3d", ["string"], { pattern: PATTERNS.until }),
    "the last day, as in +3d or a date",
    { byDefault: "the plan's own day", example: "+1d" },
  ],
  labels: [
    mapOf("a map of labels to zones: { CT: America/Chicago }", zoneForm),
    "names of clocks, for views and for times",
  ],
  uses: [oneOrMany(text), "files with what all days share; this file wins", { example: "assignment.yaml" }],
  follows: [text, "the file of the day before", { example: "2027-01-19.yaml" }],
  routing: [routingForm, "a routing server of your own", { byDefault: "nothing", as: null }],
} as const satisfies Declarations;

const headForm = entry("the head of a plan", headNeeds, headMay);

type HeadFields = FieldsOf<typeof headForm>;

/** The head of a plan. */
export interface Head extends ModelOf<typeof headForm> {
  /** The day's own name for calendars and versions, `ice-20`; never from a shared file. */
  readonly id: Id | null;
  /** `2027-01-20`: the day on `clock`. */
  readonly date: string;
  /** Days beyond `date` that the plan runs on (`until: +3d` is 3). */
  readonly untilDays: number;
  readonly labels: ReadonlyMap<string, ZoneId>;
  readonly routing: Routing | null;
}

/** A routing server that the plan names. */
export interface Routing {
  readonly url: string;
  /** File beside the plan that keeps the answers. */
  readonly keep: string | null;
  readonly path: PlanPath;
}

/** Reads the head and sets the clocks and zones of the reading; null where date or clock is missing or mistaken. */
export function readHead(reading: Reading): Head | null {
  const fields = new Fields(headForm, reading, { node: reading.root, path: [] });
  checkVersion(fields);
  const day = readDate(fields);
  const clock = fields.get("clock");
  const labels = readLabels(fields);
  reading.desk = clock;
  reading.zone = fields.get("zone");
  const untilDays = readUntil(fields, day);
  if (day !== null && clock !== null) reading.clocks = { date: day, desk: clock, labels, untilDays };
  const head = fields.model();
  const rest = { id: readId(fields), routing: readRouting(fields), untilDays, labels };
  return day === null || head === null ? null : { ...head, ...rest, date: day };
}

function readId(fields: HeadFields): Id | null {
  const said = fields.text("id");
  const wrong = said === null ? null : idMistake(said);
  if (wrong !== null) fields.reading.mistake(fields.at("id"), wrong);
  return said;
}

function checkVersion(fields: HeadFields): void {
  const version = fields.text("daywright");
  if (version === null || version === "1") return;
  fields.reading.mistake(fields.at("daywright"), (c) => versionUnknown.raise({ version }, c));
}

/** An existing date that the zone table reaches, with a day to spare on either side. */
function readDate(fields: HeadFields): string | null {
  const said = fields.text("date");
  if (said === null) return null;
  const day = dayOfDate(said);
  if (day !== null && inTable(instant((day - 45) * 1440)) && inTable(instant((day + 45) * 1440))) return said;
  const wrong =
    day === null ? badDate(said) : mistaken((c) => timeOutside.raise({ text: said, years: "2000 to 2037" }, c));
  return fields.reading.take(fields.at("date"), wrong);
}

const isLabel = wordTest(/^[A-Za-z][A-Za-z0-9_-]{0,19}$/, () => /^\p{L}[\p{L}\p{N}_-]{0,19}$/u);

function readLabels(fields: HeadFields): ReadonlyMap<string, ZoneId> {
  const labels = new Map<string, ZoneId>();
  for (const item of entriesOf(fields.item("labels"))) {
    const found = valueAt(fields.reading, item, zoneForm);
    if (!isLabel(item.key) || item.key === "local") {
      const facts = { text: item.key, what: "a label: a short word", example: null, form: "CT" };
      fields.reading.mistakeAtKey(item.path, (c) => valueBad.raise(facts, c));
    } else if (found !== null) labels.set(item.key, found);
  }
  return labels;
}

const MOST_DAYS = 30;

/** `+3d`, or the last date; days beyond the plan's own. */
function readUntil(fields: HeadFields, day: string | null): number {
  const said = fields.text("until");
  if (said === null) return 0;
  const plus = /^\+(\d{1,2})\s?d$/.exec(said)?.[1];
  const last = plus === undefined ? dayOfDate(said) : null;
  const first = day === null ? null : dayOfDate(day);
  const days = plus !== undefined ? Number(plus) : last !== null && first !== null ? last - first : null;
  if (days !== null && days >= 0 && days <= MOST_DAYS) return days;
  if (last !== null && first === null) return 0;
  const count = /^\+?(\d{1,2})\s?d(?:ays?)?$/.exec(said)?.[1];
  const example = count === undefined ? (datesLike(said)[0] ?? null) : `+${count}d`;
  const facts = { text: said, what: `a last day (at most ${MOST_DAYS} days on)`, example, form: "+3d" };
  fields.reading.mistake(fields.at("until"), (c) => valueBad.raise(facts, c));
  return 0;
}

const FILE_HERE = new RegExp(PATTERNS.fileHere);

function readRouting(fields: HeadFields): Routing | null {
  const routing = fields.inner("routing", routingForm);
  const url = routing?.text("url") ?? null;
  if (routing === null || url === null) return null;
  // A plan is passed on and printed: what opens a server has no place in it.
  const secret = /^https?:\/\/[^/]*@/.test(url);
  if (secret || !/^https?:\/\/[^\s/]+/.test(url) || !URL.canParse(url)) {
    const facts = {
      text: secret ? url.replace(/\/\/[^/]*@/, "//…@") : url,
      what: secret ? "an address without a name and a password" : "the address of a server",
      example: null,
      form: "http://localhost:5000",
    };
    routing.reading.mistake(routing.at("url"), (c) => valueBad.raise(facts, c));
  }
  const keep = routing.text("keep");
  if (keep !== null && !FILE_HERE.test(keep)) {
    const facts = { text: keep, what: "a file beside the plan", example: null, form: "roads.json" };
    routing.reading.mistake(routing.at("keep"), (c) => valueBad.raise(facts, c));
  }
  return { url, keep, path: ["routing"] };
}
