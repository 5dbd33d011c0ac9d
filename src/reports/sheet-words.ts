/** Words, times and cells that the sections of a sheet share. */
import type { Id, Place } from "../plan/plan.ts";
import { dayNumber, longDateOf } from "../time/index.ts";
import { DASH } from "./cells.ts";
import type { Value } from "./changes.ts";
import { withoutContacts } from "./redact.ts";
import type { SheetInput } from "./sheet-input.ts";
import type { Cell } from "./view.ts";

/** `Wednesday 20 January 2027`, of a plan's date. */
export const longDate = (date: string): string => longDateOf(dayNumber(date));

export const names = (input: SheetInput, ids: readonly Id[]): string => ids.map((id) => name(input, id)).join(", ");

/** The people of a row: `all` for a whole crew of three or more. */
export function people(input: SheetInput, ids: readonly Id[]): string {
  const crew = input.day.people.length;
  return crew > 2 && new Set(ids).size === crew ? "all" : names(input, ids);
}

/** How the sheet calls something after its first mention: a person by their first name where no other has it. */
export const name = (input: SheetInput, id: Id | null): string =>
  id === null ? "–" : (input.firstNames.get(id) ?? input.say.name(id));

/** A cell that names one thing, and holds its id for programs. */
export const thing = (input: SheetInput, id: Id | null): Cell => ({ text: name(input, id), raw: id });

/** A cell that names people, and holds their ids, with blanks between, for programs. */
export const folk = (input: SheetInput, ids: readonly Id[]): Cell =>
  ids.length === 0 ? DASH : { text: people(input, ids), raw: ids.join(" ") };

/** Whether a row about these people belongs on this sheet: everyone's does, and a person's where they are named. */
export const concerns = (input: SheetInput, who: readonly Id[]): boolean =>
  input.person === null || who.includes(input.person);

/** A cell with what stood there before, where a change of `what` of `id` is marked: `04:00 (was 04:15)`. */
export function marked(input: SheetInput, plain: Cell, id: Id, what: string): Cell {
  const change = input.changes?.changes.find((one) => one.id === id && one.what === what);
  if (!change) return plain;
  const was = change.was === null ? "nothing" : valueText(input, change.was);
  return { ...plain, text: `${plain.text} (was ${was})`, tone: "warn" };
}

/** A changed value in words: a time on its local clock, names, or text as it stands. */
export function valueText(input: SheetInput, value: Value): string {
  if (value.kind === "time") return input.clocks.local(value.at, value.place).text;
  if (value.kind === "names") return names(input, value.ids);
  return value.personal && input.redact ? "left out" : freeText(input, value.text);
}

/** A plan's free text; without telephone numbers and mail addresses where the sheet is redacted. */
export const freeText = (input: SheetInput, text: string): string => (input.redact ? withoutContacts(text) : text);

/** `geo:46.81,-90.82` (RFC 5870), or null for a place without coordinates and on a redacted sheet. */
export const geoLink = (input: SheetInput, place: Place): string | null =>
  input.redact || place.at === null ? null : `geo:${degrees(place.at.latitude)},${degrees(place.at.longitude)}`;

/** Never in powers of ten; the sixth decimal is a tenth of a meter. */
const degrees = (value: number): number => (Math.abs(value) < 1e-6 ? 0 : Number(value.toFixed(6)));

/** `tel:+17155550142`, or null for a text that is not a telephone number. */
export const telLink = (number: string): string | null => {
  const digits = number.replace(/[\s().\-/]/gu, "");
  return /^\+?\d{3,15}$/u.test(digits) ? `tel:${digits}` : null;
};
