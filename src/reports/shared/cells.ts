/** Columns and cells that the tables of several reports share. */

import type { ActivityTimes } from "../../day/day.ts";
import { figureText } from "../../findings/figures.ts";
import { names, type Wording } from "../../findings/finding.ts";
import type { Loading } from "../../kit/index.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { lengthText } from "../../time/index.ts";
import type { Cell, Column, Tone } from "./view.ts";

/** A column of words, with its name in CSV; one with a higher `spare` goes first where a terminal is narrow. */
export const wordColumn = (label: string, key: string, spare = 0): Column => ({ label, key, spare, align: "left" });

/** A column of figures. */
export const figureColumn = (label: string, key: string, spare = 0): Column => ({ label, key, spare, align: "right" });

/** Where there is nothing to say. */
export const DASH: Cell = { text: "–", raw: null };

/** Words, or a dash where there are none. */
export const textCell = (text: string | null): Cell => (text === null ? DASH : { text });

/** A number, a booking, an address: left out where the report is redacted, and said to be. */
export const privateCell = (text: string | null, redact: boolean): Cell =>
  text !== null && redact ? { text: "left out", raw: null } : textCell(text);

/** What words a cell: a report's own words, or a sheet's shorter names. */
export type Names = Pick<Wording, "name" | "inOrder">;

/** A display name, with the id for programs. */
export const named = (say: Names, id: Id): Cell => ({ text: say.name(id), raw: id });

/** Display names, with the ids and a blank between two for programs; a dash where there are none. */
export const namesCell = (say: Names, ids: readonly Id[]): Cell =>
  ids.length === 0 ? DASH : { text: names(ids, say), raw: ids.join(" ") };

/** People, told as `all` where they are a whole crew of three or more. */
export const crewText = (say: Names, ids: readonly Id[], crew: number): string =>
  crew > 2 && new Set(ids).size === crew ? "all" : names(ids, say);

/** People as `crewText` has them, with their ids for programs. */
export const crewCell = (say: Names, ids: readonly Id[], crew: number): Cell =>
  ids.length === 0 ? DASH : { text: crewText(say, ids, crew), raw: ids.join(" ") };

/** `brick × 5, from lodge`: what goes in, how many, and from where. */
export const loadingText = (say: Names, { id, count, from }: Loading["items"][number]): string =>
  `${say.name(id)}${count === 1 ? "" : ` × ${count}`}${from === null ? "" : `, from ${say.name(from)}`}`;

interface Whom {
  readonly who: readonly Id[];
}

/** Whom something names, or the whole crew where it names no one. */
export const meant = ({ crew }: Plan, { who }: Whom): readonly Id[] => (who.length === 0 ? [...crew.keys()] : who);

/** A length as `8 h 15 min`, with whole minutes for programs; a dash where it is not known. */
export const lengthCell = (minutes: number | null, tone: Tone = "plain"): Cell =>
  minutes === null ? DASH : { text: lengthText(minutes), raw: minutes, tone };

/** A value as it was rounded for people, and with one digit more for programs; never in powers of ten. */
export const numberCell = (value: number | null, digits: number, unit = ""): Cell =>
  value === null ? DASH : { text: `${figureText(value, digits)}${unit}`, raw: Number(value.toFixed(digits + 1)) + 0 };

/** What a plan states, which is a whole number or shown to a tenth. */
export const statedCell = (value: number | null, unit: string): Cell =>
  numberCell(value, value === null || Number.isInteger(value) ? 0 : 1, unit);

/** Yes or no in words, and `true` or `false` for programs. */
export const flagCell = (is: boolean, text: string, tone: Tone = "plain"): Cell => ({ text, raw: String(is), tone });

/** The place of something; one on the road has none. */
export const placeCell = (say: Names, place: Id | null): Cell =>
  place === null ? { text: "on the road", raw: null } : named(say, place);

/** Where an activity happens; on the road and aboard there is no place of its own. */
export function whereCell(say: Names, { place, vehicle, activity: { location } }: ActivityTimes): Cell {
  if (place !== null) return named(say, place);
  if (location.kind === "onRoad")
    return { text: `on the road, ${say.name(location.from)} to ${say.name(location.to)}`, raw: null };
  return vehicle === null ? DASH : { text: `aboard ${say.name(vehicle)}`, raw: null };
}
