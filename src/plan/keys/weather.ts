/** `weather`: what is expected, row by row. */
import type { PlanPath } from "../../findings/finding.ts";
import { entry, type ModelOf, readBy } from "../shape/entry.ts";
import { flag, listOf, word } from "../shape/form.ts";
import { amount } from "../shape/leaves.ts";
import { idsOf } from "../shape/named.ts";
import { isForward, time } from "../shape/spans.ts";
import { celsius, share, speedKmh } from "../values/quantity.ts";

const CLOUDS = ["clear", "thin", "average", "dark"] as const;
const ROADS = ["dry", "wet", "heavy-rain", "snow", "heavy-snow", "ice", "fog"] as const;

/** A row of the section `weather`. */
export const rowForm = entry(
  "a row such as { temp: -14 C, wind: 30 km/h }",
  {},
  {
    from: [time, "from when on", { byDefault: "the whole plan", local: "places" }],
    to: [time, "until when", { local: "places" }],
    places: [idsOf("place"), "where", { byDefault: "everywhere", example: "[pier, dock]" }],
    temp: [amount(celsius), "temperature", { as: "celsius" }],
    wind: [amount(speedKmh), "mean wind", { as: "windKmh" }],
    gust: [amount(speedKmh), "gusts", { as: "gustKmh" }],
    cloud: [word(CLOUDS), "how much light the cloud takes"],
    road: [word(ROADS), "the state of the roads"],
    humidity: [amount(share), "relative humidity"],
    lightning: [flag, "whether thunderstorms are expected", { byDefault: "false" }],
  },
);

/** The state of the roads. */
export type RoadState = (typeof ROADS)[number];

/** The weather expected in a stretch: null ends hold for the whole plan, no places for everywhere; humidity 0 to 1. */
export interface Weather extends ModelOf<typeof rowForm> {
  readonly path: PlanPath;
}

/** The section `weather`. */
export const weatherForm = listOf(
  "a list of rows: - { from: 05:00, to: 10:00, temp: -14 C }",
  readBy(rowForm, (fields): Weather | null => {
    isForward(fields, "from", "to");
    return fields.located();
  }),
);
