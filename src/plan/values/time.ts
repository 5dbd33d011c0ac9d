/**
 * The written forms of a time: a clock time of the plan's day, perhaps on another clock or day, or ISO 8601.
 * Reading one says what is written; `clock.ts` finds the instant, since that needs zones, labels and places.
 */
import { dayOfDate, two } from "../../time/civil.ts";
import { timeBad } from "../findings.ts";
import { wordTest } from "../shape/patterns.ts";
import { datesLike } from "./date.ts";
import { LONGEST_VALUE, mistaken, type Parsed, parsed } from "./parsed.ts";
import { plainWord, withoutWeekday } from "./signs.ts";

/** Whose clock a written time is on. */
export type ClockName =
  /** The control room's clock, because none is written. */
  | { readonly kind: "desk" }
  /** The clock of the place where it happens. */
  | { readonly kind: "local" }
  /** A label or a zone, as written. */
  | { readonly kind: "named"; readonly name: string }
  | { readonly kind: "offset"; readonly minutes: number };

/** A time as written, not yet an instant. */
export interface WrittenTime {
  readonly text: string;
  /** A date where one is written; else the plan's date moved by `days`. */
  readonly date: string | null;
  readonly days: number;
  /** Minutes after midnight; 1440 for `24:00`. */
  readonly minute: number;
  readonly clock: ClockName;
}

/** Seconds and their fractions are read and cut: the program counts whole minutes. */
const CLOCK = /^(\d{1,2}):(\d{2})(?::([0-5]\d|60)(?:[.,]\d{1,9})?)?(?![\d:])|^(\d{2})(\d{2})(?![\d:])/;
/** ISO 8601's basic form, behind a date only: `070000`. */
const BASIC_CLOCK = /^(\d{2})(\d{2})(?:[0-5]\d|60)(?:[.,]\d{1,9})?(?![\d:])/;
const DAYS = /(?:^|\s)([+-])(\d{1,2})\s?d(?=\s|$)/;
const OFFSET = /^(UTC\s?)?([+-])(\d{2})(?::?(\d{2}))?$/i;
/** `7:10 pm`: no clock is called so, and seven in the evening is not 07:10. */
const HALF_DAY = /^\s*[ap]\.?m\b/i;
const ISO_DATE = /^(?:(\d{4}-\d{2}-\d{2})(?:[Tt ]|$)|(\d{4})(\d{2})(\d{2})[Tt])/;

/** Reads any written time. */
export function parseTime(text: string): Parsed<WrittenTime> {
  const plain = text.trim();
  if (plain.length > LONGEST_VALUE) return bad(text);
  const dated = ISO_DATE.exec(plain);
  const date = dated === null ? null : (dated[1] ?? dated.slice(2).join("-"));
  const afterDate = dated === null ? plain : plain.slice(dated[0].length);
  if (date !== null && dayOfDate(date) === null) return bad(text);
  const time = CLOCK.exec(afterDate) ?? (date === null ? null : BASIC_CLOCK.exec(afterDate));
  const [hours, minutes] = time?.slice(1).filter((part) => part !== undefined) ?? [];
  const minute = hours === undefined || minutes === undefined ? null : minuteOf(hours, minutes);
  if (time === null || minute === null) return bad(text);
  const rest = afterDate.slice(time[0].length);
  if (HALF_DAY.test(rest)) return bad(text);
  const moved = DAYS.exec(rest);
  if (moved !== null && date !== null) return bad(text);
  const clock = clockName(moved === null ? rest : rest.replace(moved[0], " "), date !== null);
  if (clock === null || (clock.kind === "named" && DAY_WORDS.has(clock.name.toLowerCase()))) return bad(text);
  const days = moved === null ? 0 : Number(`${moved[1]}${moved[2]}`);
  return parsed({ text: plain, date, days, minute, clock });
}

function minuteOf(hours: string, minutes: string): number | null {
  const minute = Number(hours) * 60 + Number(minutes);
  return Number(minutes) < 60 && minute <= 1440 ? minute : null;
}

const isClockName = wordTest(/^[A-Za-z][A-Za-z\d_+/-]*$/, () => /^[\p{L}][\p{L}\p{M}\d_+/-]*$/u);

/** What stands behind the clock time. A bare offset belongs to a date; `UTC-05:00` and a name to either; `Z` may touch the digits. */
function clockName(rest: string, dated: boolean): ClockName | null {
  const name = rest.trim();
  if (name === "") return { kind: "desk" };
  if (/^(?:Z|UTC)$/i.test(name)) return { kind: "offset", minutes: 0 };
  const offset = OFFSET.exec(name);
  if (offset !== null) {
    const [, utc, sign, hours, minutes = "00"] = offset;
    const size = Number(hours) * 60 + Number(minutes);
    const known = (dated || utc !== undefined) && Number(minutes) < 60 && size <= 18 * 60;
    return known ? { kind: "offset", minutes: sign === "-" ? -size : size } : null;
  }
  if (!/^\s/.test(rest) || !isClockName(name)) return null;
  return name === "local" ? { kind: "local" } : { kind: "named", name };
}

const bad = (text: string): Parsed<never> => mistaken((c) => timeBad.raise({ text, fix: timeMeant(text) }, c));

