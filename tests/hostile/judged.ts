/** What a run of the program promises whatever it is given, and how a run is held to it. */
import { type Io, IoError } from "../../src/cli/io/io.ts";
import type { Ran } from "../cli/fakeIo.ts";

/** An `Io` that has nothing and keeps nothing. */
export function silentIo(): Io {
  const none = (path: string): never => {
    throw new IoError(path, "nothing here");
  };
  const stream = { write: () => undefined, isTty: false, columns: null };
  return {
    stdout: stream,
    stderr: stream,
    stdin: { isTty: false, read: async () => new Uint8Array() },
    env: {},
    cwd: "/",
    now: () => 0,
    inputs: new Set(),
    readFile: none,
    size: () => 0,
    writeFile: none,
    ask: async (_, preset) => preset,
    realpath: () => null,
    identity: () => null,
    filesAt: async () => none,
    gitIndex: (path) => Promise.reject(new IoError(path, "nothing here")),
    changed: async () => false,
    workers: async () => null,
    fetch: (url) => Promise.reject(new IoError(String(url), "nothing here")),
    list: () => null,
  };
}

/** Signs that drive a terminal or turn a line round; colours are taken out before. */
const CONTROLS = /\p{Cc}|[\u202a-\u202e]/u;
const ESCAPE = String.fromCharCode(27);
const COLOUR = new RegExp(`${ESCAPE}\\[[0-9;]*m`, "gu");
const LINES = /[\n\r\t]/gu;
const NO_NUMBER = /\bNaN\b|\bundefined\b|\[object |\bInfinity\b/u;
/** What `hide` writes into a plan. */
export const SECRET = /ZQHIDDEN/u;

/** The same text with a secret in every key that `--redact` leaves out. */
export const hide = (text: string): string =>
  text.replace(/\b(phone|address|booking|keys|permit):[ \t]*(?:"[^"\n]*"|[^,}\n#"]+)/gu, '$1: "ZQHIDDEN 1"');

/** What is wrong with a run; empty where nothing is. */
export function wrongs(
  argv: readonly string[],
  text: string,
  { code, out, err }: Ran,
  cpuMs: number,
): readonly string[] {
  const all = `${out}${err}`;
  const given = `${argv.join(" ")}\n${text}`;
  return [
    ...([0, 1, 2, 3].includes(code) ? [] : [`exit ${code}`]),
    ...(cpuMs < 1000 ? [] : [`took ${Math.round(cpuMs)} ms`]),
    ...(NO_NUMBER.test(all) && !/nan|undefined|object|inf/iu.test(given) ? ["no number"] : []),
    ...(CONTROLS.test(all.replace(COLOUR, "").replace(LINES, "")) ? ["a control character"] : []),
    ...(argv.includes("--redact") && SECRET.test(all) ? ["a secret"] : []),
    ...(isJson(argv) && !parses(argv, out) ? ["no JSON"] : []),
    ...misread(formAsked(argv), out).map((what) => `${what} in ${formAsked(argv)}`),
  ];
}

/** The words before `--`; behind it nothing is a flag. */
const flagsOf = (argv: readonly string[]): readonly string[] =>
  argv.includes("--") ? argv.slice(0, argv.indexOf("--")) : argv;

const formAsked = (given: readonly string[]): string | null => {
  const argv = flagsOf(given);
  if (argv.includes("--json")) return "json";
  const at = Math.max(argv.lastIndexOf("--format"), argv.lastIndexOf("-f"));
  return at < 0 ? null : (argv[at + 1] ?? null);
};

/** Help and, but for `--json`, the version are texts whatever the form. */
const isJson = (argv: readonly string[]): boolean =>
  ["json", "ndjson", "sarif"].includes(formAsked(argv) ?? "") &&
  !argv.includes("--output") &&
  !(argv.includes("--version") && !argv.includes("--json")) &&
  !argv.includes("help");

function parses(argv: readonly string[], out: string): boolean {
  const texts = formAsked(argv) === "ndjson" ? out.split("\n") : [out];
  try {
    for (const text of texts) if (text.trim() !== "") JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

/** What iCalendar lines begin with here: no address of anybody, nothing that rings unless it was asked for. */
const PROPERTY =
  /^(?:BEGIN|END):(?:VCALENDAR|VEVENT|VALARM)$|^(?:VERSION|PRODID|CALSCALE|METHOD|NAME|UID|SEQUENCE|DTSTAMP|DTSTART|DTEND|SUMMARY|LOCATION|GEO|DESCRIPTION|URL|TRANSP|STATUS|CATEGORIES|REFRESH-INTERVAL|ACTION|TRIGGER|LAST-MODIFIED|X-[A-Z-]+)[;:]/u;

/** Cells of RFC 4180. */
const cellsOf = (csv: string): readonly string[] =>
  [...csv.matchAll(/(?:^|[,\n])(?:"((?:[^"]|"")*)"|([^",\r\n]*))/gu)].map(([, quoted, bare]) => quoted ?? bare ?? "");

/** What a text of a plan does to whatever shows a form: cells that calculate, lines of its own, markup. */
function misread(form: string | null, out: string): readonly string[] {
  if (form === "csv")
    return cellsOf(out.replace(/^\ufeff/u, "")).some(
      (cell) => /^[=+@\t\r-]/u.test(cell) && !/^[-+]?[\d.]+$/u.test(cell),
    )
      ? ["a formula"]
      : [];
  if (form === "ics" && out.startsWith("BEGIN")) {
    const lines = out.split("\r\n");
    const whole = out.replaceAll("\r\n ", "").split("\r\n").slice(0, -1);
    return [
      ...(lines.some((line) => new TextEncoder().encode(line).length > 75) ? ["a line of more than 75 octets"] : []),
      ...(/(?<!\r)\n|\r(?!\n)/u.test(out) ? ["a line end that is not CRLF"] : []),
      ...(whole.every((line) => PROPERTY.test(line)) ? [] : ["a line of the plan's own"]),
    ];
  }
  // Markdown shows a sign behind a backslash as itself.
  const plain = form === "markdown" ? out.replace(/\\[!-/:-@[-`{-~]/gu, "") : out;
  const marks = form === "html" || form === "svg" || form === "gpx" || form === "markdown";
  const isMarkup = marks && /<(?:script|img)\b|<[^>]*\son(?:error|mouseover)=|href="javascript:/iu.test(plain);
  const isLink = form === "markdown" && /(?<!\\)\]\(javascript:/u.test(out);
  const isMention = form === "chat" && /@everyone|<@\d/u.test(out);
  return [...(isMarkup || isLink ? ["markup"] : []), ...(isMention ? ["a mention"] : [])];
}
