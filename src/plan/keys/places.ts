/** `places`: where things happen, on which clock, under which sky. */
import type { PlanPath } from "../../findings/finding.ts";
import { dateOfDay, dayOfDate } from "../../time/civil.ts";
import type { ZoneId } from "../../time/units.ts";
import { coordinatesSwapped, windowBackwards, zoneMissing } from "../findings.ts";
import type { Reading } from "../read/reading.ts";
import { entry, type FieldsOf, type ModelOf, readBy } from "../shape/entry.ts";
import {
  eachOnce,
  either,
  flag,
  listOf,
  meaning,
  oneOrMany,
  oneOrManyValues,
  pairOf,
  scalar,
  type ValueForm,
  valueAt,
  valued,
  word,
} from "../shape/form.ts";
import { amount, clock, date, numberOf, text, zoneForm } from "../shape/leaves.ts";
import { who } from "../shape/named.ts";
import { PATTERNS } from "../shape/patterns.ts";
import type { Coordinates, Entity, Id } from "../terms.ts";
import { type Item, itemsOf, textOf } from "../text/items.ts";
import { badDate } from "../values/date.ts";
import { type Axis, LATITUDE, LONGITUDE, parseDegrees, parseEastWest } from "../values/degrees.ts";
import { type NumberRange, roadKm, speedKmh } from "../values/quantity.ts";

const SIGNALS = ["good", "weak", "none"] as const;

/** True bearings, as everywhere in a plan. */
export const BEARING: NumberRange = { what: "a true bearing in degrees", least: 0, most: 360, example: "330" };
const HEIGHT: NumberRange = { what: "a height in degrees", least: 0, most: 90, example: "28" };

const obstacleForm = entry(
  "a stretch of the skyline: { from: 150, to: 200, below: 28 }",
  {
    from: [numberOf(BEARING), "true bearing where it begins, degrees", { example: "150" }],
    to: [numberOf(BEARING), "true bearing where it ends, clockwise from `from`", { example: "200" }],
    below: [numberOf(HEIGHT), "everything lower than this many degrees is hidden", { example: "28" }],
  },
  {},
);

/** A stretch of the skyline: true bearings, clockwise, and height in degrees; everything lower is hidden. */
export type Obstacle = ModelOf<typeof obstacleForm>;

const degreesOf = (axis: Axis): ValueForm<number> =>
  valued(
    scalar("degrees such as 46.81", ["number", "string"], {
      minimum: axis.range.least,
      maximum: axis.range.most,
      pattern: axis === LATITUDE ? PATTERNS.latitude : PATTERNS.longitude,
      examples: [Number(axis.range.example)],
    }),
    (said) => parseDegrees(said, axis),
  );

const latitudeForm = degreesOf(LATITUDE);
const longitudeForm = degreesOf(LONGITUDE);

const openSpan = pairOf('a pair of clock times such as ["05:30", "22:00"]', clock);

const hospitalForm = entry(
  "a hospital: { name: St Mary, km: 12, phone: 555 0100 }",
  { name: [text, "its name", { example: "St Ann" }] },
  {
    km: [amount(roadKm), "how far it is"],
    phone: [text, "kept as it is typed", { example: "555 0102" }],
    address: [text, "where it is", { example: "1 Main St" }],
  },
);

/** A hospital; `name` is the whole text where the plan has one text for all. */
export type Hospital = ModelOf<typeof hospitalForm>;

const NIGHTS: NumberRange = { what: "a number of nights", least: 1, most: 30, whole: true, example: "2" };

const nightsForm = numberOf(NIGHTS);

const roomForm = entry(
  "a booking of beds: { who: [wren, ilse], nights: 2, booking: H-4711 }",
  { who: [who, "who sleeps there"] },
  {
    nights: [
      either("a number of nights, or dates", nightsForm, oneOrMany(date)),
      "how many from the plan's date on, or the dates of the evenings",
      { byDefault: "1", example: "2" },
    ],
    booking: [text, "the booking's number", { example: "H-4711" }],
  },
);

