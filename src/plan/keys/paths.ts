/** `paths` and `lines`: the ways to get the signal out, and the telephone lines. */
import type { Id, Line, SignalPath } from "../plan.ts";
import { type FieldsOf, windowOf } from "../read/fields.ts";
import { entry, listOf, oneOrManyValues, pairOf, scalar, valued, word } from "../shape/form.ts";
import { amount, idOf, length, numberOf, stretch, text, time, who } from "../shape/leaves.ts";
import { PATTERNS } from "../shape/patterns.ts";
import { parseEastWest } from "../values/degrees.ts";
import type { Parsed } from "../values/parsed.ts";
import { gigahertz, lengthMeters, type NumberRange, powerWatts, rateMegabits } from "../values/quantity.ts";

const ELEVATION: NumberRange = { what: "an elevation in degrees", least: 0, most: 90, example: "10" };

const KINDS = ["satellite", "cellular", "cable", "backpack", "wifi"] as const;

/** Degrees east, -180 to 180, of `101 west`, `101W`, `28.2 east`. */
export const parseSlot = (said: string): Parsed<number> =>
  parseEastWest(said, "a satellite's longitude", 180, "101 west");

const slot = valued(
  scalar("a satellite's longitude such as 101 west", ["string"], {
    pattern: PATTERNS.eastWest,
    examples: ["101 west", "28.2 east"],
  }),
  parseSlot,
);
const windows = listOf(
  'a list of windows, as in [["05:15", "09:15"]]',
  pairOf('a pair of times, as in ["05:15", "09:15"]', time),
);

/** A path of the section `paths`. */
export const pathForm = entry(
  "a path: { kind: satellite, vehicle: truck, slot: 101 west }",
  { kind: [word(KINDS), "satellite, cellular, cable, backpack or wifi"] },
  {
    vehicle: [idOf("vehicle"), "the vehicle it is on", { example: "truck" }],
    slot: [slot, "the satellite's longitude"],
    above: [numberOf(ELEVATION), "lowest elevation, degrees", { example: "10" }],
    windows: [windows, "booked satellite time; line-up, line check, hit and its `late` lie inside one"],
    lineUp: [length, "line-up before the line check"],
    size: [amount(lengthMeters), "the dish's diameter"],
    band: [amount(gigahertz), "the frequency"],
    booking: [text, "the booking's number", { example: "B-0042" }],
    polarisation: [text, "as booked", { example: "horizontal" }],
    phone: [text, "the satellite operator's telephone", { example: "555 0103" }],
    reels: [oneOrManyValues(amount(lengthMeters)), "the reels of cable on hand"],
    rate: [amount(rateMegabits), "what it carries"],
    uplink: [amount(powerWatts), "transmitted power, for the safe distance"],
    broken: [stretch, "out of service from then on, or in that stretch"],
  },
);

type PathFields = FieldsOf<typeof pathForm>;

/** Reads a path; null without its kind. */
export function readPath(fields: PathFields, pathId: Id): SignalPath | null {
  const { reading } = fields;
  const kind = fields.get("kind");
  const path = {
    id: pathId,
    path: fields.path,
    vehicle: fields.id("vehicle"),
    slotEast: fields.get("slot"),
    aboveDegrees: fields.get("above"),
    windows: fields.items("windows").flatMap((item) => windowOf(reading, item, null) ?? []),
    lineUpMinutes: fields.get("lineUp"),
    dishMeters: fields.get("size"),
    bandGigahertz: fields.get("band"),
    booking: fields.text("booking"),
    polarisation: fields.text("polarisation"),
    phone: fields.text("phone"),
    reelMeters: fields.all("reels"),
    rateMegabits: fields.get("rate"),
    uplinkWatts: fields.get("uplink"),
    broken: fields.stretch("broken"),
  };
  return kind === null ? null : { ...path, kind };
}

/** A line of the section `lines`. */
export const lineForm = entry(
  "a line: { number: 555 0101, who: [ilse] }",
  {},
  {
    number: [text, "kept as it is typed", { example: "555 0104" }],
    who: [who, "who is on it"],
    spare: [text, "a second number", { example: "555 0105" }],
  },
);

/** Reads a telephone line. */
export function readLine(fields: FieldsOf<typeof lineForm>, lineId: Id): Line {
  return {
    id: lineId,
    path: fields.path,
    number: fields.text("number"),
    who: fields.who("who") ?? [],
    spare: fields.text("spare"),
  };
}
