/** Lengths of time: `35 min`, `1h20`, `1 h 20 min`, `PT35M`; whole minutes. A bare number is asked for its unit. */
import { lengthBad, rangeWrong, unitMissing } from "../findings.ts";
import { LONGEST_VALUE, mistaken, type Parsed, parsed } from "./parsed.ts";
import { plainWord } from "./signs.ts";
import { plainNumber, unitMeant } from "./spelled.ts";

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

const bad = (text: string): Parsed<never> =>
  mistaken((c) => lengthBad.raise({ text, fix: lengthMeant(text), isHit: c.path?.[0] === "hits" }, c));

const UNITS = ["d", "h", "min"];

/** `30 minuts` as `30 min`, `1:20` as `1 h 20 min`, `1,5 h` as `1.5 h`: what was probably meant, where it can be read. */
function lengthMeant(text: string): string | null {
  const plain = plainWord(text)
    .slice(0, LONGEST_VALUE)
    .replace(/^(?:~|≈|about |approx(?:\.|imately)? |ca?\. |circa )\s*/i, "")
    .replace(/^half an hour$/i, "30 min")
    .replace(/^(\d*)\s?([¼½¾])/, (_, whole: string, part: string) => `${whole || "0"}${FRACTIONS.get(part)}`)
    .replace(
      /^(?:(\d{1,4})\s?m(?:ins?|inutes?)?\s?)?(\d{1,5})\s?(?:s|secs?|seconds?)$/i,
      (_, minutes: string | undefined, seconds: string) =>
        `${Number(minutes ?? 0) + Math.ceil(Number(seconds) / 60)} min`,
    )
    .replace(/^an? (?=[a-z])/i, "1 ")
    .replace(/^[-−–]\s?(?=\d)/, "")
    .replace(/^(\d{1,2}):(\d{2})(?:\s?h\w*)?$/, (_, hours: string, minutes: string) =>
      [Number(hours) > 0 ? `${Number(hours)} h` : "", Number(minutes) > 0 ? `${Number(minutes)} min` : ""]
        .join(" ")
        .trim(),
    )
    .replace(/,? and /, " ");
  const [, least, most, unit] = /^(\d+)\s?(?:-|to\b)\s?(\d+)(\s?[a-z]+)$/i.exec(plain) ?? [];
  if (unit !== undefined) return bothEnds(lengthMeant(`${least}${unit}`), lengthMeant(`${most}${unit}`));
  if (!/^(?:\d[\d.,]*\s*[a-z]+\.?,?\s*)+(?:\d{1,2})?$/i.test(plain)) return null;
  const parts = [...plain.matchAll(/(\d[\d.,]*?)\s*(?:([a-z]+)\.?,?|$)/gi)].map(([, digits = "", name = "min"]) => {
    const unit = unitMeant(name, UNITS);
    return unit === null ? null : `${plainNumber(digits)} ${unit}`;
  });
  const made = parts.join(" ");
  return parts.every((part) => part !== null) && parseLength(made).ok ? made : null;
}

const FRACTIONS = new Map([
  ["¼", ".25"],
  ["½", ".5"],
  ["¾", ".75"],
]);

/** Of `30-45 min`, which is two lengths. */
const bothEnds = (least: string | null, most: string | null): string | null =>
  least === null || most === null ? null : `${least} or ${most}`;

const bare = (text: string): Parsed<never> =>
  mistaken((c) =>
    unitMissing.raise(
      {
        text,
        what: "a length of time",
        units: [],
        fix: ["min", "h"].map((unit) => `${text.replace(/^[-+]/, "")} ${unit}`).join(" or "),
      },
      c,
    ),
  );
