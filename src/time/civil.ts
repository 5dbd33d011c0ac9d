/** Calendar dates as day numbers (days since 1970-01-01) and their arithmetic, proleptic Gregorian, without `Date`. */

/** Minutes from midnight to midnight, clock changes aside. */
export const MINUTES_A_DAY = 1440;

const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];
const MONTHS = "January February March April May June July August September October November December".split(" ");

const isLeap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

const monthDays = (year: number, month: number): number =>
  (MONTH_DAYS[month - 1] ?? 0) + (month === 2 && isLeap(year) ? 1 : 0);

/** A date of the calendar; `month` and `day` count from 1. */
export interface CivilDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/** The day number of a civil date, counted in 400-year eras that begin on 1 March (H. Hinnant, `days_from_civil`). */
export function dayOfCivil({ year, month, day }: CivilDate): number {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  return (
    era * 146_097 + yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear - 719_468
  );
}

/** The civil date of a day number (H. Hinnant, `civil_from_days`). */
export function civilOfDay(dayNumber: number): CivilDate {
  const shifted = dayNumber + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const leapDays = Math.floor(dayOfEra / 1460) - Math.floor(dayOfEra / 36_524) + Math.floor(dayOfEra / 146_096);
  const yearOfEra = Math.floor((dayOfEra - leapDays) / 365);
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const part = Math.floor((5 * dayOfYear + 2) / 153);
  const month = part < 10 ? part + 3 : part - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * part + 2) / 5) + 1,
  };
}

/** Two digits at least. */
export const two = (value: number): string => String(value).padStart(2, "0");

/** `2027-01-20` of a day number. */
export function dateOfDay(dayNumber: number): string {
  const { year, month, day } = civilOfDay(dayNumber);
  return `${String(year).padStart(4, "0")}-${two(month)}-${two(day)}`;
}

/** The day number of a text like `2027-01-20`; null where it is not such a text or no date of the calendar. */
export function dayOfDate(text: string): number | null {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (parts === null) return null;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  // A month that the calendar has not has no days.
  if (day < 1 || day > monthDays(year, month)) return null;
  return dayOfCivil({ year, month, day });
}

/** The day number of a date that has been read as one; a text that is none is a fault of the program. */
export function dayNumber(date: string): number {
  const day = dayOfDate(date);
  if (day === null) throw new RangeError(`\`${date}\` is no date`);
  return day;
}

/** `Wednesday`. */
export const weekdayOf = (dayNumber: number): string => WEEKDAYS[(((dayNumber + 3) % 7) + 7) % 7] ?? "";

/** `Wednesday 20 January 2027`. */
export function longDateOf(dayNumber: number): string {
  const { year, month, day } = civilOfDay(dayNumber);
  return `${weekdayOf(dayNumber)} ${day} ${MONTHS[month - 1] ?? ""} ${year}`;
}

/** `Wed 20 Jan`. */
export function shortDateOf(dayNumber: number): string {
  const { month, day } = civilOfDay(dayNumber);
  return `${weekdayOf(dayNumber).slice(0, 3)} ${day} ${(MONTHS[month - 1] ?? "").slice(0, 3)}`;
}