/** A place of the section `places`. */
export const placeForm = entry(
  "a place: a map such as { at: [46.60, -90.88] }",
  {},
  {
    name: [text, "the name as people say it", { example: "Freight pier" }],
    at: [
      meaning(pairOf("[latitude, longitude] in degrees", latitudeForm, longitudeForm), coordinates),
      "latitude and longitude in degrees, north and east positive; or in degrees, minutes and seconds with N, S, E or W",
      { example: "[46.81, -90.82]" },
    ],
    zone: [zoneForm, "its time zone", { byDefault: "the plan's", example: "America/Detroit", as: null }],
    kind: [text, "what it is: lodging, airport, dock, …", { example: "lodging" }],
    mains: [flag, "whether there is a socket for chargers", { byDefault: "false" }],
    shelter: [flag, "whether one can wait there out of the cold", { byDefault: "false" }],
    signal: [word(SIGNALS), "the cellular signal"],
    blocked: [
      listOf("a list of { from, to, below }", obstacleForm),
      "the skyline: true bearings and height in degrees",
    ],
    open: [
      meaning(
        either(
          'a pair of clock times such as ["05:30", "22:00"], or a list of pairs',
          openSpan,
          listOf("a list of pairs of clock times", openSpan),
        ),
        openHours,
      ),
      "local opening hours; one span or several, `02:00 +1d` is past midnight",
    ],
    checkIn: [clock, "beds from this local time on", { as: "checkInMinute" }],
    checkOut: [clock, "beds until this local time", { as: "checkOutMinute" }],
    roadSpeed: [amount(speedKmh), "usual speed of the roads around, for estimates", { as: "roadSpeedKmh" }],
    address: [text, "for the sheet", { example: "1 Main St" }],
    hospital: [
      meaning(either("text, or { name, km, phone, address }", text, hospitalForm), hospital),
      "the nearest one, for the sheet",
    ],
    rooms: [listOf("a list of { who, nights, booking }", readBy(roomForm, readRoom)), "beds that are booked there"],
    declination: [
      valued(
        scalar("a declination such as 1 west", ["string"], {
          pattern: PATTERNS.eastWest,
          examples: ["1 west", "12.5 east"],
        }),
        (said) => parseEastWest(said, "a declination", 90, "1 west"),
      ),
      "how far east or west of true north a compass needle points there",
    ],
    parking: [text, "where to put the vehicles, for the sheet", { example: "behind the shed" }],
    note: [text, "anything else, for the sheet", { example: "gate code from the desk" }],
    hazards: [
      eachOnce(oneOrManyValues(text)),
      "what raises a caution: ice, mast, lines, roadside, water, …",
      { example: "[ice, water]" },
    ],
  },
);

type PlaceFields = FieldsOf<typeof placeForm>;

/** A place: its clock, and what is known of it; a needle's `declination` is in degrees, west negative. */
export interface Place extends Entity, ModelOf<typeof placeForm> {
  readonly zone: ZoneId;
}

/** The place's clock; the plan's where it states none, and a mistake where neither does. */
export function readPlaceZone(fields: PlaceFields, planZone: ZoneId | null, headIsSound: boolean): ZoneId | null {
  const { reading } = fields;
  if (fields.text("zone") !== null) return fields.stated("zone");
  if (planZone === null && headIsSound && !fields.has("zone")) {
    const facts = { place: String(fields.path.at(-1)), clock: reading.desk ?? "America/Chicago" };
    reading.mistakeAtKey(fields.path, (c) => zoneMissing.raise(facts, c));
  }
  return planZone;
}

/** Reads a place. */
export function readPlace(fields: PlaceFields, placeId: Id, zone: ZoneId): Place | null {
  const place = fields.entity(placeId);
  return place === null ? null : { ...place, zone };
}

