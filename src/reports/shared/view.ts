/**
 * View models: what a report says, before any form is chosen. Renderers know these and nothing of plans.
 *
 * Text here may hold a plan's words and is untrusted; each renderer makes it inert in its own form. Meaning is never in
 * a tone alone: the words carry it.
 */
import type { Finding, Span, Wording } from "../../findings/finding.ts";
import type { Instant, ZoneId } from "../../time/units.ts";

/** How a cell or line is coloured. */
export type Tone = "plain" | "good" | "warn" | "bad" | "muted" | "strong";

/** A cell: its text, and its value for programs where that differs. */
export interface Cell {
  readonly text: string;
  readonly tone?: Tone;
  /** The unrounded value for CSV: ISO instants, whole minutes, numbers; `text` where left out. */
  readonly raw?: string | number | null;
  /** Both sides of a change that `text` words as `04:00 (was 04:15)`. */
  readonly changed?: { readonly was: string; readonly now: string };
  /** An address made by us from a checked value: `geo:46.81,-90.82`, `tel:…`. Forms without links print `text` alone. */
  readonly link?: string;
}

/** A column: label, alignment, name in CSV. */
export interface Column {
  readonly label: string;
  readonly align: "left" | "right";
  /** The name in CSV; the label where left out. */
  readonly key?: string;
  /** The label that it belongs to, where its own is only the name of a clock. */
  readonly of?: string;
  /** Columns with a higher number are left out first where a terminal is too narrow; 0 (default) always stays. */
  readonly spare?: number;
}

/** A table of a report. */
export interface Table {
  readonly kind: "table";
  readonly title: string | null;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
  /** The sentence printed where there are no rows. */
  readonly empty: string;
}

/** A bar of a chart. */
export interface Bar {
  readonly from: Instant;
  readonly to: Instant;
  readonly text: string;
  /** Pattern and letter, so that it reads in black and white; what each looks like is `render/chart.ts`. */
  readonly style:
    | "drive"
    | "ride"
    | "ferry"
    | "duty"
    | "hit"
    | "rest"
    | "charge"
    | "use"
    | "day"
    | "twilight"
    | "night"
    | "wait"
    | "window"
    | "meal";
}

/** A row of a chart. */
export interface Lane {
  readonly label: string;
  readonly bars: readonly Bar[];
  /** Shares 0 to 1 over time, straight lines between points. */
  readonly curve?: readonly { readonly at: Instant; readonly share: number }[];
  readonly marks?: readonly { readonly at: Instant; readonly text: string }[];
}

/** A chart of a report. */
export interface Chart {
  readonly kind: "chart";
  readonly title: string;
  /** One sentence that says what the chart shows, for those who cannot see it. */
  readonly description: string;
  readonly from: Instant;
  readonly to: Instant;
  /** The clock along the axis. */
  readonly zone: ZoneId;
  readonly lanes: readonly Lane[];
}

/** A spot in a text; `title` names it where it is another than the finding's own, `label` says why it is marked. */
export interface FindingMark {
  readonly title: string | null;
  /** Null where the plan's line is not shown. */
  readonly span: Span | null;
  readonly label: string | null;
}

/** A line under a finding. */
export interface FindingRemark {
  readonly part: "also" | "source" | "accepted" | "try";
  /** `try`, `accepted by Wren`; a colon follows. */
  readonly lead: string;
  readonly text: string;
}

/** A finding in words, from `findingView.ts`: all that any form says of it. */
export interface FindingView {
  /** That of its level. */
  readonly tone: Tone;
  /** `error`; `note, accepted`. */
  readonly word: string;
  readonly sentence: string;
  /** The sentence for beside its place: in a shared file it says which day is meant. */
  readonly located: string;
  readonly code: string;
  /** `day.yaml:14:11`; null where it is nowhere in particular. */
  readonly place: string | null;
  readonly marks: readonly FindingMark[];
  /** Terms that add up, each with its length and the plan line that says it. */
  readonly chain: readonly {
    readonly time: string;
    readonly name: string;
    readonly length: string;
    readonly where: string;
  }[];
  readonly remarks: readonly FindingRemark[];
  /** All of it but the spots and the chain, on one line. */
  readonly line: readonly Cell[];
}

/** A part of a report. */
export type Block =
  | Table
  | Chart
  /** `alone`: nothing is below it. */
  | { readonly kind: "heading"; readonly text: string; readonly alone?: true }
  /** One paragraph or line; cells are joined as they are. */
  | { readonly kind: "line"; readonly cells: readonly Cell[] }
  | { readonly kind: "list"; readonly items: readonly Cell[]; readonly tick?: boolean }
  /** `brief`: one line each, where a form shows more. */
  | { readonly kind: "findings"; readonly findings: readonly FindingView[]; readonly brief?: true };

/** A value that JSON can hold. Instants are already ISO 8601 text with the local offset. */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** A line of a short message. */
export interface BriefLine {
  /** `Hits (CT): `; empty where there is none. */
  readonly lead: string;
  readonly items: readonly string[];
  /** How soon its items go where a message is too long: 0 never, 1 first. */
  readonly spare: 0 | 1 | 2;
}

/** What a report consists of: blocks for people, data for programs. */
export interface ReportParts {
  readonly blocks: readonly Block[];
  /** `data` of the JSON envelope, keys in documented order. */
  readonly data: Json;
  /** The same in a few lines, for reports that have a chat message. */
  readonly brief?: readonly BriefLine[];
  /** Tables of which the blocks have none where there is nothing to show: a file of rows still has their headers. */
  readonly headers?: readonly Table[];
}

/** A report with the command that it answers, the findings of what was judged for it, and the words it is in. */
export interface Report extends ReportParts {
  readonly command: string;
  readonly findings: readonly Finding[];
  readonly say: Wording;
}
