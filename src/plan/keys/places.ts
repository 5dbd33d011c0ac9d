/** `places`: where things happen, on which clock, under which sky. */
import { dateOfDay, dayOfDate } from "../../time/civil.ts";
import type { ZoneId } from "../../time/units.ts";
import { coordinatesSwapped, windowBackwards, zoneMissing } from "../findings.ts";
import type { ClockWindow, Coordinates, Hospital, Id, Obstacle, Place, Room } from "../plan.ts";
import { Fields, type FieldsOf, type Item, itemsOf, textOf, unique, valueAt } from "../read/fields.ts";
import type { Reading } from "../read/reading.ts";
import {
  either,
  entry,
  flag,
  listOf,
  oneOrMany,
  oneOrManyValues,
  pairOf,
  scalar,
  type ValueForm,
  valued,
  word,
} from "../shape/form.ts";
import { amount, clock, date, numberOf, text, who, zoneForm } from "../shape/leaves.ts";
import { PATTERNS } from "../shape/patterns.ts";
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
      pairOf("[latitude, longitude] in degrees", latitudeForm, longitudeForm),
      "latitude and longitude in degrees, north and east positive; or in degrees, minutes and seconds with N, S, E or W",
      { example: "[46.81, -90.82]" },
    ],
    zone: [zoneForm, "its time zone", { byDefault: "the plan's", example: "America/Detroit" }],
    kind: [text, "what it is: lodging, airport, dock, …", { example: "lodging" }],
    mains: [flag, "whether there is a socket for chargers", { byDefault: "false" }],
    shelter: [flag, "whether one can wait there out of the cold", { byDefault: "false" }],
    signal: [word(SIGNALS), "the cellular signal"],
    blocked: [
      listOf("a list of { from, to, below }", obstacleForm),
      "the skyline: true bearings and height in degrees",
    ],
    open: [
      either(
        'a pair of clock times such as ["05:30", "22:00"], or a list of pairs',
        openSpan,
        listOf("a list of pairs of clock times", openSpan),
      ),
      "local opening hours; one span or several, `02:00 +1d` is past midnight",
    ],
    checkIn: [clock, "beds from this local time on"],
    checkOut: [clock, "beds until this local time"],
    roadSpeed: [amount(speedKmh), "usual speed of the roads around, for estimates"],
    address: [text, "for the sheet", { example: "1 Main St" }],
    hospital: [either("text, or { name, km, phone, address }", text, hospitalForm), "the nearest one, for the sheet"],
    rooms: [listOf("a list of { who, nights, booking }", roomForm), "beds that are booked there"],
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
      oneOrManyValues(text),
      "what raises a caution: ice, mast, lines, roadside, water, …",
      { example: "[ice, water]" },
    ],
  },
);

type PlaceFields = FieldsOf<typeof placeForm>;

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
export function readPlace(fields: PlaceFields, placeId: Id, zoneOfPlace: ZoneId): Place {
  const { reading } = fields;
  return {
    id: placeId,
    path: fields.path,
    name: fields.text("name"),
    at: coordinates(fields),
    zone: zoneOfPlace,
    kind: fields.text("kind"),
    mains: fields.get("mains"),
    shelter: fields.get("shelter"),
    signal: fields.get("signal"),
    blocked: fields.items("blocked").flatMap((item) => obstacle(fields, item)),
    open: openHours(fields),
    checkInMinute: fields.get("checkIn"),
    checkOutMinute: fields.get("checkOut"),
    roadSpeedKmh: fields.get("roadSpeed"),
    address: fields.text("address"),
    hospital: readHospital(fields),
    rooms: fields.items("rooms").flatMap((item) => readRoom(reading, item)),
    declination: fields.get("declination"),
    parking: fields.text("parking"),
    note: fields.text("note"),
    hazards: unique(fields.all("hazards")),
  };
}

function coordinates(fields: PlaceFields): Coordinates | null {
  const [north, east] = itemsOf(fields.item("at"));
  if (north === undefined || east === undefined) return null;
  if (refuseSwapped(fields, textOf(north), textOf(east))) return null;
  const latitude = valueAt(fields.reading, north, latitudeForm);
  const longitude = valueAt(fields.reading, east, longitudeForm);
  return latitude === null || longitude === null ? null : { latitude, longitude };
}

/** Told as one mistake where the two, swapped, would be a place on the globe. */
function refuseSwapped(fields: PlaceFields, first: string | null, second: string | null): boolean {
  const readable = (said: string | null, axis: Axis): boolean => parseDegrees(said ?? "", axis).ok;
  if (readable(first, LATITUDE) || !readable(first, LONGITUDE) || !readable(second, LATITUDE)) return false;
  const facts = { at: `[${first}, ${second}]`, near: `[${second}, ${first}]` };
  fields.reading.mistake(fields.at("at"), (c) => coordinatesSwapped.raise(facts, c));
  return true;
}

function obstacle(fields: PlaceFields, item: Item): readonly Obstacle[] {
  const inner = new Fields(obstacleForm, fields.reading, item);
  const [from, to] = [inner.get("from"), inner.get("to")];
  const below = inner.get("below");
  return from === null || to === null || below === null ? [] : [{ from, to, below }];
}

function openHours(fields: PlaceFields): readonly ClockWindow[] {
  const item = fields.item("open");
  if (item?.node.kind !== "list") return [];
  const several = item.node.items.some(({ kind }) => kind === "list");
  return (several ? itemsOf(item) : [item]).flatMap((span) => openSpanOf(fields.reading, span) ?? []);
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

function readHospital(fields: PlaceFields): Hospital | null {
  const said = fields.text("hospital");
  if (said !== null) return { name: said, km: null, phone: null, address: null };
  const inner = fields.inner("hospital", hospitalForm);
  const name = inner?.text("name") ?? null;
  if (inner === null || name === null) return null;
  return { name, km: inner.get("km"), phone: inner.text("phone"), address: inner.text("address") };
}

function readRoom(reading: Reading, room: Item): readonly Room[] {
  const fields = new Fields(roomForm, reading, room);
  const [persons, booking] = [fields.who("who"), fields.text("booking")];
  const first = dayOfDate(reading.clocks?.date ?? "");
  const said = fields.items("nights");
  const item = fields.item("nights");
  const counted = item === null || /^[-+]?[\d.]+$/.test(textOf(item) ?? "");
  const count = item === null ? 1 : counted ? (valueAt(reading, item, nightsForm) ?? 0) : 0;
  const nights = counted
    ? Array.from({ length: first === null ? 0 : count }, (_, night) => dateOfDay((first ?? 0) + night))
    : said.flatMap((night) => nightOf(reading, night));
  return persons === null ? [] : [{ who: persons, nights, booking, path: room.path }];
}

function nightOf(reading: Reading, item: Item): readonly string[] {
  const said = textOf(item);
  if (said === null) return [];
  if (dayOfDate(said) !== null) return [said];
  reading.take(item.path, badDate(said));
  return [];
}
