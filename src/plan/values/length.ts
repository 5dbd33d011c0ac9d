/** Lengths of time: `35 min`, `1h20`, `1 h 20 min`, `PT35M`; whole minutes. A bare number is asked for its unit. */
import { lengthBad, rangeWrong, unitMissing } from "../findings.ts";
import { LONGEST_VALUE, mistaken, type Parsed, parsed } from "./parsed.ts";

const HOURS = "(?:h|hr|hrs|hour|hours|H)";
const MINUTES = "(?:min|mins|minute|minutes|m)";
const SPELLED = new RegExp(
  `^(?:(\\d{1,4}(?:\\.\\d{1,2})?)\\s?(?:d|day|days))?\\s?(?:(\\d{1,5}(?:\\.\\d{1,4})?)\\s?${HOURS})?\\s?(?:(\\d{1,6})\\s?${MINUTES}|(?<=[hH]\\s?)(\\d{1,2}))?$`,
);
const ISO = /^P(?:(\d{1,4})D)?(?:T(?:(\d{1,5}(?:\.\d{1,4})?)H)?(?:(\d{1,6})M)?)?$/;

/** The longest length that makes sense in a plan: a rolling 15 days. */
const MOST = 15 * 24 * 60;

/** Whole minutes; a decimal hour must come to whole minutes. */
export function parseLength(text: string): Parsed<number> {
  const plain = text.trim();
  if (plain.length > LONGEST_VALUE) return bad(text);
  if (/^[-+]?\d+(\.\d+)?$/.test(plain)) return bare(plain);
  const match = ISO.exec(plain) ?? SPELLED.exec(plain);
  if (match === null || match.slice(1).every((part) => part === undefined)) return bad(text);
  const [, days = "0", hours = "0", rest = "0", afterHours = "0"] = match;
  const minutes = Number((Number(days) * 1440 + Number(hours) * 60 + Number(rest) + Number(afterHours)).toFixed(6));
  if (!Number.isInteger(minutes)) return bad(text);
  if (minutes > MOST)
    return mistaken((c) => rangeWrong.raise({ text, what: "a length of time", range: "0 min to 15 days" }, c));
  return parsed(minutes);
}

const bad = (text: string): Parsed<never> => mistaken((c) => lengthBad.raise({ text }, c));

const bare = (text: string): Parsed<never> =>
  mistaken((c) =>
    unitMissing.raise(
      { text, what: "a length of time", units: ["min", "h"], fix: `${text.replace(/^[-+]/, "")} min` },
      c,
    ),
  );
