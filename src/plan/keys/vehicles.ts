/** `vehicles`: what is driven, whose rules bind its driver and whether it is a commercial one, what it gives to packs and dish. */
import { ALL_WEEKS, CLAIMS, thresholdsOf, VEHICLE_SETS } from "../../hours/rules/index.ts";
import { commercialWithoutRules } from "../findings.ts";
import { entry, type FieldsOf, type ModelOf } from "../shape/entry.ts";
import { eachOnce, flag, oneOrManyValues, word } from "../shape/form.ts";
import { amount, numberOf, text } from "../shape/leaves.ts";
import { idOf } from "../shape/named.ts";
import { stretch, time } from "../shape/spans.ts";
import type { Entity, Id } from "../terms.ts";
import { celsius, distanceKm, massKg, type NumberRange, powerWatts, share } from "../values/quantity.ts";
import { recordKeys } from "./record.ts";

const SEATS: NumberRange = { what: "a number of seats", least: 1, most: 100, whole: true, example: "5" };
const FACTOR: NumberRange = { what: "a factor", least: 0.2, most: 5, example: "1.1" };

const dueForm = entry(
  "a map such as { place: airport, at: 18:00, fuel: 100% }",
  {},
  {
    place: [idOf("place"), "where it must be given back", { example: "airport" }],
    at: [time, "when, at the latest", { local: "place" }],
    fuel: [amount(share), "how full"],
  },
);

/** A vehicle of the section `vehicles`. */
export const vehicleForm = entry(
  "a vehicle: a map, {} if there is nothing to say",
  {},
  {
    name: [text, "the name as people say it", { example: "the truck" }],
    gross: [
      amount(massKg),
      "gross weight (rating); from 10,001 lb with its trailer a vehicle is commercial",
      { as: "grossKg" },
    ],
    towing: [amount(massKg), "gross weight of the trailer", { as: "towingKg" }],
    seats: [numberOf(SEATS), "seats, the driver's too", { example: "3" }],
    rules: [
      eachOnce(oneOrManyValues(word(VEHICLE_SETS))),
      "the hours-of-service rules that bind its driver, besides the house rules",
    ],
    week: [word(ALL_WEEKS), "duty hours in days: 60/7 or 70/8; in Canada cycle 1 or cycle 2"],
    claims: [
      eachOnce(oneOrManyValues(word([...CLAIMS.keys()]))),
      "exceptions of the rules that are claimed; each prints its conditions",
    ],
    ...recordKeys,
    range: [amount(distanceKm), "how far it goes on a full tank", { as: "rangeKm" }],
    fuel: [amount(share), "how full the tank is at the start"],
    slower: [numberOf(FACTOR), "multiplies every drive", { byDefault: "1", example: "1.1" }],
    inverter: [amount(powerWatts), "power for chargers while it runs", { as: "inverterWatts" }],
    shore: [amount(powerWatts), "power for chargers from the mains where it stands", { as: "shoreWatts" }],
    berth: [flag, "whether it has a sleeper berth", { byDefault: "false" }],
    inside: [amount(celsius), "temperature inside while it runs", { as: "insideCelsius" }],
    due: [dueForm, "where and when it must be given back"],
    broken: [stretch, "out of service from then on, or in that stretch"],
    keys: [text, "where its keys are, for the handover", { example: "behind the desk" }],
  },
);

/** A vehicle; `fuel` is a share of a full tank, `dayStarts` minutes after midnight. `keys` is never shown where names are redacted. */
export interface Vehicle extends Entity, ModelOf<typeof vehicleForm> {
  /** By weight, towing or seats; `commercialBecause` says by which. */
  readonly commercial: boolean;
  readonly commercialBecause: string | null;
}

/** Reads a vehicle. */
export function readVehicle(fields: FieldsOf<typeof vehicleForm>, vehicleId: Id): Vehicle | null {
  const vehicle = fields.entity(vehicleId);
  if (vehicle === null) return null;
  const stated = { gross: fields.text("gross"), towing: fields.text("towing") };
  const because = commercialBecause({ ...vehicle, stated });
  if (because !== null && !fields.has("rules")) {
    const facts = { vehicle: vehicleId, because, rules: [...VEHICLE_SETS] };
    fields.reading.mistakeAtKey(fields.path, (c) => commercialWithoutRules.raise(facts, c));
  }
  return { ...vehicle, commercial: because !== null, commercialBecause: because };
}

/** What decides whether a vehicle is commercial. */
export interface Weighed extends Pick<Vehicle, "grossKg" | "towingKg" | "seats" | "rules"> {
  /** As typed, for the sentence. */
  readonly stated: { readonly gross: string | null; readonly towing: string | null };
}

/** The reason, or null where it is light. A weight is the combination's: vehicle and trailer together. */
export function commercialBecause({ grossKg, towingKg, seats, rules, stated }: Weighed): string | null {
  const totalKg = (grossKg ?? 0) + (towingKg ?? 0);
  for (const { leastKg, leastSeats, says } of thresholdsOf(rules)) {
    // A hair below, because 10001 lb must not fail by a rounding of its kilograms.
    if (totalKg >= leastKg - 1e-6) return `${weight(stated)}; ${says}`;
    if (seats !== null && seats >= leastSeats) return `${seats} seats; ${says}`;
  }
  return null;
}

function weight({ gross, towing }: Weighed["stated"]): string {
  const parts = [...(gross === null ? [] : [`gross ${gross}`]), ...(towing === null ? [] : [`towing ${towing}`])];
  return parts.join(" and ");
}
