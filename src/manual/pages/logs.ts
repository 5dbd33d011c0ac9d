/** The page on log files: what people really did, for hours and pay alone. */
import { ALL_SETS, ALL_WEEKS, CLAIMS } from "../../hours/rules/index.ts";
import { commandBlock, type DeclaredPage, type PageText, pageTerm, terms, textBlock, yaml } from "../page.ts";

/** A log as the page shows it; the test runs the commands on it. */
export const LOG = `log: 1
zone: America/Chicago
rules: us-property
options: { week: 70/8 }
people:
  tomas:
    - { from: 2027-01-19T22:00, to: 2027-01-20T08:00, is: off }
    - { from: 2027-01-20T08:00, to: 2027-01-20T09:00, is: duty }
    - { from: 2027-01-20T09:00, to: 2027-01-20T13:30, is: driving }
`;

/** The page on log files. */
const logsPage = (): PageText => ({
  title: "Log files, for hours and pay alone",
  blocks: [
    textBlock("A log says what people really did. `hours` judges it, up to a moment with `--at`; `timecard` pays it."),
    yaml(LOG),
    commandBlock("daywright hours log.yaml --at 2027-01-20T12:00", 0, ["tomas"]),
    terms([
      pageTerm(
        "is",
        "`off`, `berth`, `driving`, `duty`, `riding`, `standby`, `meal`, `personal`, `ferry` (with `bunk: true` where there was one); `in: light` in a vehicle that the rules are not for",
      ),
      pageTerm("rules", ALL_SETS.map((id) => `\`${id}\``).join(", ")),
      pageTerm(
        "options",
        `\`week\` (${ALL_WEEKS.map((week) => `\`${week}\``).join(", ")}), \`drivers\`, \`dayStarts\`, \`cycle\`, and what the log claims: ${[...CLAIMS.keys()].map((claim) => `\`${claim}\``).join(", ")}`,
      ),
      pageTerm("fill", "`off` says what a gap was; otherwise gaps and overlaps are errors"),
      pageTerm(
        "before",
        "what lies before the log, for one person: `tomas: { before: { dutyMinutes: 1860, releasedAt: 2027-01-19T20:00 }, spans: [ … ] }`",
      ),
    ]),
  ],
});

/** The page for the table. */
export const logsEntry: DeclaredPage = {
  name: "logs",
  place: 40,
  about: "log files, for hours and pay alone",
  page: logsPage,
};
