/** Columns and cells that the tables of several reports share. */
import type { Say } from "../findings/finding.ts";
import type { Id } from "../plan/plan.ts";
import { lengthText } from "../time/index.ts";
import type { Cell, Column, Tone } from "./view.ts";

/** A column of words, with its name in CSV; one with a higher `spare` goes first where a terminal is narrow. */
export const column = (label: string, key: string, spare = 0): Column => ({ label, key, spare, align: "left" });

/** A column of figures. */
export const figureColumn = (label: string, key: string, spare = 0): Column => ({ label, key, spare, align: "right" });

/** Where there is nothing to say. */
export const DASH: Cell = { text: "–", raw: null };

/** Words, or a dash where there are none. */
export const textCell = (text: string | null): Cell => (text === null ? DASH : { text });

/** A number, a booking, an address: left out where the report is redacted, and said to be. */
export const privateCell = (text: string | null, redact: boolean): Cell =>
  text !== null && redact ? { text: "left out", raw: null } : textCell(text);

/** A display name, with the id for programs. */
export const named = (say: Say, id: Id): Cell => ({ text: say.name(id), raw: id });

/** A length as `8 h 15 min`, with whole minutes for programs; a dash where it is not known. */
export const lengthCell = (minutes: number | null, tone: Tone = "plain"): Cell =>
  minutes === null ? DASH : { text: lengthText(minutes), raw: minutes, tone };

/** The place of something; one on the road has none. */
export const placeCell = (say: Say, place: Id | null): Cell =>
  place === null ? { text: "on the road", raw: null } : named(say, place);
