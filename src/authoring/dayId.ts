/** The own name of a new day, for calendars and versions: made of its title and date, `ore-freighter-2027-01-20`. */

/** An id has forty letters at most; the date and its hyphen take eleven. */
const MOST_LETTERS = 40 - 11;

/** The id of a new day: the words of its title and its date, `ore-freighter-2027-01-20`, at most 40 letters. */
export function dayId(title: string | null, date: string): string {
  const words = (title ?? "")
    .normalize("NFC")
    .toLowerCase()
    .split(/[^\p{L}\p{M}\p{N}]+/u)
    .filter((word) => word !== "");
  let name = "";
  for (const word of words) {
    const longer = name === "" ? word : `${name}-${word}`;
    if (longer.length > MOST_LETTERS) break;
    name = longer;
  }
  const called = /\p{L}/u.test(name) ? name : "day";
  return /^\d{4}-\d{2}-\d{2}$/.test(date) ? `${called}-${date}` : called;
}
