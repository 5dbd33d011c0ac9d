/** Everyday mistakes: vehicles. Written by hand from what the writer meant. */
import { m, type PlanMistake } from "./plan.ts";

export const VEHICLES: readonly PlanMistake[] = [
  m("weight without a unit", "gross: 14500 lb", "gross: 14500", "unit-missing", "gross: ▸14500,", "14500 lb"),
  m(
    "weight in pounds with a comma",
    "gross: 14500 lb",
    "gross: 14,500 lb",
    "comma-in-value",
    "gross: ▸14,500 lb",
    "14500 lb",
  ),
  m("weight in kilos misspelt", "gross: 14500 lb", "gross: 6500 kilos", "unit-wrong", "gross: ▸6500 kilos", "kg"),
  m(
    "rules of no country",
    "rules: us-property",
    "rules: us-propety",
    "word-unknown",
    "rules: ▸us-propety",
    "us-property",
  ),
  m(
    "rules left out of a truck",
    "rules: us-property, ",
    "",
    "commercial-without-rules",
    "▸truck: { gross",
    "us-property",
  ),
  m("week mistyped", "week: 70/8", "week: 70/7", "word-unknown", "week: ▸70/7", "70/8"),
  m("fuel without a sign", "fuel: 70%", "fuel: 70", "unit-missing", "fuel: ▸70 }", "70%"),
  m("fuel over the top", "fuel: 70%", "fuel: 170%", "range-wrong", "fuel: ▸170%", "100%"),
  m("range in hours", "range: 500 km", "range: 5 h", "unit-wrong", "range: ▸5 h", "km"),
  m("seats in words", "seats: 5", "seats: five", "value-bad", "seats: ▸five", "5"),
  m("half a seat", "seats: 5", "seats: 4.5", "value-bad", "seats: ▸4.5", "number of seats"),
  m("too few seats", "seats: 5", "seats: 1", "seats-too-few", "aboard: ▸[jonas, kaia]", "seats"),
  m("inverter in volts", "inverter: 300 W", "inverter: 12 V", "unit-wrong", "inverter: ▸12 V", "W"),
  m("vehicle's own typo", "  car: { seats", "  care: { seats", "id-unknown", "drives: ▸car }\n  kaia", "care"),
];
