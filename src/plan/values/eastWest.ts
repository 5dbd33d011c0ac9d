/** Degrees with their side in words: a satellite's longitude, a declination. */
import { rangeWrong, valueBad } from "../findings.ts";
import { mistaken, type Parsed, parsed } from "./parsed.ts";

/** Degrees east, west negative, of `101 west`, `101W`, `28.2 east`. `what` as in "is not …". */
export function parseEastWest(said: string, what: string, most: number, example: string): Parsed<number> {
  const match = /^(\d{1,3}(?:\.\d{1,4})?)\s?°?\s?(w|west|e|east)$/i.exec(said.trim().slice(0, 40));
  const facts = { text: said, what };
  if (match === null) {
    const bare = /^-?\d{1,3}(?:\.\d{1,4})?$/.exec(said.trim())?.[0];
    const sides = bare?.startsWith("-") ? ["west"] : ["west", "east"];
    const meant = sides.map((side) => `${bare?.replace("-", "")} ${side}`).join(" or ");
    return mistaken((c) => valueBad.raise({ ...facts, example: bare === undefined ? example : meant }, c));
  }
  const degrees = Number(match[1]);
  if (degrees > most) return mistaken((c) => rangeWrong.raise({ ...facts, range: `${most} west to ${most} east` }, c));
  return parsed(match[2]?.toLowerCase().startsWith("w") && degrees > 0 ? -degrees : degrees);
}
