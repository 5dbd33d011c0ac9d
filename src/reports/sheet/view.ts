/**
 * The call sheet as a view model: one value from which every form of it is made. Text, Markdown, CSV and JSON print its
 * report; the page, the calendar and the chat message read it directly.
 */
import type { Finding, Say } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/units.ts";
import type { Block, Cell, Json } from "../shared/view.ts";

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

export interface Section {
  readonly id: SectionId;
  readonly title: string;
  readonly blocks: readonly Block[];
}

/** One entry of the calendar. */
export interface SheetEvent {
  /** Names the event over every revision of the plan: `wren.call`, `dawn.1`, `wagon.2`. */
  readonly item: string;
  readonly kind: "call" | "hit" | "move" | "release";
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

export interface Sheet {
  /** `Call sheet · Wednesday 20 January 2027`, and with `--for` whose. */
  readonly title: string;
  /** The plan's own title, or null. */
  readonly story: string | null;
  /** What names the plan in the calendar's UIDs, the same in every revision. */
  readonly identity: string;
  readonly date: string;
  readonly revision: number | null;
  readonly person: Id | null;
  /** The clocks, the sun, the weather, the line with first call, first hit, last release. */
  readonly head: readonly (readonly Cell[])[];
  readonly sections: readonly Section[];
  readonly events: readonly SheetEvent[];
  /** The lines that matter, most important first, at most five; plain text, not yet inert. */
  readonly brief: readonly string[];
  readonly data: Json;
  readonly findings: readonly Finding[];
  readonly say: Say;
}
