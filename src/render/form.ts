/**
 * What an output form is: a file of `forms` declares its name, the suffixes of files that ask for it, the commands that have it,
 * and its renderer. `table.ts` lists them all; help, completion and `--output` read it.
 */
import type { DayMap } from "../reports/drives/map.ts";
import type { Report } from "../reports/shared/view.ts";
import type { Sheet } from "../reports/sheet/view.ts";
import type { Instant } from "../time/units.ts";
import type { TextStyle } from "./text/style.ts";

/** How a report is printed. */
export interface PrintOptions {
  /** How text looks where it goes; rows as lists where asked for. */
  style(list: boolean): Promise<TextStyle>;
  /** CSV begins with a byte order mark. */
  readonly bom: boolean;
  /** As many numbered chat messages as it takes. */
  readonly parts: boolean;
}

/** How a sheet is printed in a form of its own. */
export interface SheetPrintOptions {
  /** The chat message is one code block. */
  readonly codeBlock: boolean;
  /** As many numbered messages as it takes. */
  readonly parts: boolean;
  /** The calendar rings this many minutes before a call; null for none. */
  readonly alarmMinutes: number | null;
  /** The moment that the calendar is stamped with; null for one made of the plan's date. */
  readonly now: Instant | null;
}

/** What help, completion and `--output` need to know of a form. */
interface FormFacts {
  readonly name: string;
  /** With the dot. */
  readonly suffixes: readonly string[];
  /** Null: every command that prints a report. */
  readonly commands: readonly string[] | null;
  /** Whether it is made of coordinates, so that nothing is left of it where these are left out. */
  readonly coordinates?: true;
}

/** What a form is made from, and how. */
interface Printers {
  report(report: Report, options: PrintOptions): string | Promise<string>;
  sheet(sheet: Sheet, options: SheetPrintOptions): string | Promise<string>;
  map(map: DayMap): string;
}

interface Placed extends FormFacts {
  /** Where help lists it among the others; the first is the usual one. */
  readonly place: number;
}

/** A form as its file declares it. */
export interface DeclaredForm<Takes extends keyof Printers> extends Placed {
  readonly takes: Takes;
  readonly print: Printers[Takes];
}

/** A form of `check`, which prints plan after plan as they come: `forms/check.ts` has the pieces. */
export interface DeclaredStream extends Placed {
  readonly takes: "findings";
}

interface Loaded<Takes extends keyof Printers> extends FormFacts {
  readonly takes: Takes;
  readonly load: () => Promise<Printers[Takes]>;
}

/** A form of the sheet. */
export type SheetForm = Loaded<"sheet">;
/** A form of the map. */
export type MapForm = Loaded<"map">;

/** A form of output. */
export type OutputForm = Loaded<"report"> | SheetForm | MapForm | (FormFacts & { readonly takes: "findings" });
