/** The page of recipes: scripts for teams. A test runs each as it stands here. */
import { commandBlock, type DeclaredPage, heading, type PageText, script, textBlock } from "../page.ts";

/** The hook that judges staged plans before a commit. */
export const HOOK = `#!/bin/sh
exec daywright check --staged --quiet --level error --format unix
`;

/** The script that checks a folder of plans on a build server. */
export const CI = `status=0
daywright check plans --force --output findings.sarif || status=$?
daywright check plans --quiet --format unix || true
exit "$status"
`;

/** The script that posts what changed. */
export const CHAT = `daywright sheet plans/2027-01-20.yaml --format chat --since HEAD~1 |
  jq -Rs '{ text: . }' |
  curl --fail --silent --show-error -H 'content-type: application/json' --data-binary @- "$CHAT_URL"
`;

/** The script that prints the codes of what is wrong. */
export const ALARM = `daywright check plans/2027-01-20.yaml --level error --json |
  jq -r '.findings[] | select(.accepted == null) | "\\(.who // .code): \\(.message)"' |
  jq -cRs 'select(. != "") | { text: . }' |
  while read -r body; do
    printf '%s' "$body" |
      curl --fail --silent --show-error -H 'content-type: application/json' --data-binary @- "$CHAT_URL"
  done
`;

/** The script that writes the hours of a week. */
export const WEEK = `daywright hours plans/2027-01-20.yaml --format csv --force -o hours.csv
daywright timecard plans/2027-01-20.yaml --bom --force -o week.csv
`;

/** What a night asks for, one command a line; a test on the demo's second day checks every time that they print. */
export const NIGHT_ASK = `daywright changes plans/2027-01-20.yaml --now "02:10 CT" \\
  --set "hits.noon.at=13:10 CT" --set "vehicles.truck.broken=10:00 CT"
daywright compare plans/2027-01-20.yaml --now "02:10 CT" \\
  --with "moved: hits.noon.at=13:10 CT" \\
  --with "both: hits.noon.at=13:10 CT" --with "both: vehicles.truck.broken=10:00 CT" \\
  --with "cut: hits.noon=off" --with "cut: vehicles.truck.broken=10:00 CT"
`;

/** The calendar as it was, then the edits and a repair into the file. */
export const NIGHT_WRITE = `daywright sheet plans/2027-01-20.yaml --output before.ics
daywright repair plans/2027-01-20.yaml --now "02:10 CT" \\
  --set "hits.noon.at=13:10 CT" --set "vehicles.truck.broken=10:00 CT" --set revision=3 --write 1
`;

/** Whom to tell, the message, the calendar as it is now. */
export const NIGHT_TELL = `daywright changes plans/2027-01-20.yaml --since HEAD --now "02:10 CT"
daywright sheet plans/2027-01-20.yaml --since HEAD --now "02:10 CT" --format chat
daywright sheet plans/2027-01-20.yaml --since HEAD --now "02:10 CT" --output after.ics
`;

const page: PageText = {
  title: "Recipes",
  blocks: [
    textBlock("Each was run as it stands here, with plans in `plans/` of a Git repository."),
    heading("Before a commit"),
    textBlock(
      "`.git/hooks/pre-commit`, executable. It checks the plans that the commit touches, also those that use or follow a file that it changes, renames or deletes, as Git has them: what else lies in the folder neither stops the commit nor lets it pass. An error that is not accepted stops the commit (exit 1), an unreadable plan does as well (exit 3); with `--strict` warnings stop it.",
    ),
    script(HOOK),
    heading("In CI"),
    textBlock(
      "One step, any system. `--force` overwrites the file of the last run in a workspace that is kept. Code hosts show `sarif` next to the lines; thousands of plans use all cores.",
    ),
    script(CI),
    heading("Into the chat"),
    textBlock(
      "What changed since the last commit, first line first, as the JSON that most chats take. Text is made inert against mentions as far as text can; switch mentions off in the tool that posts it as well.",
    ),
    script(CHAT),
    textBlock("And only if something is wrong, one line a finding:"),
    script(ALARM),
    heading("When the desk calls at night"),
    textBlock(
      "It is 02:10. The noon hit moves by 40 minutes, and the truck will be out of service from 10:00. What does that change, whom to tell by when, and what is the choice? Nothing is written yet.",
    ),
    script(NIGHT_ASK),
    textBlock(
      "The calendar as everybody has it, then the edits and the first repair into the file, comments kept. The revision goes up, so that calendars take the new file.",
    ),
    script(NIGHT_WRITE),
    textBlock(
      "Against the last commit: who can sleep on and who must know by when, the message to the chat with the change first, the calendar. What is gone is cancelled in it, and every other entry keeps its identity.",
    ),
    script(NIGHT_TELL),
    heading("While the day moves, and when it ends"),
    textBlock("What everyone is at and what comes next, for whoever rides; with `--watch` again each minute:"),
    commandBlock("daywright now day.yaml --now 06:10", 0, ["Next hit: dawn 06:00 at pier in 50 min"]),
    textBlock(
      "The story moves and there is no plan: how long and how far can the crew go on? By law, by the house, by fuel; breaks are taken as late as allowed, and a break that was had already counts (in the EU 15 minutes now and 30 later).",
    ),
    commandBlock("daywright endurance day.yaml --now 06:10", 0, [
      "by the house rules",
      "wagon gets to lodge and back.",
    ]),
    textBlock("Log what went out as it goes; production and the desk then get it in one table, a week with `--week`:"),
    commandBlock("daywright log day.yaml dawn at 07:00", 0, ["07:00"]),
    commandBlock('daywright log day.yaml dawn note "sound came up late"', 0, ["sound came up late"]),
    commandBlock("daywright asrun day.yaml", 0, ["Every hit is logged.", "sound came up late"]),
    textBlock("What must be booked, called and brought back, and what the crew that takes over must know:"),
    commandBlock("daywright bookings day.yaml", 0, ["Windows, line-up to clear"]),
    commandBlock("daywright handover day.yaml", 0, ["Open bookings"]),
    heading("The week's hours"),
    textBlock(
      "The last day brings the days that it follows: a table of hours and the timecards of the week, for a spreadsheet.",
    ),
    script(WEEK),
    heading("While writing"),
    textBlock(
      "`daywright check day.yaml --watch` in a second window: the last good answer stays while a save is broken.",
    ),
  ],
};

/** The page for the table. */
export const recipesEntry: DeclaredPage = {
  name: "recipes",
  place: 50,
  about: "a hook, a step for CI, a message to the chat, a weekly report",
  page: () => page,
};
