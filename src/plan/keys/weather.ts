/** `weather`: what is expected, row by row. */

import type { RoadState, Weather } from "../plan.ts";
import { Fields, type FieldsOf, type Item, itemsOf, refuseBackwards } from "../read/fields.ts";
import type { Reading } from "../read/reading.ts";
import { entry, flag, listOf, word } from "../shape/form.ts";
import { amount, idsOf, time } from "../shape/leaves.ts";
import { celsius, share, speedKmh } from "../values/quantity.ts";

const CLOUDS = ["clear", "thin", "average", "dark"] as const;
const ROADS = ["dry", "wet", "heavy-rain", "snow", "heavy-snow", "ice", "fog"] as const satisfies readonly RoadState[];

const rowForm = entry(
  "a row such as { temp: -14 C, wind: 30 km/h }",
  {},
  {
    from: [time, "from when on", { byDefault: "the whole plan" }],
    to: [time, "until when"],
    places: [idsOf("place"), "where", { byDefault: "everywhere", example: "[pier, dock]" }],
    temp: [amount(celsius), "temperature"],
    wind: [amount(speedKmh), "mean wind"],
    gust: [amount(speedKmh), "gusts"],
    cloud: [word(CLOUDS), "how much light the cloud takes"],
    road: [word(ROADS), "the state of the roads"],
    humidity: [amount(share), "relative humidity"],
    lightning: [flag, "whether thunderstorms are expected", { byDefault: "false" }],
  },
);

/** The section `weather`. */
export const weatherForm = listOf("a list of rows: - { from: 05:00, to: 10:00, temp: -14 C }", rowForm);

/** Reads the section `weather`. */
export function readWeather(reading: Reading, section: Item | null): readonly Weather[] {
  return itemsOf(section).map((item) => readRow(new Fields(rowForm, reading, item)));
}

function readRow(fields: FieldsOf<typeof rowForm>): Weather {
  const places = fields.ids("places");
  // `local` is the clock of the one place that the row speaks of.
  const place = places.length === 1 ? (places[0] ?? null) : null;
  const [from, to] = [fields.time("from", place), fields.time("to", place)];
  if (from !== null && to !== null && to <= from) {
    refuseBackwards(fields.reading, fields.at("to"), fields.text("from") ?? "", fields.text("to") ?? "");
  }
  return {
    from,
    to,
    places,
    celsius: fields.get("temp"),
    windKmh: fields.get("wind"),
    gustKmh: fields.get("gust"),
    cloud: fields.get("cloud"),
    road: fields.get("road"),
    humidity: fields.get("humidity"),
    lightning: fields.get("lightning"),
    path: fields.path,
  };
}
