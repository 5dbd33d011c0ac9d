/** Words, times and cells that the sections of a sheet share. */
import type { Value } from "../../changes/between.ts";
import type { ActivityTimes } from "../../day/day.ts";
import { names as namesOf } from "../../findings/finding.ts";
import type { Id, Place } from "../../plan/plan.ts";
import { dayNumber, type Instant, longDateOf } from "../../time/index.ts";
import { crewCell, crewText, DASH, named, namesCell } from "../shared/cells.ts";
import { type RowField, shown } from "../shared/columns.ts";
import type { Moment } from "../shared/kinds.ts";
import { withoutContacts } from "../shared/redact.ts";
import type { Cell } from "../shared/view.ts";
import type { SheetInput } from "./input.ts";

/** `Wednesday 20 January 2027`, of a plan's date. */
export const longDate = (date: string): string => longDateOf(dayNumber(date));

/** Names of people as the sheet shortens them. */
export const sheetNames = (input: SheetInput, ids: readonly Id[]): string => namesOf(ids, input.short);

/** The people of a row: `all` for a whole crew of three or more. */
export const people = (input: SheetInput, ids: readonly Id[]): string => crewText(input.short, ids, crewOf(input));

const crewOf = ({ day }: SheetInput): number => day.plan.crew.size;

/** How the sheet calls something after its first mention. */
export const name = ({ short }: SheetInput, id: Id): string => short.name(id);

/** A cell that names one thing, and holds its id for programs; a dash where there is none. */
export const thing = ({ short }: SheetInput, id: Id | null): Cell => (id === null ? DASH : named(short, id));

/** A cell that names people, and holds their ids for programs. */
export const folk = (input: SheetInput, ids: readonly Id[]): Cell => crewCell(input.short, ids, crewOf(input));

/** Whether a row about these people belongs on this sheet: everyone's does, and a person's where they are named. */
export const concerns = (input: SheetInput, who: readonly Id[]): boolean =>
  input.concerned === null || who.some((id) => input.concerned?.has(id) === true);

/** Whether a hit or task belongs on this sheet: a hit's own sheet has that hit alone. */
export const attends = (input: SheetInput, { id, who, place, activity }: ActivityTimes): boolean => {
  const { focus } = input;
  if (focus?.kind === "hit") return id === focus.id || (activity.kind !== "hit" && concerns(input, who));
  return focus?.kind === "place" ? place === focus.id : concerns(input, who);
};

/** A cell with what stood there before, where a change of `what` of `id` is marked: `04:00 (was 04:15)`. */
function marked(input: SheetInput, plain: Cell, id: Id, what: string | null): Cell {
  const change = input.changes?.changes.find((one) => one.id === id && one.what === what);
  if (!change) return plain;
  const was = change.was === null ? "nothing" : valueCell(input, change.was).text;
  return {
    ...plain,
    raw: plain.raw === undefined ? plain.text : plain.raw,
    text: `${plain.text} (was ${was})`,
    changed: { was, now: plain.text },
    tone: "warn",
  };
}

/** The change that marks a cell: by its name, or by one that depends on the row; null marks none. */
type ChangeOf<Row> = string | ((row: Row) => string | null);

const changeName = <Row>(what: ChangeOf<Row>, row: Row): string | null => (typeof what === "string" ? what : what(row));

/** Columns of tables whose cells show what stood there before a change of the thing that `idOf` names. */
export const markedColumns = <Row>(idOf: (row: Row) => Id) => ({
  /** Marked where the change is one of `what`. */
  column: (
    label: string,
    what: ChangeOf<Row>,
    cell: (row: Row, input: SheetInput) => Cell,
    more: { readonly figure?: boolean; readonly spare?: number } = {},
  ): RowField<Row, SheetInput> =>
    shown(label, (row, input) => marked(input, cell(row, input), idOf(row), changeName(what, row)), more),
  /** A moment on its place's clock, which is marked, and on the control room's. */
  clock: (
    label: string,
    what: ChangeOf<Row>,
    value: (row: Row) => Moment | null,
    desk = 0,
  ): RowField<Row, SheetInput> => ({
    kept: null,
    shown: {
      columns: (key, { clocks }) => clocks.columns(label, key, 0, desk),
      cells(row, input) {
        const own = value(row);
        const [local = DASH, ...others] = input.clocks.cells(own?.at ?? null, own?.place ?? null);
        return [marked(input, local, idOf(row), changeName(what, row)), ...others];
      },
    },
  }),
});

/** A moment on its place's clock that is not what one reads first; a dash where there is none. */
export const plainTime = ({ clocks }: SheetInput, at: Instant | null, place: Id | null): Cell =>
  at === null ? DASH : { ...clocks.local(at, place), tone: "plain" };

/** A changed value: a time on its local clock, names, or text as it stands. */
export function valueCell(input: SheetInput, value: Value): Cell {
  if (value.kind === "time") return plainTime(input, value.at, value.place);
  if (value.kind === "names") return namesCell(input.short, value.ids);
  return value.personal && input.redact ? { text: "left out", raw: null } : { text: freeText(input, value.text) };
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

/** A number that a telephone dials. */
export function phoneCell(number: string): Cell {
  const link = telLink(number);
  return link === null ? { text: number } : { text: number, link };
}

/** A task's kind as the trade writes it; the plan's word is the key's. */
export const kindWord = (kind: string): string => (kind === "standdown" ? "stand-down" : kind);
