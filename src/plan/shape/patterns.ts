/**
 * The written forms of values as regular expressions for the JSON Schema, so that an editor marks what the reader refuses.
 * Without look-behind, flags and `\p`, which not every validator knows. A property test holds each against its reader; what
 * a pattern cannot know (whether a zone, an id or a day of the month exists) it lets pass.
 */
import type { Quantity } from "../values/quantity.ts";

const whole = (...alternatives: readonly string[]): string => `^\\s*(?:${alternatives.join("|")})\\s*$`;

const DAY = "(?:0[1-9]|[12]\\d|3[01])";
const MONTH = "(?:0[1-9]|1[0-2])";
const DATE = `\\d{4}-${MONTH}-${DAY}`;
const SECONDS = "(?:[0-5]\\d|60)(?:[.,]\\d{1,9})?";
const TIME = `(?:(?:[01]?\\d|2[0-3]):[0-5]\\d|24:00)(?::${SECONDS})?|(?:[01]\\d|2[0-3])[0-5]\\d|2400`;
const OFFSET = "[-+](?:0\\d|1[0-7])(?::?[0-5]\\d)?|[-+]18(?::?00)?";
const UTC = "[uU][tT][cC]";
/** A label or a zone; not half a day, nor a day in words. */
const NAME =
  "(?!(?:[aApP][mM]|[tT]oday|[tT]omorrow|[tT]mrw|[oO]vermorrow|[yY]esterday)(?:\\s|$))[^\\s\\d!-/:-@[-`{-~][^\\s!-*,.:-@[-^`{-~]*";
const SHIFT = "[-+]\\d{1,2}\\s?d";
const NEXT_DAY = "(?:\\+0?[01]|-0{1,2})\\s?d";
const CLOCK_NAME = `\\s*(?:[zZ]|${UTC}|${UTC}\\s?(?:${OFFSET}))|\\s+(?:${NAME})`;
const UNDATED = `(?:${TIME})(?:(?:\\s*${SHIFT})?(?:${CLOCK_NAME})?|(?:${CLOCK_NAME})\\s+${SHIFT})`;
const DATED =
  `(?:${DATE}[Tt ]|\\d{4}${MONTH}${DAY}[Tt])(?:${TIME}|(?:[01]\\d|2[0-3])[0-5]\\d${SECONDS}|2400${SECONDS})` +
  `(?:${CLOCK_NAME}|\\s*(?:${OFFSET}))?`;

const DAYS = "\\d{1,4}(?:\\.\\d{1,2})?\\s?(?:d|days?)";
const COUNT_OF_HOURS = "\\d{1,5}(?:\\.\\d{1,4})?\\s?";
const HOURS = `${COUNT_OF_HOURS}(?:h|hrs?|hours?|H)`;
const MINUTES = "\\d{1,6}\\s?(?:min|mins|minutes?|m)";
const LENGTH = `(?:${DAYS}\\s?)?(?:${HOURS}(?:\\s?${MINUTES})?|${COUNT_OF_HOURS}[hH]\\s?\\d{1,2}|${MINUTES})|${DAYS}`;
const ISO_LENGTH = "P(?=\\d|T\\d)(?:\\d{1,4}D)?(?:T(?:\\d{1,5}(?:\\.\\d{1,4})?H)?(?:\\d{1,6}M)?)?";

/** Letters of any script, digits and inner hyphens: no blank and no sign of ASCII but the hyphen. */
const WORD = "[^\\s!-/:-@[-`{-~]+";
const ID = `${WORD}(?:-${WORD})*`;
const MEMBER = `${ID}(?:\\.\\d{1,3})?`;

const RESERVED = "all|aboard|none|here|local|hits|tasks|dark|off|yes|no|on|true|false|null";

/** Degrees with decimals, or with minutes and perhaps seconds and a side of the axis. */
const degrees = (sides: string): string =>
  whole(
    "[-+]?\\d{1,3}(?:\\.\\d{1,20})?",
    `(?:[${sides}]\\s*)?[-+]?\\d{1,3}(?:\\s*[°º˚dD:]|\\s)\\s*[0-5]?\\d(?:\\.\\d{1,12})?(?:\\s*['′’ʹmM:])?` +
      `\\s*(?:[0-5]?\\d(?:\\.\\d{1,12})?\\s*(?:["″”sS]|''|′′)?)?\\s*[${sides}]?`,
  );

/** Regular expressions of values, for editors; each takes all that its reader takes. */
export const PATTERNS = {
  time: whole(UNDATED, DATED),
  /** A time of every day, `02:00 +1d` where a span goes past midnight. */
  clock: whole(`(?:${TIME})(?:(?:\\s*${NEXT_DAY})?(?:\\s+local)?|\\s+local\\s+${NEXT_DAY})`),
  date: whole(DATE),
  until: whole("\\+\\d{1,2}\\s?d", DATE),
  length: whole(LENGTH, ISO_LENGTH),
  everyLength: whole(`(?:${LENGTH}|${ISO_LENGTH})(?:\\s+every\\s+(?:${LENGTH}|${ISO_LENGTH}))?`),
  zone: whole("(?!(?:EST|MST)\\s*$)[A-Za-z][A-Za-z0-9_+-]*(?:/[A-Za-z0-9_+-]+)*"),
  /** An id where it is declared. */
  id: `^(?!(?:${RESERVED})$)(?=.*[^0-9-])${ID}$`,
  /** The day's own, a value, which may have blanks around it. */
  dayId: `^\\s*(?!(?:${RESERVED})\\s*$)(?=.*[^0-9\\s-])${ID}\\s*$`,
  /** Where one is named: `brick.1` is a member of a group. */
  member: whole(MEMBER),
  placeOrAboard: whole(MEMBER, `aboard\\s+${MEMBER}`),
  eastWest: whole("\\d{1,3}(?:\\.\\d{1,4})?\\s?°?\\s?(?:[wW]|[wW][eE][sS][tT]|[eE]|[eE][aA][sS][tT])"),
  number: whole("[-+]?\\d{1,12}(?:\\.\\d{1,20})?"),
  wholeNumber: whole("[-+]?\\d{1,12}(?:\\.0{1,20})?"),
  latitude: degrees("nsNS"),
  longitude: degrees("ewEW"),
  address: "^https?://[^\\s/]+",
  fileHere: "^(?!\\s*(?:[/\\\\]|[A-Za-z]:))(?!.*\\\\)(?!(?:\\s*|[\\s\\S]*/)\\.\\.(?:/|\\s*$))\\s*\\S",
  code: whole("[a-z][a-z0-9]*(?:-[a-z0-9]+)*"),
} as const;

/** An amount with its unit in any case, which may be left out where the key says it. */
export function amountPattern({ units, bare }: Quantity): string {
  const names = [...units.keys()].map((name) => [...name].map(anyCase).join(""));
  const unit = `\\s?(?:${names.join("|")})`;
  return whole(`[-+−]?\\d{1,9}(?:\\.\\d{1,20})?(?:${unit})${bare === null ? "" : "?"}`);
}

const anyCase = (sign: string): string => {
  const [low, high] = [sign.toLowerCase(), sign.toUpperCase()];
  return low === high ? sign.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&") : `[${low}${high}]`;
};

/**
 * A test for `anyScript`, whose matches of plain ASCII `ascii` gives as well, and is asked first: V8 builds its tables of
 * letters when a pattern with `\p{…}` is made, and again when it first runs, which takes as long as reading a whole plan.
 */
export const wordTest =
  (ascii: RegExp, anyScript: () => RegExp) =>
  (text: string): boolean =>
    ascii.test(text) || anyScript().test(text);
