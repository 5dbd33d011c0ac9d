/** The page on log files: what people really did, for hours and pay alone. */
import { ALL_SETS, CLAIMS, WEEKS } from "../hours/rules/index.ts";
import { type Page, run, term, terms, text, yaml } from "./page.ts";

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

export const logsPage = (): Page => ({
  name: "logs",
  title: "Log files, for hours and pay alone",
  blocks: [
    text("A log says what people really did. `hours` judges it, up to a moment with `--at`; `timecard` pays it."),
    yaml(LOG),
    run("daywright hours log.yaml --at 2027-01-20T12:00", 0, ["tomas"]),
    terms([
      term(
        "is",
        "`off`, `berth`, `driving`, `duty`, `riding`, `standby`, `meal`, `personal`, `ferry` (with `bunk: true` where there was one); `in: light` in a vehicle that the rules are not for",
      ),
      term("rules", ALL_SETS.map((id) => `\`${id}\``).join(", ")),
      term(
        "options",
        `\`week\` (${WEEKS.map((week) => `\`${week}\``).join(", ")}), \`drivers\`, \`dayStarts\`, \`cycle\`, and what the log claims: ${[...CLAIMS.keys()].map((claim) => `\`${claim}\``).join(", ")}`,
      ),
      term("fill", "`off` says what a gap was; otherwise gaps and overlaps are errors"),
      term(
        "before",
        "what lies before the log, for one person: `tomas: { before: { dutyMinutes: 1860, releasedAt: 2027-01-19T20:00 }, spans: [ … ] }`",
      ),
    ]),
  ],
});
