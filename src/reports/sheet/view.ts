/**
 * The call sheet as a view model: one value from which every form of it is made. Text, Markdown, CSV and JSON print its
 * report; the page, the calendar and the chat message read it directly.
 */
import type { Finding, Wording } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/units.ts";
import type { Block, BriefLine, Cell, Json, Tone } from "../shared/view.ts";

/** The sections of a sheet, in the order in which they are read. */
export type SectionId =
  | "changes"
  | "calls"
  | "timeline"
  | "hits"
  | "moves"
  | "batteries"
  | "gear"
  | "meals"
  | "phones"
  | "places"
  | "lines"
  | "wake"
  | "reach"
  | "decide"
  | "cautions"
  | "accepted"
  | "open";

/** A section of the sheet. */
export interface Section {
  readonly id: SectionId;
  readonly title: string;
  readonly blocks: readonly Block[];
}

/** One of the figures at the head: what one reads first. */
export interface Figure {
  readonly label: string;
  /** `04:50`, `07:40–16:49`, `−25 °C`. */
  readonly main: string;
  /** The clocks, what it is made of; null where there is nothing to add. */
  readonly side: string | null;
  /** The hit; the place and what one rides in; null where there is none. */
  readonly what: string | null;
  /** ISO 8601 of a moment; null for what is none. */
  readonly iso: string | null;
}

/** Someone with a call, as one reads it on a phone; one entry for each call. */
export interface PersonCard {
  readonly id: Id;
  readonly name: string;
  readonly roles: string;
  /** The local time, its weekday before it on another day; null for someone who is not called. */
  readonly call: { readonly text: string; readonly desk: string | null; readonly iso: string } | null;
  /** `Birch Point Lodge · uplink truck, at the wheel, with Bea`. */
  readonly where: string | null;
  readonly phone: Cell | null;
}

/** An entry of the day's one list. */
export interface AgendaItem {
  readonly kind: "hit" | "drive" | "ride" | "task" | "meal";
  /** Local. */
  readonly time: string;
  readonly iso: string;
  /** The place by name, for the rule where it changes. */
  readonly place: string | null;
  readonly text: string;
  readonly tone: Tone;
  /** A second line; null where there is none. */
  readonly note: string | null;
}

/** One entry of the calendar. */
export interface SheetEvent {
  /** Names the event over every revision of the plan: `wren.call`, `dawn.1`, `wagon.2`. */
  readonly item: string;
  readonly kind: "call" | "hit" | "move" | "release" | "task" | "meal" | "feed" | "packs";
  /** What the event is, whatever its time: a vehicle and two places, the id of a hit, a person's call. */
  readonly subject: string;
  /** The how-manieth of its subject, from 1; with an older plan that of the same event there. */
  readonly number: number;
  /** The older plan has it and this one has not. */
  readonly cancelled: boolean;
  readonly start: Instant;
  /** Null where it is a moment. */
  readonly end: Instant | null;
  readonly title: string;
  readonly place: string | null;
  /** `geo:46.81,-90.82`; null where the place has no coordinates or the sheet is redacted. */
  readonly map: string | null;
  /** Lines of text; the local time is the first. */
  readonly lines: readonly string[];
}

/** The call sheet: title, figures, sections. */
export interface Sheet {
  /** `Freighter in the ice · Wednesday 20 January 2027 · revision 2`, with `--for` whose, with `--now` as of when. */
  readonly title: string;
  /** The plan's own title, or null. */
  readonly story: string | null;
  /** `Call 04:50 CT (05:50 ET), Birch Point Lodge · rented wagon, with Wren`; null but on one person's sheet. */
  readonly answer: string | null;
  /** Call, first hit, daylight, what it feels like. */
  readonly figures: readonly Figure[];
  /** The nearest hospitals, who leads. */
  readonly contacts: readonly (readonly Cell[])[];
  readonly people: readonly PersonCard[];
  readonly agenda: readonly AgendaItem[];
  /** What names the plan in the calendar's UIDs, the same in every revision: its `id`, else title, date and clock. */
  readonly identity: string;
  /** What counts the calendar up: the revision; one more than the older plan's where that was not counted up. */
  readonly sequence: number;
  /** Something changed against the older plan, and its revision is not lower than this one's. */
  readonly revisionForgotten: boolean;
  readonly date: string;
  readonly revision: number | null;
  readonly person: Id | null;
  /** The clocks and the weather. */
  readonly head: readonly (readonly Cell[])[];
  readonly sections: readonly Section[];
  readonly events: readonly SheetEvent[];
  /** The lines that matter, most important first; plain text, not yet inert. */
  readonly brief: readonly BriefLine[];
  readonly data: Json;
  readonly findings: readonly Finding[];
  readonly say: Wording;
}
