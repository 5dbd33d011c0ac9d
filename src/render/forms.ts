/**
 * Every form of output: its name, the suffixes of files that ask for it, the commands that have it, and its renderer, which
 * is loaded when the form is asked for. Help, completion and `--output` read this list.
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

interface Named {
  readonly name: string;
  /** With the dot. */
  readonly suffixes: readonly string[];
  /** Null: every command that prints a report. */
  readonly commands: readonly string[] | null;
  /** Whether it is made of coordinates, so that nothing is left of it where these are left out. */
  readonly coordinates?: true;
}

type Load<Of> = () => Promise<Of>;

/** A form of reports. */
export interface ReportForm extends Named {
  readonly takes: "report";
  readonly load: Load<(report: Report, options: PrintOptions) => string | Promise<string>>;
}

/** A form of the sheet. */
export interface SheetForm extends Named {
  readonly takes: "sheet";
  readonly load: Load<(sheet: Sheet, options: SheetPrintOptions) => string | Promise<string>>;
}

/** A form of the map. */
export interface MapForm extends Named {
  readonly takes: "map";
  readonly load: Load<(map: DayMap) => string>;
}

/** Of `check`, which prints plan after plan as they come: `checkForms.ts` has the pieces. */
interface StreamForm extends Named {
  readonly takes: "findings";
}

/** A form of output. */
export type OutputForm = ReportForm | SheetForm | MapForm | StreamForm;

const FORMS: readonly OutputForm[] = [
  {
    name: "text",
    suffixes: [".txt"],
    commands: null,
    takes: "report",
    load: async () => {
      const { toText } = await import("./text.ts");
      return async (report, { style }) => toText(report, await style(false));
    },
  },
  {
    name: "list",
    suffixes: [],
    commands: null,
    takes: "report",
    load: async () => {
      const { toText } = await import("./text.ts");
      return async (report, { style }) => toText(report, await style(true));
    },
  },
  {
    name: "json",
    suffixes: [".json"],
    commands: null,
    takes: "report",
    load: async () => {
      const { toJson } = await import("./json.ts");
      return ({ data }) => toJson(data);
    },
  },
  {
    name: "markdown",
    suffixes: [".md", ".markdown"],
    commands: null,
    takes: "report",
    load: async () => (await import("./markdown.ts")).toMarkdown,
  },
  {
    name: "csv",
    suffixes: [".csv"],
    commands: null,
    takes: "report",
    load: async () => (await import("./csv.ts")).toCsv,
  },
  {
    name: "svg",
    suffixes: [".svg"],
    commands: ["light", "power"],
    takes: "report",
    load: async () => (await import("./svg.ts")).toSvg,
  },
  {
    name: "html",
    suffixes: [".html", ".htm"],
    commands: ["sheet"],
    takes: "sheet",
    load: async () => (await import("./html.ts")).renderHtml,
  },
  {
    name: "ics",
    suffixes: [".ics"],
    commands: ["sheet"],
    takes: "sheet",
    load: async () => (await import("./ics.ts")).renderIcs,
  },
  {
    name: "chat",
    suffixes: [],
    commands: ["sheet"],
    takes: "sheet",
    load: async () => (await import("./chat.ts")).renderChat,
  },
  {
    name: "chat",
    suffixes: [],
    commands: ["changes", "compare", "now"],
    takes: "report",
    load: async () => {
      const { renderChat } = await import("./chat.ts");
      return ({ brief = [] }, { parts }) => renderChat({ brief }, { codeBlock: false, parts });
    },
  },
  {
    name: "geojson",
    suffixes: [".geojson"],
    commands: ["drives"],
    coordinates: true,
    takes: "map",
    load: async () => (await import("./geojson.ts")).toGeojson,
  },
  {
    name: "gpx",
    suffixes: [".gpx"],
    commands: ["drives"],
    coordinates: true,
    takes: "map",
    load: async () => (await import("./gpx.ts")).toGpx,
  },
  { name: "ndjson", suffixes: [".ndjson"], commands: ["check"], takes: "findings" },
  { name: "sarif", suffixes: [".sarif"], commands: ["check"], takes: "findings" },
  { name: "unix", suffixes: [], commands: ["check"], takes: "findings" },
];

/** The forms of a command, the usual one first. */
export const formsOf = (command: string): readonly OutputForm[] =>
  FORMS.filter(({ commands }) => commands === null || commands.includes(command));

/** The form that a file's suffix asks for; null for one that no form has. */
export const formOfSuffix = (suffix: string): OutputForm | null =>
  FORMS.find(({ suffixes }) => suffixes.includes(suffix.toLowerCase())) ?? null;
