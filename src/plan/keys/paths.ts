/** `paths` and `lines`: the ways to get the signal out, and the telephone lines. */
import { entry, type ModelOf } from "../shape/entry.ts";
import { listOf, oneOrManyValues, scalar, valued, word } from "../shape/form.ts";
import { amount, length, numberOf, text } from "../shape/leaves.ts";
import { idOf, whoOrNone } from "../shape/named.ts";
import { PATTERNS } from "../shape/patterns.ts";
import { stretch, windowForm } from "../shape/spans.ts";
import type { Entity } from "../terms.ts";
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
  windowForm('a pair of times, as in ["05:15", "09:15"]'),
);

/** A path of the section `paths`. */
export const pathForm = entry(
  "a path: { kind: satellite, vehicle: truck, slot: 101 west }",
  { kind: [word(KINDS), "satellite, cellular, cable, backpack or wifi"] },
  {
    vehicle: [idOf("vehicle"), "the vehicle it is on", { example: "truck" }],
    slot: [slot, "the satellite's longitude", { as: "slotEast" }],
    above: [numberOf(ELEVATION), "lowest elevation, degrees", { example: "10", as: "aboveDegrees" }],
    windows: [windows, "booked satellite time; line-up, line check, hit and its `late` lie inside one"],
    lineUp: [length, "line-up before the line check", { as: "lineUpMinutes" }],
    size: [amount(lengthMeters), "the dish's diameter", { as: "dishMeters" }],
    band: [amount(gigahertz), "the frequency", { as: "bandGigahertz" }],
    booking: [text, "the booking's number", { example: "B-0042" }],
    polarisation: [text, "as booked", { example: "horizontal" }],
    phone: [text, "the satellite operator's telephone", { example: "555 0103" }],
    reels: [oneOrManyValues(amount(lengthMeters)), "the reels of cable on hand", { as: "reelMeters" }],
    rate: [amount(rateMegabits), "what it carries", { as: "rateMegabits" }],
    uplink: [amount(powerWatts), "transmitted power, for the safe distance", { as: "uplinkWatts" }],
    broken: [stretch, "out of service from then on, or in that stretch"],
  },
);

/** A way to get the signal out; `slotEast` is the longitude of the satellite, degrees east. */
export type SignalPath = Entity & ModelOf<typeof pathForm>;

/** A line of the section `lines`. */
export const lineForm = entry(
  "a line: { number: 555 0101, who: [ilse] }",
  {},
  {
    number: [text, "kept as it is typed", { example: "555 0104" }],
    who: [whoOrNone, "who is on it"],
    spare: [text, "a second number", { example: "555 0105" }],
  },
);

/** A telephone line and who is on it. */
export type Line = Entity & ModelOf<typeof lineForm>;
