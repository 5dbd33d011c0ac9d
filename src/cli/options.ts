/** The flags that every command takes, before or after its name, and what they come to with the environment. */
import { type Command, InvalidArgumentError, Option } from "commander";
import { usage } from "./exit.ts";

type Env = Readonly<Record<string, string | undefined>>;

/** When text is coloured. */
export type When = "auto" | "always" | "never";

/** The options that every command takes. */
export interface CommonOptions {
  /** As asked for by flag or environment; null leaves it to the suffix of `output`, then to the command. */
  readonly format: string | null;
  readonly output: string | null;
  readonly force: boolean;
  /** `path=value`, in the order given. */
  readonly set: readonly string[];
  readonly person: string | null;
  /** A zone or a label of the plan, `12` or `24`, as typed. */
  readonly clock: string | null;
  readonly width: number | null;
  readonly color: When;
  readonly ascii: boolean;
  readonly bom: boolean;
  readonly strict: boolean;
  /** As typed; read with the plan's clock. */
  readonly now: string | null;
  readonly name: string | null;
  readonly patience: number;
  readonly redact: boolean;
  /** The command again at every save. */
  readonly watch: boolean;
  readonly quiet: boolean;
  readonly debug: boolean;
}

/** A whole number of at most four digits; `parseInt` would take `12abc` for 12. */
export function wholeNumber(text: string): number {
  if (!/^\d{1,4}$/u.test(text)) throw new InvalidArgumentError("It takes a whole number.");
  return Number(text);
}

/** The text of an option; a usage error where it is empty. */
export function notEmpty(text: string): string {
  if (text === "") throw new InvalidArgumentError("It takes a value.");
  return text;
}

/** Adds a value to those of a flag that may be given several times. */
export const collect = (value: string, before: readonly string[] | undefined): readonly string[] => [
  ...(before ?? []),
  value,
];

function edit(text: string, before: readonly string[] | undefined): readonly string[] {
  if (!/^[^=]+=/u.test(text)) throw new InvalidArgumentError("It takes path=value, as in hits.noon.at=12:30.");
  return collect(text, before);
}

function patience(text: string): number {
  const value = wholeNumber(text);
  if (value < 1) throw new InvalidArgumentError("It takes a whole number of at least 1.");
  return value;
}

/** Puts the common flags on the program; commander then reads them before and after the command's name. */
export function addCommonOptions(program: Command): void {
  const format = new Option("-f, --format <form>", "form of the output; each command lists its own").argParser(
    notEmpty,
  );
  program
    .addOption(format)
    .option("--json", "short for --format json")
    .option("-o, --output <file>", "write to a file (- is standard output); its suffix names the form", notEmpty)
    .option("--force", "overwrite an existing output file")
    .option("--set <path=value>", "try an edit without touching the file (repeatable)", edit)
    .option("--for <id>", "one person's view; of a sheet also a vehicle, a hit or a place", notEmpty)
    .option(
      "--clock <zone>",
      "show this zone (or label of the plan) in place of the desk's clock; 12 or 24 hours",
      notEmpty,
    )
    .option("--width <columns>", "fit text into this many columns; 0 is no limit", wholeNumber)
    .addOption(new Option("--color <when>", "colour the text").choices(["auto", "always", "never"]))
    .option("--no-color", "short for --color never")
    .option("--ascii", "marks and lines of plain ASCII")
    .option("--bom", "begin CSV with a byte order mark, for spreadsheets")
    .option("--strict", "also fail on warnings")
    .option("--now <time>", "keep everything before this time and replan the rest", notEmpty)
    .option("--name <file>", "the file name of a plan from standard input", notEmpty)
    .option("--patience <times>", "search this many times as long", patience)
    .option("--redact", "leave out telephone numbers, bookings, addresses")
    .option("--watch", "run again at every save of the plan or of a file that it uses")
    .option("-q, --quiet", "no notes on standard error")
    .option("--debug", "show the stack of an internal error");
}

type Raw = Readonly<Record<string, unknown>>;

const text = (raw: Raw, key: string): string | null => {
  const value = raw[key];
  return typeof value === "string" ? value : null;
};

/** Throws a usage failure where `--json` and `--format` ask for two forms. */
function formOf(raw: Raw): string | null {
  const format = text(raw, "format");
  if (raw["json"] !== true) return format;
  if (format === null || format === "json") return "json";
  throw usage(`--json and --format ${format} contradict each other`, "leave one of them out");
}

const fromEnv = (env: Env, name: string): string | null => env[`DAYWRIGHT_${name}`] || null;

/** Flags over environment; commander gives them as it parsed them. */
export function commonOptions(raw: Raw, { env }: { readonly env: Env }): CommonOptions {
  const width = raw["width"];
  const times = raw["patience"];
  return {
    format: formOf(raw) ?? fromEnv(env, "FORMAT"),
    output: text(raw, "output"),
    force: raw["force"] === true,
    set: Array.isArray(raw["set"]) ? raw["set"].map(String) : [],
    person: text(raw, "for"),
    clock: text(raw, "clock") ?? fromEnv(env, "CLOCK"),
    width: typeof width === "number" ? width : envWidth(env),
    color: colorOf(raw["color"] ?? fromEnv(env, "COLOR")),
    ascii: raw["ascii"] === true || env["TERM"] === "dumb",
    bom: raw["bom"] === true,
    strict: raw["strict"] === true,
    now: text(raw, "now"),
    name: text(raw, "name"),
    patience: typeof times === "number" ? times : 1,
    redact: raw["redact"] === true,
    watch: raw["watch"] === true,
    quiet: raw["quiet"] === true,
    debug: raw["debug"] === true,
  };
}

function envWidth(env: Env): number | null {
  const value = fromEnv(env, "WIDTH");
  return value !== null && /^\d{1,4}$/u.test(value) ? Number(value) : null;
}

/** `--no-color` comes as false. */
const colorOf = (value: unknown): When =>
  value === false || value === "never" ? "never" : value === "always" ? "always" : "auto";
