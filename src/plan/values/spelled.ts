/** Units as people spell them, and the unit that a misspelt one was probably meant to be. */
import { slipOf } from "../../findings/nearest.ts";

const SPELLED: ReadonlyMap<string, string> = new Map(
  [
    ["m", "meter meters metre metres"],
    ["km", "kilometer kilometers kilometre kilometres kms"],
    ["mi", "mile miles"],
    ["ft", "foot feet"],
    ["kg", "kilo kilos kilogram kilograms kgs"],
    ["lb", "pound pounds"],
    ["t", "tonne tonnes"],
    ["W", "watt watts"],
    ["kW", "kilowatt kilowatts"],
    ["Wh", "watthour watthours watt-hours"],
    ["km/h", "kmph kph"],
    ["kn", "knot knots"],
    ["C", "celsius centigrade"],
    ["F", "fahrenheit"],
    ["%", "percent pct"],
    ["Mbit/s", "mbits mbit mb/s"],
    ["Gbit/s", "gbits gbit gb/s"],
    ["min", "mins minute minutes"],
    ["h", "hr hrs hour hours"],
    ["d", "day days"],
  ].flatMap(([unit = "", words = ""]) => words.split(" ").map((word) => [word, unit] as const)),
);

/** The one of `units` that `name` stands for; null where it stands for none, or for a unit of something else. */
export function unitMeant(name: string, units: readonly string[]): string | null {
  const plain = name
    .trim()
    .toLowerCase()
    .replace(/^(?:degrees?|deg|°) ?/, "");
  const same = units.find((unit) => unit.toLowerCase() === plain);
  if (same !== undefined) return same;
  // `28 min` of road is a length of time, no slip of `mi`.
  if ([...SPELLED.values()].some((unit) => unit.toLowerCase() === plain)) return null;
  const spelled = [...SPELLED].flatMap(([word, unit]) => (units.includes(unit) ? [word] : []));
  const word = SPELLED.has(plain) ? plain : slipOf(plain, [...units, ...spelled]);
  const unit = word === null ? null : (SPELLED.get(word) ?? word);
  return unit !== null && units.includes(unit) ? unit : null;
}

const COUNTS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
const COMPASS = ["n", "nne", "ne", "ene", "e", "ese", "se", "sse", "s", "ssw", "sw", "wsw", "w", "wnw", "nw", "nnw"];

/** `five` as `5`, `3 seats` as `3`, `NE` as `45`. */
export function numberMeant(text: string): string {
  const plain = text.toLowerCase();
  if (COUNTS.includes(plain)) return String(COUNTS.indexOf(plain));
  if (COMPASS.includes(plain)) return String(COMPASS.indexOf(plain) * 22.5);
  return plainNumber(text.replace(/^([-+]?\d[\d.,]*)\s*[^\d.,\s][^\d.,]*$/, "$1"));
}

/** Digits as the program takes them: `9,800` and `9 800` without their signs, `1,5` with a point. */
export function plainNumber(digits: string): string {
  if (/^[-+]?\d{1,3}(?:[,' ]\d{3})+(?:\.\d+)?$/.test(digits)) return digits.replace(/[,' ]/g, "");
  return digits.replace(/^([-+]?\d+),(\d{1,2})$/, "$1.$2");
}
