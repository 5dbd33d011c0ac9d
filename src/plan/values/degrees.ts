/** Degrees: latitudes and longitudes, with decimals or minutes and seconds, and an angle with its side in words, `101 west`. */
import { rangeWrong, valueBad } from "../findings.ts";
import { LONGEST_VALUE, mistaken, type Parsed, parsed } from "./parsed.ts";
import { type NumberRange, parseNumber } from "./quantity.ts";
import { plainWord, signedDegrees } from "./signs.ts";

/** An axis of coordinates: its bounds in degrees and the letters of its sides. */
export interface Axis {
  readonly range: NumberRange;
  /** The sides: positive, negative. */
  readonly sides: readonly [string, string];
}

/** North positive, -90 to 90. */
export const LATITUDE: Axis = {
  range: { what: "a latitude in degrees", least: -90, most: 90, example: "46.81" },
  sides: ["N", "S"],
};
/** East positive, -180 to 180. */
export const LONGITUDE: Axis = {
  range: { what: "a longitude in degrees, west negative", least: -180, most: 180, example: "-90.82" },
  sides: ["E", "W"],
};

const SIDE = "([NSEW])?";
/** `40°26'46"N`, `N 40 26.77`, `40d26m46sN`, `40:26:46 N`: parts by their signs, by blanks or by colons. */
const PARTS = new RegExp(
  `^${SIDE} ?([-+]?\\d{1,3}) ?(?:[°º˚d:]| )` +
    ` ?(\\d{1,2}(?:\\.\\d{1,12})?)(?: ?['′’ʹm:]| )?` +
    ` ?(?:(\\d{1,2}(?:\\.\\d{1,12})?) ?(?:["″”s]|''|′′)?)? ?${SIDE}$`,
  "i",
);

/** Degrees, north and east positive. */
export function parseDegrees(said: string, axis: Axis): Parsed<number> {
  const { range, sides } = axis;
  const text = said.trim().replace(/\s+/g, " ");
  const parts = text.length > LONGEST_VALUE ? null : PARTS.exec(text);
  if (parts === null) return decimal(said, axis);
  const [, before, whole = "", minutes = "", seconds = "0", behind] = parts;
  const side = (before ?? behind)?.toUpperCase() ?? null;
  const size = Math.abs(Number(whole)) + Number(minutes) / 60 + Number(seconds) / 3600;
  const twice = before !== undefined && behind !== undefined;
  // Without a side the sign says it; with both, one of them is wrong. Minutes with a fraction have no seconds.
  const fraction = minutes.includes(".") && parts[4] !== undefined;
  if (twice || fraction || (side !== null && /^[-+]/.test(whole))) return bad(said, axis, null);
  if (Number(minutes) >= 60 || Number(seconds) >= 60) {
    const what = `the ${Number(minutes) >= 60 ? "minutes" : "seconds"} of an angle`;
    return mistaken((c) => rangeWrong.raise({ text: said, what, range: "0 to 59.99" }, c));
  }
  if (side !== null && !sides.includes(side)) return bad(said, axis, null);
  const degrees = Number((side === sides[1] || whole.startsWith("-") ? -size : size).toFixed(9));
  if (degrees >= range.least && degrees <= range.most) return parsed(degrees);
  const within = `${range.least} to ${range.most}`;
  return mistaken((c) => rangeWrong.raise({ text: said, what: range.what, range: within }, c));
}

/** A number of degrees; only what can be read is offered in place of what cannot. */
function decimal(said: string, axis: Axis): Parsed<number> {
  const { range } = axis;
  const number = parseNumber(said, range);
  if (number.ok || Number.isFinite(Number(said))) return number;
  // Half of the world writes a comma before the decimals.
  const meant = signedDegrees(plainWord(said.slice(0, LONGEST_VALUE).replace(/(\d),(?=\d)/, "$1.")));
  return bad(said, axis, parseNumber(meant, range).ok ? meant : null);
}

const bad = (text: string, { range }: Axis, example: string | null): Parsed<never> =>
  mistaken((c) => valueBad.raise({ text, what: range.what, example }, c));

/** Degrees east, west negative, of `101 west`, `101W`, `28.2 east`. `what` as in "is not …". */
export function parseEastWest(said: string, what: string, most: number, example: string): Parsed<number> {
  const match = /^(\d{1,3}(?:\.\d{1,4})?)\s?°?\s?(w|west|e|east)$/i.exec(said.trim().slice(0, 40));
  const facts = { text: said, what };
  if (match === null) {
    const bare = /^-?\d{1,3}(?:\.\d{1,4})?$/.exec(said.trim())?.[0];
    const sides = bare?.startsWith("-") ? ["west"] : ["west", "east"];
    const meant = sides.map((side) => `${bare?.replace("-", "")} ${side}`).join(" or ");
    return mistaken((c) => valueBad.raise({ ...facts, example: bare === undefined ? null : meant, form: example }, c));
  }
  const degrees = Number(match[1]);
  if (degrees > most) return mistaken((c) => rangeWrong.raise({ ...facts, range: `${most} west to ${most} east` }, c));
  return parsed(match[2]?.toLowerCase().startsWith("w") && degrees > 0 ? -degrees : degrees);
}
