/** Dates that are not written as year-month-day, and what was probably meant by them. */
import { dayOfDate } from "../../time/civil.ts";
import { dateBad } from "../findings.ts";
import { mistaken, type Parsed } from "./parsed.ts";
import { plainWord, withoutWeekday } from "./signs.ts";

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

const ORDERS: readonly { readonly form: RegExp; readonly order: "ymd" | "dmy" | "mdy" }[] = [
  { form: /^(\d{4})[-/. ](\d{1,2})[-/. ](\d{1,2})$/, order: "ymd" },
  { form: /^(\d{4})(\d{2})(\d{2})$/, order: "ymd" },
  { form: /^(\d{2})-(\d{1,2})-(\d{1,2})$/, order: "ymd" },
  { form: /^(\d{1,2})\/(\d{1,2})\/(\d{4})$/, order: "mdy" },
  { form: /^(\d{1,2})[-/. ]+(\d{1,2})[-/. ]+(\d{4})$/, order: "dmy" },
  { form: /^(\d{1,2})(?:st|nd|rd|th|\.)?[ -]?([a-z]{3,9})\.?,?[ -]?(\d{4})$/, order: "dmy" },
  { form: /^([a-z]{3,9})\.? ?(\d{1,2})(?:st|nd|rd|th)?,? ?(\d{4})$/, order: "mdy" },
];

/** The dates that a text may stand for, likelier first: `1/9/2027` is two. Empty where it is none. */
export function datesLike(text: string): readonly string[] {
  const plain = withoutWeekday(plainWord(text))
    .toLowerCase()
    .replace(/^(\d{4}-\d{2}-\d{2})t\d.*$/, "$1");
  const found = ORDERS.flatMap(({ form, order }) => {
    const parts = form.exec(plain);
    if (parts === null) return [];
    const [, first = "", second = "", third = ""] = parts;
    // A thirteenth month is the day, put where others have the month.
    if (order === "ymd") return [Number(second) > 12 ? date(first, third, second) : date(first, second, third)];
    return order === "dmy" ? [date(third, second, first)] : [date(third, first, second)];
  });
  return [...new Set(found)].filter((one) => dayOfDate(one) !== null);
}

/** The mistake in a text that is no date. */
export const badDate = (text: string): Parsed<never> =>
  mistaken((c) => dateBad.raise({ text, ...lastOfMonth(text) }, c));

/** For a day that its month does not have: how many it has, and the last of them. */
function lastOfMonth(text: string): { readonly like: readonly string[]; readonly reason: string | null } {
  const like = datesLike(text);
  const [, year = "", month = "", day = ""] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? [];
  const last = [31, 30, 29, 28].map((one) => `${year}-${month}-${one}`).find((one) => dayOfDate(one) !== null);
  if (like.length > 0 || last === undefined || Number(day) > 31) return { like, reason: null };
  const days = Number(last.slice(-2));
  return { like: [last], reason: `${year}-${month} has ${days} days` };
}

function date(year: string, month: string, day: string): string {
  const named = MONTHS.findIndex((name) => month.startsWith(name)) + 1;
  const number = named === 0 ? month : String(named);
  return `${year.padStart(4, "20")}-${number.padStart(2, "0")}-${day.padStart(2, "0")}`;
}