function coordinates(item: Item | null, reading: Reading): Coordinates | null {
  const [north, east] = itemsOf(item);
  if (item === null || north === undefined || east === undefined) return null;
  if (refuseSwapped(reading, item, textOf(north), textOf(east))) return null;
  const latitude = valueAt(reading, north, latitudeForm);
  const longitude = valueAt(reading, east, longitudeForm);
  return latitude === null || longitude === null ? null : { latitude, longitude };
}

/** One mistake where the two, swapped, would be a place on the globe. */
function refuseSwapped(reading: Reading, item: Item, first: string | null, second: string | null): boolean {
  const readable = (said: string | null, axis: Axis): boolean => parseDegrees(said ?? "", axis).ok;
  if (readable(first, LATITUDE) || !readable(first, LONGITUDE) || !readable(second, LATITUDE)) return false;
  const facts = { at: `[${first}, ${second}]`, near: `[${second}, ${first}]` };
  reading.mistake(item.path, (c) => coordinatesSwapped.raise(facts, c));
  return true;
}

/** A stretch of the local clock, minutes after midnight, `from` below 1440; `to` is 1440 at midnight and more after it, at most 2880. */
export interface ClockWindow {
  readonly fromMinute: number;
  readonly toMinute: number;
}

/** In the order of the file. */
function openHours(item: Item | null, reading: Reading): readonly ClockWindow[] {
  if (item?.node.kind !== "list") return [];
  const several = item.node.items.some(({ kind }) => kind === "list");
  return (several ? itemsOf(item) : [item]).flatMap((span) => openSpanOf(reading, span) ?? []);
}

/** `["16:00", "02:00"]` is open past midnight, like `["16:00", "02:00 +1d"]`; equal ends are a mistake. */
function openSpanOf(reading: Reading, item: Item): ClockWindow | null {
  const ends = itemsOf(item);
  const [fromMinute, toMinute] = ends.map((end, index) => reading.clockAt(end.path, textOf(end), index === 1));
  if (fromMinute == null || toMinute == null) return null;
  const closes = toMinute < fromMinute ? toMinute + 1440 : toMinute;
  if (closes > fromMinute && closes - fromMinute <= 1440) return { fromMinute, toMinute: closes };
  const [from = "", to = ""] = ends.map((end) => textOf(end) ?? "");
  reading.mistake(item.path, (c) => windowBackwards.raise({ from, to, fix: null }, c));
  return null;
}

function hospital(item: Item | null, reading: Reading): Hospital | null {
  const name = textOf(item);
  return name === null ? hospitalForm.value(item, reading, null) : { name, km: null, phone: null, address: null };
}

/** Beds booked at a place. */
export interface Room extends ModelOf<typeof roomForm> {
  readonly who: readonly Id[];
  /** The dates of the evenings, `2027-01-20`, in order. */
  readonly nights: readonly string[];
  readonly path: PlanPath;
}

function readRoom(fields: FieldsOf<typeof roomForm>): Room | null {
  const { reading } = fields;
  const room = fields.located();
  const first = dayOfDate(reading.clocks?.date ?? "");
  const said = fields.items("nights");
  const item = fields.item("nights");
  const counted = item === null || /^[-+]?[\d.]+$/.test(textOf(item) ?? "");
  const count = item === null ? 1 : counted ? (valueAt(reading, item, nightsForm) ?? 0) : 0;
  const nights = counted
    ? Array.from({ length: first === null ? 0 : count }, (_, night) => dateOfDay((first ?? 0) + night))
    : said.flatMap((night) => nightOf(reading, night));
  return room === null ? null : { ...room, nights };
}

function nightOf(reading: Reading, item: Item): readonly string[] {
  const said = textOf(item);
  if (said === null) return [];
  if (dayOfDate(said) !== null) return [said];
  reading.take(item.path, badDate(said));
  return [];
}

/** A hospital in one line of words; null where none is stated. */
export function hospitalText(hospital: Hospital | null): string | null {
  if (hospital === null) return null;
  const { name, address, km, phone } = hospital;
  return [name, address, km === null ? null : `${km} km`, phone].filter((part) => part !== null).join(", ");
}