/** What was probably meant by `7:10 pm`, `7h30`, `7.30`, `930`, `25:00`, `noon`: a time that can be read, in quotes. */
function timeMeant(text: string): string | null {
  const offset = bareOffset(plainWord(text));
  if (offset !== null) return offset;
  const two = twoTimes(plainWord(text));
  if (two !== null) return two;
  const plain = dayBehind(
    withoutDatesWeekday(plainWord(text)).replace(NEXT_DAY, "tomorrow").replace(SAME_DAY, "today"),
  ).replace(/^(\d{4}-\d{1,2}-\d{1,2})[T ]\s*/i, "$1T");
  const [date = "", clock = plain] = plain.includes("T") && /^\d{4}-/.test(plain) ? plain.split("T") : [];
  const said = clock
    .replace(/[A-Za-z]+/g, (word) => DAY_WORDS.get(word.toLowerCase()) ?? word)
    .trim()
    .replace(/^(\d{1,2}):(\d)(?!\d)/, "$1:0$2");
  const time = spoken(said) ?? counted(said);
  if (time === null) return null;
  const day = date === "" ? null : datesLike(date)[0];
  if (day === undefined) return null;
  const made = `${day === null ? "" : `${day}T`}${time}`;
  return parseTime(made).ok ? `"${made}"` : null;
}

/** `12:00 -06:00`: without a date an offset says whose it is; `12:00-18:00` and `12:00 - 18:00` are two times. */
function bareOffset(text: string): string | null {
  const [, clock = "", offset = ""] = /^(\d{1,2}:\d{2})(?:\s(?=-)|\s?(?=\+))([+-]\d{2}:?\d{2})$/.exec(text) ?? [];
  const made = `${clock} UTC${offset}`;
  return parseTime(made).ok ? `"${made}"` : null;
}

/** A weekday before a date says nothing more; before a time it says which day, and is not to be lost. */
function withoutDatesWeekday(text: string): string {
  const rest = withoutWeekday(text);
  return /^\d{4}-/.test(rest) ? rest : text;
}

const NEXT_DAY = /\b(?:the )?(?:next|following) (?:day|morning|afternoon|evening|night)\b/i;
const SAME_DAY = /\b(?:this (?:morning|afternoon|evening)|tonight)\b/i;

/** `tomorrow 12:00` as `12:00 tomorrow`. */
const dayBehind = (text: string): string =>
  text.replace(/^([a-z]{5,10})\s+(\d.*)$/i, (all, word: string, time: string) =>
    DAY_WORDS.has(word.toLowerCase()) ? `${time} ${word}` : all,
  );

const TWO =
  /^(\d{1,2}[:.]?\d{2}(?:\s(?!to\b)[A-Za-z/_]+)?)\s?(?:-|to\b|until\b|till\b)\s?(\d{1,2}[:.]?\d{2}(?:\s.*)?)$/i;

/** `05:00-20:00` is two times, and each has a key of its own. Null where the text is no such pair. */
function twoTimes(text: string): string | null {
  const [from, to] = (TWO.exec(text) ?? []).slice(1).map((one) => timeMeant(one) ?? `"${one}"`);
  return from === undefined || to === undefined || ![from, to].every((one) => parseTime(one.slice(1, -1)).ok)
    ? null
    : `${from}; the other, ${to}, goes into \`to\`, or into \`for\` as a length`;
}

/** Days as people call them, and as a plan does. */
const DAY_WORDS = new Map([
  ["today", ""],
  ["tonight", ""],
  ["tomorrow", "+1d"],
  ["tmrw", "+1d"],
  ["overmorrow", "+2d"],
  ["yesterday", "-1d"],
]);

const SPOKEN = new Map([
  ["noon", "12:00"],
  ["midday", "12:00"],
  ["midnight", "24:00"],
]);

function spoken(clock: string): string | null {
  const [word = "", ...rest] = clock.split(/\s+/);
  const time = SPOKEN.get(word.toLowerCase());
  return time === undefined ? null : [time, ...rest].join(" ");
}

const COUNTED =
  /^(\d{1,2})(?:\s?[:.;,h-]?\s?(\d{2}))?\s?(?:(am|pm|a\.m\.|p\.m\.|[ap]|h|uhr)(?![a-z]))?\s*([^\d\s].*)?$/i;

/** Hours and minutes with what stands behind them: a clock, a day (`+1` for `+1d`). Hours from 24 on are the next day's. */
function counted(clock: string): string | null {
  const match = COUNTED.exec(clock);
  if (match === null) return null;
  const [, hours = "", minutes = "00", half = "", behind = ""] = match;
  const hour = hourOf(Number(hours), half.charAt(0).toLowerCase());
  if (hour >= 48 || Number(minutes) >= 60) return null;
  const tail = [hour >= 24 ? "+1d" : "", behind.replace(/([+-]\d{1,2})(?:\s?d\w*)?$/, "$1d")].filter(
    (part) => part !== "",
  );
  return [`${two(hour % 24)}:${minutes}`, ...tail].join(" ");
}

/** `12 am` is midnight, `12 pm` noon; with a count beyond 12 the half says nothing more. */
function hourOf(hours: number, half: string): number {
  if ((half !== "a" && half !== "p") || hours > 12) return hours;
  return (hours % 12) + (half === "p" ? 12 : 0);
}

/** A local clock time with no zone and no day: `05:30`, `0530`, `24:00`; minutes after midnight. Up to `days` later days may be named: `02:00 +1d`. */
export function parseClock(text: string, days = 0): Parsed<number> {
  const time = parseTime(text);
  if (time.ok && isPlainClock({ ...time.value, days: 0 }) && time.value.days >= 0 && time.value.days <= days)
    return parsed(time.value.minute + time.value.days * 1440);
  const fix = timeMeant(text);
  const read = fix === null ? null : parseTime(fix.slice(1, -1));
  const usable = read?.ok === true && isPlainClock(read.value);
  return mistaken((c) => timeBad.raise({ text, fix: usable ? fix : '"05:30", on the clock of the place' }, c));
}

const isPlainClock = ({ date, days, clock }: WrittenTime): boolean =>
  date === null && days === 0 && (clock.kind === "desk" || clock.kind === "local");
