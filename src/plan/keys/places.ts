/** `places`: where things happen, on which clock, under which sky. */
import type { ZoneId } from "../../time/units.ts";
import { coordinatesSwapped, windowBackwards, zoneMissing } from "../findings.ts";
import type { ClockWindow, Coordinates, Id, Obstacle, Place } from "../plan.ts";
import { parseZone } from "../read/clock.ts";
import { Fields, type Item, itemsOf, textOf, unique } from "../read/fields.ts";
import { entry, flag, listOf, oneOrMany, pairOf, word } from "../shape/form.ts";
import { amount, clock, number, text, zone } from "../shape/leaves.ts";
import { signedDegrees } from "../shape/meant.ts";
import { mistaken } from "../values/parsed.ts";
import { type NumberRange, parseNumber, speedKmh } from "../values/quantity.ts";

const SIGNALS = ["good", "weak", "none"] as const;

const obstacleForm = entry(
  "a stretch of the skyline: { from: 150, to: 200, below: 28 }",
  {
    from: [number, "true bearing where it begins, degrees"],
    to: [number, "true bearing where it ends, clockwise from `from`"],
    below: [number, "everything lower than this many degrees is hidden"],
  },
  {},
);

export const placeForm = entry(
  "a place: a map such as { at: [46.60, -90.88] }",
  {},
  {
    name: [text, "the name as people say it"],
    at: [
      pairOf("[latitude, longitude] in degrees", number),
      "latitude and longitude in degrees; north and east positive",
    ],
    zone: [zone, "its time zone; the plan's by default"],
    kind: [text, "what it is: lodging, airport, dock, …"],
    mains: [flag, "whether there is a socket for chargers; false by default"],
    shelter: [flag, "whether one can wait there out of the cold; false by default"],
    signal: [word(SIGNALS), "the cellular signal"],
    blocked: [
      listOf("a list of { from, to, below }", obstacleForm),
      "the skyline: true bearings and height in degrees",
    ],
    open: [pairOf('a pair of clock times such as ["05:30", "22:00"]', clock), "local opening hours"],
    checkIn: [clock, "beds from this local time on"],
    checkOut: [clock, "beds until this local time"],
    roadSpeed: [amount(speedKmh), "usual speed of the roads around, for estimates"],
    address: [text, "for the sheet"],
    hospital: [text, "the nearest one, for the sheet"],
    parking: [text, "where to put the vehicles, for the sheet"],
    note: [text, "anything else, for the sheet"],
    hazards: [oneOrMany(text), "what raises a caution: ice, mast, lines, roadside, water, …"],
  },
);

type PlaceFields = Fields<(typeof placeForm.keys)[number]>;

/** The place's clock; the plan's where it states none, and a mistake where neither does. */
export function readPlaceZone(fields: PlaceFields, planZone: ZoneId | null, headIsSound: boolean): ZoneId | null {
  const { reading } = fields;
  const stated = fields.text("zone");
  if (stated !== null) return reading.take(fields.at("zone"), parseZone(stated));
  if (planZone === null && headIsSound && !fields.has("zone")) {
    const facts = { place: String(fields.path.at(-1)), clock: reading.desk ?? "America/Chicago" };
    reading.mistakeAtKey(fields.path, (c) => zoneMissing.raise(facts, c));
  }
  return planZone;
}

export function readPlace(fields: PlaceFields, placeId: Id, zoneOfPlace: ZoneId): Place {
  return {
    id: placeId,
    path: fields.path,
    name: fields.text("name"),
    at: coordinates(fields),
    zone: zoneOfPlace,
    kind: fields.text("kind"),
    mains: fields.flag("mains", false),
    shelter: fields.flag("shelter", false),
    signal: fields.word("signal", SIGNALS),
    blocked: fields.items("blocked").flatMap((item) => obstacle(fields, item)),
    open: clockWindow(fields),
    checkInMinute: fields.clock("checkIn"),
    checkOutMinute: fields.clock("checkOut"),
    roadSpeedKmh: fields.amount("roadSpeed", speedKmh),
    address: fields.text("address"),
    hospital: fields.text("hospital"),
    parking: fields.text("parking"),
    note: fields.text("note"),
    hazards: unique(fields.texts("hazards")),
  };
}

const LATITUDE: NumberRange = { what: "a latitude in degrees", least: -90, most: 90, example: "46.81" };
const LONGITUDE: NumberRange = {
  what: "a longitude in degrees, west negative",
  least: -180,
  most: 180,
  example: "-90.82",
};

function coordinates(fields: PlaceFields): Coordinates | null {
  const [north, east] = itemsOf(fields.item("at"));
  if (north === undefined || east === undefined) return null;
  if (refuseSwapped(fields, textOf(north), textOf(east))) return null;
  const latitude = degrees(fields, north, LATITUDE);
  const longitude = degrees(fields, east, LONGITUDE);
  return latitude === null || longitude === null ? null : { latitude, longitude };
}

/** Told as one mistake where the two, swapped, would be a place on the globe. */
function refuseSwapped(fields: PlaceFields, first: string | null, second: string | null): boolean {
  const [longitude, latitude] = [first, second].map((text) => parseNumber(text ?? "", LONGITUDE));
  if (longitude?.ok !== true || latitude?.ok !== true) return false;
  if (Math.abs(longitude.value) <= 90 || Math.abs(latitude.value) > 90) return false;
  const facts = { at: `[${first}, ${second}]`, near: `[${second}, ${first}]` };
  fields.reading.mistake(fields.at("at"), (c) => coordinatesSwapped.raise(facts, c));
  return true;
}

function degrees(fields: PlaceFields, item: Item, range: NumberRange): number | null {
  const said = textOf(item);
  return said === null ? null : fields.reading.take(item.path, parseNumber(said, range, signedDegrees));
}

/** True bearings, as everywhere in a plan. */
export const BEARING: NumberRange = { what: "a true bearing in degrees", least: 0, most: 360, example: "330" };

function obstacle(fields: PlaceFields, item: Item): readonly Obstacle[] {
  const inner = new Fields<(typeof obstacleForm.keys)[number]>(fields.reading, item.node, item.path);
  const [from, to] = [inner.number("from", BEARING), inner.number("to", BEARING)];
  const below = inner.number("below", { what: "a height in degrees", least: 0, most: 90, example: "28" });
  return from === null || to === null || below === null ? [] : [{ from, to, below }];
}

function clockWindow(fields: PlaceFields): ClockWindow | null {
  const ends = itemsOf(fields.item("open"));
  const [fromMinute, toMinute] = ends.map((end) => fields.reading.clockAt(end.path, textOf(end)));
  if (fromMinute == null || toMinute == null) return null;
  if (toMinute > fromMinute) return { fromMinute, toMinute };
  const [from = "", to = ""] = ends.map((end) => textOf(end) ?? "");
  fields.reading.take(
    fields.at("open"),
    mistaken((c) => windowBackwards.raise({ from, to, nextDay: null }, c)),
  );
  return null;
}
