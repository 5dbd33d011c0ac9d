/** `vehicles`: what is driven, whose rules bind its driver and whether it is a commercial one, what it gives to packs and dish. */
import { ALL_WEEKS, CLAIMS, type RuleSetId, thresholdsOf, VEHICLE_SETS } from "../../hours/rules/index.ts";
import { commercialWithoutRules } from "../findings.ts";
import type { Id, Vehicle } from "../plan.ts";
import { type FieldsOf, unique } from "../read/fields.ts";
import { entry, flag, oneOrManyValues, word } from "../shape/form.ts";
import { amount, idOf, numberOf, stretch, text, time } from "../shape/leaves.ts";
import { celsius, distanceKm, massKg, type NumberRange, powerWatts, share } from "../values/quantity.ts";
import { readRecordKeys, recordForm, recordKeys } from "./record.ts";

const SEATS: NumberRange = { what: "a number of seats", least: 1, most: 100, whole: true, example: "5" };
const FACTOR: NumberRange = { what: "a factor", least: 0.2, most: 5, example: "1.1" };

const dueForm = entry(
  "a map such as { place: airport, at: 18:00, fuel: 100% }",
  {},
  {
    place: [idOf("place"), "where it must be given back", { example: "airport" }],
    at: [time, "when, at the latest"],
    fuel: [amount(share), "how full"],
  },
);

/** A vehicle of the section `vehicles`. */
export const vehicleForm = entry(
  "a vehicle: a map, {} if there is nothing to say",
  {},
  {
    name: [text, "the name as people say it", { example: "the truck" }],
    gross: [amount(massKg), "gross weight (rating); from 10,001 lb with its trailer a vehicle is commercial"],
    towing: [amount(massKg), "gross weight of the trailer"],
    seats: [numberOf(SEATS), "seats, the driver's too", { example: "3" }],
    rules: [
      oneOrManyValues(word(VEHICLE_SETS)),
      "the hours-of-service rules that bind its driver, besides the house rules",
    ],
    week: [word(ALL_WEEKS), "duty hours in days: 60/7 or 70/8; in Canada cycle 1 or cycle 2"],
    claims: [
      oneOrManyValues(word([...CLAIMS.keys()])),
      "exceptions of the rules that are claimed; each prints its conditions",
    ],
    ...recordKeys,
    range: [amount(distanceKm), "how far it goes on a full tank"],
    fuel: [amount(share), "how full the tank is at the start"],
    slower: [numberOf(FACTOR), "multiplies every drive", { byDefault: "1", example: "1.1" }],
    inverter: [amount(powerWatts), "power for chargers while it runs"],
    shore: [amount(powerWatts), "power for chargers from the mains where it stands"],
    berth: [flag, "whether it has a sleeper berth", { byDefault: "false" }],
    inside: [amount(celsius), "temperature inside while it runs"],
    due: [dueForm, "where and when it must be given back"],
    broken: [stretch, "out of service from then on, or in that stretch"],
    keys: [text, "where its keys are, for the handover", { example: "behind the desk" }],
  },
);

type VehicleFields = FieldsOf<typeof vehicleForm>;

/** Reads a vehicle. */
export function readVehicle(fields: VehicleFields, vehicleId: Id): Vehicle {
  const [grossKg, towingKg] = [fields.get("gross"), fields.get("towing")];
  const seats = fields.get("seats");
  const rules = unique(fields.all("rules"));
  const stated = { gross: fields.text("gross"), towing: fields.text("towing") };
  const because = commercialBecause({ grossKg, towingKg, seats, rules, stated });
  if (because !== null && !fields.has("rules")) {
    const facts = { vehicle: vehicleId, because, rules: [...VEHICLE_SETS] };
    fields.reading.mistakeAtKey(fields.path, (c) => commercialWithoutRules.raise(facts, c));
  }
  return {
    id: vehicleId,
    path: fields.path,
    name: fields.text("name"),
    grossKg,
    towingKg,
    seats,
    rules,
    week: fields.get("week"),
    claims: unique(fields.all("claims")),
    ...readRecordKeys(fields.as(recordForm)),
    commercial: because !== null,
    commercialBecause: because,
    rangeKm: fields.get("range"),
    fuel: fields.get("fuel"),
    slower: fields.get("slower"),
    inverterWatts: fields.get("inverter"),
    shoreWatts: fields.get("shore"),
    berth: fields.get("berth"),
    insideCelsius: fields.get("inside"),
    due: readDue(fields),
    broken: fields.stretch("broken"),
    keys: fields.text("keys"),
  };
}

function readDue(fields: VehicleFields): Vehicle["due"] {
  const due = fields.inner("due", dueForm);
  if (due === null) return null;
  const place = due.id("place");
  return { place, at: due.time("at", place), fuel: due.get("fuel") };
}

/** What decides whether a vehicle is commercial. */
export interface Weighed {
  readonly grossKg: number | null;
  readonly towingKg: number | null;
  readonly seats: number | null;
  readonly rules: readonly RuleSetId[];
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
