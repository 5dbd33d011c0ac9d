/** Signs that phones, mail and word processors put in place of those on the keyboard. */

const DASHES = /[\u2010-\u2015\u2212]/g;
const CURLY_DOUBLE = /[\u00ab\u00bb\u201c-\u201f]/g;
const CURLY_SINGLE = /[\u2018-\u201b]/g;
const SPACES = /[\u00a0\u2000-\u200a\u202f\u3000]/g;

/** Signs that stand where one of YAML's is meant, and what they are called. */
const ODD_SIGNS: readonly { readonly sign: RegExp; readonly name: string; readonly plain: string }[] = [
  {
    sign: /(?<=^\s*|[:,[{-]\s*)[\u00a0\u2000-\u200a\u202f\u3000]/,
    name: "a no-break space",
    plain: "a plain space",
  },
  { sign: /^\s*\/\//, name: "two slashes", plain: "`#` for a comment" },
  { sign: /\uff1a/, name: "a wide colon", plain: "a colon and a space" },
  { sign: /(?<=^\s*)[*\u2022\u00b7](?=\s)/, name: "a bullet", plain: "the hyphen of a list" },
  { sign: /(?<=^\s*)[\u2010-\u2015\u2212](?=\s)/, name: "a long dash", plain: "the hyphen of a list" },
  { sign: /(?<=^\s*|[\s[{,])[\u00ab\u2018\u201a\u201c-\u201f]/, name: "a curly quote", plain: "a straight quote" },
];

/** No one types a longer line. */
const LONGEST_LINE = 1000;

/** The first of them in a text of one line. */
export const oddSignIn = (text: string): ((typeof ODD_SIGNS)[number] & { readonly at: number }) | null => {
  for (const odd of ODD_SIGNS) {
    const at = text.slice(0, LONGEST_LINE).search(odd.sign);
    if (at >= 0) return { ...odd, at };
  }
  return null;
};

/** What was meant is looked for in no longer text: patterns may take time with the square of its length. */
const LONGEST_MEANT = 200;

/** The text as a keyboard would have it. */
export const plainSigns = (text: string): string =>
  text
    .slice(0, LONGEST_MEANT)
    .replace(DASHES, "-")
    .replace(CURLY_DOUBLE, '"')
    .replace(CURLY_SINGLE, "'")
    .replace(SPACES, " ")
    .replaceAll("\uff1a", ":");

/** The text without a day of the week before it: `Wed 12:00`, `Wednesday, 3 March 2027`. */
export const withoutWeekday = (text: string): string => text.replace(WEEKDAY_BEFORE, "");

const WEEKDAY = "(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?";
const WEEKDAY_BEFORE = new RegExp(`^${WEEKDAY}[.,]?\\s+`, "i");
const WITH_WEEKDAY = new RegExp(`^(?:(${WEEKDAY})[.,]?\\s+(\\d.*)|(\\d.*\\S)[,\\s]\\s*(${WEEKDAY})\\.?)$`, "i");

/** `07:00` and `thu` of `Thu 07:00` and `07:00 Thursday`; null where no weekday stands before or behind the rest. */
export function weekdayApart(text: string): { readonly weekday: string; readonly rest: string } | null {
  const [, before, behind, rest = behind, last = before] = WITH_WEEKDAY.exec(text) ?? [];
  return rest === undefined || last === undefined ? null : { weekday: last.slice(0, 3).toLowerCase(), rest };
}

/** As `plainSigns`, without quotes around the whole. */
export const plainWord = (text: string): string =>
  plainSigns(text)
    .replace(/^["']\s*|\s*["']$/g, "")
    .trim();

/** `92.1 W` as `-92.1`. */
export const signedDegrees = (text: string): string =>
  text
    .trim()
    .replace(/^(\d[\d.]*)\s?°?\s?([NSEW])$/i, (_, digits: string, side: string) =>
      /[sw]/i.test(side) ? `-${digits}` : digits,
    );
