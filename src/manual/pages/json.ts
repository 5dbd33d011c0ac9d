/** The page on what scripts read: the envelope, its schemas, streams, CSV. */
import { described } from "../../reports/index.ts";
import {
  commandBlock,
  type DeclaredPage,
  heading,
  type PageText,
  pageTerm,
  script,
  terms,
  textBlock,
} from "../page.ts";

/** The script that prints everybody's call. */
export const CALLS_LISTED = `daywright calls plans/2027-01-20.yaml --json | jq -r '.data.people[] | "\\(.id) \\(.call)"'
`;

/** The page on JSON: envelope and keys. */
const jsonPage = (): PageText => ({
  title: "JSON and CSV",
  blocks: [
    textBlock("Every command over plans takes `--json`, which is short for `--format json`. The answer is one object:"),
    terms([
      pageTerm("daywright", "the version of the contract, 1"),
      pageTerm("command", "the command that answered"),
      pageTerm("plan", "`file`, `title`, `date`, `clock`; null if the plan could not be read"),
      pageTerm("ok", "true if the exit code is 0"),
      pageTerm(
        "findings",
        "each with `code`, `level`, `message`, `who`, `at`, `where` (`file`, `line`, `column`, `path`), `source`, `hint`, `facts`, `chain`, `shortMinutes`, `accepted`",
      ),
      pageTerm("data", "the report; null if there is none"),
      pageTerm("plans", "for several plans: one envelope each"),
    ]),
    textBlock(
      "Instants are ISO 8601 with the local offset, lengths `…Minutes` (negative only if the schema says what that means), distances `…Km`, energies `…Wh`, shares 0 to 1. Every documented key is always there: unknown is null, none is `[]`. A command that fails still prints an envelope if a plan was named; its finding is then `wrong-usage`, `command-failed` or `plan-unreadable`.",
    ),
    commandBlock("daywright calls day.yaml --json", 0, ['"command": "calls",']),
    textBlock("Everybody's call, a line each:"),
    script(CALLS_LISTED),
    heading("Schemas"),
    textBlock(`\`daywright schema NAME\` prints the JSON Schema of ${["plan", "log", ...described()].join(", ")}.`),
    commandBlock("daywright schema calls", 0, []),
    heading("Streams of check"),
    terms([
      pageTerm("ndjson", "a header line, then one finding a line and one line with each plan's outcome"),
      pageTerm("sarif", "SARIF 2.1.0, which code hosts show next to the lines"),
      pageTerm(
        "unix",
        "`file:line:col: level: sentence [code]`, which editors read: always one line, as the first line of a finding in text is at any width",
      ),
    ]),
    commandBlock("daywright check day.yaml --format unix", 0, []),
    heading("CSV"),
    textBlock(
      "`--format csv` prints each table of the text, an empty line between two. Names are ids, several in one cell with a blank between them; instants, lengths and units are those of the JSON, yes and no are `true` and `false`, what is unknown or none is empty. A number has one digit more than the text shows: 86 % is `0.863`; shares of chance are cut, so that what is not certain is never 1. The same thing has the same key in every command: `hit`, `start` (on air, on the place's clock) and `startDesk` (on the control room's), `place`, `who`, `vehicle`, `leave`, `arrive`. `--bom` begins with a byte order mark, for spreadsheets that need one.",
    ),
    commandBlock("daywright calls day.yaml --format csv --bom -o calls.csv", 0, ["wrote calls.csv"]),
  ],
});

/** The page for the table. */
export const jsonEntry: DeclaredPage = {
  name: "json",
  place: 30,
  about: "JSON, its schemas, streams and CSV",
  page: jsonPage,
};
